// Marks on a picture: the places that are to be marked, one after the other, and the marks file that they make.
import type { MarkInfo } from './calls';

export interface Mark {
  x: number; // pixels of the upright picture
  y: number;
  pm?: number;
  inboard?: string;
}

/** One picture, and what is known of it. */
export interface Shot {
  id: number;
  name: string; // of its reading
  picture: string; // its file's name; '' where there is none
  size: [number, number];
  marks: Record<string, (Mark | null)[]>; // by name; null is a place still open
  unseen: string[]; // places that the picture does not show, like "roof.0"
  at: Place;
  known: Record<string, unknown>; // the other keys of the marks file
}

/** Where a mark belongs: the name, and which of several points. */
export interface Place {
  mark: string;
  index: number;
}

export interface Step {
  id: string;
  places: Place[];
}

export const SHEET = ['left', 'top', 'right', 'bottom']; // the centring marks of a printed sheet
const BAR = 'bar';

export const isSketch = (s: Shot): boolean => typeof s.known['on-sheet'] === 'object' && s.known['on-sheet'] !== null;
export const key = (p: Place): string => `${p.mark}.${p.index}`;
export const samePlace = (a: Place, b: Place): boolean => a.mark === b.mark && a.index === b.index;
export const markAt = (s: Shot, p: Place): Mark | null => s.marks[p.mark]?.[p.index] || null;
export const isUnseen = (s: Shot, p: Place): boolean => s.unseen.includes(key(p));
export const isOpen = (s: Shot, p: Place): boolean => !markAt(s, p) && !isUnseen(s, p);

/** How many points of a mark are asked for: eight of a tyre, four of a far one. A file may have more. */
const POINTS: Record<string, number> = { 'tyre-front': 8, 'tyre-rear': 8, 'far-front': 4, 'far-rear': 4, belt: 2 };

const range = (mark: string, from: number, to: number): Place[] => Array.from({ length: to - from }, (_, i) => ({ mark, index: from + i }));

/** The walk over a picture, in the order of the table of marks. */
export function stepsOf(s: Shot, infos: MarkInfo[]): Step[] {
  const most = (mark: string) => infos.find(i => i.name === mark)?.most || 1,
    points = (mark: string) => Math.max(POINTS[mark] || Math.min(most(mark), 2), s.marks[mark]?.length || 0),
    all = (...marks: string[]) => marks.flatMap(m => range(m, 0, points(m)));
  const half = (mark: string, rear: boolean) => (rear ? range(mark, 4, points(mark)) : range(mark, 0, 4));
  const steps: Step[] = [
    { id: 'front-front', places: half('tyre-front', false) },
    { id: 'front-rear', places: half('tyre-front', true) },
    { id: 'rear-front', places: half('tyre-rear', false) },
    { id: 'rear-rear', places: half('tyre-rear', true) },
    { id: 'ground', places: all('ground') },
    { id: 'far', places: all('far-front', 'far-rear') },
    { id: 'ends', places: all('nose', 'tail') },
    { id: 'roof', places: all('roof') },
    { id: 'belt', places: all('belt') },
    { id: 'under', places: all('sill', 'lowest') },
    { id: 'pillar', places: all('pillar') },
    { id: 'glass-end', places: all('glass-end') },
    { id: 'lamps', places: all('front-lamp', 'rear-lamp') },
  ];
  const said = new Set(steps.flatMap(t => t.places.map(p => p.mark)));
  // a hub is of use where its tyre cannot be marked
  const hidden = (n: string) => /^hub-/.test(n) && (s.marks[n.replace('hub', 'tyre')] || []).filter(Boolean).length >= 3;
  steps.push({
    id: 'more',
    places: [...all(...infos.map(i => i.name).filter(n => !said.has(n) && !hidden(n))), ...(isSketch(s) ? range(BAR, 0, 2) : [])],
  });
  if (!isSketch(s)) return steps;
  const drawn = steps.filter(t => !['far', 'ground'].includes(t.id) || t.places.some(p => markAt(s, p))); // a sketch has neither
  return [{ id: 'sheet', places: SHEET.map(mark => ({ mark, index: 0 })) }, ...drawn];
}

export const placesOf = (s: Shot, infos: MarkInfo[]): Place[] => stepsOf(s, infos).flatMap(t => t.places);
export const stepOf = (s: Shot, infos: MarkInfo[], p: Place = s.at): Step | undefined =>
  stepsOf(s, infos).find(t => t.places.some(q => samePlace(p, q)));

/** The next open place after one: of the usual ones, for those of `more` are offered and not asked for. */
export function nextOpen(s: Shot, infos: MarkInfo[], after: Place): Place {
  const all = placesOf(s, infos),
    from = all.findIndex(p => samePlace(p, after)),
    more = stepsOf(s, infos).find(t => t.id === 'more')?.places || [],
    asked = more.some(p => samePlace(p, after));
  const left = all.slice(from + 1).filter(p => (asked || !more.some(q => samePlace(p, q))) && isOpen(s, p));
  return left[0] || all[Math.min(from + 1, all.length - 1)];
}

export const before = (s: Shot, infos: MarkInfo[], p: Place): Place => {
  const all = placesOf(s, infos);
  return all[Math.max(0, all.findIndex(q => samePlace(p, q)) - 1)];
};

const round = (v: number): number => Math.round(v * 10) / 10;

