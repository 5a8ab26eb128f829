// The camera of a perspective: its turn by dragging the drawing, its eye by the grip on the horizon, and both and the lens by rules.
import { h } from 'preact';
import type { Grip, Sheet } from '../calls';
import { change, refresh } from '../desk';
import { jobWith, keyOf } from '../drag';
import { round } from '../figures';
import { withKey } from '../job';
import { state } from '../store';
import { words } from '../words';
import { Marks } from './tweaks';

/** The three rules of a camera, as grips without a place on the sheet. */
function rulesOf(s: Sheet | null): Grip[] {
  const c = s?.camera;
  if (!c || s.view !== 'perspective') return [];
  const rule = (setting: 'turn' | 'eye' | 'lens', value: number, [lo, hi]: [number, number]): Grip => ({
    setting,
    x: 0,
    y: 0,
    way: 'along',
    per: 1,
    value,
    lo,
    hi,
  });
  return [rule('turn', c.turn, c.turns), rule('eye', c['eye-mm'], c.eyes), rule('lens', c.lens || 50, c.lenses)];
}
const STEP: Record<string, number> = { turn: 1, eye: 20, lens: 1 };

const said = (g: Grip, v: number): string => (g.setting === 'turn' ? `${round(v, 1)}°` : `${round(v, g.setting === 'eye' ? 10 : 1)} mm`);

export function Camera() {
  const grips = rulesOf(state.sheet);
  if (!grips.length) return null;
  return (
    <section id="desk-camera" class="tweaks camera" aria-label={words.cameraRow}>
      <div class="rules">
        {grips.map(g => (
          <Rule key={keyOf(g)} grip={g} />
        ))}
      </div>
    </section>
  );
}

function Rule({ grip }: { grip: Grip }) {
  const k = keyOf(grip),
    v = grip.value!,
    ends = words.cameraEnds[k] || ['', ''],
    id = `desk-camera-${k}`;
  return (
    <div class="tweak">
      <div class="ends">
        <label for={id}>{words.settings[k] || k}</label>
        <output for={id}>{said(grip, v)}</output>
      </div>
      <div class="rule">
        <Marks />
        <input
          id={id}
          data-setting={k}
          type="range"
          min={grip.lo}
          max={grip.hi}
          step={STEP[k]}
          value={v}
          aria-valuetext={said(grip, v)}
          onInput={e =>
            change(jobWith(lensOnly(k), grip, Number(e.currentTarget.value)), {
              merge: `camera ${k}`,
              words: `${words.settings[k]} ${said(grip, Number(e.currentTarget.value))}`,
            })
          }
        />
      </div>
      <div class="ends">
        <span>{ends[0]}</span>
        <span>{ends[1]}</span>
      </div>
    </div>
  );
}

/** A lens and a distance exclude each other. */
const lensOnly = (key: string) => (key === 'lens' ? withKey(state.job, 'distance', undefined) : state.job);

export function cameraKey(e: KeyboardEvent, g: Grip): void {
  const by: Record<string, number> = { ArrowUp: 1, ArrowRight: 1, ArrowDown: -1, ArrowLeft: -1 };
  if (!(e.key in by) || g.value === undefined) return;
  e.preventDefault();
  const v = g.value + by[e.key] * STEP[keyOf(g)] * (e.shiftKey ? 10 : 1);
  change(jobWith(state.job, g, Math.min(g.hi ?? v, Math.max(g.lo ?? v, v))), { merge: `camera ${keyOf(g)}` });
}

// Dragging the drawing turns the vehicle. Nothing is moved by the page: the drawing follows as fast as it is answered.
const PER_PIXEL = 0.25; // degrees
let turning: { pointer: number; x: number; grip: Grip; value: number; now: number; job: typeof state.job } | null = null;

export function turnable(s: Sheet) {
  const grip = rulesOf(s).find(g => g.setting === 'turn');
  if (!grip || state.clash) return {};
  return {
    'data-turns': '',
    onPointerDown: (e: PointerEvent) => {
      if (e.button !== 0 || (e.target as Element).closest('.grip, .word, .editor')) return;
      (e.currentTarget as Element).setPointerCapture(e.pointerId);
      turning = { pointer: e.pointerId, x: e.clientX, grip, value: grip.value!, now: grip.value!, job: state.job };
    },
    onPointerMove: (e: PointerEvent) => {
      if (!turning || e.pointerId !== turning.pointer) return;
      const sign = s.map?.facing === 'right' ? -1 : 1,
        want = turning.value + sign * (e.clientX - turning.x) * PER_PIXEL;
      const v = round(Math.min(turning.grip.hi ?? 90, Math.max(turning.grip.lo ?? -90, want)), 1);
      if (v === turning.now) return;
      turning.now = v;
      refresh(jobWith(turning.job, turning.grip, v), true);
    },
    onPointerUp: () => {
      const t = turning;
      turning = null;
      if (t && t.now !== t.value) change(jobWith(t.job, t.grip, t.now), { words: `${words.settings.turn} ${said(t.grip, t.now)}` });
    },
    onPointerCancel: () => {
      if (turning) {
        const job = turning.job;
        turning = null;
        refresh(job);
      }
    },
  };
}
