// Eight tweaks as eight short rules: native sliders with a word at each end. One that makes no sense of the vehicle is disabled, and a line
// says why.
import { h } from 'preact';
import type { Tweak } from '../calls';
import { tweak } from '../desk';
import { baseOf } from '../job';
import { set, state } from '../store';
import { words } from '../words';

/** Why a tweak makes no sense of a segment; the program names the tweak first. */
const why = (t: Tweak, segment: string): string => (t.refused?.[segment] || '').replace(`${t.name}: `, '');

export const TICKS = Array.from({ length: 41 }, (_, i) => i);

export function Tweaks() {
  const inHand = state.tweaks.find(t => t.name === state.bearing),
    segment = baseOf(state.job);
  const lines = [
    inHand && `${inHand.title}: ${inHand.line}`,
    ...state.tweaks.map(t => why(t, segment) && words.refused(t.title.toLowerCase(), why(t, segment))),
  ];
  return (
    <section id="desk-tweaks" class="tweaks" aria-labelledby="desk-tweaks-h">
      <h2 id="desk-tweaks-h" class="aside">
        {words.tweaks}
      </h2>
      <div class="rules">
        {state.tweaks.map(t => (
          <Rule key={t.name} name={t.name} title={t.title.toLowerCase()} line={t.line} refused={why(t, segment)} />
        ))}
      </div>
      <p class="line">{lines.filter(Boolean).join('. ') || '\u00a0'}</p>
    </section>
  );
}

let pressed = false,
  first = true; // whether a hand holds a rule, and has not moved it yet

const letGo = (): void => {
  pressed = false;
};

function Rule({ name, title, line, refused }: { name: string; title: string; line: string; refused?: string }) {
  const v = Number(state.job.tweak?.[name] || 0),
    value = v ? `${v > 0 ? '+' : '−'}${Math.abs(v)}` : '0';
  const input = (e: Event) => {
    tweak(name, Number((e.currentTarget as HTMLInputElement).value), pressed && !first);
    first = false;
  };
  return (
    <div class={`tweak ${refused ? 'refused' : ''}`}>
      <div class="ends">
        <span>{words.tweakEnds[name] || '−'}</span>
        <output for={`desk-tweak-${name}`}>{refused ? '' : value}</output>
        <label for={`desk-tweak-${name}`}>{title}</label>
      </div>
      <div class="rule">
        <Marks />
        <input
          id={`desk-tweak-${name}`}
          data-tweak={name}
          type="range"
          min="-2"
          max="2"
          step="0.1"
          value={v}
          disabled={!!refused}
          aria-valuetext={words.strength(v)}
          aria-description={refused ? words.refused(title, refused) : line}
          onFocus={() => {
            if (state.bearing !== name) set({ bearing: name });
          }}
          onPointerDown={() => {
            pressed = true;
            first = true;
          }}
          onPointerUp={letGo}
          onPointerCancel={letGo}
          onBlur={letGo}
          onInput={input}
          onDblClick={() => tweak(name, 0, false)}
        />
      </div>
    </div>
  );
}

export const Marks = () => (
  <svg class="marks" aria-hidden="true" focusable="false">
    {TICKS.map(i => (
      <line
        key={i}
        x1={`${i * 2.5}%`}
        x2={`${i * 2.5}%`}
        y1="30"
        y2={i % 10 === 0 ? 16 : i % 5 === 0 ? 22 : 26}
        stroke-width={i === 20 ? 2 : 1}
      />
    ))}
    <line x1="0" x2="100%" y1="30" y2="30" />
  </svg>
);
