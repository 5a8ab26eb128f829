// The class as one sentence, and what its words can be.
import { Fragment, h } from 'preact';
import { useState } from 'preact/hooks';
import { OwnField } from '../ui/own';
import { PaperPicture } from '../ui/pictures';
import { named } from '../ui/choices';
import { Radios, Tray, Word } from '../ui/tray';
import { Marks } from '../ui/tweaks';
import { words as common } from '../words';
import { handoutWords as words } from '../words-handout';
import { countOf, isOn, namedOf, varyOf, withSetting } from './lesson';
import { StudentList } from './list';
import { change, changeLesson, handout, lessonNow } from './store';
import { state } from '../store';

export function Sentence() {
  const l = lessonNow(),
    names = namedOf(l),
    { duplex } = handout.work.now;
  const paper = `${l.paper || 'A3'}${isOn(l.portrait) ? ` ${words.upright}` : ''}`,
    byPage = l.order === 'page';
  return (
    <section id="desk-brief" class="brief one">
      <p>
        <Word id="title">{l.title ? `“${l.title}”` : words.untitled}</Word> for{' '}
        <Word id="students" end=",">
          {words.students(countOf(l), names.length > 0)}
        </Word>{' '}
        each with <Alike /> on{' '}
        <Word id="paper" end=",">
          {paper}
        </Word>{' '}
        printed{' '}
        <Flip id="duplex" end="," to={() => change({ duplex: !duplex }, duplex ? words.oneSide : words.bothSides)}>
          {duplex ? words.bothSides : words.oneSide}
        </Flip>{' '}
        <Flip
          id="order"
          end="."
          to={() => changeLesson(withSetting(l, 'order', byPage ? undefined : 'page'), byPage ? words.byStudent : words.byPage)}
        >
          {byPage ? words.byPage : words.byStudent}
        </Flip>
      </p>
      {state.tray.startsWith('page') ? null : <Tray content={Choices} />}
    </section>
  );
}

/** A word of two ways flips where it stands. */
export function Flip({ id, end = '', to, children }: { id: string; end?: string; to: () => void; children: string }) {
  return (
    <span class="together">
      <button class="choice" data-word={id} onClick={to}>
        {children}
      </button>
      {end}
    </span>
  );
}

const MIDDLE = 0.6,
  LEAST = 0.1; // less is the same figures

function Alike() {
  const l = lessonNow(),
    own = varyOf(l) > 0;
  const flip = () => changeLesson(withSetting(l, 'vary', own ? undefined : MIDDLE), own ? words.alike : words.own);
  return (
    <>
      <Flip id="vary" end={own ? '' : ','} to={flip}>
        {own ? words.own : words.alike}
      </Flip>
      {own ? (
        <>
          {' '}
          <span class="together">
            (
            <Word id="again" end="),">
              {words.again}
            </Word>
          </span>
        </>
      ) : null}
    </>
  );
}

function Choices({ id }: { id: string }) {
  switch (id) {
    case 'title':
      return <Titles />;
    case 'students':
      return <StudentList />;
    case 'again':
      return <Again />;
  }
  return <Papers />;
}

function Titles() {
  const l = lessonNow();
  const set = (key: string) => (v: string) => changeLesson(withSetting(l, key, v.trim() || undefined), '', key);
  return (
    <div>
      <h2>{words.trays.title}</h2>
      <OwnField label={words.titleIs} now={String(l.title || '')} set={set('title')} wide />
      <OwnField label={words.dateIs} now={String(l.date || '')} set={set('date')} hint="2026-11-25" />
    </div>
  );
}

function Papers() {
  const l = lessonNow(),
    upright = isOn(l.portrait),
    now = String(l.paper || 'A3'),
    turn = () => changeLesson(withSetting(l, 'portrait', upright ? undefined : true));
  return (
    <div>
      <Radios
        id="paper"
        legend={words.trays.paper}
        now={now}
        choose={v => changeLesson(withSetting(l, 'paper', v), v)}
        options={named('paper').map(p => ({ value: p, name: p, picture: <PaperPicture paper={p} /> }))}
      />
      <label class="tick">
        <input type="checkbox" checked={upright} onChange={turn} /> {common.settings.portrait}
      </label>
      <OwnField
        label={common.ownPaper}
        hint={common.ownPaperHint}
        now={now}
        set={v => changeLesson(withSetting(l, 'paper', v.trim() || 'A3'))}
      />
    </div>
  );
}

/** Seed and nearness: another class of the same kind. */
function Again() {
  const l = lessonNow(),
    seed = Number(l.seed) || 0,
    [held, setHeld] = useState(0);
  const draw = (next: number) => changeLesson(withSetting(l, 'seed', next), words.drawn(next));
  return (
    <div class="again">
      <h2>{words.trays.again}</h2>
      <p>
        <button class="plain first" onClick={() => draw(seed + 1)}>
          {words.drawAgain}
        </button>{' '}
        <OwnField label={words.seed} now={String(seed)} numeric set={v => draw(Math.max(0, Math.floor(Number(v)) || 0))} />
      </p>
      <p class="note">{words.seedLine}</p>
      <div class="ends">
        <span>{words.near}</span>
        <label for="handout-vary">{words.nearness}</label>
        <output for="handout-vary">{varyOf(l).toFixed(1)}</output>
        <span>{words.far}</span>
      </div>
      <div class="rule">
        <Marks />
        <input
          id="handout-vary"
          type="range"
          min="0"
          max="1"
          step="0.1"
          value={varyOf(l)}
          aria-valuetext={words.nearnessIs(varyOf(l))}
          onPointerDown={() => setHeld(held + 1)}
          onInput={e => changeLesson(withSetting(lessonNow(), 'vary', Math.max(LEAST, Number(e.currentTarget.value))), '', `vary${held}`)}
        />
      </div>
    </div>
  );
}
