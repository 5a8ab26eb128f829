// What people can do with the job, and the round of asking for its drawing.
import {
  type Clash,
  type Figures,
  type Held,
  isClash,
  Newest,
  post,
  Refusal,
  type Room,
  type Screen,
  type Sheet,
  type Solved,
} from './calls';
import { aloud, moved, nameOf, numberOf, round, show, shownUnit, showWritten, steps, type Units, written, writtenShown } from './figures';
import {
  type Job,
  kindOf,
  list,
  pinned,
  profileName,
  pinsOf,
  same,
  sensible,
  tweaksOf,
  viewOf,
  withKey,
  withoutKept,
  withoutPin,
  withPin,
  withTweak,
} from './job';
import { screenOf } from './screen';
import { alertOf, say } from './speak';
import { set, state } from './store';
import { words } from './words';

export const unitsOf = (): Units => (list(state.job.units)[0] as Units) || 'w';
export const shown = (figure: string, v: number, units = unitsOf()): string =>
  show(v, shownUnit(figure, state.figures[figure]), units, state.wheelMM);
export const shownPin = (figure: string, text: string): string => showWritten(text, state.figures[figure], unitsOf(), state.wheelMM);
export const clashing = (figure: string): boolean => !!state.clash?.sets.some(s => s.pins.some(p => p.figure === figure));

// ---- asking for the drawing -------------------------------------------------------------------------------------------

interface Question {
  job: Job;
  page: number;
  screen: Screen;
  moving: boolean;
}

/** The scale of the drawing that stands. */
let scale = { key: '', px: 0 };
const scaleKey = (q: { job: Job; screen: Screen }): string =>
  [
    q.job.segment,
    kindOf(q.job),
    viewOf(q.job),
    q.job.guides,
    q.job.against,
    q.screen.width,
    q.screen.height,
    q.screen['lettering-px'],
  ].join('|');

const send = (q: Question): Promise<Held<Sheet>> => {
  const screen = { ...q.screen, moving: q.moving };
  if (q.moving && scale.px && scale.key === scaleKey(q)) screen['wheel-px'] = scale.px; // while a hand moves, nothing else does
  return post('/sheet', { job: q.job, page: q.page, screen });
};

const questions = new Newest<Question, Held<Sheet>>(send, answered, failed);
let screen: Screen | null = null;
const paper = (): HTMLElement | null => document.getElementById('desk-paper');

/** Asks for the drawing of a job: of the one that is edited, or in a drag of one that may still be cancelled. */
export function refresh(job: Job = state.job, moving = false, goesOn = moving): void {
  const p = paper();
  if (!p || state.locked) return;
  if (!goesOn) questions.forget();
  if (!moving || !screen) screen = screenOf(p, viewOf(job) === 'perspective'); // a drag's frame measures nothing
  questions.ask({ job, page: state.page, screen, moving });
}

let drawnFor = '';

function answered(a: Held<Sheet>, q: Question): void {
  if (isClash(a)) {
    if (q.moving) return; // a drag stops before a clash; if not, the drawing stays
    set({ clash: a.clash, problems: [], silent: false, was: {} });
    alertOf(clashAloud(a.clash));
    drawGood(q);
    return;
  }
  if (a.map) scale = { key: scaleKey(q), px: a.map['px-per-w'] };
  drawnFor = JSON.stringify([q.job, q.screen]);
  // While a figure is moved, what only the real page says stays as it was.
  const now = {
    sheet: q.moving && state.sheet ? { ...state.sheet, ...a } : a,
    figures: a.figures,
    wheelMM: a['wheel-mm'],
    silent: false,
    page: Math.min(state.page, a.pages || 1),
  };
  if (q.moving) return set(now);
  if (!same(q.job, state.job)) return set(now); // the last job that held, drawn for another window during a clash
  const was: Record<string, number> = {};
  if (Object.keys(before).length && !same(state.good, q.job) && state.good.segment === q.job.segment)
    for (const f of moved(before, a.figures, state.changed)) {
      const old = numberOf(before[f]);
      if (shown(f, old) !== shown(f, numberOf(a.figures[f]))) was[f] = old; // what is not seen to move has not given way
    }
  else if (same(state.good, q.job)) Object.assign(was, state.was);
  set({ ...now, good: q.job, clash: null, problems: [], was, preview: null });
  alertOf('');
  spoken?.();
  spoken = null;
}

/** Draws the last job that held where its drawing is not there: after a reload, or in another window. */
function drawGood(q: Question): void {
  if (drawnFor !== JSON.stringify([state.good, q.screen]) && !same(state.good, q.job)) questions.askAgain({ ...q, job: state.good });
}

let retrying = 0;

