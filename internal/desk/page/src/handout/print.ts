// Printing: both files, one after the other, with the progress asked for meanwhile.
import { keep, post, Refusal } from '../calls';
import { download } from '../saving';
import { say } from '../speak';
import { words as common } from '../words';
import { handoutWords as words } from '../words-handout';
import type { Progress } from './calls';
import { handout, lessonNow, setHandout, type Work } from './store';

const EVERY = 250; // milliseconds between two questions how far it is

let stopping: AbortController | null = null;

/** Why nothing can be printed; '' if it can. */
export function refusal(): string {
  if (handout.problems.length) return words.notWhileProblem;
  if (!handout.facts || handout.factsOf !== JSON.stringify(lessonNow())) return words.notYet;
  return handout.facts.sheets ? '' : words.nobodyHere;
}

export const stop = (): void => stopping?.abort();

const randomID = (): string => Array.from(crypto.getRandomValues(new Uint8Array(16)), b => b.toString(16).padStart(2, '0')).join('');

/** Prints one of the files; the progress is asked for until it is there. */
async function one(key: boolean, { lesson, duplex }: Work, signal: AbortSignal): Promise<Blob> {
  const id = randomID();
  let last = 0;
  const poll = async () => {
    try {
      const progress = await post<Progress>('/class/progress', { id });
      if (last && !signal.aborted) setHandout({ printing: { key, progress } });
    } catch {
      /* it has not begun yet */
    }
    if (last) last = window.setTimeout(() => void poll(), EVERY);
  };
  last = window.setTimeout(() => void poll(), EVERY / 2);
  try {
    return (await keep({ class: lesson, key, duplex, id }, '', '/class/print', signal)).blob;
  } catch (e) {
    if (!(e instanceof Refusal) && !signal.aborted) throw new Error((await ended(id)) || common.gone);
    throw e;
  } finally {
    clearTimeout(last);
    last = 0;
  }
}

/** What ended a file that was cut off. */
async function ended(id: string): Promise<string> {
  try {
    return (await post<Progress>('/class/progress', { id })).problems.map(p => p.text).join('; ');
  } catch {
    return '';
  }
}

const none: Progress = { done: 0, of: 0, student: '', ended: false, notes: [], problems: [] };

/** Writes the students' file and, where there are answers, the key. */
export async function print(): Promise<void> {
  if (refusal()) return say(refusal());
  if (handout.printing) return;
  stopping = new AbortController();
  const { signal } = stopping,
    work = handout.work.now, // both files are of this class, whatever is changed meanwhile
    wanted = handout.facts!['key-pages'] ? [false, true] : [false];
  const files: { name: string; blob: Blob }[] = [],
    printedOf = JSON.stringify([work.lesson, work.duplex]);
  handout.files.forEach(f => URL.revokeObjectURL(f.href));
  setHandout({ files: [], failed: '', printing: { key: false, progress: { ...none, of: handout.facts!.sheets } } });
  say(words.printing(wanted.length));
  document.querySelector<HTMLElement>('[data-act=stop]')?.focus({ preventScroll: true }); // the pressed button is gone
  try {
    for (const key of wanted) {
      files.push({ name: words.fileName(key), blob: await one(key, work, signal) });
      if (files.length < wanted.length) setHandout({ printing: { key: true, progress: { ...none, of: handout.facts!['key-pages'] } } });
    }
    // both or none: half a handout helps nobody
    for (const f of files) download(f.blob, f.name);
    setHandout({ printing: null, printedOf, files: files.map(f => ({ name: f.name, href: URL.createObjectURL(f.blob) })) });
    say(words.printed(files.map(f => f.name)));
    back();
  } catch (e) {
    const failed = signal.aborted ? words.stopped : e instanceof Error ? e.message : common.gone;
    setHandout({ printing: null, failed });
    say(failed);
    back();
  }
}

/** Where the focus was on what is gone, it returns to the button. */
function back(): void {
  if (document.activeElement === document.body) document.getElementById('handout-print')?.focus({ preventScroll: true });
}
