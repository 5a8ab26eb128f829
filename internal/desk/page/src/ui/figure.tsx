// One figure where it stands on the sheet: a slider that is read, nudged, typed and pinned in place.
import { h } from 'preact';
import type { Word } from '../calls';
import { clashing, hold, nudge, pinOrRelease, pin, roomOf, shown, shownPin, unitsOf } from '../desk';
import { aloud, nameOf, numberOf, stateWords, steps, written } from '../figures';
import { pinned } from '../job';
import { set, state } from '../store';
import { words } from '../words';
import { Pin } from './signs';

// The face's ascent and line, in its size: they put a baseline of HTML where the sheet has its own.
const ASCENT = 1.025,
  LINE = 1.3;

export function FigureWord({ word, main }: { word: Word; main: boolean }) {
  const figure = word.figure || '',
    f = state.figures[figure];
  const place = { left: `${word.x}px`, top: `${word.y - ASCENT * word.size}px`, fontSize: `${word.size}px`, lineHeight: String(LINE) };
  const is = main && pinned(state.job, figure),
    spans = spansOf(word, main, is);
  if (word.angle) Object.assign(place, turned(word));
  if (!main || !f)
    return (
      <span
        class={`word by ${word.anchor} ${figure ? '' : 'plain-word'}`}
        style={place}
        aria-hidden="true"
        onClick={figure ? () => focusFigure(figure) : undefined}
      >
        {spans}
      </span>
    );
  const clash = clashing(figure),
    beyond = !!f.beyond;
  const cls = [
    'word',
    word.anchor,
    word.spans.length === 1 && 'bare',
    state.held === figure && 'held',
    is && 'pinned',
    clash && 'clash',
    beyond && 'beyond',
  ];
  const v = numberOf(f),
    [lo, hi] = f.range || [v - 1, v + 1];
  return (
    <div
      class={cls.filter(Boolean).join(' ')}
      style={place}
      data-figure={figure}
      role="slider"
      tabIndex={0}
      aria-label={nameOf(figure)}
      aria-valuenow={round3(v)}
      aria-valuemin={round3(Math.min(lo, v))}
      aria-valuemax={round3(Math.max(hi, v))}
      aria-valuetext={aloud(figure, f, state.wheelMM, clash)}
      onFocus={() => hold(figure)}
      onPointerDown={arm}
      onClick={typeIfArmed}
      onKeyDown={e => key(e, figure)}
    >
      {spans}
      {remark(figure)}
      {was(figure)}
    </div>
  );
}

function spansOf(word: Word, main: boolean, is: boolean) {
  const text = (s: string) => valueText(word.figure || '', s);
  const clash = main && clashing(word.figure || ''),
    at = word.spans.findIndex(s => s.value);
  // what follows a refused value is about the drawing's, and would contradict it
  return word.spans.slice(0, clash ? at + 1 : undefined).map((s, i) =>
    s.value && main ? (
      <span key={i}>
        <b class={`w${s.weight}`} data-value={text(s.text)}>
          {text(s.text)}
        </b>
        {is ? <Pin /> : null}
      </span>
    ) : (
      <span key={i} class={`w${s.weight}`}>
        {s.text}
      </span>
    ),
  );
}

function remark(figure: string) {
  const f = state.figures[figure],
    beyond = !!f.beyond && state.held === figure;
  const text = clashing(figure) ? words.cannotHold : beyond ? stateWords(figure, f, unitsOf(), state.wheelMM) : '';
  return text ? <span class="state">{text}</span> : null;
}

/** Words along a dimension that stands upright turn about their anchor on the baseline. */
function turned(w: Word): Record<string, string> {
  const x = w.anchor === 'middle' ? '50%' : w.anchor === 'end' ? '100%' : '0',
    shift = w.anchor === 'middle' ? '-50%' : w.anchor === 'end' ? '-100%' : '0';
  return { transformOrigin: `${x} ${ASCENT * w.size}px`, transform: `translateX(${shift}) rotate(${-w.angle!}deg)` };
}

const round3 = (v: number): number => Number(v.toFixed(3));

// In a clash a pinned figure shows what was asked, while the drawing stays the last plan that holds.
function valueText(figure: string, drawn: string): string {
  const asked = state.job.pin?.[figure];
  return clashing(figure) && asked !== undefined ? shownPin(figure, String(asked)) : drawn;
}

function was(figure: string) {
  const f = state.figures[figure],
    old = state.was[figure];
  if (old === undefined || state.clash || shown(figure, old) === shown(figure, numberOf(f))) return null;
  return <span class="was">{words.was(shown(figure, old), figure === 'wheels-between')}</span>;
}

export function focusFigure(figure: string): void {
  hold(figure);
  document.querySelector<HTMLElement>(`[data-figure="${CSS.escape(figure)}"][tabindex]`)?.focus({ preventScroll: true });
}

// A first press takes the figure in hand, a press on the figure in hand types.
let armed = '';
function arm(e: PointerEvent): void {
  const figure = (e.currentTarget as HTMLElement).dataset.figure || '';
  armed = document.activeElement === e.currentTarget ? figure : '';
}
function typeIfArmed(e: MouseEvent): void {
  const figure = (e.currentTarget as HTMLElement).dataset.figure || '';
  if (armed === figure) type(figure);
  else focusFigure(figure);
}

/** Opens the field at a figure, or in the hand line where the sheet does not show it. */
export function type(figure: string): void {
  hold(figure);
  const onSheet = !!document.querySelector(`#desk-figures [data-figure="${CSS.escape(figure)}"]`);
  set({ typing: { figure, at: onSheet ? 'sheet' : 'hand' } });
}

/** The keys of a figure, on the sheet and at a grip. */
export function key(e: KeyboardEvent, figure: string): void {
  const f = state.figures[figure];
  if (!f || e.ctrlKey || e.metaKey || e.altKey || e.target !== e.currentTarget) return;
  const { small, large } = steps(f.unit, unitsOf(), state.wheelMM);
  const by: Record<string, number> = { ArrowUp: 1, ArrowRight: 1, ArrowDown: -1, ArrowLeft: -1 };
  if (e.key in by) void nudge(figure, by[e.key] * (e.shiftKey ? large : small));
  else if (e.key === 'PageUp' || e.key === 'PageDown') void nudge(figure, (e.key === 'PageUp' ? 1 : -1) * large);
  else if (e.key === 'Home' || e.key === 'End') void toEnd(figure, e.key === 'Home' ? 0 : 1);
  else if (e.key === 'Enter' || e.key === ' ') type(figure);
  else if (e.key.toLowerCase() === 'p') pinOrRelease(figure);
  else return;
  e.preventDefault();
}

/** Takes a figure to an end of its range, or as near as the other pins let it. */
async function toEnd(figure: string, end: 0 | 1): Promise<void> {
  const f = state.figures[figure],
    r = f?.range && !state.clash ? await roomOf(state.job, figure) : null;
  if (r && f.range) pin(figure, written(Math.min(r.room[1], Math.max(r.room[0], f.range[end])), f.unit));
}
