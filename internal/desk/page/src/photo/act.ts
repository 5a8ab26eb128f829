// What people do with pictures and marks.
import { change } from '../desk';
import { profileName } from '../job';
import { goTo } from '../places';
import { complain, note } from '../saving';
import { say } from '../speak';
import { set, state } from '../store';
import { photoWords as words } from '../words-photo';
import { readOthers, refreshPhoto, sayAfter } from './ask';
import { edgeNear } from './edge';
import {
  before,
  fileOf,
  isOpen,
  isReadable,
  isSketch,
  markAt,
  nextOpen,
  type Place,
  placesOf,
  SHEET,
  type Shot,
  shotOf,
  stepOf,
  stepsOf,
  withMark,
  withUnseen,
} from './marks';
import { decode, forgetOld, forgetPicture, keepAgain, keepPicture, keptPicture, type Picture, pictureOf } from './pictures';
import { usualPlace } from './usual';
import { look, nextId, photo, setPhoto, setShot, setWork, shotNow, step } from './store';
import { bringIntoView, fit, onPaper, type Point, scaleOf } from './view';

const REACH = 5, // screen pixels within which a mark goes to an edge
  FINGER = 9; // under a finger

// ---- marks -------------------------------------------------------------------------------------------------------------

/** Sets the mark that is asked for, at a plain edge near by if there is one, and asks for the next. */
export function place(p: Point, snap = true, finger = false): void {
  const s = shotNow();
  if (!s) return;
  const bitmap = pictureOf(s.id)?.bitmap,
    edge = snap && bitmap ? edgeNear(bitmap, p, (finger ? FINGER : REACH) / scaleOf(s)) : null,
    at = s.at,
    set = withMark(s, at, edge || p);
  photo.snapped = edge ? { place: at, raw: p } : null;
  photo.cross = null; // the next place asks for another
  setShot({ ...set, at: nextOpen(set, photo.infos, at) });
  arrive(set, at);
}

/** Says where a mark came to lie and what it told, and reads anew. */
function arrive(s: Shot, at: Place): void {
  const m = markAt(s, at)!,
    placed = words.placed(words.placeName(at), m.x, m.y),
    figure = words.figureOf[at.mark];
  say(`${placed} ${askedFor()}`);
  if (isReadable(s)) sayAfter(s.marks, a => say(`${placed} ${figure ? words.aloud(figure, a.reading.figures[figure]) : ''} ${askedFor()}`));
  const next = shotNow();
  if (next) bringIntoView(next, crossOf(next));
  refreshPhoto();
}

const askedFor = (): string => {
  const s = shotNow();
  return s && isOpen(s, s.at) ? words.next(words.placeName(s.at)) : '';
};

/** Moves a mark that is there; `merge` joins the steps of one hand. */
export function moveMark(at: Place, p: Point, merge = ''): void {
  const s = shotNow();
  if (!s) return;
  photo.snapped = photo.cross = null;
  const set = withMark(s, at, p);
  setShot(set, merge);
  const m = markAt(set, at)!,
    figure = words.figureOf[at.mark],
    placed = words.placed(words.placeName(at), m.x, m.y);
  say(placed);
  if (isReadable(set)) sayAfter(set.marks, a => say(`${placed} ${figure ? words.aloud(figure, a.reading.figures[figure]) : ''}`));
  refreshPhoto();
}

/** Takes the last mark back to where it was set by hand. */
export function asSet(): void {
  const snapped = photo.snapped;
  if (snapped) moveMark(snapped.place, snapped.raw);
}

export function cannotBeSeen(): void {
  const s = shotNow();
  if (!s) return;
  const set = /^far-/.test(s.at.mark) ? unseenAll(s, s.at.mark) : withUnseen(s, s.at); // a tyre is hidden whole
  photo.snapped = photo.cross = null;
  setShot({ ...set, at: nextOpen(set, photo.infos, s.at) });
  say(`${words.unseen(words.placeName(s.at))} ${askedFor()}`);
  refreshPhoto();
}

/** All points of a mark that are still open cannot be seen. */
function unseenAll(s: Shot, mark: string): Shot {
  return placesOf(s, photo.infos)
    .filter(p => p.mark === mark && isOpen(s, p))
    .reduce((o, p) => withUnseen(o, p), s);
}

export function markBefore(): void {
  const s = shotNow();
  if (s) goToPlace(before(s, photo.infos, s.at));
}

