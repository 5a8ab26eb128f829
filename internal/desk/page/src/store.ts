// The one store of the page: the job, its undo lists, the last answers. Elements are made from it; nothing else remembers anything.
import type { Clash, Figures, FigureInfo, Problem, Segment, Setting, Sheet, Tweak } from './calls';
import { isJob, type Job } from './job';
import { keepFor, kept } from './storage';

export interface State {
  place: string; // where on the desk one is, by its name
  job: Job;
  past: Job[];
  future: Job[];
  good: Job; // the last job that held: what is drawn while pins clash
  sheet: Sheet | null; // the drawing of good
  figures: Figures; // of good
  wheelMM: number;
  clash: Clash | null;
  problems: Problem[];
  changed: string; // the figure that the last change was about
  was: Record<string, number>; // what moved with it, as it was
  stop: { figure: string; text: string } | null; // why the last drag or nudge went no further
  held: string; // the figure in hand
  bearing: string; // the tweak in hand
  page: number;
  tray: string;
  typing: { figure: string; at: 'sheet' | 'hand' } | null;
  note: { text: string; wrong?: boolean; link?: { href: string; text: string } } | null; // what saving, opening and printing answer
  offer: { figures: string[]; x: number; y: number } | null; // grips too near each other for a finger
  preview: Sheet | null; // a way out of a clash, drawn dashed
  locked: boolean; // the server wants its word first
  silent: boolean; // the server does not answer
  from: string; // the job that the program was started with, as text
  name: string; // its file
  segments: Segment[];
  tweaks: Tweak[];
  settings: Setting[];
  infos: FigureInfo[];
}

const nothing: Job = { segment: '' };

export const state: State = {
  place: 'underlay',
  job: nothing,
  past: [],
  future: [],
  good: nothing,
  sheet: null,
  figures: {},
  wheelMM: 1,
  clash: null,
  problems: [],
  changed: '',
  was: {},
  stop: null,
  held: 'height',
  bearing: '',
  page: 1,
  tray: '',
  typing: null,
  note: null,
  offer: null,
  preview: null,
  locked: false,
  silent: false,
  from: '',
  name: '',
  segments: [],
  tweaks: [],
  settings: [],
  infos: [],
};

let draw: () => void = () => undefined;

/** Names what is called after every change of the store. */
export function onChange(f: () => void): void {
  draw = f;
}

/** Redraws the page at once. */
export const redraw = (): void => draw();

/** Changes the store and redraws the page at once. */
export function set(change: Partial<State>): void {
  Object.assign(state, change);
  store();
  draw();
}

// The number is the version of the stored form; another one is ignored.
const KEY = 'hubrule-desk-1',
  MOST = 100;
interface Stored {
  place: string;
  from: string;
  job: Job;
  good: Job;
  past: Job[];
  future: Job[];
  held: string;
  page: number;
}

function store(): void {
  if (!state.job.segment) return;
  const { place, from, job, good, past, future, held, page } = state;
  const kept = { place, from, job, good, past: past.slice(-MOST), future: future.slice(0, MOST), held, page };
  keepFor(KEY, kept, { ...kept, past: [], future: [] });
}

/** What an earlier visit left, or null where there is nothing or it is damaged. */
export function restore(): Stored | null {
  const v = kept(KEY) as Stored | null;
  if (
    !v ||
    typeof v.from !== 'string' ||
    !isJob(v.job) ||
    !isJob(v.good) ||
    ![v.past, v.future].every(l => Array.isArray(l) && l.every(isJob))
  )
    return null;
  return {
    ...v,
    place: typeof v.place === 'string' ? v.place : 'underlay',
    held: typeof v.held === 'string' ? v.held : 'height',
    page: Number.isInteger(v.page) && v.page > 0 ? v.page : 1,
  };
}
