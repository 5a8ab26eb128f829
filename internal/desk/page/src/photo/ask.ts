// Asking for readings: of the picture on the paper after each change, and of the others once.
import { Newest, post, Refusal } from '../calls';
import { dark, rem } from '../screen';
import { set, state } from '../store';
import { alertOf, say } from '../speak';
import { photoWords as words } from '../words-photo';
import type { Gain, PhotoScreen, Placed, Problem, ReadAnswer } from './calls';
import { fileOf, isReadable, type Shot } from './marks';
import { photo, setPhoto, shotNow, UNDERLAY } from './store';
import { fit, shownOf } from './view';

interface Question {
  shot: Shot;
  body: Record<string, unknown>;
}

/** What a reading is held against: a segment's name, the job of the underlay, or nothing. */
export const againstOf = (): unknown => {
  const a = photo.work.now.against;
  return a === UNDERLAY ? state.job : a || undefined;
};

const paper = (): HTMLElement | null => document.getElementById('desk-paper');

/** The screen to draw for: the paper's width, and what is left of the window under it. */
function screenOf(p: HTMLElement, s: Shot): PhotoScreen {
  const r = rem() / 16,
    width = Math.max(280, Math.floor(p.clientWidth)),
    left = innerHeight - (p.getBoundingClientRect().top + scrollY) - 72 * r;
  const height = Math.max(width < 640 * r ? Math.max(270, width * 0.7) : 420, Math.min(width * 0.62, left));
  return { width, height: Math.round(height), 'lettering-px': Math.round(13 * r * 10) / 10, dark: dark.matches, shown: shownOf(s) };
}

const questions = new Newest<Question, ReadAnswer>(({ body }) => post('/read', body), answered, failed);

/** Asks for the reading of the picture on the paper. */
export function refreshPhoto(): void {
  const s = shotNow(),
    p = paper();
  if (!s || !p || state.locked) return;
  const screen = screenOf(p, s);
  if (!photo.frame || framed !== frameKey(s, screen)) return void frame(s, screen);
  if (fitted !== s.id) {
    fitted = s.id;
    fit(s);
    return refreshPhoto();
  }
  if (!isReadable(s)) return void drop(s);
  questions.ask({ shot: s, body: { marks: fileOf(s, photo.infos), name: s.name, against: againstOf(), screen } });
}

let framed = '',
  fitted = 0; // the shot that was last fitted to the paper
const frameKey = (s: Shot, screen: PhotoScreen): string => [s.size, screen.width, screen.height, screen['lettering-px']].join();

/**
 * Asks where the picture stands on the paper, which depends on its shape and the window only: a strip of it takes the room's whole
 * width, all of it the room's height.
 */
async function frame(s: Shot, screen: PhotoScreen): Promise<void> {
  const key = frameKey(s, screen),
    [w, t] = s.size,
    ask = (shown: PhotoScreen['shown']) => post<Placed>('/frame', { screen: { ...screen, shown } });
  framed = key;
  try {
    const [whole, strip] = await Promise.all([ask([0, 0, w, t]), ask([0, 0, w, Math.min(t, Math.max(8, w / 20))])]);
    if (framed !== key) return;
    setPhoto({ frame: { width: whole.width, height: whole.height, room: [strip.box[0], whole.box[1], strip.box[2], whole.box[3]] } });
    refreshPhoto();
  } catch (e) {
    framed = '';
    lost(e);
  }
}

function drop(s: Shot): void {
  questions.forget();
  if (!photo.answers[s.id] && !photo.problems[s.id]) return;
  const { [s.id]: _, ...answers } = photo.answers,
    { [s.id]: __, ...problems } = photo.problems;
  setPhoto({ answers, problems });
}

let resting = 0;
const REST = 500; // milliseconds until it is asked what one more mark would gain

function answered(a: ReadAnswer, { shot, body }: Question): void {
  const { [shot.id]: _, ...problems } = photo.problems;
  setPhoto({ answers: { ...photo.answers, [shot.id]: a }, problems, drawnFor: (body.screen as PhotoScreen).shown.join() });
  if (state.silent) set({ silent: false });
  alertOf('');
  if (spoken?.marks === shot.marks) {
    spoken.say(a);
    spoken = null;
  }
  clearTimeout(resting);
  resting = window.setTimeout(() => void gains(shot, body), REST);
}

let spoken: { marks: Shot['marks']; say: (a: ReadAnswer) => void } | null = null;

/** Says something once the reading of these marks is there. */
export function sayAfter(marks: Shot['marks'], f: (a: ReadAnswer) => void): void {
  spoken = { marks, say: f };
}

async function gains(shot: Shot, { marks, name }: Record<string, unknown>): Promise<void> {
  try {
    const a = await post<ReadAnswer>('/read', { marks, name, narrows: true });
    if (shotNow()?.marks === shot.marks) setPhoto({ gains: { ...photo.gains, [shot.id]: a.narrows || ([] as Gain[]) } });
  } catch {
    /* what would help is said when it is known */
  }
}

function lost(e: unknown): void {
  if (e instanceof Refusal && e.status === 401) set({ locked: true });
  else if (e instanceof Refusal && e.status === 503) {
    say(words.busy);
    retry(1000);
  } else if (!(e instanceof Refusal)) {
    set({ silent: true });
    retry(3000);
  } else alertOf(e.message);
}

let retrying = 0;
function retry(after: number): void {
  clearTimeout(retrying);
  retrying = window.setTimeout(refreshPhoto, after);
}

function failed(e: unknown, { shot }: Question): void {
  if (!(e instanceof Refusal) || e.status === 401 || e.status === 503) return lost(e);
  const { [shot.id]: _, ...answers } = photo.answers,
    list: Problem[] = e.problems.length ? e.problems : [{ where: '', text: e.message }],
    text = list.map(p => p.text).join('. '),
    known = (photo.problems[shot.id] || []).map(p => p.text).join('. ') === text;
  spoken = null;
  setPhoto({ answers, problems: { ...photo.problems, [shot.id]: list } });
  if (!known) alertOf(`${words.cannotRead}: ${text}`); // once, not after each mark
}

/** Reads the pictures that are not on the paper, for their verdicts and for norms. */
export async function readOthers(): Promise<void> {
  for (const s of photo.work.now.shots) {
    if (photo.answers[s.id] || !isReadable(s)) continue;
    try {
      const a = await post<ReadAnswer>('/read', { marks: fileOf(s, photo.infos), name: s.name });
      if (!photo.answers[s.id] && photo.work.now.shots.some(o => o.id === s.id && o.marks === s.marks))
        setPhoto({ answers: { ...photo.answers, [s.id]: a } });
    } catch {
      /* its own turn on the paper says why */
    }
  }
}
