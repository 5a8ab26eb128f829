// Which part of the picture is shown, and where its pixels lie on the screen.
import { isSketch, type Mark, type Shot } from './marks';
import { photo, setPhoto, shotNow } from './store';

export interface Point {
  x: number;
  y: number;
}

const MOST = 24, // screen pixels of a picture's pixel, at the closest
  MOST_CUT = 2; // how much larger than whole a picture is shown at first: sky and road may go (judged by eye)

/** Screen pixels of one of the picture: at a zoom of 1 the whole picture fits into its room on the paper. */
export function scaleOf(s: Shot, zoom = photo.zoom): number {
  const [, , rw, rt] = photo.frame?.room || [0, 0, ...s.size];
  return zoom * Math.min(rw / s.size[0], rt / s.size[1]);
}

/** Where the picture stands on the paper: left, top, width, height. Closer, it fills its room. */
export function boxOf(s: Shot): [number, number, number, number] {
  const [x, y, rw, rt] = photo.frame?.room || [0, 0, ...s.size],
    k = scaleOf(s),
    w = Math.min(rw, k * s.size[0]);
  return [x + (rw - w) / 2, y, w, Math.min(rt, k * s.size[1])];
}

/** The part of the picture that is shown there, in its pixels: left, top, width, height. */
export function shownOf(s: Shot): [number, number, number, number] {
  const [, , bw, bt] = boxOf(s),
    k = scaleOf(s);
  const inside = (middle: number, whole: number, part: number) => Math.min(Math.max(middle * whole - part / 2, 0), whole - part);
  const [w, t] = s.size,
    dx = Math.min(bw / k, w),
    dy = Math.min(bt / k, t);
  return [inside(photo.middle.x, w, dx), inside(photo.middle.y, t, dy), dx, dy];
}

/** Where on the paper a pixel of the picture lies. */
export function onPaper(s: Shot, p: Point): Point {
  const [x, y] = shownOf(s),
    k = scaleOf(s),
    [bx, by] = boxOf(s);
  return { x: bx + (p.x - x) * k, y: by + (p.y - y) * k };
}

/** The opposite of onPaper. */
export function onPicture(s: Shot, p: Point): Point {
  const [x, y] = shownOf(s),
    k = scaleOf(s),
    [bx, by] = boxOf(s);
  return { x: x + (p.x - bx) / k, y: y + (p.y - by) / k };
}

/** Shows more or less of the picture; a point of it stays where it is on the paper. */
export function zoomBy(factor: number, about?: Point): void {
  const s = shotNow();
  if (!s || !photo.frame) return;
  const [x, y, w, t] = shownOf(s),
    at = about || { x: x + w / 2, y: y + t / 2 },
    was = onPaper(s, at),
    zoom = Math.min(Math.max(photo.zoom * factor, 1), Math.max(1, MOST / scaleOf(s, 1)));
  photo.zoom = zoom;
  const [bx, by, bw, bt] = boxOf(s),
    k = scaleOf(s);
  setPhoto({ middle: { x: (at.x + (bx + bw / 2 - was.x) / k) / s.size[0], y: (at.y + (by + bt / 2 - was.y) / k) / s.size[1] } });
}

/** Shows a picture as large as the paper lets it: of one that has marks all of these, of a sketch the whole sheet. */
export function fit(s: Shot): void {
  const [, , rw, rt] = photo.frame?.room || [0, 0, ...s.size],
    [w, t] = s.size,
    all = Object.values(s.marks).flatMap(l => l.filter((m): m is Mark => !!m)),
    whole = scaleOf(s, 1);
  let zoom = isSketch(s) ? 1 : Math.min(Math.max(rw / w, rt / t) / whole, MOST_CUT),
    middle = { x: 0.5, y: 0.55 }; // vehicles stand a little under the middle
  if (all.length > 7) {
    const xs = all.map(m => m.x),
      ys = all.map(m => m.y),
      span = (v: number[]) => Math.max(...v) - Math.min(...v);
    zoom = Math.min(zoom, (0.86 * rw) / span(xs) / whole, (0.8 * rt) / span(ys) / whole);
    middle = { x: (Math.min(...xs) + span(xs) / 2) / w, y: (Math.min(...ys) + span(ys) / 2) / t };
  }
  setPhoto({ zoom: Math.max(1, zoom), middle });
}

/** Moves the picture under the paper's opening, by pixels of the picture. */
export function panBy(dx: number, dy: number): void {
  const s = shotNow();
  if (!s) return;
  const [x, y, w, t] = shownOf(s);
  setPhoto({ middle: { x: (x + w / 2 + dx) / s.size[0], y: (y + t / 2 + dy) / s.size[1] } });
}

/** Moves what is shown so far that a point of the picture is in it. */
export function bringIntoView(s: Shot, p: Point): void {
  const [x, y, w, t] = shownOf(s),
    dx = p.x < x ? p.x - x - 0.3 * w : p.x > x + w ? p.x - x - 0.7 * w : 0,
    dy = p.y < y ? p.y - y - 0.3 * t : p.y > y + t ? p.y - y - 0.7 * t : 0;
  if (dx || dy) panBy(dx, dy);
}
