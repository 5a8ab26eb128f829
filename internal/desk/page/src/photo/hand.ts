// The hand on the picture: a press sets a mark, a mark that is pressed is dragged, and the picture is moved and zoomed.
import { goToPlace, markNear, moveMark, place } from './act';
import { isOpen, markAt, type Place, samePlace } from './marks';
import { look, photo, setPhoto, shotNow } from './store';
import { onPicture, panBy, type Point, scaleOf, zoomBy } from './view';

interface Press {
  from: Point; // on the paper
  at: Point;
  touch: boolean;
  before: Place; // what was asked for
  mark: { place: Place; off: Point } | null; // a mark that is dragged, and how far off the hand took it
  pans: boolean;
}

const SLACK = 4, // screen pixels that a press may wander
  REACH = 12,
  FINGER = 24;

let press: Press | null = null;
let fingers = new Map<number, Point>();

/** Whether the hand does something that Escape cancels. */
export function cancelHand(): boolean {
  if (!press) return false;
  press = null;
  setPhoto({ moving: null, cross: null });
  return true;
}

/** Listens to the hand on an element that covers the picture; the answer ends it. */
export function handOf(e: HTMLElement): () => void {
  fingers = new Map();
  const on = <K extends keyof HTMLElementEventMap>(name: K, f: (e: HTMLElementEventMap[K]) => void, passive = true) => {
    e.addEventListener(name, f, { passive });
    return () => e.removeEventListener(name, f);
  };
  const off = [
    on('pointerdown', down),
    on('pointermove', move),
    on('pointerup', up),
    on('pointercancel', gone),
    on('pointerleave', left),
    on('wheel', wheel, false),
  ];
  return () => off.forEach(f => f());
}

/** A place on the paper. */
function pointOf(e: MouseEvent): Point {
  const box = document.getElementById('desk-stage')!.getBoundingClientRect();
  return { x: e.clientX - box.left, y: e.clientY - box.top };
}

function down(e: PointerEvent): void {
  const s = shotNow();
  if (!s || e.button > 0) return;
  const p = pointOf(e),
    touch = e.pointerType === 'touch';
  (e.currentTarget as Element).setPointerCapture(e.pointerId);
  fingers.set(e.pointerId, p);
  if (fingers.size > 1) return void cancelHand(); // two fingers move the picture
  const near = markNear(s, p, touch ? FINGER : REACH),
    m = near && markAt(s, near),
    q = onPicture(s, p);
  press = {
    from: p,
    at: p,
    touch,
    before: s.at,
    mark: near && m ? { place: near, off: { x: m.x - q.x, y: m.y - q.y } } : null,
    pans: false,
  };
  setPhoto({ cross: q });
}

function move(e: PointerEvent): void {
  const s = shotNow(),
    p = pointOf(e);
  if (!s) return;
  if (fingers.size > 1) return pinch(e.pointerId, p);
  const q = onPicture(s, p);
  if (!press) {
    if (e.pointerType !== 'touch') setPhoto({ cross: q }); // the magnifier goes with the mouse
    return;
  }
  const k = scaleOf(s),
    wandered = Math.hypot(p.x - press.from.x, p.y - press.from.y) > SLACK;
  if (press.mark) {
    if (!wandered && !photo.moving) return;
    const to = { x: q.x + press.mark.off.x, y: q.y + press.mark.off.y };
    if (!samePlace(press.mark.place, s.at)) look({ ...s, at: press.mark.place });
    setPhoto({ moving: { place: press.mark.place, ...to }, cross: to });
  } else if (press.touch && isOpen(s, s.at))
    setPhoto({ cross: q }); // the mark that is asked for goes with the finger
  else if ((press.pans = press.pans || wandered)) panBy((press.at.x - p.x) / k, (press.at.y - p.y) / k);
  press.at = p;
}

function up(e: PointerEvent): void {
  const several = fingers.size > 1,
    was = press;
  fingers.delete(e.pointerId);
  press = null;
  const s = shotNow();
  if (several || !was || !s) return;
  const moved = photo.moving;
  setPhoto({ moving: null });
  if (moved) {
    moveMark(moved.place, moved);
    const now = shotNow();
    if (now && isOpen(now, was.before)) look({ ...now, at: was.before }); // what was asked for is asked for again
  } else if (was.mark && !isOpen(s, s.at)) goToPlace(was.mark.place);
  else if (!was.pans) place(onPicture(s, pointOf(e)), !e.shiftKey, was.touch); // near another mark too, where one is asked for
  document.getElementById('photo-cross')?.focus({ preventScroll: true });
}

function gone(e: PointerEvent): void {
  fingers.delete(e.pointerId);
  cancelHand();
}

function left(): void {
  if (!press) setPhoto({ cross: null });
}

function pinch(id: number, p: Point): void {
  const s = shotNow(),
    other = [...fingers].find(([i]) => i !== id)?.[1],
    old = fingers.get(id);
  if (!s || !other || !old) return;
  const k = scaleOf(s),
    far = (a: Point) => Math.max(Math.hypot(a.x - other.x, a.y - other.y), 1),
    middle = { x: (p.x + other.x) / 2, y: (p.y + other.y) / 2 };
  panBy((old.x - p.x) / 2 / k, (old.y - p.y) / 2 / k);
  zoomBy(far(p) / far(old), onPicture(s, middle));
  fingers.set(id, p);
}

function wheel(e: WheelEvent): void {
  const s = shotNow();
  if (!s || !(e.ctrlKey || e.metaKey)) return; // without a key the page scrolls
  e.preventDefault();
  zoomBy(Math.exp(-e.deltaY / 400), onPicture(s, pointOf(e)));
}
