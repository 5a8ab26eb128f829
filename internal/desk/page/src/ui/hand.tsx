// What the hand holds: one line under the paper with the figure last touched.
import { h } from 'preact';
import { clashing, hold, nudge, pinOrRelease, shown, shownPin, unitsOf } from '../desk';
import { aloud, DRAWN, inOrder, nameOf, numberOf, onPaper, onVehicle, stateWords, steps } from '../figures';
import { pinned } from '../job';
import { say } from '../speak';
import { state } from '../store';
import { words } from '../words';
import { Editor } from './editor';
import { type } from './figure';

export function Hand() {
  const figure = state.held,
    f = state.figures[figure],
    s = state.sheet;
  if (!f || !s) return <section id="desk-hand" class="hand" aria-label={words.hand} />;
  const units = unitsOf(),
    clash = clashing(figure),
    asked = state.job.pin?.[figure],
    name = nameOf(figure);
  const value = clash && asked !== undefined ? shownPin(figure, String(asked)) : shown(figure, numberOf(f));
  const state_ = clash ? words.cannotHold : stateWords(figure, f, units, state.wheelMM) || words.free;
  const bits = [
    clash ? '' : onVehicle(f, units),
    clash ? '' : onPaper(f, state.wheelMM, s.paper['wheel-mm']),
    state_,
    f.range ? words.range(shown(figure, f.range[0]), shown(figure, f.range[1])) : '',
  ].filter(Boolean);
  return (
    <section id="desk-hand" class="hand" aria-label={words.hand}>
      <p class="what">
        <strong>
          {name} {value}
        </strong>
        {bits.map(b => (
          <span key={b}>{b}</span>
        ))}
      </p>
      <Range figure={figure} />
      <Acts figure={figure} />
      <p class="then">{then()}</p>
      <Editor at="hand" />
    </section>
  );
}

function Acts({ figure }: { figure: string }) {
  const name = nameOf(figure),
    is = pinned(state.job, figure),
    { small } = steps(state.figures[figure].unit, unitsOf(), state.wheelMM);
  return (
    <div class="acts">
      <button data-hand="before" aria-label={words.before} onClick={() => walk(-1)}>
        ‹
      </button>
      <button data-hand="less" aria-label={words.less(name)} onClick={() => void nudge(figure, -small)}>
        −
      </button>
      <button data-hand="more" aria-label={words.more(name)} onClick={() => void nudge(figure, small)}>
        +
      </button>
      <button data-hand="type" aria-label={words.typeOf(name)} onClick={() => type(figure)}>
        {words.type}
      </button>
      <button data-hand="pin" aria-label={is ? words.releaseOf(name) : words.pinOf(name)} onClick={() => pinOrRelease(figure)}>
        {is ? words.release : words.pin}
      </button>
      <button data-hand="after" aria-label={words.after} onClick={() => walk(1)}>
        ›
      </button>
    </div>
  );
}

/** What the last change met or moved, else what the program has to remark, else what the figure measures. */
function then(): string {
  if (state.stop)
    return words.stops(nameOf(state.stop.figure), shown(state.stop.figure, numberOf(state.figures[state.stop.figure])), state.stop.text);
  const all = Object.keys(state.was).filter(n => n in state.figures);
  const gave = all.slice(0, 2).map(n => `${nameOf(n)} ${shown(n, state.was[n])} → ${shown(n, numberOf(state.figures[n]))}`);
  if (gave.length && !state.clash) return words.gaveWay(gave, all.length - 2);
  return (state.sheet?.notes || []).join('; ') || state.infos.find(f => f.name === state.held)?.meaning || '';
}

/** The figures that can be held, in drawing order: those of a side view that have a value to change. */
const holdable = (): string[] => inOrder(DRAWN.filter(n => n in state.figures));

function walk(by: number): void {
  const all = holdable(),
    next = all[(all.indexOf(state.held) + by + all.length) % all.length];
  if (!next) return;
  hold(next);
  say(`${nameOf(next)} ${aloud(next, state.figures[next], state.wheelMM, clashing(next))}`);
}

/** The range as a short rule, half as long again to both sides: the value and the typical value stand on it. */
function Range({ figure }: { figure: string }) {
  const f = state.figures[figure];
  if (!f?.range) return <span class="range" />;
  const [lo, hi] = f.range,
    wide = hi - lo || 1,
    from = lo - wide / 2,
    at = (v: number) => 12 + Math.min(1, Math.max(0, (v - from) / (2 * wide))) * 226;
  const v = at(numberOf(f)),
    gone = state.was[figure];
  return (
    <svg class="range" viewBox="0 0 250 42" aria-hidden="true" focusable="false">
      <rect class="inside" x={at(lo)} y="10" width={at(hi) - at(lo)} height="14" />
      {Array.from({ length: 21 }, (_, i) => (
        <line key={i} x1={12 + i * 11.3} x2={12 + i * 11.3} y1="24" y2={i % 5 ? 20 : 16} />
      ))}
      <line x1="12" x2="238" y1="24" y2="24" />
      {f.typical === undefined ? null : <line class="typical" x1={at(f.typical)} x2={at(f.typical)} y1="5" y2="24" />}
      {gone !== undefined ? <line class="gone" x1={at(gone)} x2={at(gone)} y1="24" y2="31" /> : null}
      <path class="at" d={`M${v} 24l-5-12h10z`} />
      <text x={at(lo)} y="39">
        {shown(figure, lo)}
      </text>
      <text x={at(hi)} y="39">
        {shown(figure, hi)}
      </text>
    </svg>
  );
}
