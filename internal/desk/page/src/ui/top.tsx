// The top row: where one is, undo and redo, saving, printing, opening.
import { h } from 'preact';
import { useRef } from 'preact/hooks';
import { keep, post, Refusal } from '../calls';
import { change, plainly, redo, undo } from '../desk';
import type { Job } from '../job';
import { say } from '../speak';
import { set, state } from '../store';
import { words } from '../words';

const FORMATS: [string, string][] = [
  ['svg', 'SVG'],
  ['pdf', 'PDF'],
  ['png', 'PNG'],
  ['yaml', words.brief],
];

/** Why nothing can be saved now; '' if it can. */
const refusal = (): string => (state.clash ? words.notWhileClash : state.problems.length ? words.notWhileProblem : '');

export function Top() {
  const why = refusal();
  return (
    <header id="desk-top" class="top">
      <h1>
        {words.place}
        {state.name ? <small>{state.name}</small> : null}
      </h1>
      <p id="desk-note" class={`note ${!why && state.note ? 'passing' : ''}`}>
        {why || state.note?.text}{' '}
        {!why && state.note?.link ? (
          <a href={state.note.link.href} target="_blank" rel="noopener">
            {state.note.link.text}
          </a>
        ) : null}
      </p>
      <div class="do">
        <button id="desk-undo" aria-disabled={!state.past.length} onClick={undo}>
          {words.undo}
        </button>
        <button id="desk-redo" aria-disabled={!state.future.length} onClick={redo}>
          {words.redo}
        </button>
      </div>
      <Files refused={!!why} />
    </header>
  );
}

function Files({ refused }: { refused: boolean }) {
  const file = useRef<HTMLInputElement>(null);
  return (
    <div class="do">
      <span role="group" aria-labelledby="desk-save">
        <span id="desk-save" class="label">
          {words.save}
        </span>
        {FORMATS.map(([f, name]) => (
          <button key={f} data-save={f} aria-disabled={refused} onClick={() => save(f, name)}>
            {name}
          </button>
        ))}
      </span>
      <button id="desk-print" aria-disabled={refused} onClick={print}>
        {words.print}
      </button>
      <button id="desk-open" onClick={() => file.current?.click()}>
        {words.open}
      </button>
      <input
        ref={file}
        type="file"
        accept=".yaml,.yml"
        hidden
        onChange={e => {
          const i = e.currentTarget;
          void open(i.files?.[0]);
          i.value = '';
        }}
      />
    </div>
  );
}

const PASSING = 8000; // milliseconds that an answer stays

function note(text: string, link?: { href: string; text: string }): void {
  const own = { text, link };
  set({ note: own });
  say(text);
  if (!link)
    setTimeout(() => {
      if (state.note === own) set({ note: null });
    }, PASSING);
}

async function fetched(format: string): Promise<{ blob: Blob; name: string } | null> {
  if (refusal()) {
    say(refusal());
    return null;
  }
  try {
    return await keep(state.job, format, state.page);
  } catch (e) {
    note(e instanceof Refusal ? e.message : words.gone);
    return null;
  }
}

async function save(format: string, name: string): Promise<void> {
  if (!refusal()) set({ note: { text: words.saving(name) } });
  const f = await fetched(format);
  if (!f) return;
  const a = document.createElement('a'),
    url = URL.createObjectURL(f.blob);
  a.href = url;
  a.download = f.name;
  a.click();
  setTimeout(() => URL.revokeObjectURL(url), 60_000);
  note(words.saved(f.name));
}

// The PDF is printed, never the page: it opens in a tab of its own, which must open while the press is still going on. The link serves
// browsers that let no page open one.
async function print(): Promise<void> {
  const tab = refusal() ? null : window.open('', '_blank');
  if (!refusal()) set({ note: { text: words.saving('PDF') } });
  const f = await fetched('pdf');
  if (!f) return tab?.close();
  const href = URL.createObjectURL(new Blob([f.blob], { type: 'application/pdf' })),
    wheel = state.sheet?.paper['wheel-mm'];
  if (tab) tab.location.href = href;
  note(words.printing(wheel ? String(Number(wheel.toFixed(1))) : ''), { href, text: words.openPDF });
}

const MOST = 256 << 10; // bytes; the program takes no more, and a picture is not worth reading

/** Opens a brief: one step of undo, or every mistake in it. */
export async function open(file: File | undefined): Promise<void> {
  if (!file) return;
  if (file.size > MOST) return note(words.tooLarge(file.name));
  try {
    const { job } = await post<{ job: Job }>('/open', { yaml: await file.text() });
    set({ name: file.name, page: 1 });
    change(job, { words: `${words.opened(file.name)}: ${plainly(job)}` });
    set({ note: { text: words.opened(file.name) } });
  } catch (e) {
    note(`${words.notOpened(file.name)}. ${e instanceof Refusal ? e.message.replace(/brief\.yaml/g, file.name) : words.gone}`);
  }
}
