// Dragging a grip. On the press the program is asked how far the figure may go; each frame moves one line and one numeral by the sheet's
// map; the drawing behind follows as fast as it is answered. So a drag never makes a clash.
import type { Figures, Grip, Room, Sheet } from './calls';
import { change, hold, refresh, roomOf, shown, stopAt, unitsOf } from './desk';
import { nameOf, numberOf, round, steps, writtenShown } from './figures';
import { type Job, withKey, withPin } from './job';
import { say } from './speak';
import { set, state } from './store';
import { words } from './words';

const ROOMY = 800; // px

/** What can be dragged on a sheet: the grips of its figures, and the eye by the horizon of a perspective. */
export function gripsOn(s: Sheet | null): Grip[] {
  if (!s) return [];
  const c = s.camera;
  return c && s.view === 'perspective'
    ? [
        ...s.grips,
        {
          setting: 'eye',
          x: s.width - (s.width > ROOMY ? 140 : 60), // beside the words at the horizon's end where there is room
          y: c.horizon,
          way: 'up',
          per: c['per-mm'],
          ids: ['horizon'],
          value: c['eye-mm'],
          lo: c.eyes[0],
          hi: c.eyes[1],
        },
      ]
    : s.grips;
}

/** The grips to be shown: one in hand stays, even where the sheet that is drawn meanwhile has no room for it. */
export function gripsShown(s: Sheet): Grip[] {
  const all = gripsOn(s),
    d = drag;
  return d && !all.some(g => keyOf(g) === keyOf(d.grip)) ? [...all, d.grip] : all;
}

export const keyOf = (g: Grip): string => g.figure || g.setting || '';

interface Drag {
  grip: Grip;
  element: HTMLElement;
  pointer: number;
  from: { x: number; y: number };
  at: { x: number; y: number };
  value: number; // when pressed
  now: number;
  job: Job;
  figures: Figures;
  room: Room | null;
  moved: boolean;
  released: boolean; // by the hand, while the room is still asked for
  frame: number;
  numeral: Node | null;
  turned: Element[];
}
let drag: Drag | null = null;
const SLACK = 3; // px that a press may tremble

export const dragging = (): boolean => !!drag;

const stage = (): HTMLElement | null => document.getElementById('desk-stage');
const unitOf = (g: Grip) => (g.figure ? state.figures[g.figure].unit : g.setting === 'turn' ? ('deg' as const) : ('mm' as const));
const valueNow = (g: Grip): number => (g.figure ? numberOf(state.figures[g.figure]) : (g.value ?? NaN));
const fineness = (g: Grip): number => (g.figure ? steps(unitOf(g), unitsOf(), state.wheelMM).small : g.setting === 'eye' ? 10 : 1);

export function jobWith(job: Job, g: Grip, v: number, room?: Room): Job {
  if (g.figure) return withPin(job, g.figure, writtenShown(v, unitOf(g), unitsOf(), state.wheelMM, room?.room));
  return withKey(job, keyOf(g), g.setting === 'eye' ? `${round(v, 1)}mm` : String(round(v, 1)));
}

/** Takes a grip into the hand. The pointer is captured, and the element is the same until it lets go. */
export function press(e: PointerEvent, g: Grip, element: HTMLElement): void {
  if (drag || e.button !== 0 || (g.figure && !(g.figure in state.figures))) return;
  if (g.figure) hold(g.figure);
  if (state.clash) return say(words.clashFirst);
  if (state.problems.length) return;
  const at = { x: e.clientX, y: e.clientY },
    value = valueNow(g);
  if (!Number.isFinite(value)) return;
  const d: Drag = {
    grip: g,
    element,
    pointer: e.pointerId,
    from: at,
    at,
    value,
    now: value,
    job: state.job,
    figures: state.figures,
    room: null,
    moved: false,
    released: false,
    frame: 0,
    numeral: null,
    turned: [],
  };
  drag = d;
  element.setPointerCapture(e.pointerId);
  set({ stop: null });
  if (!g.figure) d.room = { room: [g.lo ?? -Infinity, g.hi ?? Infinity], stops: { lo: words.noRoom, hi: words.noRoom } };
  else
    void roomOf(state.job, g.figure).then(r => {
      if (drag !== d) return;
      if (!r) {
        cancel(); // without its room a figure is not moved
        return;
      }
      d.room = r;
      if (d.released) finish(d);
      else ask();
    });
}

export function move(e: PointerEvent): void {
  if (!drag || e.pointerId !== drag.pointer) return;
  drag.at = { x: e.clientX, y: e.clientY };
  ask();
}

function ask(): void {
  if (drag && !drag.frame) drag.frame = requestAnimationFrame(frame);
}

function angle(about: [number, number], p: { x: number; y: number }): number {
  const box = stage()!.getBoundingClientRect();
  return (Math.atan2(p.y - box.top - about[1], p.x - box.left - about[0]) * 180) / Math.PI;
}

/** The value under the pointer, before any stop. */
function wanted(d: Drag): number {
  const g = d.grip;
  if (g.way !== 'turn') return d.value + (g.way === 'up' ? d.at.y - d.from.y : d.at.x - d.from.x) / g.per;
  const about = g.about || [g.x, g.y],
    by = angle(about, d.at) - angle(about, d.from);
  return d.value + (((by + 540) % 360) - 180) * g.per;
}

