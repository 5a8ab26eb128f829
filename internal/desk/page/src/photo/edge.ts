// The strongest edge near a mark: where one is plain, a mark that was set by hand goes to it.
import type { Point } from './view';

const LEAST = 26, // grey levels that an edge is high, of 255
  PLAIN = 2.6, // times as high as what else is near
  APART = 4, // pixels: what is nearer is the same edge
  RIVAL = 0.5; // all judged by eye

/** The point on the nearest plain edge within a radius of p, in the picture's pixels; null where none is plain. */
export function edgeNear(bitmap: ImageBitmap, p: Point, radius: number): Point | null {
  const r = Math.round(Math.min(Math.max(radius, 3), 40)),
    n = 2 * r + 5,
    left = Math.round(p.x - 0.5) - r - 2,
    top = Math.round(p.y - 0.5) - r - 2;
  if (left < 0 || top < 0 || left + n > bitmap.width || top + n > bitmap.height) return null;
  return edgeIn(greyOf(bitmap, left, top, n), n, r, { x: p.x - left, y: p.y - top }, { x: left, y: top });
}

const canvas = document.createElement('canvas');

function greyOf(bitmap: ImageBitmap, left: number, top: number, n: number): Float32Array {
  canvas.width = canvas.height = n;
  const c = canvas.getContext('2d', { willReadFrequently: true })!;
  c.drawImage(bitmap, left, top, n, n, 0, 0, n, n);
  const { data } = c.getImageData(0, 0, n, n),
    out = new Float32Array(n * n);
  // luma of BT.601 (MEM)
  for (let i = 0; i < out.length; i++) out[i] = 0.299 * data[4 * i] + 0.587 * data[4 * i + 1] + 0.114 * data[4 * i + 2];
  return smooth(out, n);
}

/** Three by three, so that a picture's grain makes no edges. */
function smooth(g: Float32Array, n: number): Float32Array {
  const out = g.slice();
  for (let y = 1; y < n - 1; y++)
    for (let x = 1; x < n - 1; x++) {
      let sum = 0;
      for (let j = -1; j <= 1; j++) for (let i = -1; i <= 1; i++) sum += g[(y + j) * n + x + i] * (2 - Math.abs(i)) * (2 - Math.abs(j));
      out[y * n + x] = sum / 16;
    }
  return out;
}

function edgeIn(g: Float32Array, n: number, r: number, at: Point, corner: Point): Point | null {
  const slope = (x: number, y: number) => ({
    x: (g[y * n + x + 1] - g[y * n + x - 1]) / 2,
    y: (g[(y + 1) * n + x] - g[(y - 1) * n + x]) / 2,
  });
  let best = { weight: 0, height: 0, x: 0, y: 0 },
    sum = 0,
    count = 0;
  for (let y = 2; y < n - 2; y++)
    for (let x = 2; x < n - 2; x++) {
      const away = Math.hypot(x + 0.5 - at.x, y + 0.5 - at.y);
      if (away > r) continue;
      const s = slope(x, y),
        height = Math.hypot(s.x, s.y),
        weight = height * Math.exp(-4 * (away / r) ** 2);
      sum += height;
      count++;
      if (weight > best.weight) best = { weight, height, x, y };
    }
  if (2 * best.height < LEAST || best.height * count < PLAIN * sum) return null;
  const s = slope(best.x, best.y),
    u = { x: s.x / best.height, y: s.y / best.height };
  if (hasRival(slope, n, r, at, best, u)) return null;
  // the top of a parabola through the slopes before, on and after the edge
  const across = (d: number) => {
    const x = Math.min(Math.max(Math.round(best.x + d * u.x), 1), n - 2),
      y = Math.min(Math.max(Math.round(best.y + d * u.y), 1), n - 2),
      t = slope(x, y);
    return { height: Math.hypot(t.x, t.y), d: (x - best.x) * u.x + (y - best.y) * u.y };
  };
  const a = across(-1),
    b = across(1),
    bend = a.height - 2 * best.height + b.height,
    shift = bend < 0 ? Math.min(Math.max((0.5 * (a.height - b.height)) / bend, -0.5), 0.5) : 0;
  return { x: corner.x + best.x + 0.5 + shift * u.x, y: corner.y + best.y + 0.5 + shift * u.y };
}

type Slope = (x: number, y: number) => Point;

/** Whether a second edge near the hand is about as plain: which one was meant is then for the hand to say. */
function hasRival(slope: Slope, n: number, r: number, at: Point, best: Point & { height: number }, u: Point): boolean {
  for (let d = -r; d <= r; d++) {
    const x = Math.round(at.x - 0.5 + d * u.x),
      y = Math.round(at.y - 0.5 + d * u.y);
    if (x < 2 || y < 2 || x > n - 3 || y > n - 3) continue;
    const off = Math.abs((x - best.x) * u.x + (y - best.y) * u.y),
      s = slope(x, y);
    if (off > APART && Math.hypot(s.x, s.y) > RIVAL * best.height) return true;
  }
  return false;
}
