// What the place of handouts remembers: the class with its undo list, who and what is looked at, and the last answers.
import type { Problem } from '../calls';
import { begun, changed, type History, redone, undone } from '../history';
import { say } from '../speak';
import { keepFor, kept } from '../storage';
import { redraw, set } from '../store';
import type { Facts, Progress } from './calls';
import { isLesson, type Lesson, usual } from './lesson';

export interface Work {
  lesson: Lesson;
  duplex: boolean; // the paper's both sides are printed: no class file says so
}

/** A sheet as a picture, and its answer. */
export interface Shown {
  student: number; // from 1
  name: string;
  page: number; // of the student's sheets
  kind: string;
  sheet: string; // addresses of pictures; '' where there is none
  answer: string;
  width: number;
  height: number;
  notes: string[];
}

/** A file that is printed, or was. */
export interface Printing {
  key: boolean;
  progress: Progress;
}

interface Handout {
  work: History<Work>;
  file: string; // the class file's name
  student: number; // who is looked at, from 1
  page: number; // which of their sheets
  large: boolean;
  facts: Facts | null; // of the last class that could be read
  factsOf: string; // that class, as text
  problems: Problem[];
  shown: Shown | null;
  small: Record<number, Shown>; // by the number of the sheet
  printing: Printing | null;
  failed: string; // why the last print ended
  files: { name: string; href: string }[]; // that were printed last
  printedOf: string; // the work that they are of, as text
}

export const handout: Handout = {
  work: begun({ lesson: usual, duplex: false }),
  file: '',
  student: 1,
  page: 1,
  large: false,
  facts: null,
  factsOf: '',
  problems: [],
  shown: null,
  small: {},
  printing: null,
  failed: '',
  files: [],
  printedOf: '',
};

export const lessonNow = (): Lesson => handout.work.now.lesson;

const KEY = 'hubrule-handout-1',
  KEPT = 20; // steps of undo, for a list of names is long

/** Changes what is remembered, and redraws. */
export function setHandout(change: Partial<Handout>): void {
  Object.assign(handout, change);
  const { now, past, future } = handout.work,
    { file, student, page } = handout;
  keepFor(KEY, { now, past: past.slice(-KEPT), future: future.slice(0, KEPT), file, student, page });
  redraw();
}

let merging = '',
  after: () => void = () => undefined;

/** Names what is asked anew after every change of the class. */
export function onClassChange(f: () => void): void {
  after = f;
}

/** Makes a change of the class: a step of undo of its own, or one with the change before where both have the same `merge`. */
export function change(work: Partial<Work>, said = '', merge = ''): void {
  const next = { ...handout.work.now, ...work };
  if (JSON.stringify(next) === JSON.stringify(handout.work.now)) return;
  const goesOn = !!merge && merge === merging;
  merging = merge;
  set({ note: null });
  setHandout({ work: changed(handout.work, next, goesOn) });
  if (said) say(said);
  after();
}

/** Ends a step of undo that changes were joined into. */
export const endStep = (): void => {
  merging = '';
};

export const changeLesson = (lesson: Lesson, said = '', merge = ''): void => change({ lesson }, said, merge);

export function step(back: boolean): boolean {
  const work = back ? undone(handout.work) : redone(handout.work);
  if (work === handout.work) return false;
  merging = '';
  setHandout({ work });
  after();
  return true;
}

const isWork = (v: unknown): v is Work => typeof v === 'object' && v !== null && isLesson((v as Work).lesson);

/** Takes what an earlier visit left. */
export function restoreHandout(): void {
  const v = kept(KEY) as (History<Work> & { file: string; student: number; page: number }) | null;
  if (!v || !isWork(v.now) || ![v.past, v.future].every(l => Array.isArray(l) && l.every(isWork))) return;
  handout.work = { now: v.now, past: v.past, future: v.future };
  handout.file = typeof v.file === 'string' ? v.file : '';
  handout.student = Number.isInteger(v.student) && v.student > 0 ? v.student : 1;
  handout.page = Number.isInteger(v.page) && v.page > 0 ? v.page : 1;
}
