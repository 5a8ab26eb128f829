// Where marks usually are, so that the cross starts near. Nothing is measured by it; all shares are judged by eye.
import { type Mark, type Place, SHEET, type Shot } from './marks';
import type { Point } from './view';

// of the body, in wheels: behind the front hub, and up from it
const ON_BODY: Record<string, [number, number][]> = {
  ground: [
    [0, -0.5],
    [1, -0.5],
  ],
  nose: [[-1.2, 0.3]],
  roof: [[2.4, 1.75]],
  belt: [
    [1.4, 1.1],
    [2.6, 1.15],
  ],
  sill: [[1.9, -0.15]],
  lowest: [[1.9, -0.25]],
  pillar: [
    [1, 1.1],
    [1.7, 1.65],
  ],
  'glass-end': [[3.8, 1.2]],
  'front-lamp': [
    [-0.9, 0.35],
    [-0.8, 0.55],
  ],
  'rear-lamp': [
    [4.7, 0.5],
    [4.7, 0.75],
  ],
  cowl: [[0.8, 1]],
  header: [[1.8, 1.7]],
  'bonnet-edge': [[-0.9, 0.7]],
  chin: [[-1, -0.15]],
  'arch-front': [[0, 0.62]],
  deck: [[4.2, 1]],
  tail: [[4.9, 0.4]],
  'tail-foot': [[4.4, 1.1]],
  'tail-low': [[4.7, -0.1]],
  'arch-rear': [[3.8, 0.62]],
};
const REARWARD = new Set(['tail', 'rear-lamp', 'deck', 'tail-foot', 'tail-low', 'arch-rear', 'glass-end']); // go with the rear wheel
const TYRE = [150, 180, 205, 235, 305, 335, 0, 30]; // degrees round the hub: four in front, four behind, none at the bottom

/** A place of the picture, in its pixels. */
export function usualPlace(s: Shot, { mark, index }: Place): Point {
  const [w, t] = s.size,
    side = SHEET.indexOf(mark);
  if (side >= 0) return { x: [0.06, 0.5, 0.94, 0.5][side] * w, y: [0.5, 0.06, 0.5, 0.94][side] * t };
  if (mark === 'bar') return { x: (0.78 + 0.16 * index) * w, y: 0.92 * t };
  const left = s.known.facing !== 'right',
    front = wheel(s, 'tyre-front') || { x: (left ? 0.27 : 0.73) * w, y: 0.6 * t, d: 0.13 * w },
    rear = wheel(s, 'tyre-rear') || { x: front.x + (left ? 3.8 : -3.8) * front.d, y: front.y, d: front.d },
    way = left ? 1 : -1;
  const round = (o: Wheel, angle: number, k = 1) => ({
    x: o.x + (way * k * o.d * Math.cos((angle * Math.PI) / 180)) / 2,
    y: o.y + (k * o.d * Math.sin((angle * Math.PI) / 180)) / 2,
  });
  if (mark === 'tyre-front' || mark === 'tyre-rear') return round(mark === 'tyre-front' ? front : rear, TYRE[index % 8]);
  if (mark === 'hub-front' || mark === 'hub-rear') return mark === 'hub-front' ? front : rear;
  if (mark === 'far-front' || mark === 'far-rear') return round(mark === 'far-front' ? front : rear, 40 + 33 * index, 0.85);
  const [x, y] = (ON_BODY[mark] || [[2, 0.5]])[index] || [2, 0.5],
    o = REARWARD.has(mark) || (mark === 'ground' && index) ? rear : front,
    back = o === rear ? x - 3.8 : x;
  return mark === 'ground' ? { x: o.x, y: o.y - y * o.d } : { x: o.x + way * back * front.d, y: o.y - y * front.d };
}

interface Wheel extends Point {
  d: number;
}

/** A wheel as its marks lie round it, roughly. */
function wheel(s: Shot, tyre: string): Wheel | null {
  const all = (s.marks[tyre] || []).filter((m): m is Mark => !!m);
  if (all.length < 3) return null;
  const xs = all.map(m => m.x),
    ys = all.map(m => m.y),
    d = Math.max(...xs) - Math.min(...xs);
  return { x: (Math.max(...xs) + Math.min(...xs)) / 2, y: Math.min(...ys) + d / 2, d };
}
