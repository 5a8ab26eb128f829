// What the picture tells, in a few lines: how it is turned, what would narrow the ±, what it reads as, what to move.
import { h } from 'preact';
import { readable } from '../desk';
import { inOrder, nameOf } from '../figures';
import { state } from '../store';
import { photoWords as words } from '../words-photo';
import { goToMark } from './act';
import { titleOf } from '../ui/title';
import { toggle } from '../ui/tray';
import { words as common } from '../words';
import type { Difference, Gain, ReadAnswer } from './calls';
import { isReadable, isSketch, type Shot } from './marks';
import { photo, UNDERLAY } from './store';

export function Foot({ shot }: { shot: Shot }) {
  const a = photo.answers[shot.id],
    problems = photo.problems[shot.id];
  return (
    <section id="photo-foot" class="summary" aria-label={words.foot}>
      {state.silent ? <p role="alert">{words.gone}</p> : null}
      {problems ? (
        <p class="wrong">
          {words.cannotRead}: {problems.map(p => p.text).join('; ')}
        </p>
      ) : null}
      {!a && !problems && !isReadable(shot) ? <p>{isSketch(shot) ? words.wantsSheet : words.wants}</p> : null}
      {a ? <Summary shot={shot} a={a} /> : null}
    </section>
  );
}

function Summary({ shot, a }: { shot: Shot; a: ReadAnswer }) {
  const gains = (photo.gains[shot.id] || []).filter(g => amountOf(g, g.pm) !== amountOf(g, g.from));
  return (
    <div>
      {a.sheet && !a.sheet.words.length ? <Amounts a={a} /> : null}
      <p>
        {[a['skew-words'], a.reading.figures.height?.state === 'read' ? readable(a.ranking) : ''].filter(Boolean).map(t => (
          <span key={t}>{sentence(t)} </span>
        ))}
        <span class="note">{words.means}.</span>
      </p>
      {a.differences ? <Against differences={a.differences} /> : null}
      {gains.length ? (
        <p id="photo-gains">
          {words.helps}{' '}
          {gains.slice(0, 2).map(g => (
            <button key={g.mark} class="plain" data-gain={g.mark} onClick={() => towards(g)}>
              {gainWords(g)}
            </button>
          ))}
        </p>
      ) : null}
    </div>
  );
}

/** How what was read lies to what is over it: what is outside, what cannot be told, what is within. */
function Against({ differences }: { differences: Difference[] }) {
  const sorted = [[], [], []] as string[][];
  for (const d of differences.filter(f => !f.follows)) {
    const within = /^(in|near) /.test(d.words) && !/cannot tell/.test(d.words),
      unsure = /cannot tell/.test(d.words);
    const off = d.words.replace(/[:,]? cannot tell| on your sheet/g, '').replace(/(\d\.\d\d)\d*w?/g, '$1'); // two decimals are what the picture shows
    sorted[within ? 2 : unsure ? 1 : 0].push(within ? nameOf(d.figure) : `${nameOf(d.figure)} ${off}`);
  }
  const { against } = photo.work.now,
    title = against === UNDERLAY ? words.yourUnderlay : titleOf(against),
    [outside, unsure, within] = sorted;
  return (
    <p id="photo-moves">
      <strong>{words.against(against === UNDERLAY ? title : `${common.a(title)} ${title}`)}</strong>{' '}
      {outside.length ? words.outside(outside) : words.noneOutside}{' '}
      <span class="note">{[unsure.length && words.unsure(unsure), within.length && words.within(within)].filter(Boolean).join(' ')}</span>
    </p>
  );
}

/** The figures where the paper is too narrow for them. */
function Amounts({ a }: { a: ReadAnswer }) {
  const read = inOrder(Object.keys(a.reading.figures)).filter(n => SHOWN.has(n) && a.reading.figures[n].state === 'read');
  return (
    <p id="photo-amounts">
      {read.map(n => (
        <span key={n} class="amount">
          {nameOf(n)} <b>{words.amount(a.reading.figures[n])}</b>{' '}
        </span>
      ))}
    </p>
  );
}
const SHOWN = new Set([
  'wheels-between',
  'height',
  'belt',
  'sill',
  'front-overhang',
  'rear-overhang',
  'length',
  'pillar-aim',
  'pillar-rake',
  'glass-end',
]);

const sentence = (t: string): string => `${t[0].toUpperCase()}${t.slice(1)}`.replace(/[.]?$/, '.');

const amountOf = (g: Gain, v: number): string => (/rake|rise/.test(g.figure) ? `${v.toFixed(1)}°` : v.toFixed(2));

function gainWords(g: Gain): string {
  const figure = nameOf(g.figure),
    from = amountOf(g, g.from),
    to = amountOf(g, g.pm);
  return g.mark === 'focal' ? words.gainLens(figure, from, to) : words.gain(words.gainWhat(g.mark, g.count, g.with), figure, from, to);
}

/** Leads to what would help: the mark, or the word of the sentence that gives the lens. */
function towards(g: Gain): void {
  if (g.mark === 'focal') {
    toggle('lens');
    return;
  }
  goToMark(g.mark);
  document.getElementById('photo-cross')?.focus();
}
