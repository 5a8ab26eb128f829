// What the words of the underlay's sentence can be.
import { h } from 'preact';
import { change, chooseSegment, release, shownPin } from '../desk';
import { nameOf } from '../figures';
import { compared, isTypical, type Job, kindOf, list, pinsOf, viewOf, withKey } from '../job';
import { set, state } from '../store';
import { words } from '../words';
import { type } from './figure';
import { CameraPicture, KindPicture, PaperPicture, SegmentPicture, ViewPicture } from './pictures';
import { among, fitting, goes, OwnValue, Settings, settingOf, Tick } from './settings';
import { Radios } from './tray';
import { choose } from './choose';
import { titleOf } from './title';

/** The tray of a word. */
export function Choices({ id }: { id: string }) {
  const j = state.job;
  switch (id) {
    case 'segment':
      return (
        <Radios
          id={id}
          now={j.profile ? '' : j.segment}
          options={state.segments.map(s => ({ value: s.name, name: s.title, picture: <SegmentPicture name={s.name} /> }))}
          choose={chooseSegment}
        />
      );
    case 'sheet':
      return <Kinds />;
    case 'view':
      return <Views />;
    case 'paper':
      return <Papers />;
    case 'scale':
      return <Scales />;
    case 'units':
      return (
        <Radios
          id={id}
          now={String(j.units || 'w')}
          options={['w', 'mm', 'in'].map(v => ({ value: v, name: words.units[v] }))}
          choose={v => choose('units', v, 'w')}
        />
      );
    case 'over':
      return <Over />;
    case 'pins':
      return <PinList />;
  }
  return <Settings />;
}

/** Makes a change and leaves out what the new sheet has no use for; it is named, and one undo away. */
function changeFitting(next: Job, what: { words: string }): void {
  const job = fitting(next),
    gone = Object.keys(next)
      .filter(k => !(k in job))
      .map(k => words.settings[k] || k);
  const aside = gone.length ? words.setAside(gone) : '';
  change(job, { words: [what.words, aside].filter(Boolean).join('; ') });
  if (aside) set({ note: { text: aside } });
}

function Kinds() {
  const j = state.job,
    all = (settingOf('sheets')?.choices || ['full', 'trace']).filter(k => k !== 'overlay'),
    kinds = list(j.sheets),
    first = kindOf(j);
  const pick = (k: string) => {
    let next = withKey(withKey(j, 'sheets', k === 'full' ? undefined : [k]), 'against', undefined);
    if (!goes(k, viewOf(j))) next = withKey(next, 'view', undefined);
    changeFitting(next, { words: words.kinds[k] });
  };
  const also = kinds.includes('trace') && first !== 'trace';
  return (
    <div>
      <Radios
        id="sheet"
        now={first}
        choose={pick}
        options={all.map(k => ({ value: k, name: words.kinds[k] || k, line: words.kindLines[k], picture: <KindPicture kind={k} /> }))}
      />
      {first !== 'trace' && goes('trace', viewOf(j)) ? (
        <label class="tick">
          <input
            type="checkbox"
            checked={also}
            onChange={() => choose('sheets', also ? kinds.filter(k => k !== 'trace') : [...(kinds.length ? kinds : ['full']), 'trace'])}
          />{' '}
          {words.also(words.kinds.trace)}
        </label>
      ) : null}
    </div>
  );
}

function Views() {
  const j = state.job,
    all = settingOf('view')?.choices || ['side'],
    view = viewOf(j),
    cameras = settingOf('camera')?.choices || [];
  const pick = (v: string) => {
    let next = withKey(j, 'view', v === 'side' ? undefined : [v]);
    if (v !== 'side' && compared(j)) next = withKey(withKey(next, 'sheets', undefined), 'against', undefined);
    if (!goes(kindOf(next), v)) next = withKey(next, 'sheets', undefined);
    if (v !== 'perspective') next = withoutCamera(next);
    changeFitting(next, { words: words.views[v] });
  };
  return (
    <div>
      <Radios
        id="view"
        now={view}
        choose={pick}
        options={all.map(v => ({ value: v, name: words.views[v] || v, picture: <ViewPicture view={v} /> }))}
      />
      {view === 'perspective' && cameras.length ? (
        <Radios
          id="camera"
          legend={words.camera}
          now={String(j.camera || settingOf('camera')?.default || cameras[0])}
          choose={c => change(withKey(withoutCamera(j), 'camera', c), { words: c.replace('-', ' ') })}
          options={cameras.map(c => ({ value: c, name: c.replace('-', ', '), picture: <CameraPicture camera={c} /> }))}
        />
      ) : null}
    </div>
  );
}

