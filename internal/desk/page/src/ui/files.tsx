// Saving and printing the underlay.
import { Fragment, h } from 'preact';
import { keep, Refusal } from '../calls';
import { complain, download, note } from '../saving';
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
export const refusal = (): string => (state.clash ? words.notWhileClash : state.problems.length ? words.notWhileProblem : '');

export function Files() {
  const refused = !!refusal();
  return (
    <>
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
    </>
  );
}

async function fetched(format: string): Promise<{ blob: Blob; name: string } | null> {
  if (refusal()) {
    say(refusal());
    return null;
  }
  try {
    return await keep({ job: state.job, format, page: state.page }, `${state.job.segment}.${format}`);
  } catch (e) {
    complain(e instanceof Refusal ? e.message : words.gone);
    return null;
  }
}

async function save(format: string, name: string): Promise<void> {
  if (!refusal()) set({ note: { text: words.saving(name) } });
  const f = await fetched(format);
  if (!f) return;
  download(f.blob, f.name);
  // a brief names the profile that its job brought
  const profile = format === 'yaml' ? state.job.profile : undefined,
    own = f.name.replace(/-brief\.yaml$/, '.yaml');
  if (profile) download(new Blob([profile]), own);
  note(words.saved(profile ? words.and([f.name, own]) : f.name));
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
