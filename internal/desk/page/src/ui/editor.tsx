// The field in which a figure is typed. What cannot be read, and what the program refuses, stays open with the reason beneath.
import { h } from 'preact';
import { useLayoutEffect, useRef, useState } from 'preact/hooks';
import { pinTyped, shown, unitsOf } from '../desk';
import { nameOf, numberOf, type Units, written } from '../figures';
import { pinned } from '../job';
import { say } from '../speak';
import { set, state } from '../store';
import { readTyped } from '../typed';
import { words } from '../words';
import { focusFigure } from './figure';

type At = 'sheet' | 'hand';

export function Editor({ at }: { at: At }) {
  const t = state.typing;
  return t && t.at === at && state.figures[t.figure] ? <Field key={t.figure} figure={t.figure} at={at} /> : null;
}

const unitName = (unit: string, units: Units): string =>
  ({ w: words.units[units], mm: words.units[units === 'in' ? 'in' : 'mm'], deg: '°', count: words.wheels, ratio: '1 : n' })[unit] || '';

function hint(figure: string): string {
  const f = state.figures[figure],
    range = f.range ? words.range(shown(figure, f.range[0]), shown(figure, f.range[1])) : '';
  return words.typeHint(unitName(f.unit, unitsOf()), range);
}

/** Leaving an untouched field closes it; one with text in it stays until it is settled. */
const left = (input: { current: HTMLInputElement | null }) => (e: FocusEvent) => {
  const form = e.currentTarget as HTMLElement,
    to = e.relatedTarget as Node | null;
  if (to && !form.contains(to) && input.current?.value === input.current?.defaultValue) set({ typing: null });
};

/** Escape closes the field and nothing else; the sheet's keys stay out of it. */
const escape = (close: () => void) => (e: KeyboardEvent) => {
  e.stopPropagation();
  if (e.key !== 'Escape') return;
  e.preventDefault();
  close();
};

/** What a field knows while it is open: what is wrong with its text, and what may have been meant. */
function useTyped(figure: string, close: () => void) {
  const [problem, tell] = useState(''),
    [instead, offer] = useState<{ label: string; pin: string }[]>([]);
  const refuse = (why: string, meant: { label: string; pin: string }[] = []) => {
    tell(why);
    offer(meant);
    say([why, ...meant.map(m => m.label)].join(' '));
  };
  const pin = async (text: string) => {
    const wrong = await pinTyped(figure, text);
    if (wrong) refuse(wrong);
    else close();
  };
  const read = (text: string, untouched: boolean) => {
    const f = state.figures[figure];
    if (untouched && pinned(state.job, figure)) return close();
    if (untouched) return void pin(written(numberOf(f), f.unit)); // all its digits, not those that are shown
    const r = readTyped(text, figure, f, unitsOf(), state.wheelMM);
    if ('pin' in r) return void pin(r.pin);
    refuse('doubt' in r ? r.doubt : r.problem, 'doubt' in r ? r.instead : []);
  };
  return { problem, instead, pin, read };
}

function Field({ figure, at }: { figure: string; at: At }) {
  const input = useRef<HTMLInputElement>(null),
    id = `desk-hint-${at}`;
  const close = () => {
    set({ typing: null });
    focusFigure(figure);
  };
  const { problem, instead, pin, read } = useTyped(figure, close);
  useLayoutEffect(() => {
    input.current?.focus({ preventScroll: at === 'sheet' });
    input.current?.select();
  }, []);
  const submit = (e: Event) => {
    e.preventDefault();
    read(input.current?.value || '', input.current?.value === input.current?.defaultValue);
  };
  return (
    <form
      class={`editor ${at}`}
      style={at === 'sheet' ? place(figure) : undefined}
      onSubmit={submit}
      onFocusOut={left(input)}
      data-typing={figure}
      onKeyDown={escape(close)}
    >
      <label>
        {nameOf(figure)}{' '}
        <input
          ref={input}
          defaultValue={shown(figure, numberOf(state.figures[figure]))}
          autocomplete="off"
          spellcheck={false}
          enterkeyhint="done"
          aria-label={words.inAnyUnit(nameOf(figure))}
          aria-describedby={id}
          aria-invalid={!!problem}
        />
      </label>
      <button type="submit">{words.set}</button>
      <button type="button" onClick={close}>
        {words.cancel}
      </button>
      <p id={id} class={problem ? 'wrong' : ''}>
        {problem || hint(figure)}
      </p>
      {instead.map(i => (
        <button type="button" key={i.pin} onClick={() => void pin(i.pin)}>
          {i.label}
        </button>
      ))}
    </form>
  );
}

// The field stands at its figure, inside the paper.
function place(figure: string): Record<string, string> {
  const s = state.sheet,
    w = s?.words.find(o => o.figure === figure && o.spans.some(p => p.value));
  if (!s || !w) return {};
  const wide = 300;
  const left = w.x - (w.anchor === 'start' ? 8 : w.anchor === 'end' ? wide - 8 : wide / 2);
  return {
    left: `${Math.max(4, Math.min(s.width - wide - 4, left))}px`,
    ...(w.y < s.height / 2 ? { top: `${Math.max(4, w.y - w.size - 12)}px` } : { bottom: `${Math.max(4, s.height - w.y - 14)}px` }),
  };
}