/** A named camera has a turn, eye and lens of its own; those that were set by hand belong to the one before. */
const withoutCamera = (j: Job): Job => ['camera', 'turn', 'eye', 'lens', 'distance', 'tilt'].reduce((o, k) => withKey(o, k, undefined), j);

export const named = (key: string): string[] => (settingOf(key)?.choices || []).filter(c => !/[=:]$/.test(c) && !/px$/.test(c));

function Papers() {
  const now = String(state.job.paper || 'A3'),
    upright = state.job.portrait === true || state.job.portrait === 'true';
  return (
    <div>
      <Radios
        id="paper"
        now={now}
        choose={v => choose('paper', v, 'A3')}
        options={(named('paper').length ? named('paper') : ['A4', 'A3']).map(p => ({
          value: p,
          name: p,
          picture: <PaperPicture paper={p} />,
        }))}
      />
      <label class="tick">
        <input type="checkbox" checked={upright} onChange={() => choose('portrait', !upright, false)} /> {words.settings.portrait}
      </label>
      <OwnValue name="paper" label={words.ownPaper} hint={words.ownPaperHint} now={now} />
    </div>
  );
}

function Scales() {
  const now = String(state.job.scale || 'fit'),
    tile = settingOf('tile'),
    usual = ['fit', '1:20', '1:16', '1:10', '1:5', 'wheel=40mm', 'wheel=60mm'];
  const name = (s: string) =>
    s === 'fit' ? words.largest : s.startsWith('wheel=') ? words.scaleWheel(s.slice(6).replace('mm', ' mm')) : s.replace(':', ' : ');
  // what fits one page is not spread over several
  const pick = (v: string) =>
    change(v === 'fit' ? withKey(withKey(state.job, 'scale', undefined), 'tile', undefined) : withKey(state.job, 'scale', v), {
      words: name(v),
    });
  return (
    <div>
      <Radios id="scale" now={now} choose={pick} options={usual.map(s => ({ value: s, name: name(s) }))} />
      {tile && among(tile.goes) ? <Tick s={tile} disabled={now === 'fit'} /> : null}
      <OwnValue name="scale" label={words.ownScale} hint={words.ownScaleHint} now={now} />
    </div>
  );
}

const SELF = 'itself';

function Over() {
  const j = state.job,
    now = compared(j) ? list(j.against)[0] || SELF : '';
  const pick = (v: string) => {
    const over = (next: Job) => withKey(withKey(next, 'sheets', ['overlay']), 'view', undefined),
      plain = withKey(j, 'against', v && v !== SELF ? [v] : undefined);
    changeFitting(v ? over(plain) : withKey(plain, 'sheets', undefined), {
      words: !v ? words.alone : v === SELF ? words.overTypical : words.laidOver(titleOf(v)),
    });
  };
  return (
    <Radios
      id="over"
      now={now}
      choose={pick}
      options={[
        { value: '', name: words.alone, picture: <KindPicture kind="full" /> },
        {
          value: SELF,
          name: words.overTypical,
          picture: <KindPicture kind="overlay" />,
          line: isTypical(j) ? words.nothingChanged : '',
          refused: isTypical(j) ? words.nothingChanged : '',
        },
        ...state.segments
          .filter(s => s.name !== j.segment)
          .map(s => ({ value: s.name, name: s.title, picture: <SegmentPicture name={s.name} /> })),
      ]}
    />
  );
}

// The pressed button vanishes with its pin: the focus goes to the next one of the list, or to its end.
function releaseHere(figure: string): void {
  release(figure);
  document.querySelector<HTMLElement>('#desk-tray button')?.focus();
}

function PinList() {
  return (
    <ul class="pins" aria-label={words.trays.pins}>
      {pinsOf(state.job).map(([f, v]) => (
        <li key={f}>
          <span>
            {nameOf(f)} <b>{shownPin(f, v)}</b>
          </span>
          <button
            class="plain"
            onClick={() => {
              set({ tray: '' });
              type(f);
            }}
            aria-label={words.typeOf(nameOf(f))}
          >
            {words.type}
          </button>
          <button class="plain" onClick={() => releaseHere(f)} aria-label={words.releaseOf(nameOf(f))}>
            {words.release}
          </button>
        </li>
      ))}
    </ul>
  );
}
