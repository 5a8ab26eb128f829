// What the place of photographs remembers: the pictures with their marks and their undo lists, and the last answers.
import { begun, changed, type History, redone, undone } from '../history';
import { keepFor, kept } from '../storage';
import { redraw } from '../store';
import type { Gain, MarkInfo, Norms, Problem, ReadAnswer } from './calls';
import { isShot, type Place, type Shot } from './marks';

export interface Work {
  shots: Shot[];
  now: number; // the id of the one on the paper
  against: string; // what lies over the picture: '' nothing, a segment, or UNDERLAY
}

export const UNDERLAY = 'underlay'; // the job of the other place

/** The paper on the screen, and the room that a picture has on it: left, top, width, height. */
export interface Frame {
  width: number;
  height: number;
  room: [number, number, number, number];
}

interface Photo {
  work: History<Work>;
  infos: MarkInfo[];
  papers: string[];
  frame: Frame | null;
  drawnFor: string; // the part of the picture that the last answer is for
  answers: Record<number, ReadAnswer>; // by the shot's id, as all below
  problems: Record<number, Problem[]>;
  gains: Record<number, Gain[]>;
  without: Record<number, string>; // why a picture is not shown
  zoom: number; // 1: the whole picture
  middle: { x: number; y: number }; // of what is shown, as shares of the picture
  cross: { x: number; y: number } | null; // where the hand is, in pixels of the picture
  moving: { place: Place; x: number; y: number } | null; // a mark on its way
  snapped: { place: Place; raw: { x: number; y: number } } | null; // the last mark that went to an edge
  norms: Norms | null;
}

const nothing: Work = { shots: [], now: 0, against: '' };

export const photo: Photo = {
  work: begun(nothing),
  infos: [],
  papers: [],
  frame: null,
  drawnFor: '',
  answers: {},
  problems: {},
  gains: {},
  without: {},
  zoom: 1,
  middle: { x: 0.5, y: 0.5 },
  cross: null,
  moving: null,
  snapped: null,
  norms: null,
};

export const shotNow = (): Shot | undefined => photo.work.now.shots.find(s => s.id === photo.work.now.now);

const KEY = 'hubrule-photo-1';

/** Changes what is remembered, and redraws. */
export function setPhoto(change: Partial<Photo>): void {
  Object.assign(photo, change);
  if (change.work) {
    const { now, past, future } = change.work;
    keepFor(KEY, { now, past: past.slice(-30), future: future.slice(0, 30) }, { now, past: [], future: [] });
  }
  redraw();
}

let merging = '';

/** Makes a change of the work: a step of undo of its own, or one with the change before where both have the same `merge`. */
export function setWork(work: Partial<Work>, merge = ''): void {
  const goesOn = !!merge && merge === merging;
  merging = merge;
  setPhoto({ work: changed(photo.work, { ...photo.work.now, ...work }, goesOn), norms: null });
}

/** Puts a changed shot in place of what it was. */
export function setShot(shot: Shot, merge = ''): void {
  setWork({ shots: photo.work.now.shots.map(s => (s.id === shot.id ? shot : s)) }, merge);
}

/** Goes to another place or picture, which is no step of undo. */
export function look(shot: Shot): void {
  const work = { ...photo.work.now, now: shot.id, shots: photo.work.now.shots.map(s => (s.id === shot.id ? shot : s)) };
  merging = '';
  setPhoto({ work: { ...photo.work, now: work } });
}

export function step(back: boolean): boolean {
  const work = back ? undone(photo.work) : redone(photo.work);
  if (work === photo.work) return false;
  merging = '';
  setPhoto({ work, snapped: null, norms: null });
  return true;
}

function isWork(v: unknown): v is Work {
  const w = v as Work;
  return typeof v === 'object' && v !== null && Array.isArray(w.shots) && w.shots.every(isShot) && typeof w.now === 'number';
}

/** Takes what an earlier visit left. */
export function restorePhoto(): boolean {
  const v = kept(KEY) as History<Work> | null;
  if (!v || !isWork(v.now) || ![v.past, v.future].every(l => Array.isArray(l) && l.every(isWork))) return false;
  photo.work = v;
  return v.now.shots.length > 0;
}

let lastId = 0;

/** A number that no shot of any window has: the moment it was taken up, in milliseconds. */
export function nextId(): number {
  lastId = Math.max(lastId + 1, Date.now());
  return lastId;
}
