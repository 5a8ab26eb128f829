// The top row: where one is, undo and redo, saving, printing, opening.
import { Fragment, h } from 'preact';
import { useRef } from 'preact/hooks';
import { open } from '../opening';
import { placeHere, Places } from '../places';
import { set, state } from '../store';
import { words } from '../words';

export function Top() {
  const here = placeHere(),
    why = state.note?.wrong ? '' : here.refusal(), // what just went wrong comes first
    steps = here.steps();
  return (
    <header id="desk-top" class="top">
      <Places />
      <p id="desk-note" class={`note ${!why && state.note ? 'passing' : ''} ${!why && state.note?.wrong ? 'wrong' : ''}`}>
        {why || state.note?.text}{' '}
        {!why && state.note?.link ? (
          <a href={state.note.link.href} target="_blank" rel="noopener">
            {state.note.link.text}
          </a>
        ) : null}
        {!why && state.note?.wrong ? <button onClick={() => set({ note: null })}>{words.understood}</button> : null}
      </p>
      <div class="do">
        <button id="desk-undo" aria-disabled={!steps.past} onClick={here.undo}>
          {words.undo}
        </button>
        <button id="desk-redo" aria-disabled={!steps.future} onClick={here.redo}>
          {words.redo}
        </button>
      </div>
      <div class="do">
        <here.Files key={here.name} />
        <Open />
      </div>
    </header>
  );
}

function Open() {
  const file = useRef<HTMLInputElement>(null);
  return (
    <>
      <button id="desk-open" onClick={() => file.current?.click()}>
        {words.open}
      </button>
      <input
        ref={file}
        type="file"
        multiple
        hidden
        onChange={e => {
          const i = e.currentTarget;
          void open(Array.from(i.files || []));
          i.value = '';
        }}
      />
    </>
  );
}
