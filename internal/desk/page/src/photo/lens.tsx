// The magnifier: the picture about the hand or the cross, in the nearest corner of the picture that covers no open mark.
import { h } from 'preact';
import { useLayoutEffect, useRef } from 'preact/hooks';
import { crossOf } from './act';
import { isOpen, placesOf, type Shot } from './marks';
import { pictureOf } from './pictures';
import { photo } from './store';
import { boxOf, onPaper, scaleOf } from './view';

const TIMES = 6, // as large as the picture on the paper
  LEAST = 2, // screen pixels of a picture's pixel
  MOST = 12;

/** How large it is: as much of a narrow paper as can be spared. */
const sizeOf = (box: number[]): number => Math.round(Math.min(190, 0.42 * box[2], 0.42 * box[3]));

export function Lens({ shot }: { shot: Shot }) {
  const canvas = useRef<HTMLCanvasElement>(null),
    picture = pictureOf(shot.id),
    c = crossOf(shot),
    box = boxOf(shot),
    side = sizeOf(box),
    scale = Math.min(Math.max(TIMES * scaleOf(shot), LEAST), MOST);
  useLayoutEffect(() => {
    const k = Math.min(devicePixelRatio, 2),
      n = canvas.current;
    if (!n || !picture?.bitmap) return;
    n.width = n.height = side * k;
    const g = n.getContext('2d')!,
      across = side / scale;
    g.imageSmoothingEnabled = false;
    g.drawImage(picture.bitmap, c.x - across / 2, c.y - across / 2, across, across, 0, 0, n.width, n.height);
  }, [picture?.bitmap, c.x, c.y, scale, side, devicePixelRatio]);
  if (!picture || (!photo.cross && placesOf(shot, photo.infos).every(p => !isOpen(shot, p)))) return null;
  const at = onPaper(shot, c),
    [x, y, w, t] = box,
    off = 8;
  // of the corners the nearest that stays clear of the hand
  const corners = [
    { x: x + off, y: y + off },
    { x: x + w - side - off, y: y + off },
    { x: x + w - side - off, y: y + t - side - off },
    { x: x + off, y: y + t - side - off },
  ].map(o => ({ ...o, away: Math.hypot(o.x + side / 2 - at.x, o.y + side / 2 - at.y) }));
  // paper that stays free beside the picture: on its left, or before there are figures in their lane on its right
  const f = photo.frame!,
    lane = f.room[0] + f.room[2],
    free = x > side + 2 * off ? x - side - off : !photo.answers[shot.id] && f.width - lane > side + 2 * off ? lane + off : null;
  if (free !== null) corners.splice(0, 4, { x: free, y: Math.min(Math.max(at.y - side / 2, y), y + t - side), away: Infinity });
  const clear = corners.filter(o => o.away > side * 0.95).sort((a, b) => a.away - b.away)[0] || corners.sort((a, b) => b.away - a.away)[0];
  return (
    <div
      id="photo-lens"
      class="lens"
      aria-hidden="true"
      style={{ left: `${clear.x}px`, top: `${clear.y}px`, width: `${side}px`, height: `${side}px` }}
    >
      <canvas ref={canvas} />
      <svg viewBox="-50 -50 100 100" focusable="false">
        <path class="edge" d="M-50 0H-6M6 0H50M0 -50V-6M0 6V50" />
        <path class="line" d="M-50 0H-6M6 0H50M0 -50V-6M0 6V50" />
      </svg>
    </div>
  );
}
