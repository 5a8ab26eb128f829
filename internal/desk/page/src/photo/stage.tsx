// The picture mounted on the paper, its marks, its figures in the sheet's own lanes, and the cross.
import { h } from 'preact';
import { useEffect, useLayoutEffect, useRef } from 'preact/hooks';
import type { Word } from '../calls';
import { draw } from '../svg';
import { photoWords as words } from '../words-photo';
import { crossOf, nudgeCross, place, cannotBeSeen, markBefore } from './act';
import { refreshPhoto } from './ask';
import { handOf } from './hand';
import { Lens } from './lens';
import { isUnseen, key, markAt, placesOf, samePlace, type Shot } from './marks';
import { pictureOf, wake } from './pictures';
import { photo, setPhoto } from './store';
import { boxOf, onPaper, shownOf, zoomBy } from './view';

export function PhotoStage({ shot }: { shot: Shot }) {
  const f = photo.frame,
    sheet = photo.answers[shot.id]?.sheet;
  const moved = shownOf(shot).join(),
    follows = photo.drawnFor === moved; // lines and figures are those of what is shown
  useEffect(() => {
    const t = setTimeout(refreshPhoto, 150); // the lines follow once the picture rests
    return () => clearTimeout(t);
  }, [moved]);
  if (!f) return <div id="desk-stage" class="stage waiting" />;
  return (
    <div id="desk-stage" class="stage photo" style={{ width: `${f.width}px`, height: `${f.height}px` }}>
      <Art shot={shot} follows={follows} />
      {sheet && follows ? sheet.words.map((w, i) => <SheetWord key={i} word={w} />) : null}
      <Marks shot={shot} />
      <Cross shot={shot} />
      <Lens shot={shot} />
      {photo.without[shot.id] ? <p class="without">{photo.without[shot.id]}</p> : null}
    </div>
  );
}

/** The picture, and over it the lines that the program drew. */
function Art({ shot, follows }: { shot: Shot; follows: boolean }) {
  const [x, y, w, t] = boxOf(shot),
    canvas = useRef<HTMLCanvasElement>(null),
    lines = useRef<SVGSVGElement>(null),
    hand = useRef<HTMLDivElement>(null),
    sheet = photo.answers[shot.id]?.sheet,
    picture = pictureOf(shot.id),
    [sx, sy, sw, st] = shownOf(shot);
  useLayoutEffect(() => {
    const c = canvas.current,
      k = Math.min(devicePixelRatio, 2);
    if (!c) return;
    c.width = Math.round(w * k);
    c.height = Math.round(t * k);
    const g = c.getContext('2d')!;
    if (!picture?.bitmap) {
      void wake(shot.id).then(
        there => there && setPhoto({}),
        () => undefined,
      );
      return g.clearRect(0, 0, c.width, c.height);
    }
    g.imageSmoothingQuality = 'high';
    g.imageSmoothingEnabled = c.width < 3 * sw; // single pixels are seen as such
    g.drawImage(picture.bitmap, sx, sy, sw, st, 0, 0, c.width, c.height);
  }, [picture?.bitmap, w, t, sx, sy, sw, st, devicePixelRatio]);
  useLayoutEffect(() => {
    if (lines.current) draw(lines.current, sheet && follows ? sheet.svg : '<svg xmlns="http://www.w3.org/2000/svg"/>');
  }, [sheet, follows]);
  useEffect(() => handOf(hand.current!), [shot.id]);
  return (
    <div>
      <canvas ref={canvas} class="art" aria-hidden="true" style={{ left: `${x}px`, top: `${y}px`, width: `${w}px`, height: `${t}px` }} />
      <svg id="desk-art" class="layer" ref={lines} aria-hidden="true" focusable="false" />
      <div ref={hand} id="photo-hand" class="reach" style={{ left: `${x}px`, top: `${y}px`, width: `${w}px`, height: `${t}px` }} />
    </div>
  );
}

