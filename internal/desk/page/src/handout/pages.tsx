// What everybody gets: a numbered list of sentences, each with its sheets in small.
import { Fragment, h } from 'preact';
import { shownPin } from '../desk';
import { nameOf } from '../figures';
import { list, pinsOf, tweaksOf, viewsOf } from '../job';
import { state } from '../store';
import { settingOf } from '../ui/settings';
import { titleOf } from '../ui/title';
import { Tray, Word } from '../ui/tray';
import { words as common } from '../words';
import { handoutWords as words } from '../words-handout';
import { look } from './ask';
import { type ClassPage, copiesOf, kindsOf, movedPage, pageOf, withPages } from './lesson';
import { PageChoices } from './choices';
import { changeLesson, handout, lessonNow } from './store';

export function Pages() {
  const l = lessonNow(),
    facts = handout.facts;
  const add = (page: ClassPage) => changeLesson(withPages(l, [...l.pages, page]), words.added(l.pages.length + 1));
  return (
    <section class="gets" aria-labelledby="handout-gets">
      <h2 id="handout-gets">{words.gets}</h2>
      <ol>
        {l.pages.map((p, i) => (
          <Item key={i} page={p} at={i} />
        ))}
      </ol>
      <div class="more">
        <p>
          <button class="plain first" data-act="one-more" onClick={() => add({ segment: 'sedan', sheets: ['trace'] })}>
            {words.onePage}
          </button>
          <button
            class="plain"
            data-act="this-underlay"
            title={words.thisUnderlayLine(titleOf(state.job.segment))}
            onClick={() => add(pageOf(state.job))}
          >
            {words.thisUnderlay}
          </button>
        </p>
        {facts ? <p class="key">{facts['key-pages'] ? words.keyToo(facts['key-pages']) : words.noKey}</p> : null}
      </div>
    </section>
  );
}

/** The kinds of sheet of a page in words. */
const kindWords = (p: ClassPage): string => common.and(kindsOf(p).map(k => words.kinds[k] || k));

function shapeWords(p: ClassPage): string {
  const tweaks = tweaksOf(p).map(([n, v]) => `${n} ${v > 0 ? '+' : '−'}${Math.abs(v)}`),
    pins = pinsOf(p).map(([f, v]) => `${nameOf(f)} ${shownPin(f, v)}`);
  return words.changed(tweaks, pins) || words.asTypical;
}

function Item({ page, at }: { page: ClassPage; at: number }) {
  const l = lessonNow(),
    n = at + 1,
    practice = kindsOf(page).includes('practice'),
    views = viewsOf(page),
    title = titleOf(page.segment),
    given = Number(page.given ?? l.given ?? settingOf('given')?.default) || 1;
  return (
    <li class="item" aria-label={words.pageOf(n)} data-page={n}>
      <p class="says">
        <b aria-hidden="true">{n}</b> {common.a(title) === 'a' ? 'A' : 'An'} <Word id={`page-${at}-segment`}>{title}</Word>
        {', '}
        <Word id={`page-${at}-shape`} end=",">
          {shapeWords(page)}
        </Word>{' '}
        {views.join() === 'side' ? '' : `${common.and(views.map(v => common.views[v] || v))}, `}
        as <Word id={`page-${at}-kinds`}>{kindWords(page)}</Word>
        {practice ? (
          <>
            {' '}
            with <Word id={`page-${at}-given`}>{words.given(given)}</Word> given
          </>
        ) : null}
        ,{' '}
        <Word id={`page-${at}-copies`} end=".">
          {words.copies(copiesOf(page))}
        </Word>
      </p>
      {state.tray.startsWith(`page-${at}-`) ? <Tray content={PageChoices} wrong={<Wrong at={at} />} /> : null}
      <Said at={at} />
      <div class="made">
        <Small at={at} />
        <Acts at={at} />
      </div>
    </li>
  );
}

/** What is wrong with a page, or to be known of it. */
function Said({ at }: { at: number }) {
  const where = `pages[${at + 1}]`,
    wrong = handout.problems.filter(p => p.where.startsWith(where)),
    warnings = wrong.length ? [] : (handout.facts?.warnings || []).filter(w => w.where === where);
  if (!wrong.length && !warnings.length) return null;
  return <p class={wrong.length ? 'wrong' : 'note'}>{[...wrong, ...warnings].map(p => p.text).join('; ')}</p>;
}

function Wrong({ at }: { at: number }) {
  const wrong = handout.problems.filter(p => p.where.startsWith(`pages[${at + 1}]`));
  return wrong.length ? <p class="wrong">{wrong.map(p => p.text).join('; ')}</p> : null;
}

// The buttons move with their page: after a press the focus stays on the same word of the same page.
function move(at: number, by: number): void {
  changeLesson(movedPage(lessonNow(), at, by), words.movedTo(at + by + 1));
  const same = `.item[data-page="${at + by + 1}"] [data-act="${by < 0 ? 'earlier' : 'later'}"]`;
  document.querySelector<HTMLElement>(same)?.focus({ preventScroll: true });
}

function takeOut(at: number): void {
  const l = lessonNow();
  changeLesson(
    withPages(
      l,
      l.pages.filter((_, i) => i !== at),
    ),
    words.takenOut,
  );
  const next = `.item[data-page="${Math.min(at + 1, l.pages.length - 1)}"] .choice`;
  document.querySelector<HTMLElement>(next)?.focus({ preventScroll: true });
}

function Acts({ at }: { at: number }) {
  const n = at + 1,
    many = lessonNow().pages.length;
  const act = (name: string, spoken: string, does: () => void, off: boolean, word: string) => (
    <button class="plain" data-act={name} aria-label={spoken} aria-disabled={off} onClick={() => (off ? undefined : does())}>
      {word}
    </button>
  );
  return (
    <p class="acts">
      {act('earlier', words.earlierOf(n), () => move(at, -1), at === 0, words.earlier)}
      {act('later', words.laterOf(n), () => move(at, 1), n === many, words.later)}
      {act('out', words.takeOutOf(n), () => takeOut(at), many === 1, words.takeOut)}
    </p>
  );
}

/** The page's sheets in small, as the student who is looked at gets them; a press enlarges one. */
function Small({ at }: { at: number }) {
  const facts = handout.facts?.pages[at];
  if (!facts) return <p class="small" />;
  return (
    <p class="small">
      {facts.sheets.map((s, i) => {
        const page = facts.first + i,
          shown = handout.small[page],
          name = words.kinds[s.kind] || list(s.kind)[0];
        return (
          <button
            key={page}
            data-sheet={page}
            aria-label={words.enlarge(name)}
            aria-pressed={page === handout.page}
            onClick={() => look({ page })}
          >
            {shown ? <img src={shown.sheet} alt="" width={shown.width} height={shown.height} decoding="async" /> : <i />}
          </button>
        );
      })}
    </p>
  );
}