function frame(): void {
  const d = drag;
  if (!d) return;
  d.frame = 0;
  if (!d.room || (!d.moved && Math.hypot(d.at.x - d.from.x, d.at.y - d.from.y) < SLACK)) return;
  const [lo, hi] = d.room.room,
    want = wanted(d),
    fine = fineness(d.grip);
  const v = Math.min(hi, Math.max(lo, round(want, fine)));
  const stop = want > hi + fine / 2 ? d.room.stops.hi : want < lo - fine / 2 ? d.room.stops.lo : '';
  if (d.grip.figure && (state.stop?.text || '') !== stop) set({ stop: stop ? { figure: d.grip.figure, text: stop } : null });
  if (v === d.now && d.moved) return;
  d.moved = true;
  d.now = v;
  follow();
  refresh(jobWith(d.job, d.grip, v, d.room), true);
}

/** Puts the line and the numeral in hand where the pointer has them; called again when a newer drawing stands beneath. */
export function follow(): void {
  const d = drag;
  if (!d || !d.moved || !state.sheet) return;
  for (const e of d.turned) e.removeAttribute('transform');
  const there = gripsOn(state.sheet).find(o => keyOf(o) === keyOf(d.grip)),
    g = there || d.grip;
  const drawn = !there ? d.value : g.figure ? numberOf(state.sheet.figures[g.figure]) : (g.value ?? d.now),
    by = (d.now - drawn) * g.per;
  const about = g.about || [g.x, g.y];
  const x = g.way === 'along' ? by : 0,
    y = g.way === 'up' ? by : 0;
  d.element.style.transform = g.way === 'turn' ? turnedGrip(about, g, by) : `translate(${x}px, ${y}px)`;
  const move = g.way === 'turn' ? `rotate(${by} ${about[0]} ${about[1]})` : `translate(${x} ${y})`;
  d.turned = (g.ids || []).map(id => document.querySelector(`#desk-art [id="${CSS.escape(id)}"]`)).filter((e): e is Element => !!e);
  for (const e of d.turned) e.setAttribute('transform', move);
  if (g.figure) count(d, g.figure);
}

function turnedGrip(about: [number, number], g: Grip, by: number): string {
  const a = (by * Math.PI) / 180,
    dx = g.x - about[0],
    dy = g.y - about[1];
  return `translate(${dx * Math.cos(a) - dy * Math.sin(a) - dx}px, ${dx * Math.sin(a) + dy * Math.cos(a) - dy}px)`;
}

function count(d: Drag, figure: string): void {
  d.numeral = document.querySelector(`#desk-figures [data-figure="${CSS.escape(figure)}"] [data-value]`)?.firstChild || null;
  if (d.numeral) d.numeral.nodeValue = shown(figure, d.now);
}

function letGo(d: Drag): void {
  drag = null;
  cancelAnimationFrame(d.frame);
  if (d.element.hasPointerCapture(d.pointer)) d.element.releasePointerCapture(d.pointer);
}

/** Takes everything that the hand moved back to where the drawing has it. */
function tidy(d: Drag): void {
  d.element.style.transform = '';
  for (const e of d.turned) e.removeAttribute('transform');
  if (d.numeral) d.numeral.nodeValue = d.numeral.parentElement?.dataset.value || ''; // what the drawing has there
}

let settling: Drag | null = null;

/** Called when a drawing has been put in place: what was let go stands in it now. */
export function settled(): void {
  if (drag) return follow();
  if (settling) tidy(settling);
  settling = null;
}

export function release(e: PointerEvent): void {
  const d = drag;
  if (!d || e.pointerId !== d.pointer) return;
  d.released = true;
  if (d.room) finish(d); // else once the program has said how far it may go
}

function finish(d: Drag): void {
  cancelAnimationFrame(d.frame);
  frame();
  letGo(d);
  if (!d.moved || Math.abs(d.now - d.value) <= fineness(d.grip) / 2) {
    // a drag that moved nothing leaves no pin
    tidy(d);
    if (d.moved) refresh(d.job);
    return;
  }
  const stop = state.stop;
  settling = d;
  change(jobWith(d.job, d.grip, d.now, d.room || undefined), { figure: d.grip.figure, before: d.figures });
  if (stop && d.grip.figure) stopAt(d.grip.figure, d.now, stop.text);
}

/** The browser took the pointer away: unless it was let go, the drag never was. */
export function lost(): void {
  if (drag && !drag.released) cancel();
}

/** Ends a drag as if it had never been. Reports whether there was one. */
export function cancel(): boolean {
  const d = drag;
  if (!d) return false;
  letGo(d);
  tidy(d);
  set({ stop: null });
  refresh(d.job);
  say(words.dragCancelled);
  return true;
}

/** The grip nearest to a press among those within reach; the one of the figure in hand comes first. */
export function nearest(e: PointerEvent, reach: number): { first: Grip; second: Grip | null } | null {
  const box = stage()!.getBoundingClientRect(),
    x = e.clientX - box.left,
    y = e.clientY - box.top;
  const near = gripsOn(state.sheet)
    .map(g => ({ g, d: Math.hypot(g.x - x, g.y - y) * (g.figure === state.held ? 0.6 : 1) }))
    .filter(n => n.d <= reach)
    .sort((a, b) => a.d - b.d);
  if (!near.length) return null;
  const second = near[1] && near[1].d - near[0].d < reach / 3 ? near[1].g : null;
  return { first: near[0].g, second };
}

export const gripName = (g: Grip): string => (g.figure ? nameOf(g.figure) : words.settings[keyOf(g)] || keyOf(g));
