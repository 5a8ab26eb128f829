// The walk of marks: a small drawing for each, in the order in which they are set, and the one sentence about the mark that is asked for.
import { h } from 'preact';
import { useLayoutEffect, useRef } from 'preact/hooks';
import { photoWords as words } from '../words-photo';
import { asSet, cannotBeSeen, crossOf, goToStep, markBefore, place } from './act';
import { isUnseen, markAt, SHEET, type Shot, type Step, stepOf, stepsOf } from './marks';
import { photo } from './store';
import { zoomBy } from './view';

export function Walk({ shot }: { shot: Shot }) {
  const now = stepOf(shot, photo.infos),
    list = useRef<HTMLOListElement>(null);
  useLayoutEffect(() => {
    const all = list.current,
      here = all?.querySelector<HTMLElement>('[aria-current]');
    if (all && here) all.scrollLeft = here.offsetLeft - (all.clientWidth - here.clientWidth) / 2; // a narrow page shows a few
  }, [now?.id]);
  return (
    <section class="walk">
      <ol aria-label={words.walk} ref={list}>
        {stepsOf(shot, photo.infos).map(t => (
          <li key={t.id}>
            <StepButton shot={shot} step={t} here={t.id === now?.id} />
          </li>
        ))}
      </ol>
      <Asked shot={shot} />
    </section>
  );
}

function StepButton({ shot, step, here }: { shot: Shot; step: Step; here: boolean }) {
  const set = step.places.filter(p => markAt(shot, p)).length,
    unseen = step.places.filter(p => isUnseen(shot, p)).length,
    all = set + unseen === step.places.length;
  return (
    <button
      class="step"
      data-step={step.id}
      aria-current={here ? 'step' : undefined}
      onClick={e => {
        goToStep(step.id);
        if (!e.detail) document.getElementById('photo-cross')?.focus(); // by key: the cross is what goes on
      }}
    >
      <Small id={step.id} right={shot.known.facing === 'right'} />
      <span>{words.steps[step.id]}</span>
      <span class="aside">: {words.stepState(set, step.places.length, unseen)}</span>
      <i aria-hidden="true">{all ? (set ? '✓' : '–') : set ? `${set}/${step.places.length}` : ''}</i>
    </button>
  );
}

const BODY = 'M6 27v-6q0-3 4-4l12-2 8-8q2-1 5-1h16q3 0 5 2l6 8q3 1 3 4v7z',
  WHEELS = 'M12 27a5 5 0 1 0 10 0a5 5 0 1 0-10 0M46 27a5 5 0 1 0 10 0a5 5 0 1 0-10 0',
  LARGE = 'M8 18a11 11 0 1 0 22 0a11 11 0 1 0-22 0M42 18a11 11 0 1 0 22 0a11 11 0 1 0-22 0',
  PAPER = 'M6 5h60v28H6z';
const dots = (...all: [number, number][]): string =>
  all.map(([x, y]) => `M${x - 1.6} ${y}a1.6 1.6 0 1 0 3.2 0a1.6 1.6 0 1 0-3.2 0`).join('');
const flank = (x: number, way: number): string =>
  dots([x + way * 8, 10.5], [x + way * 10.6, 15], [x + way * 10.6, 20.5], [x + way * 8.6, 25]);

const DOTS: Record<string, string> = {
  'front-front': flank(19, -1),
  'front-rear': flank(19, 1),
  'rear-front': flank(53, -1),
  'rear-rear': flank(53, 1),
  ground: dots([17, 32], [51, 32]),
  far: dots([21, 31], [24, 32], [55, 31], [58, 32]),
  ends: dots([6, 22], [65, 22]),
  roof: dots([41, 6]),
  belt: dots([32, 15], [52, 15]),
  under: dots([34, 27], [34, 31]),
  pillar: dots([24, 14], [31, 7]),
  'glass-end': dots([61, 13]),
  lamps: dots([8, 19], [64, 19]),
  more: dots([22, 15], [29, 7], [8, 17], [62, 10]),
  sheet: dots([6, 19], [36, 5], [66, 19], [36, 33]),
};

/** A step's small picture: it names, and measures nothing. */
function Small({ id, right }: { id: string; right: boolean }) {
  const tyre = /-(front|rear)$/.test(id);
  return (
    <svg class={`picture ${right ? 'right' : ''}`} viewBox="0 0 72 36" aria-hidden="true" focusable="false">
      {id === 'sheet' ? <path class="hair" d={PAPER} /> : tyre ? <path class="line" d={LARGE} /> : <path class="hair" d={BODY} />}
      {id === 'sheet' || tyre ? null : <path class="line" d={WHEELS} />}
      <path class="mark" d={DOTS[id]} />
    </svg>
  );
}

/** How far the last mark went to an edge, in pixels of the picture. */
function gone(s: Shot): number {
  const { place, raw } = photo.snapped!,
    m = markAt(s, place);
  return m ? Math.max(1, Math.round(Math.hypot(m.x - raw.x, m.y - raw.y))) : 0;
}

function Asked({ shot }: { shot: Shot }) {
  const { mark } = shot.at,
    where = mark === 'bar' ? words.barWhere : SHEET.includes(mark) ? words.sheetWhere : photo.infos.find(i => i.name === mark)?.where || '',
    name = words.placeName(shot.at);
  return (
    <div class="asked">
      <p id="photo-asked">
        <strong>{name[0].toUpperCase() + name.slice(1)}:</strong> {where.replace(/[.]?$/, '.').replace(/^\w/, c => c.toUpperCase())}{' '}
        {photo.snapped ? (
          <button class="plain" data-do="as-set" onClick={asSet}>
            {words.asSet(gone(shot))}
          </button>
        ) : (
          <span class="keys">{words.keysHint}</span>
        )}
      </p>
      <p class="acts">
        <button class="plain" data-do="place" onClick={() => place(crossOf(shot), false)}>
          {words.place}
        </button>
        <button class="plain" data-do="unseen" onClick={cannotBeSeen}>
          {words.cannot}
        </button>
        <button class="plain" data-do="before" onClick={markBefore}>
          {words.before}
        </button>
        <button class="plain" data-do="closer" onClick={() => zoomBy(2, crossOf(shot))}>
          {words.closer}
        </button>
        <button class="plain" data-do="farther" aria-disabled={photo.zoom <= 1} onClick={() => zoomBy(0.5)}>
          {words.farther}
        </button>
        <button class="plain" data-do="whole" aria-disabled={photo.zoom <= 1} onClick={() => zoomBy(1 / photo.zoom)}>
          {words.whole}
        </button>
      </p>
    </div>
  );
}
