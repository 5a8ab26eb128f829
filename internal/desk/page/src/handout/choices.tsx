// What the words of a page can be.
import { h } from 'preact';
import { useState } from 'preact/hooks';
import { shownPin } from '../desk';
import { DRAWN, nameOf } from '../figures';
import { list, pinsOf, withKey, withoutPin, withPin, withTweak } from '../job';
import { state } from '../store';
import { KindPicture, SegmentPicture } from '../ui/pictures';
import { goes, settingOf } from '../ui/settings';
import { titleOf } from '../ui/title';
import { Radios } from '../ui/tray';
import { Marks } from '../ui/tweaks';
import { words as common } from '../words';
import { handoutWords as words } from '../words-handout';
import { type ClassPage, copiesOf, kindsOf, withPage } from './lesson';
import { OwnField } from '../ui/own';
import { changeLesson, lessonNow } from './store';

/** Changes the page that a tray is about. */
const changePage = (at: number, page: ClassPage, said = '', merge = ''): void => changeLesson(withPage(lessonNow(), at, page), said, merge);

export function PageChoices({ id }: { id: string }) {
  const [, place, what] = id.split('-'),
    at = Number(place),
    page = lessonNow().pages[at];
  if (!page) return <div />;
  switch (what) {
    case 'segment':
      return <Vehicles at={at} page={page} />;
    case 'shape':
      return <Shape at={at} page={page} />;
    case 'kinds':
      return <Kinds at={at} page={page} />;
    case 'given':
      return (
        <Radios
          id="given"
          legend={words.trays.given}
          now={String(page.given ?? lessonNow().given ?? settingOf('given')?.default ?? 1)}
          choose={v => changePage(at, { ...page, given: Number(v) }, words.given(Number(v)))}
          options={[1, 2, 3, 4].map(v => ({ value: String(v), name: words.given(v) }))}
        />
      );
  }
  return <Copies at={at} page={page} />;
}

interface OfPage {
  at: number;
  page: ClassPage;
}

/** Another vehicle, without the tweaks that make no sense of it. */
function Vehicles({ at, page }: OfPage) {
  const choose = (segment: string) => {
    const refused = state.tweaks.filter(t => page.tweak?.[t.name] !== undefined && t.refused[segment]);
    changePage(at, { ...refused.reduce((p, t) => withTweak(p, t.name, 0), { ...page }), segment } as ClassPage, titleOf(segment));
  };
  return (
    <Radios
      id="segment"
      legend={words.trays.segment}
      now={page.segment}
      choose={choose}
      options={state.segments.map(s => ({ value: s.name, name: s.title, picture: <SegmentPicture name={s.name} /> }))}
    />
  );
}

const NOT_HERE = ['demonstration', 'answer', 'overlay'];

function Kinds({ at, page }: OfPage) {
  const now = kindsOf(page),
    view = list(page.view)[0] || 'side',
    all = (settingOf('sheets')?.choices || []).filter(k => now.includes(k) || (!NOT_HERE.includes(k) && goes(k, view)));
  const flip = (kind: string) => {
    const kinds = now.includes(kind) ? now.filter(k => k !== kind) : all.filter(k => k === kind || now.includes(k));
    if (!kinds.length) return;
    // what the practice sheet gives is no word of the others
    const rest = kinds.includes('practice') ? page : withKey(page, 'given', undefined);
    changePage(at, { ...rest, sheets: kinds } as ClassPage, common.and(kinds.map(k => words.kinds[k] || k)));
  };
  return (
    <fieldset>
      <legend>{words.trays.kinds}</legend>
      {all.map(k => (
        <label key={k} class="pick" title={common.kindLines[k]}>
          <input type="checkbox" checked={now.includes(k)} disabled={now.length === 1 && now[0] === k} onChange={() => flip(k)} />
          <KindPicture kind={k} />
          <span>{words.kinds[k] || k}</span>
          <small>{common.kindLines[k]}</small>
        </label>
      ))}
    </fieldset>
  );
}

function Copies({ at, page }: OfPage) {
  const set = (n: number) => changePage(at, withKey(page, 'copies', n > 1 ? n : undefined) as ClassPage, words.copies(n)),
    now = copiesOf(page);
  return (
    <div>
      <Radios
        id="copies"
        legend={words.trays.copies}
        now={String(now)}
        choose={v => set(Number(v))}
        options={[1, 2, 3, 4].map(n => ({ value: String(n), name: words.copies(n) }))}
      />
      <OwnField label={words.otherCount} now={now > 4 ? String(now) : ''} numeric set={v => set(Math.floor(Number(v)) || 1)} />
    </div>
  );
}

/** Tweaks as rules, pins in words. */
function Shape({ at, page }: OfPage) {
  const tweaked = (name: string, v: number) =>
    changePage(at, withTweak(lessonNow().pages[at], name, v) as ClassPage, '', `tweak-${at}-${name}`);
  return (
    <div>
      <h2>{words.trays.shape}</h2>
      <div class="shape">
        {state.tweaks
          .filter(t => !t.refused[page.segment])
          .map(t => {
            const v = Number(page.tweak?.[t.name] || 0);
            return (
              <div key={t.name}>
                <div class="ends">
                  <span>{common.tweakEnds[t.name] || '−'}</span>
                  <output for={`handout-${t.name}`}>{v ? `${v > 0 ? '+' : '−'}${Math.abs(v)}` : '0'}</output>
                  <label for={`handout-${t.name}`}>{t.title.toLowerCase()}</label>
                </div>
                <div class="rule">
                  <Marks />
                  <input
                    id={`handout-${t.name}`}
                    type="range"
                    min="-2"
                    max="2"
                    step="0.1"
                    value={v}
                    aria-valuetext={common.strength(v)}
                    aria-description={t.line}
                    onInput={e => tweaked(t.name, Number(e.currentTarget.value))}
                  />
                </div>
              </div>
            );
          })}
      </div>
      <Pins at={at} page={page} />
    </div>
  );
}

function Pins({ at, page }: OfPage) {
  return (
    <div>
      <ul class="pins">
        {pinsOf(page).map(([f, v]) => (
          <li key={f}>
            <span>
              {nameOf(f)} <b>{shownPin(f, v)}</b>
            </span>
            <button class="plain" aria-label={common.releaseOf(nameOf(f))} onClick={() => changePage(at, withoutPin(page, f) as ClassPage)}>
              {common.release}
            </button>
          </li>
        ))}
      </ul>
      <NewPin pin={(figure, value) => changePage(at, withPin(page, figure, value) as ClassPage, `${nameOf(figure)} ${value}`)} />
    </div>
  );
}

function NewPin({ pin }: { pin: (figure: string, value: string) => void }) {
  const [figure, setFigure] = useState('height'),
    [value, setValue] = useState('');
  const done = () => {
    if (!value.trim()) return;
    pin(figure, value.trim());
    setValue('');
  };
  return (
    <p class="fields">
      <label class="field">
        <span>{words.pinFigure}</span>
        <select value={figure} onChange={e => setFigure(e.currentTarget.value)}>
          {DRAWN.map(f => (
            <option key={f} value={f}>
              {nameOf(f)}
            </option>
          ))}
        </select>
      </label>
      <label class="field">
        <span>{words.pinValue}</span>
        <input
          value={value}
          placeholder={words.pinHint}
          autocomplete="off"
          onInput={e => setValue(e.currentTarget.value)}
          onKeyDown={e => {
            if (e.key === 'Enter') done();
          }}
        />
      </label>
      <button class="plain" data-act="pin" onClick={done}>
        {words.pinIt}
      </button>
    </p>
  );
}
