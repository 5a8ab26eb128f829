// A word of a sentence and its tray: what it can be, as native radio buttons with small pictures. A tray lies over the paper and never
// pushes it.
import { h } from 'preact';
import type { ComponentChildren, JSX } from 'preact';
import { useEffect, useRef } from 'preact/hooks';
import { set, state } from '../store';
import { words } from '../words';

/** A word that opens its tray; its comma or full stop stays with it. */
export function Word({ id, end = '', children }: { id: string; end?: string; children: ComponentChildren }) {
  return (
    <span class="together">
      <button class="choice" data-word={id} aria-expanded={state.tray === id} aria-controls="desk-tray" onClick={() => toggle(id)}>
        {children}
      </button>
      {end}
    </span>
  );
}

/** Opens the tray of a word, or shuts it. */
export function toggle(id: string): void {
  set({ tray: state.tray === id ? '' : id, typing: null });
}

/** Shuts the tray; the focus returns to the word that opened it. */
export function closeTray(): void {
  const id = state.tray;
  if (!id) return;
  set({ tray: '' });
  document.querySelector<HTMLElement>(`[data-word="${id}"]`)?.focus({ preventScroll: true });
}

/** The tray of the word whose tray is open, with the content that the place has for it. */
export function Tray({ content: Content, wrong }: { content: (p: { id: string }) => JSX.Element; wrong?: ComponentChildren }) {
  const id = state.tray,
    ref = useRef<HTMLDivElement>(null);
  useEffect(() => {
    if (!id) return undefined;
    const all = ref.current;
    (
      all?.querySelector<HTMLElement>('[type=radio]:checked') ||
      all?.querySelector<HTMLElement>('textarea') ||
      all?.querySelector<HTMLElement>('input:not([hidden]), button')
    )?.focus({
      preventScroll: true,
    });
    // A press outside closes it; the word that opened it does so by itself.
    const outside = (e: PointerEvent) => {
      const t = e.target as Element;
      if (!t.closest('#desk-tray, .choice')) closeTray();
    };
    addEventListener('pointerdown', outside);
    return () => removeEventListener('pointerdown', outside);
  }, [id]);
  return (
    <div
      id="desk-tray"
      class="tray"
      hidden={!id}
      ref={ref}
      onFocusOut={e => {
        // the tray shuts when the focus leaves it, so that it hides nothing that is worked on
        const to = e.relatedTarget as Element | null;
        if (to && !to.closest('#desk-tray, .choice')) set({ tray: '' });
      }}
      onKeyDown={e => {
        if (e.key === 'Escape') {
          e.stopPropagation();
          closeTray();
        }
      }}
    >
      {id ? <Content id={id} key={id} /> : null}
      {id ? wrong : null}
      {id ? (
        <button class="plain" onClick={closeTray}>
          {words.done}
        </button>
      ) : null}
    </div>
  );
}

interface Option {
  value: string;
  name: string;
  line?: string;
  picture?: ComponentChildren;
  refused?: string;
}

// A pointer's choice closes the tray; arrows walk on, the sheet follows, and Enter closes. A browser reports the press before the change.
let byPointer = false;

export function Radios({
  id,
  now,
  options,
  choose,
  legend,
}: {
  id: string;
  now: string;
  options: Option[];
  choose: (v: string) => void;
  legend?: string;
}) {
  return (
    <fieldset
      onPointerDown={() => {
        byPointer = true;
      }}
      onKeyDown={e => {
        byPointer = false;
        if (e.key !== 'Enter') return;
        e.preventDefault(); // the press belongs to the choice, not to the word that gets the focus back
        closeTray();
      }}
    >
      <legend>{legend || words.trays[id]}</legend>
      {options.map(o => (
        <label key={o.value} class={`pick ${o.picture ? '' : 'bare'}`} title={o.refused || o.line}>
          <input
            type="radio"
            name={`tray-${id}`}
            value={o.value}
            checked={o.value === now}
            disabled={!!o.refused}
            onChange={() => {
              choose(o.value);
              if (byPointer) closeTray();
            }}
            onClick={() => {
              if (byPointer && o.value === now) closeTray();
            }}
          />
          {o.picture}
          <span>{o.name}</span>
          {o.line ? <small>{o.line}</small> : null}
        </label>
      ))}
    </fieldset>
  );
}
