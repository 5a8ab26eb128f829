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
      top = Math.min(...y);
    return (
      <g class="band">
        <rect x={box.left} y={top} width={box.right - box.left} height={Math.abs(y[1] - y[0])} />
        {y.map((v, i) => (
          <g key={i}>
            <line x1={box.left} x2={box.right} y1={v} y2={v} />
            <Numeral text={shown(figure, i ? hi : lo)} places={alongLevel(sheet, box, v + (v === top ? -5 : 14))} />
          </g>
        ))}
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
          <Numeral
            text={shown(figure, i ? hi : lo)}
            anchor={v === left ? 'end' : 'start'}
            places={steps(y - 5, box.ground - 6, 12).map(h => [v + (v === left ? -4 : 4), h])}
          />
        </g>
      ))}
    </g>
  );
}

type Place = [number, number];

const steps = (from: number, to: number, by: number): number[] =>
  Array.from({ length: Math.max(1, 1 + Math.floor(Math.abs(to - from) / by)) }, (_, i) => from + Math.sign(to - from) * by * i);

/** Where a level's numbers may stand: from the nose's end towards the tail. */
function alongLevel(s: Sheet, box: { left: number; right: number }, y: number): Place[] {
  const ends = [box.left + 22, box.right - 22];
  if (s.map!.facing !== 'left') ends.reverse();
  return steps(ends[0], ends[1], 12).map(x => [x, y]);
}

/** An end of a range in figures; `part` puts it where no word of the sheet stands. */
function Numeral({ text, places, anchor = 'middle' }: { text: string; places: Place[]; anchor?: 'start' | 'middle' | 'end' }) {
  return (
    <text class={anchor} data-places={places.map(p => p.map(n => Math.round(n)).join(' ')).join(';')}>
      {text}
    </text>
  );
}

/** Puts the numbers of a band where they touch nothing; one that finds no such place is left out, for the hand line has it too. */
export function placeNumbers(stage: Element): void {
  const at = stage.getBoundingClientRect(),
    taken = Array.from(stage.querySelectorAll('.word, .word .was, .word .state, .grip .ring')).map(e => e.getBoundingClientRect());
  for (const t of Array.from(stage.querySelectorAll<SVGTextElement>('.band text'))) {
    const wide = t.getComputedTextLength(),
      size = parseFloat(getComputedStyle(t).fontSize),
      before = t.classList.contains('end') ? wide : t.classList.contains('middle') ? wide / 2 : 0;
    const box = ([x, y]: number[]) => new DOMRect(at.left + x - before - GAP, at.top + y - size, wide + 2 * GAP, size * 1.3);
    const places = (t.dataset.places || '').split(';').map(p => p.split(' ').map(Number));
    const free = places.find(p => within(box(p), at) && !taken.some(o => o.width && meet(o, box(p))));
    t.setAttribute('visibility', free ? 'visible' : 'hidden');
    if (!free) continue;
    t.setAttribute('x', String(free[0]));
    t.setAttribute('y', String(free[1]));
    taken.push(box(free));
  }
}

const GAP = 9; // px between a number and what stands beside it, so that they do not read as one
const meet = (a: DOMRect, b: DOMRect): boolean => a.left < b.right && a.right > b.left && a.top < b.bottom && a.bottom > b.top;
const within = (a: DOMRect, b: DOMRect): boolean => a.left >= b.left && a.right <= b.right && a.top >= b.top && a.bottom <= b.bottom;

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
          <Numeral text={words[i]} places={[1.06, 1.15, 1.25, 0.9, 0.8].map(k => [ax + (x - ax) * k, ay + (y - ay) * k])} />
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
