// The places on the desk. Each is a sentence, something on paper and what the hand holds; the top row leads from one to the other.
import { h } from 'preact';
import type { JSX } from 'preact';
import type { Job } from './job';
import { set, state } from './store';
import { handouts } from './handout';
import { photos } from './photo';
import { underlay } from './underlay';
import { words } from './words';

/** What the program read in a file: one of these. */
export interface Opened {
  job?: Job;
  marks?: unknown;
  class?: unknown;
}

export interface Place {
  name: string;
  title: string;
  file: () => string; // what its work is called
  steps: () => { past: number; future: number };
  undo: () => void;
  redo: () => void;
  refusal: () => string; // why nothing can be saved now; '' if it can
  Files: () => JSX.Element; // saving, printing
  Main: () => JSX.Element;
  refresh: () => void; // the window or its colours changed
  escape: () => boolean; // whether there was something to cancel
  opened: (what: Opened, name: string) => boolean; // takes what is its own
  takes: (file: File) => boolean; // whether it reads such a file itself
  take: (file: File) => Promise<void>;
}

export const places: Place[] = [underlay, photos, handouts];

export const placeHere = (): Place => places.find(p => p.name === state.place) || places[0];

/** Goes to a place. */
export function goTo(name: string): void {
  if (state.place === name) return;
  set({ place: name, tray: '', typing: null, note: null, offer: null });
  scrollTo(0, 0);
  placeHere().refresh();
  // a button that led here may be gone
  if (document.activeElement === document.body)
    document.querySelector<HTMLElement>(`[data-place="${name}"]`)?.focus({ preventScroll: true });
}

/** The way from place to place. */
export function Places() {
  const here = placeHere();
  return (
    <div class="places">
      <h1 class="aside">{here.title}</h1>
      <nav aria-label={words.places}>
        {places.map(p => (
          <button key={p.name} data-place={p.name} aria-current={p === here ? 'page' : undefined} onClick={() => goTo(p.name)}>
            {p.title}
          </button>
        ))}
      </nav>
      {here.file() ? <small>{here.file()}</small> : null}
    </div>
  );
}
