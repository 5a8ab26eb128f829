// Printing: what there is, one button, and while it writes a graduated rule.
import { h } from 'preact';
import type { Problem } from '../calls';
import { handoutWords as words } from '../words-handout';
import { handout, lessonNow } from './store';
import { print, refusal, stop } from './print';

const saidOf = (p: Problem): string => [p.where, p.text].filter(Boolean).join(': ');

export function Foot() {
  const { facts, printing, problems } = handout;
  const loose = problems.filter(p => !/^(students|pages)\[/.test(p.where)),
    general = problems.length ? [] : (facts?.warnings || []).filter(w => !/^(students|pages)\[/.test(w.where));
  return (
    <section class="printing" aria-label={words.classFile}>
      {problems.length ? <p class="wrong">{[words.settle, ...loose.map(saidOf)].join('. ')}</p> : null}
      {general.map(w => (
        <p key={w.text} class="note">
          {w.text}
        </p>
      ))}
      {printing ? <Writing /> : <Ready />}
    </section>
  );
}

function Ready() {
  const { facts, files, failed } = handout,
    why = refusal(),
    hasKey = !!facts?.['key-pages'];
  return (
    <p class="ready">
      <span>{facts ? (facts.sheets ? words.sheets(facts.sheets, facts.students) : words.nobodyHere) : ' '}</span>
      <button id="handout-print" class="plain" aria-disabled={!!why} onClick={() => void print()}>
        {words.write(hasKey)}
      </button>
      {why && facts?.sheets ? <span class="note">{why}</span> : null}
      {failed ? <span class="note">{failed}</span> : null}
      {files.length ? <Written /> : null}
    </p>
  );
}

function Written() {
  const { facts, files, printedOf } = handout,
    stale = printedOf !== JSON.stringify([lessonNow(), handout.work.now.duplex]);
  return (
    <span class="note">
      {files.map(f => (
        <span key={f.name}>
          <a href={f.href} download={f.name}>
            {f.name}
          </a>{' '}
        </span>
      ))}
      {stale ? words.since : words.fullSize(facts?.['wheel-mm'] ? String(facts['wheel-mm']) : '')}
    </span>
  );
}

function Writing() {
  const { key, progress } = handout.printing!,
    text = words.writing(words.fileName(key), progress.done, progress.of, progress.student);
  return (
    <div class="ready writing">
      <div
        role="progressbar"
        aria-label={words.progress}
        aria-valuemin={0}
        aria-valuemax={progress.of || 1}
        aria-valuenow={progress.done}
        aria-valuetext={text}
      >
        <Rule done={progress.done} of={progress.of} each={key ? 0 : handout.facts?.['per-student'] || 1} />
      </div>
      <span>{text}</span>
      <button class="plain" data-act="stop" onClick={stop}>
        {words.stop}
      </button>
    </div>
  );
}

const MOST = 400; // ticks; closer ones would be a grey bar

/** A graduated rule: a short tick is a page, a long one a student. */
function Rule({ done, of, each }: { done: number; of: number; each: number }) {
  const step = of <= MOST ? 1 : each && of / each <= MOST ? each : 0,
    at = (n: number) => `${(n / Math.max(of, 1)) * 100}%`,
    ticks = step ? Array.from({ length: Math.floor(of / step) + 1 }, (_, i) => i * step) : [0, of];
  return (
    <svg class="ruler" aria-hidden="true" focusable="false">
      <rect class="done" x="0" y="4" height="12" width={at(done)} />
      <line x1="0" x2="100%" y1="16" y2="16" />
      {ticks.map(n => (
        <line key={n} x1={at(n)} x2={at(n)} y1="16" y2={each && n % each === 0 ? 28 : 21} />
      ))}
    </svg>
  );
}