export function goToPlace(p: Place): void {
  const s = shotNow();
  if (!s) return;
  look({ ...s, at: p });
  setPhoto({ cross: null, snapped: null });
  const now = shotNow()!;
  bringIntoView(now, crossOf(now));
  say(words.placeName(p));
}

/** Goes to the first open place of a step, or else to its first. */
export function goToStep(id: string): void {
  const s = shotNow(),
    t = s && stepsOf(s, photo.infos).find(o => o.id === id);
  if (s && t?.places.length) goToPlace(t.places.find(p => isOpen(s, p)) || t.places[0]);
}

export function goToMark(mark: string): void {
  const s = shotNow(),
    p = s && placesOf(s, photo.infos).find(q => q.mark === mark && isOpen(s, q));
  if (p) goToPlace(p);
}

/** Where the cross stands: at the mark, or where such a mark usually is. Nothing is measured by it. */
export function crossOf(s: Shot): Point {
  return photo.cross || markAt(s, s.at) || usualPlace(s, s.at);
}

/** Moves the cross by pixels of the picture, and with it the mark where one is set. */
export function nudgeCross(dx: number, dy: number): void {
  const s = shotNow();
  if (!s) return;
  const c = crossOf(s),
    p = { x: Math.min(Math.max(c.x + dx, 0), s.size[0]), y: Math.min(Math.max(c.y + dy, 0), s.size[1]) };
  if (markAt(s, s.at)) moveMark(s.at, p, `nudge ${s.id} ${s.at.mark} ${s.at.index}`);
  else {
    setPhoto({ cross: p });
    say(words.cross(p.x, p.y));
  }
  bringIntoView(shotNow()!, p);
}

/** The mark within a reach of a point of the paper, the nearest first. */
export function markNear(s: Shot, p: Point, reach: number): Place | null {
  let best: { p: Place; away: number } | null = null;
  for (const q of placesOf(s, photo.infos)) {
    const m = markAt(s, q);
    if (!m) continue;
    const at = onPaper(s, m),
      away = Math.hypot(at.x - p.x, at.y - p.y);
    if (away <= reach && (!best || away < best.away)) best = { p: q, away };
  }
  return best?.p || null;
}

// ---- pictures ----------------------------------------------------------------------------------------------------------

const stem = (file: string): string =>
  file
    .replace(/\.[^.]*$/, '')
    .replace(/[^\p{L}\p{M}\p{N} ._-]+/gu, '-')
    .replace(/^[ .-]+|[ .-]+$/g, '')
    .slice(0, 60)
    .trim() || 'picture'; // what the program takes for the name of a file

/** Opens a picture: as that of the marks that wait for it, or as a new one. */
export async function openPicture(file: Blob, name: string): Promise<void> {
  let p: Picture;
  try {
    p = await decode(file, name);
  } catch (e) {
    return complain((e as Error).message);
  }
  const size: [number, number] = [p.header.width, p.header.height],
    waiting = photo.work.now.shots.find(s => !pictureOf(s.id) && s.picture === name && same(s.size, size));
  if (waiting) {
    keepPicture(waiting.id, p);
    delete photo.without[waiting.id];
    look(waiting);
  } else {
    const shot = shotOf(nextId(), { picture: name, size, facing: 'left', ...focal(p) }, unused(stem(name)), photo.infos);
    keepPicture(shot.id, p);
    setWork({ shots: [...photo.work.now.shots, shot], now: shot.id });
  }
  setPhoto({ cross: null });
  note(words.opened(name, ...size, p.header.focal));
  refreshPhoto();
}

const focal = (p: Picture): object => (p.header.focal ? { focal: p.header.focal } : {});
const equal = (a: object, b: object): boolean => JSON.stringify(a) === JSON.stringify(b);
const countOf = (s: Shot): number => Object.values(s.marks).reduce((n, l) => n + l.filter(Boolean).length, 0);
const same = (a: number[], b: number[]): boolean => a[0] === b[0] && a[1] === b[1];

function unused(name: string): string {
  const taken = photo.work.now.shots.map(s => s.name);
  for (let i = 2, n = name; ; n = `${name}-${i++}`) if (!taken.includes(n)) return n;
}