/** Asks again after a while. */
function retry(after: number): void {
  clearTimeout(retrying);
  retrying = window.setTimeout(() => refresh(), after);
}

const TALLER = 1.4,
  TALLEST = 4000;

function failed(e: unknown, q: Question): void {
  if (e instanceof Refusal && /fit on the screen/.test(e.message) && q.screen.height < TALLEST) {
    // large text needs more paper than the window is high: the page scrolls
    return questions.askAgain({ ...q, screen: { ...q.screen, height: Math.round(q.screen.height * TALLER) } });
  }
  if (e instanceof Refusal && e.status === 401) return set({ locked: true });
  if (e instanceof Refusal && e.status === 503) {
    say(words.busy);
    return retry(1000);
  }
  if (q.moving) return;
  if (!(e instanceof Refusal)) {
    retry(3000);
    return set({ silent: true });
  }
  set({ problems: e.problems.length ? e.problems : [{ where: '', text: e.message }], clash: null, was: {}, silent: false });
  drawGood(q);
  alertOf(`${words.cannotDraw}. ${e.message}`);
}

function clashAloud(c: Clash): string {
  const pins = c.sets.flatMap(s => s.pins);
  return words.clashAloud(
    pins.map(p => `${nameOf(p.figure)} ${shownPin(p.figure, p.written)}`),
    pins.filter(p => p.suggestion).map(p => words.wouldWork(nameOf(p.figure), shownPin(p.figure, p.suggestion))),
  );
}

// ---- changing the job --------------------------------------------------------------------------------------------------

let before = state.figures; // the figures that the change began with
let spoken: (() => void) | null = null; // what is said once the answer is there
let merging = { key: '', at: 0 };
const PAUSE = 1200; // milliseconds between two presses that are two steps of undo

const figureAloud = (figure: string): void => {
  const f = state.figures[figure],
    stop = state.stop?.figure === figure ? `; ${state.stop.text}` : '';
  if (f) say(`${nameOf(figure)} ${aloud(figure, f, state.wheelMM, clashing(figure))}${stop}`);
};

interface Change {
  figure?: string; // that it is about
  words?: string; // to be said instead of the figure
  merge?: string;
  pressed?: boolean; // the hand has not let go since the change before
  before?: Figures; // the figures of a drag's beginning
}

/** Makes one change of the job, one step of undo. Presses of one key that follow each other closely (`merge`) are one step together. */
export function change(wanted: Job, what: Change = {}): void {
  const job = sensible(wanted);
  if (same(job, state.job)) return;
  const now = Date.now(),
    goesOn = !!what.merge && merging.key === what.merge && (what.pressed || now - merging.at < PAUSE);
  merging = { key: what.merge || '', at: now };
  if (!goesOn && !state.clash) before = what.before || state.figures;
  const figure = what.figure || '';
  set({
    job,
    past: goesOn ? state.past : [...state.past, state.job],
    future: [],
    changed: figure,
    stop: null,
    note: null,
    preview: null,
    was: goesOn ? state.was : {},
    ...(figure ? { held: figure } : {}),
  });
  spoken = () => {
    if (what.words) say(what.words);
    else if (figure) figureAloud(figure);
  };
  refresh(job, false, goesOn);
}

/** The job in a few words, for undo and opening. */
export function plainly(job: Job = state.job): string {
  const segment = profileName(job) || state.segments.find(s => s.name === job.segment)?.title || job.segment;
  const pins = pinsOf(job).map(([f, v]) => `${nameOf(f)} ${shownPin(f, v)}`);
  return [segment, ...tweaksOf(job).map(([n, v]) => `${n} ${v}`), pins.length ? words.pinnedList(pins) : words.noPins].join(', ');
}

function step(from: 'past' | 'future', to: 'past' | 'future', said: (job: string) => string): void {
  const job = state[from][state[from].length - 1];
  if (!job) return;
  merging.key = '';
  before = state.figures;
  set({
    job,
    [from]: state[from].slice(0, -1),
    [to]: [...state[to], state.job],
    changed: '',
    was: {},
    stop: null,
    note: null,
    preview: null,
    typing: null,
  });
  spoken = () => say(said(plainly()));
  refresh();
}

export const undo = (): void => step('past', 'future', words.undone);
export const redo = (): void => step('future', 'past', words.redone);

export function hold(figure: string): void {
  if (state.held !== figure) set({ held: figure, stop: null, offer: null });
}

export function pin(figure: string, text: string): void {
  change(withPin(state.job, figure, text), { figure });
}

export function release(figure: string): void {
  change(pinned(state.job, figure) ? withoutPin(state.job, figure) : withoutKept(state.job, figure), {
    figure,
    words: words.released(nameOf(figure)),
  });
}

