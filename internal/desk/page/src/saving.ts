// Saving files, and what the page answers to it.
import { say } from './speak';
import { set, state } from './store';

const PASSING = 8000; // milliseconds that an answer stays

/** Answers in the top row, for a while, and for the ear. */
export function note(text: string, link?: { href: string; text: string }): void {
  const own = { text, link };
  set({ note: own });
  say(text);
  if (!link)
    setTimeout(() => {
      if (state.note === own) set({ note: null });
    }, PASSING);
}

/** Says what went wrong, whole and over everything, until it is put away or something else is answered. */
export function complain(text: string): void {
  set({ note: { text, wrong: true } });
  say(text);
}

/** Hands a file to the browser to save. */
export function download(blob: Blob, name: string): void {
  const a = document.createElement('a'),
    url = URL.createObjectURL(blob);
  a.href = url;
  a.download = name;
  a.click();
  setTimeout(() => URL.revokeObjectURL(url), 60_000);
}
