// The range of the figure in hand as a pale band with its two numbers, and short ticks where what gave way had been.
import { h } from 'preact';
import type { Grip, Sheet } from '../calls';
import { shown } from '../desk';
import { numberOf } from '../figures';
import { state } from '../store';

/** The grip at whose place a figure without one of its own shows its range. */
const STAND_IN: Record<string, string> = { length: 'rear-overhang', wheelbase: 'wheels-between' };

const gripOf = (s: Sheet, figure: string): Grip | undefined =>
  s.grips.find(g => g.figure === figure) || s.grips.find(g => g.figure === STAND_IN[figure]);

/** The vehicle's box on the page, from the grips at its ends. */
function extent(s: Sheet): { left: number; right: number; top: number; ground: number } {
  const x = ['front-overhang', 'rear-overhang'].map(f => s.grips.find(g => g.figure === f)?.x),
    roof = s.grips.find(g => g.figure === 'height')?.y;
  const [a, b] = [x[0] ?? 0, x[1] ?? s.width];
  return { left: Math.min(a, b), right: Math.max(a, b), top: roof ?? s.height * 0.2, ground: s.map?.y ?? s.height };
}

export function Band({ sheet }: { sheet: Sheet }) {
  const figure = state.held,
    f = sheet.figures[figure],
    g = gripOf(sheet, figure);
  if (!f?.range || !g || !sheet.map) return null;
  const now = numberOf(f),
    at = (v: number) => (v - now) * g.per,
    [lo, hi] = f.range,
    box = extent(sheet);
  if (g.way === 'turn') return <Wedge grip={g} from={at(lo)} to={at(hi)} words={[shown(figure, lo), shown(figure, hi)]} />;
  if (g.way === 'up') {
    const y = [g.y + at(lo), g.y + at(hi)],
      top = Math.min(...y),
      x = nose(sheet, box);
    return (
      <g class="band">
        <rect x={box.left} y={top} width={box.right - box.left} height={Math.abs(y[1] - y[0])} />
        {y.map((v, i) => (
          <line key={i} x1={box.left} x2={box.right} y1={v} y2={v} />
        ))}
        <text x={x} y={Math.max(...y) + 14}>
          {shown(figure, y[0] > y[1] ? lo : hi)}
        </text>
        <text x={x} y={top - 4}>
          {shown(figure, y[0] > y[1] ? hi : lo)}
        </text>
      </g>
    );
  }
  const x = [g.x + at(lo), g.x + at(hi)],
    left = Math.min(...x),
    tall = (box.ground - box.top) * 0.55,
    y = box.ground - tall;
  return (
    <g class="band">
      <rect x={left} y={y} width={Math.abs(x[1] - x[0])} height={tall} />
      {x.map((v, i) => (
        <g key={i}>
          <line x1={v} x2={v} y1={y} y2={box.ground} />
          <text class={v === left ? 'end' : 'start'} x={v} y={y - 5}>
            {shown(figure, i ? hi : lo)}
          </text>
        </g>
      ))}
    </g>
  );
}

/** Where a level's numbers stand: inside the nose's end, where no word of the sheet does. */
const nose = (s: Sheet, box: { left: number; right: number }): number => (s.map!.facing === 'left' ? box.left + 22 : box.right - 22);

function Wedge({ grip, from, to, words }: { grip: Grip; from: number; to: number; words: [string, string] }) {
  const [ax, ay] = grip.about || [grip.x, grip.y];
  const end = (by: number) => {
    const a = (by * Math.PI) / 180,
      dx = grip.x - ax,
      dy = grip.y - ay;
    return [ax + dx * Math.cos(a) - dy * Math.sin(a), ay + dx * Math.sin(a) + dy * Math.cos(a)];
  };
  const p = end(from),
    q = end(to);
  return (
    <g class="band">
      <path d={`M${ax} ${ay}L${p.join(' ')}L${q.join(' ')}Z`} />
      {[p, q].map(([x, y], i) => (
        <g key={i}>
          <line x1={ax} y1={ay} x2={x} y2={y} />
          <text x={x} y={y - 8}>
            {words[i]}
          </text>
        </g>
      ))}
    </g>
  );
}

const FAR = 0.5; // wheels; farther off a tick no longer reads as the line's old place (judged by eye)

/** A short tick where each guide that gave way had been. */
export function OldPlaces({ sheet }: { sheet: Sheet }) {
  if (state.clash || !sheet.map) return null;
  return (
    <g class="old">
      {Object.entries(state.was).map(([figure, v]) => {
        const g = sheet.grips.find(o => o.figure === figure),
          f = sheet.figures[figure];
        const by = g && f ? (v - numberOf(f)) * g.per : 0;
        if (!g || g.way === 'turn' || Math.abs(by) > FAR * sheet.map!['px-per-w']) return null;
        return g.way === 'up' ? (
          <path key={figure} d={`M${g.x - 34} ${g.y + by}h18M${g.x + 16} ${g.y + by}h18`} />
        ) : (
          <path key={figure} d={`M${g.x + by} ${g.y - 34}v18M${g.x + by} ${g.y + 16}v18`} />
        );
      })}
    </g>
  );
}
