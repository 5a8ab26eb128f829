// The field in which a figure is typed. What cannot be read, and what the program refuses, stays open with the reason beneath.
import { h } from 'preact';
import { useLayoutEffect, useRef, useState } from 'preact/hooks';
import { pinTyped, shown, unitsOf } from '../desk';
import { nameOf, numberOf, type Units } from '../figures';
import { set, state } from '../store';
import { readTyped } from '../typed';
import { words } from '../words';
import { focusFigure } from './figure';

type At = 'sheet' | 'hand' | 'tray';

export function Editor({ at, figure }: { at: At; figure?: string }) {
  const t = state.typing;
  return t && t.at === at && (!figure || figure === t.figure) && state.figures[t.figure] ? <Field key={t.figure} figure={t.figure} at={at} /> : null;
}

const unitName = (unit: string, units: Units): string => unit === 'w' ? words.units[units] : unit === 'mm' ? words.units[units === 'in' ? 'in' : 'mm'] : unit === 'deg' ? '°' : unit === 'count' ? words.wheels : '1 : n';

function Field({ figure, at }: { figure: string; at: At }) {
  const f = state.figures[figure], input = useRef<HTMLInputElement>(null), units = unitsOf();
  const [problem, tell] = useState(''), [instead, offer] = useState<{ label: string; pin: string }[]>([]);
  useLayoutEffect(() => { input.current?.focus({ preventScroll: at === 'sheet' }); input.current?.select(); }, []);
  const close = () => { set({ typing: null }); focusFigure(figure); };
  const pin = async (text: string) => {
    const wrong = await pinTyped(figure, text);
    if (!wrong) return close();
    tell(wrong);
    offer([]);
  };
  const submit = (e: Event) => {
    e.preventDefault();
    const text = input.current?.value || '';
    if (text === input.current?.defaultValue) return close();
    const r = readTyped(text, figure, f, units, state.wheelMM);
    if ('pin' in r) return void pin(r.pin);
    tell('doubt' in r ? r.doubt : r.problem);
    offer('doubt' in r ? r.instead : []);
  };
  const left = (e: FocusEvent) => { // leaving an untouched field closes it; one with text in it stays until it is settled
    const form = e.currentTarget as HTMLElement, to = e.relatedTarget as Node | null;
    if (to && !form.contains(to) && input.current?.value === input.current?.defaultValue) set({ typing: null });
  };
  const range = f.range ? words.range(shown(figure, f.range[0]), shown(figure, f.range[1])) : '';
  const id = `desk-hint-${at}`;
  return (
    <form class={`editor ${at}`} style={at === 'sheet' ? place(figure) : undefined} onSubmit={submit} onFocusOut={left} data-typing={figure}
      onKeyDown={e => { e.stopPropagation(); if (e.key === 'Escape') { e.preventDefault(); close(); } }}>
      <label>{nameOf(figure)} <input ref={input} defaultValue={shown(figure, numberOf(f))} autocomplete="off" spellcheck={false} enterkeyhint="done"
        aria-label={words.inAnyUnit(nameOf(figure))} aria-describedby={id} aria-invalid={!!problem} /></label>
      <button type="submit">{words.set}</button><button type="button" onClick={close}>{words.cancel}</button>
      <p id={id} role={problem ? 'alert' : undefined} class={problem ? 'wrong' : ''}>{problem || words.typeHint(unitName(f.unit, units), range)}</p>
      {instead.map(i => <button type="button" key={i.pin} onClick={() => void pin(i.pin)}>{i.label}</button>)}
    </form>
  );
}

// The field stands at its figure, inside the paper.
function place(figure: string): Record<string, string> {
  const s = state.sheet, w = s?.words.find(o => o.figure === figure && o.spans.some(p => p.value));
  if (!s || !w) return {};
  const wide = 300;
  const left = w.x - (w.anchor === 'start' ? 8 : w.anchor === 'end' ? wide - 8 : wide / 2);
  return { left: `${Math.max(4, Math.min(s.width - wide - 4, left))}px`, ...(w.y < s.height / 2 ? { top: `${Math.max(4, w.y - w.size - 12)}px` } : { bottom: `${Math.max(4, s.height - w.y - 14)}px` }) };
}