/** Opens a marks file. Its picture is shown once it is opened too. */
export function openMarks(file: Record<string, unknown>, name: string): Shot {
  const read = shotOf(nextId(), file, unused(stem(name)), photo.infos),
    { shots } = photo.work.now,
    kept = shots.find(s => s.picture === read.picture && same(s.size, read.size) && pictureOf(s.id)),
    bare = kept && !Object.values(kept.marks).some(l => l.some(Boolean)), // a picture that waits for its marks
    shot = bare ? { ...read, id: kept.id, name: stem(name) } : read,
    p = kept && !bare && pictureOf(kept.id),
    again = shots.find(s => equal({ ...marksOf(s), picture: '' }, { ...marksOf(read), picture: '' }));
  if (again) {
    turnTo(again);
    note(words.again(again.name));
    return again;
  }
  const other = shots.find(s => s.picture === read.picture && !same(s.size, read.size));
  if (p)
    void decode(p.file, kept.picture).then(
      q => (keepPicture(shot.id, q), setPhoto({})),
      (e: Error) => complain(e.message),
    );
  else if (shot.picture && !bare)
    photo.without[shot.id] = other ? words.otherSize(shot.picture, shot.size, other.size) : words.wantsPicture(shot.picture);
  setWork({ shots: bare ? shots.map(s => (s.id === shot.id ? shot : s)) : [...shots, shot], now: shot.id });
  setPhoto({ cross: null });
  if (photo.frame) fit(shot); // a sketch is shown whole, a vehicle about its marks
  refreshPhoto();
  return shot;
}

/** Shows another picture. */
export function turnTo(s: Shot): void {
  look(s);
  setPhoto({ cross: null, snapped: null });
  say(words.onPaper(s.name));
  refreshPhoto();
}

/** Takes a picture off the desk, with its marks; one undo brings it back. */
export function remove(s: Shot): void {
  const shots = photo.work.now.shots.filter(o => o.id !== s.id);
  setWork({ shots, now: s.id === photo.work.now.now ? shots[0]?.id || 0 : photo.work.now.now });
  forgetPicture(s.id);
  note(words.removed(s.name));
  refreshPhoto();
}

/** Brings back the pictures of an earlier visit. */
export async function showKept(): Promise<void> {
  const { shots } = photo.work.now;
  await Promise.all(
    shots.map(async s => {
      const file = pictureOf(s.id) ? null : await keptPicture(s.id);
      if (file)
        try {
          const p = await decode(file, s.picture);
          if (same([p.header.width, p.header.height], s.size)) keepPicture(s.id, p);
        } catch {
          /* it says below that the picture is wanted */
        }
      if (!pictureOf(s.id) && s.picture) photo.without[s.id] = words.wantsPicture(s.picture);
    }),
  );
  setPhoto({});
  await forgetOld();
  void readOthers();
}

// ---- what is known -----------------------------------------------------------------------------------------------------

/** Sets a key of the marks file; undefined takes it out. */
export function know(key: string, v: unknown, said: string, id = photo.work.now.now): void {
  const s = photo.work.now.shots.find(o => o.id === id);
  if (!s) return;
  const known = { ...s.known };
  if (v === undefined || v === '') delete known[key];
  else known[key] = v;
  let next: Shot = { ...s, known };
  if (key === 'on-sheet') {
    const open = isSketch(next) && SHEET.map(mark => ({ mark, index: 0 })).find(p => isOpen(next, p));
    next = { ...next, at: open || (stepOf(next, photo.infos) ? next.at : { mark: 'tyre-front', index: 0 }) };
  }
  setShot(next);
  if (key === 'on-sheet') fit(next);
  say(said);
  refreshPhoto();
}

export function layOver(what: string, said: string): void {
  setWork({ against: what });
  say(said);
  refreshPhoto();
}

export function undoPhoto(back: boolean): void {
  photo.cross = null;
  const before = photo.work.now.shots.map(s => s.id);
  if (!step(back)) return say(words.noStep);
  for (const s of photo.work.now.shots) if (!before.includes(s.id)) keepAgain(s.id);
  const n = shotNow();
  set({ note: null });
  say((back ? words.undone : words.redone)(n ? n.name : '', n ? countOf(n) : 0));
  refreshPhoto();
}

/** The marks of a shot as the calls take them. */
export const marksOf = (s: Shot): Record<string, unknown> => fileOf(s, photo.infos);

export const hasJob = (): boolean => !!state.job.segment;

/** Goes on at the underlay with a profile that was read, or gathered. */
export function drawUnderlay(profile: string, called: string): void {
  const job = { segment: called.replace(/[^\p{L}\p{N}]+/gu, '-').replace(/^-|-$/g, '') || 'mine', profile },
    name = profileName(job);
  goTo('underlay');
  change(job, { words: words.drawn(name) });
  note(words.drawn(name));
}