/** Sets a mark, or with null takes it away. A tenth of a pixel is finer than any hand. */
export function withMark(s: Shot, p: Place, m: { x: number; y: number } | null): Shot {
  const old = markAt(s, p),
    list = [...(s.marks[p.mark] || [])];
  while (list.length <= p.index) list.push(null);
  const inside = (v: number, most: number) => round(Math.min(Math.max(v, 0), most));
  list[p.index] = m && { ...old, x: inside(m.x, s.size[0]), y: inside(m.y, s.size[1]) };
  return { ...s, marks: { ...s.marks, [p.mark]: list }, unseen: s.unseen.filter(u => u !== key(p)), at: p };
}

/** Notes that the picture does not show a place. */
export function withUnseen(s: Shot, p: Place): Shot {
  const without = withMark(s, p, null);
  return { ...without, unseen: [...without.unseen, key(p)] };
}

const written = (m: Mark): unknown =>
  m.pm === undefined && m.inboard === undefined
    ? [m.x, m.y]
    : { at: [m.x, m.y], ...(m.pm === undefined ? {} : { pm: m.pm }), ...(m.inboard === undefined ? {} : { inboard: m.inboard }) };

/** Whether the picture shows no place of a mark that is still open. */
function isHidden(s: Shot, infos: MarkInfo[], mark: string): boolean {
  const places = placesOf(s, infos).filter(p => p.mark === mark);
  return places.some(p => isUnseen(s, p)) && !places.some(p => isOpen(s, p));
}

const set = (s: Shot, mark: string): Mark[] => (s.marks[mark] || []).filter((m): m is Mark => !!m);

/** The marks file, as the program's calls take it. Names with too few points are left out. */
export function fileOf(s: Shot, infos: MarkInfo[]): Record<string, unknown> {
  const out: Record<string, unknown> = { ...s.known, size: s.size },
    marks: Record<string, unknown> = {};
  if (s.picture) out.picture = s.picture;
  for (const i of infos) {
    const all = set(s, i.name);
    if (all.length && all.length >= i.least) marks[i.name] = i.most === 1 ? written(all[0]) : all.map(written);
  }
  if (isSketch(s)) {
    const sheet: Record<string, unknown> = { ...(s.known['on-sheet'] as object) },
      bar = set(s, BAR);
    for (const side of SHEET) for (const m of set(s, side)) sheet[side] = [m.x, m.y];
    if (bar.length === 2) sheet.bar = bar.map(m => [m.x, m.y]);
    out['on-sheet'] = sheet;
  }
  const hidden = infos.map(i => i.name).filter(mark => isHidden(s, infos, mark));
  if (hidden.length) out.hidden = hidden;
  out.marks = marks;
  return out;
}

function readMark(v: unknown): Mark | null {
  if (Array.isArray(v)) return { x: Number(v[0]), y: Number(v[1]) };
  const m = v as { at: number[]; pm?: number; inboard?: string };
  return m?.at ? { ...m, ...{ at: undefined }, x: Number(m.at[0]), y: Number(m.at[1]) } : null;
}

/** The opposite of fileOf. */
export function shotOf(id: number, file: Record<string, unknown>, name: string, infos: MarkInfo[]): Shot {
  const { picture, size, marks, hidden, kind: _, ...known } = file,
    all: Shot['marks'] = {};
  for (const [mark, v] of Object.entries((marks || {}) as Record<string, unknown>)) {
    const several = Array.isArray(v) && typeof v[0] !== 'number';
    all[mark] = (several ? (v as unknown[]) : [v]).map(readMark);
  }
  if (known['on-sheet']) {
    const sheet = { ...(known['on-sheet'] as Record<string, unknown>) };
    for (const side of SHEET)
      if (sheet[side]) {
        all[side] = [readMark(sheet[side])];
        delete sheet[side];
      }
    if (Array.isArray(sheet.bar)) all.bar = sheet.bar.map(readMark);
    delete sheet.bar;
    known['on-sheet'] = sheet;
  }
  const shot: Shot = {
    id,
    name,
    picture: String(picture || ''),
    size: size as [number, number],
    marks: all,
    unseen: [],
    at: { mark: 'tyre-front', index: 0 },
    known,
  };
  const places = placesOf(shot, infos);
  shot.unseen = places.filter(p => (hidden as string[] | undefined)?.includes(p.mark) && isOpen(shot, p)).map(key);
  return { ...shot, at: places.find(p => isOpen(shot, p)) || shot.at };
}

/** Whether there is enough to ask for a reading: both tyres, and of a sketch its sheet. */
export function isReadable(s: Shot): boolean {
  const enough = (tyre: string, hub: string) => set(s, tyre).length >= 3 || (set(s, hub).length === 1 && set(s, tyre).length >= 1);
  return enough('tyre-front', 'hub-front') && enough('tyre-rear', 'hub-rear') && (!isSketch(s) || SHEET.every(m => set(s, m).length === 1));
}

/** Reports whether something kept by a browser can be taken for a shot. */
export function isShot(v: unknown): v is Shot {
  if (typeof v !== 'object' || v === null) return false;
  const s = v as Shot;
  return (
    Number.isInteger(s.id) &&
    typeof s.name === 'string' &&
    Array.isArray(s.size) &&
    typeof s.marks === 'object' &&
    Array.isArray(s.unseen) &&
    typeof s.at?.mark === 'string' &&
    typeof s.known === 'object'
  );
}
