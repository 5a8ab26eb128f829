// Grips: a ring with a tick along the way it can go, a solid head where it is pinned. They are HTML elements, because a browser lets only
// those keep a finger's drag for themselves, and the same element from press to release.
import { h } from 'preact';
import type { Grip as GripOf, Sheet } from '../calls';
import { clashing, hold } from '../desk';
import { dragging, gripName, gripsShown, keyOf, lost, move, nearest, press, release } from '../drag';
import { aloud, numberOf } from '../figures';
import { pinned } from '../job';
import { set, state } from '../store';
import { words } from '../words';
import { cameraKey } from './camera';
import { focusFigure, key } from './figure';

const REACH = 24; // px from a grip's centre

export function Grips({ sheet }: { sheet: Sheet }) {
  const worded = new Set(sheet.words.filter(w => w.spans.some(s => s.value)).map(w => w.figure));
  return (
    <div id="desk-grips">
      {gripsShown(sheet).map(g => (
        <Grip key={keyOf(g)} grip={g} worded={worded.has(g.figure || '')} />
      ))}
    </div>
  );
}

function Grip({ grip, worded }: { grip: GripOf; worded: boolean }) {
  const k = keyOf(grip),
    figure = grip.figure || '',
    is = figure && pinned(state.job, figure);
  const cls = ['grip', grip.way, is && 'pinned', state.held === figure && 'held', figure && clashing(figure) && 'clash']
    .filter(Boolean)
    .join(' ');
  return (
    <div
      class={cls}
      style={{ left: `${grip.x}px`, top: `${grip.y}px` }}
      {...hooks(grip)}
      {...(worded ? { 'aria-hidden': true } : slider(grip))}
      data-grip={k}
      onPointerDown={down}
      onPointerMove={move}
      onPointerUp={release}
      onPointerCancel={lost}
      onLostPointerCapture={lost}
    >
      <svg viewBox="-23 -23 46 46" aria-hidden="true" focusable="false">
        <path class="way" d={grip.way === 'up' ? 'M0-15V15' : grip.way === 'along' ? 'M-15 0H15' : tick(grip)} />
        <circle class="ring" r="7" />
        <circle class="dot" cx="-2" cy="-2" r="1.8" />
      </svg>
    </div>
  );
}

/** The tick of a grip that turns about a point lies along its circle. */
function tick(g: GripOf): string {
  const [ax, ay] = g.about || [g.x, g.y + 1],
    d = Math.hypot(g.x - ax, g.y - ay) || 1,
    x = (-(g.y - ay) / d) * 15,
    y = ((g.x - ax) / d) * 15;
  return `M${-x} ${-y}L${x} ${y}`;
}

const hooks = (g: GripOf) => (g.figure ? { 'data-figure': g.figure } : { 'data-setting': g.setting });

// A figure that no word of the sheet shows is a slider at its grip.
function slider(g: GripOf) {
  const f = g.figure ? state.figures[g.figure] : undefined,
    v = f ? numberOf(f) : (g.value ?? 0);
  const [lo, hi] = f ? f.range || [v - 1, v + 1] : [g.lo ?? v, g.hi ?? v];
  return {
    role: 'slider' as const,
    tabIndex: 0,
    'aria-label': gripName(g),
    'aria-valuenow': v,
    'aria-valuemin': Math.min(lo, v),
    'aria-valuemax': Math.max(hi, v),
    'aria-valuetext': f ? aloud(g.figure!, f, state.wheelMM, clashing(g.figure!)) : undefined,
    onFocus: () => {
      if (g.figure) hold(g.figure);
    },
    onKeyDown: (e: KeyboardEvent) => (g.figure ? key(e, g.figure) : cameraKey(e, g)),
  };
}

/** Why a grip went no further, over it and inside the paper. */
export function Stop({ sheet }: { sheet: Sheet }) {
  const stop = state.stop,
    g = stop && sheet.grips.find(o => o.figure === stop.figure),
    wide = Math.min(256, sheet.width - 8);
  if (!stop || !g) return null;
  const left = Math.max(4, Math.min(sheet.width - wide - 4, g.x - wide / 2));
  return (
    <p class="stop" aria-hidden="true" style={{ left: `${left}px`, width: `${wide}px`, bottom: `${sheet.height - g.y + 26}px` }}>
      <span>{stop.text}</span>
    </p>
  );
}

function down(e: PointerEvent): void {
  const near = nearest(e, REACH);
  if (!near || e.button !== 0 || dragging()) return;
  e.preventDefault();
  const { first, second } = near,
    element = document.querySelector<HTMLElement>(`#desk-grips [data-grip="${keyOf(first)}"]`);
  const coarse = e.pointerType !== 'mouse';
  set({
    offer:
      coarse && second?.figure && first.figure && first.figure !== state.held
        ? { figures: [first.figure, second.figure], x: first.x, y: first.y }
        : null,
  });
  if (first.figure) focusFigure(first.figure);
  if (element) press(e, first, element);
}

/** Two grips under one finger: both names, and the next drag takes the one that was chosen. */
export function Offer() {
  const o = state.offer;
  if (!o) return null;
  return (
    <div class="offer" role="group" aria-label={words.which} style={{ left: `${o.x}px`, top: `${o.y + 30}px` }}>
      {o.figures.map(f => (
        <button
          key={f}
          onClick={() => {
            set({ offer: null });
            focusFigure(f);
          }}
        >
          {gripName({ figure: f } as GripOf)}
        </button>
      ))}
    </div>
  );
}
