// The brief as one sentence. Each of its words opens small pictures of what it can be, or flips.
import { Fragment, h } from 'preact';
import { change, readable, release, shownPin } from '../desk';
import { nameOf } from '../figures';
import { baseOf, compared, isTypical, kindOf, list, pinsOf, profileName, tweaksOf, typical, viewsOf, withKey } from '../job';
import { state } from '../store';
import { words } from '../words';
import { type } from './figure';
import { Choices } from './choices';
import { isOn } from './guides';
import { linesWord } from './settings';
import { titleOf } from './title';
import { Tray, Word } from './tray';

const LISTED = 2; // more pins than this are counted, and listed in a tray

export function Sentence() {
  const j = state.job,
    own = profileName(j),
    title = own ? own[0].toUpperCase() + own.slice(1) : titleOf(j.segment),
    A = own ? '' : words.a(title) === 'a' ? 'A' : 'An',
    kind = kindOf(j);
  const kinds = list(j.sheets).length ? list(j.sheets) : ['full'],
    kindWords = kinds.map(k => words.kinds[k] || k);
  const tweaks = tweaksOf(j).map(([n, v]) => `${n} ${v > 0 ? '+' : '−'}${Math.abs(v)}`),
    alone = !compared(j);
  return (
    <section id="desk-brief" class="brief">
      <p>
        {A}{' '}
        <Word id="segment" end={own ? `, ${words.a(titleOf(baseOf(j)))} ${titleOf(baseOf(j))},` : ''}>
          {title}
        </Word>{' '}
        {tweaks.length ? words.made(tweaks) : own ? words.ownProportions : words.typicalProportions}, <Pins />
        drawn as {words.a(kindWords[0])} <Word id="sheet">{words.and(kindWords)}</Word>{' '}
        <Word id="view">{words.and(viewsOf(j).map(v => words.views[v] || v))}</Word> on{' '}
        <Word id="paper" end={state.sheet?.problem ? '' : ','}>
          {paperWord()}
        </Word>
        <Misfit />{' '}
        <Word id="scale" end=",">
          {isOn(j.tile) ? words.tiled(scaleWord(String(j.scale || 'fit'))) : scaleWord(String(j.scale || 'fit'))}
        </Word>{' '}
        {kind === 'spread' ? null : <Facing />}in{' '}
        <Word id="units" end=",">
          {words.units[String(j.units || 'w')]}
        </Word>{' '}
        with{' '}
        <Word id="lines" end=",">
          {linesWord()}
        </Word>{' '}
        <Word id="over" end=".">
          {alone ? words.alone : overWord()}
        </Word>{' '}
        {isTypical(j) ? null : (
          <button class="plain typical" onClick={toTypical}>
            {words.backToTypical}
          </button>
        )}
      </p>
      <Tray content={Choices} wrong={<Wrong />} />
    </section>
  );
}

// The pressed button vanishes: the focus goes to the vehicle.
function toTypical(): void {
  change(typical(state.job), { words: words.backToTypical });
  document.querySelector<HTMLElement>('[data-word=segment]')?.focus({ preventScroll: true });
}

/** Left or right: a word of two ways flips where it stands. */
function Facing() {
  const j = state.job,
    other = j.facing === 'right' ? 'left' : 'right';
  const flip = () => change(withKey(j, 'facing', other === 'left' ? undefined : other), { words: words.facing(other) });
  return (
    <>
      facing{' '}
      <span class="together">
        <button class="choice" data-word="facing" onClick={flip}>
          {String(j.facing || 'left')}
        </button>
        ,
      </span>{' '}
    </>
  );
}

/** Why the job cannot be drawn, under what was chosen. */
function Wrong() {
  if (state.clash) return <p class="wrong">{words.notWhileClash}</p>;
  if (!state.problems.length) return null;
  return (
    <p class="wrong">
      {words.cannotDraw}: {state.problems.map(p => p.text).join('; ')}
    </p>
  );
}

/** Why the sheet does not fit its paper. */
const Misfit = () => (state.sheet?.problem ? <strong class="misfit"> ({readable(state.sheet.problem)}),</strong> : null);

function Pins() {
  const pins = pinsOf(state.job),
    kept = list(state.job.keep);
  const keptWords = kept.map(f => (
    <span key={f}>
      <Held figure={f} text={`${nameOf(f)} kept`} onPress={() => type(f)} />{' '}
    </span>
  ));
  if (!pins.length) return kept.length ? <>with {keptWords}, </> : null;
  if (pins.length > LISTED)
    return (
      <>
        with <Word id="pins">{words.pins(pins.length)}</Word>
        {kept.length ? <>, {keptWords}</> : null},{' '}
      </>
    );
  return (
    <>
      with{' '}
      {pins.map(([f, v], i) => (
        <span key={f}>
          {i ? ' and ' : ''}
          <Held figure={f} text={`${nameOf(f)} ${shownPin(f, v)}`} onPress={() => type(f)} />
        </span>
      ))}{' '}
      pinned
      {kept.length ? <>, {keptWords}</> : null},{' '}
    </>
  );
}

/** A pin in the sentence: its word edits, only its × releases. */
function Held({ figure, text, onPress }: { figure: string; text: string; onPress: () => void }) {
  return (
    <span class="held-pin">
      <button class="choice" data-pin={figure} onClick={onPress}>
        {text}
      </button>
      <button class="cross" aria-label={words.releaseOf(text)} title={words.release} onClick={() => letGo(figure)}>
        ×
      </button>
    </span>
  );
}

// The pressed × vanishes with its pin, so the focus goes to the figure itself.
function letGo(figure: string): void {
  release(figure);
  document.querySelector<HTMLElement>(`#desk-figures [data-figure="${CSS.escape(figure)}"]`)?.focus({ preventScroll: true });
}

const paperWord = (): string =>
  `${state.job.paper || 'A3'}${state.job.portrait === true || state.job.portrait === 'true' ? ' upright' : ''}`;
const scaleWord = (s: string): string =>
  s === 'fit' ? words.largest : s.startsWith('wheel=') ? words.scaleWheel(s.slice(6)) : s.replace(/^1:/, '1 : ');

function overWord(): string {
  const against = list(state.job.against);
  if (!against.length) return words.overTypical;
  return words.laidOver(words.and(against.map(titleOf)));
}
