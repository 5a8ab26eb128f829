// The class: the class file of docs/class.md as JSON. Every edit gives a new one, so that undo is a list of whole classes.
import { type Job, list, withKey } from '../job';

export interface Student {
  name: string;
  facing?: string;
  set?: number;
  absent?: boolean;
}

/** One vehicle on some kinds of sheet, which everybody gets. */
export interface ClassPage extends Job {
  copies?: number | string;
  given?: number | string;
}

export interface Lesson {
  title?: string;
  date?: string;
  students: (string | Student)[] | number;
  pages: ClassPage[];
  vary?: number | string;
  seed?: number | string;
  order?: string;
  [key: string]: unknown;
}

export const usual: Lesson = {
  paper: 'A3',
  students: 12,
  pages: [{ segment: 'suv', sheets: ['practice'], given: 2 }],
  vary: 0.6,
  seed: 1,
};

/** The students with names; none where the class only says how many there are. */
export const namedOf = (l: Lesson): Student[] =>
  Array.isArray(l.students) ? l.students.map(s => (typeof s === 'string' ? { name: s } : s)) : [];

export const countOf = (l: Lesson): number => (Array.isArray(l.students) ? l.students.length : Number(l.students));

/** A student as short as a class file has it. */
function short({ name, facing, set, absent }: Student): string | Student {
  const s: Student = { name };
  if (facing) s.facing = facing;
  if (set !== undefined) s.set = set;
  if (absent) s.absent = true;
  return Object.keys(s).length > 1 ? s : name;
}

export const withStudents = (l: Lesson, students: Student[]): Lesson => ({ ...l, students: students.map(short) });

/** Changes one student; others stay as they are. */
export const withStudent = (l: Lesson, at: number, change: Partial<Student>): Lesson =>
  withStudents(
    l,
    namedOf(l).map((s, i) => (i === at ? { ...s, ...change } : s)),
  );

const plain = (name: string): string => name.normalize('NFC').trim().replace(/\s+/g, ' ').toLowerCase();

/** A new list of names: who was there before keeps what was said of them, unless the list says more. */
export function relisted(l: Lesson, listed: Student[]): Student[] {
  const before = new Map(namedOf(l).map(s => [plain(s.name), s]));
  return listed.map(s => (Object.keys(s).length > 1 ? s : { ...before.get(plain(s.name)), ...s }));
}

export const withPages = (l: Lesson, pages: ClassPage[]): Lesson => ({ ...l, pages });

export const withPage = (l: Lesson, at: number, page: ClassPage): Lesson =>
  withPages(
    l,
    l.pages.map((p, i) => (i === at ? page : p)),
  );

/** Moves a page one place earlier or later. */
export function movedPage(l: Lesson, at: number, by: number): Lesson {
  const pages = [...l.pages];
  pages.splice(at + by, 0, ...pages.splice(at, 1));
  return withPages(l, pages);
}

/** Sets a key of the class, or takes it out where the value is undefined. */
export function withSetting(l: Lesson, key: string, v: unknown): Lesson {
  const next: Lesson = { ...l };
  if (v === undefined) delete next[key];
  else next[key] = v;
  return next;
}

// What belongs to the class, to files or to other places, not to one of its pages.
const NOT_OF_PAGES = ['paper', 'portrait', 'landscape', 'tile', 'author', 'dpi', 'transparent', 'letters', 'also'];
const NOT_FOR_STUDENTS = ['demonstration', 'answer'];

/** The job of the underlay as a page of a class. */
export function pageOf(job: Job): ClassPage {
  const page = NOT_OF_PAGES.reduce((j, key) => withKey(j, key, undefined), job),
    kinds = list(job.sheets).filter(k => !NOT_FOR_STUDENTS.includes(k));
  return { ...page, sheets: kinds.length ? kinds : ['full'] };
}

export const isOn = (v: unknown): boolean => v === true || v === 'true';
export const varyOf = (l: Lesson): number => Number(l.vary) || 0;
export const copiesOf = (p: ClassPage): number => Number(p.copies) || 1;
export const kindsOf = (p: ClassPage): string[] => (list(p.sheets).length ? list(p.sheets) : ['full']);

/** Reports whether something kept by a browser can be taken for a class. */
export function isLesson(v: unknown): v is Lesson {
  const l = v as Lesson;
  const student = (s: unknown) => typeof s === 'string' || (typeof s === 'object' && s !== null && typeof (s as Student).name === 'string');
  return (
    typeof v === 'object' &&
    v !== null &&
    (typeof l.students === 'number' || typeof l.students === 'string' || (Array.isArray(l.students) && l.students.every(student))) &&
    Array.isArray(l.pages) &&
    l.pages.every(p => typeof p === 'object' && p !== null && typeof p.segment === 'string')
  );
}