const ASCENT = 1.025,
  LINE = 1.3; // of the face, in its size

function SheetWord({ word }: { word: Word }) {
  const at = { left: `${word.x}px`, top: `${word.y - ASCENT * word.size}px`, fontSize: `${word.size}px`, lineHeight: String(LINE) };
  return (
    <span class={`word by plain-word ${word.anchor}`} style={at} data-figure={word.figure}>
      {word.spans.map((s, i) => (
        <span key={i} class={`w${s.weight}`}>
          {s.text}
        </span>
      ))}
    </span>
  );
}

const ARM = 8,
  GAP = 2;
const CROSS = [`M${-ARM} 0H${-GAP}M${GAP} 0H${ARM}M0 ${-ARM}V${-GAP}M0 ${GAP}V${ARM}`].join('');

function Marks({ shot }: { shot: Shot }) {
  const f = photo.frame!,
    [x, y, w, t] = boxOf(shot),
    m = photo.moving;
  return (
    <svg class="layer marks-set" viewBox={`0 0 ${f.width} ${f.height}`} aria-hidden="true" focusable="false">
      {placesOf(shot, photo.infos).map(p => {
        const moving = m && samePlace(m.place, p),
          mark = moving ? m : markAt(shot, p);
        if (!mark || isUnseen(shot, p)) return null;
        const at = onPaper(shot, mark);
        if (at.x < x - 1 || at.y < y - 1 || at.x > x + w + 1 || at.y > y + t + 1) return null;
        return (
          <g key={key(p)} data-mark={key(p)} class={samePlace(p, shot.at) ? 'now' : ''} transform={`translate(${at.x} ${at.y})`}>
            <path class="edge" d={CROSS} />
            <path class="line" d={CROSS} />
          </g>
        );
      })}
    </svg>
  );
}

/** The cross is what keys move; it stands at the mark that is asked for, or where such a mark usually is. */
function Cross({ shot }: { shot: Shot }) {
  const c = crossOf(shot),
    at = onPaper(shot, c),
    [x, y, w, t] = boxOf(shot),
    out = at.x < x || at.y < y || at.x > x + w || at.y > y + t;
  return (
    <div
      id="photo-cross"
      class={`cross-at ${out ? 'out' : ''}`}
      data-x={c.x}
      data-y={c.y}
      tabIndex={0}
      role="application"
      aria-label={words.crossLabel(words.placeName(shot.at))}
      aria-describedby="photo-asked"
      style={{ left: `${Math.min(Math.max(at.x, x), x + w)}px`, top: `${Math.min(Math.max(at.y, y), y + t)}px` }}
      onKeyDown={e => keys(e, shot)}
    >
      <svg viewBox="-22 -22 44 44" aria-hidden="true" focusable="false">
        <path class="edge" d="M-20 0H-6M6 0H20M0 -20V-6M0 6V20" />
        <path class="line" d="M-20 0H-6M6 0H20M0 -20V-6M0 6V20" />
      </svg>
    </div>
  );
}

function keys(e: KeyboardEvent, shot: Shot): void {
  const by = e.shiftKey ? 10 : 1,
    ways: Record<string, [number, number]> = { ArrowLeft: [-by, 0], ArrowRight: [by, 0], ArrowUp: [0, -by], ArrowDown: [0, by] };
  if (e.ctrlKey || e.metaKey || e.altKey) return;
  if (ways[e.key]) nudgeCross(...ways[e.key]);
  else if (e.key === 'Enter' || e.key === ' ') place(crossOf(shot), false);
  else if (e.key === 'Delete') cannotBeSeen();
  else if (e.key === 'Backspace') markBefore();
  else if (e.key === '+' || e.key === '=') zoomBy(2, crossOf(shot));
  else if (e.key === '-') zoomBy(0.5, crossOf(shot));
  else return;
  e.preventDefault();
}