export function pinOrRelease(figure: string): void {
  const f = state.figures[figure];
  if (pinned(state.job, figure)) release(figure);
  else if (f && typeof f.value === 'number') pin(figure, writtenShown(f.value, f.unit, unitsOf(), state.wheelMM));
}

/** Pins a figure as typed if the program can make sense of it; answers with what is wrong otherwise. */
export async function pinTyped(figure: string, text: string): Promise<string> {
  try {
    await post('/solve', { job: withPin(state.job, figure, text) });
  } catch (e) {
    if (!(e instanceof Refusal)) return words.gone;
    const mine = e.problems.find(p => p.where.includes(figure)) || e.problems[0];
    return mine ? [wanted(mine.text), mine.nearest && words.perhaps(mine.nearest)].filter(Boolean).join('; ') : e.message;
  }
  change(withPin(state.job, figure, text), { figure });
  return '';
}

/** A refusal of a number in words: what is possible, instead of what was written. */
function wanted(text: string): string {
  const m = /; want ([-\d.]+)([a-z]*) to ([-\d.]+)([a-z]*)/.exec(text);
  return m ? words.between(m[1], readable(m[3] + m[4])) : readable(text);
}

/** How far a figure may go while all other pins hold. */
export async function roomOf(job: Job, figure: string): Promise<Room | null> {
  try {
    const a = await post<Held<Solved & Room>>('/solve', { job, hold: figure });
    return isClash(a) || !a.room ? null : { room: a.room, stops: { lo: readable(a.stops.lo), hi: readable(a.stops.hi) } };
  } catch {
    return null;
  }
}

let pressed: { figure: string; by: number } | null = null;

/** Moves a figure by steps of the arrow keys, as far as the other pins let it. Presses that come while the room is asked for add up. */
export async function nudge(figure: string, by: number): Promise<void> {
  const f = state.figures[figure];
  if (!f || typeof f.value !== 'number') return;
  if (state.clash) return say(words.clashFirst);
  if (pressed?.figure === figure) {
    pressed.by += by;
    return;
  }
  pressed = { figure, by };
  const r = await roomOf(state.job, figure);
  const total = pressed.by;
  pressed = null;
  const now = numberOf(state.figures[figure]),
    fine = steps(f.unit, unitsOf(), state.wheelMM).small;
  const [lo, hi] = r?.room || [-Infinity, Infinity],
    want = round(now + total, fine),
    v = Math.min(hi, Math.max(lo, want));
  const why = v < want ? r?.stops.hi : v > want ? r?.stops.lo : '';
  if (f.state !== 'pinned' && written(v, f.unit) === written(now, f.unit)) {
    stopAt(figure, v, why || words.noRoom);
    return;
  }
  change(withPin(state.job, figure, writtenShown(v, f.unit, unitsOf(), state.wheelMM, [lo, hi])), { figure, merge: `nudge ${figure}` });
  if (v !== want) stopAt(figure, v, why || words.noRoom);
}

/** Puts the names that people read in place of those of files. */
export const readable = (text: string): string =>
  text
    .replace(/\b[a-z]+(-[a-z]+)*\b/g, n =>
      n.includes('-') && n in state.figures ? nameOf(n) : state.segments.find(s => s.name === n)?.title.toLowerCase() || n,
    )
    .replace(/(\d)w\b/g, '$1 wheels');

/** Keeps the reason of a stop at its grip, and says it. */
export function stopAt(figure: string, v: number, why: string): void {
  set({ stop: { figure, text: why } });
  say(words.stops(nameOf(figure), shown(figure, v), why));
}

export function tweak(name: string, strength: number, pressed: boolean): void {
  const t = state.tweaks.find(k => k.name === name);
  set({ bearing: name });
  change(withTweak(state.job, name, strength), {
    merge: `tweak ${name}`,
    pressed,
    words: `${name} ${words.strength(strength)}${t ? `. ${t.line}` : ''}`,
  });
}

/** Changes the vehicle; tweaks that make no sense of the new one are left out and named. */
export function chooseSegment(name: string): void {
  let job: Job = withKey({ ...state.job, segment: name }, 'profile', undefined);
  const gone = tweaksOf(job)
    .map(([n]) => n)
    .filter(n => state.tweaks.find(t => t.name === n)?.refused?.[name]);
  for (const n of gone) job = withTweak(job, n, 0);
  if (list(job.against).includes(name))
    job = sensible(
      withKey(
        job,
        'against',
        list(job.against).filter(s => s !== name),
      ),
    );
  const title = state.segments.find(s => s.name === name)?.title || name;
  change(job, { words: gone.length ? words.tweakGone(gone, title.toLowerCase()) : title });
}
