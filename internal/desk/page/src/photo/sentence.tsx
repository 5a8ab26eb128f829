// The reading as one sentence, whose words open what they can be.
import { Fragment, h } from 'preact';
import { post, Refusal } from '../calls';
import { state } from '../store';
import { OwnField } from '../ui/own';
import { SegmentPicture } from '../ui/pictures';
import { titleOf } from '../ui/title';
import { closeTray, Radios, Tray, Word } from '../ui/tray';
import { words as common } from '../words';
import { photoWords as words } from '../words-photo';
import { hasJob, know, layOver, marksOf, remove, turnTo } from './act';
import { Pick } from './empty';
import { isSketch, type Shot } from './marks';
import { photo, shotNow, UNDERLAY } from './store';

export function PhotoSentence({ shot }: { shot: Shot }) {
  const k = shot.known,
    tyres = [k.tyre, k['rear-tyre']].filter(Boolean).map(String);
  const { against } = photo.work.now;
  return (
    <section id="desk-brief" class="brief one">
      <p>
        {words.reading}{' '}
        <Word id="shot" end=",">
          {words.from(shot.picture || words.noFile, ...shot.size)}
        </Word>{' '}
        <Word id="kind" end=",">
          {kindWord(shot)}
        </Word>{' '}
        {words.nose} <Facing shot={shot} />{' '}
        <Word id="tyres" end=",">
          {words.tyres(tyres.join(', '))}
        </Word>{' '}
        {isSketch(shot) ? null : (
          <Word id="lens" end=",">
            {words.lens(k.focal ? String(k.focal) : '')}
          </Word>
        )}{' '}
        taken as{' '}
        <Word id="like" end=",">
          {words.like(k.like ? titleOf(String(k.like)) : '')}
        </Word>{' '}
        with{' '}
        <Word id="laid" end=".">
          {against === UNDERLAY ? words.overUnderlay : words.over(against ? titleOf(against) : '')}
        </Word>
      </p>
      <Tray content={Choices} />
    </section>
  );
}

const kindWord = (s: Shot): string =>
  isSketch(s) ? words.sketchOn(String((s.known['on-sheet'] as Record<string, unknown>).paper || 'A3')) : words.photograph;

function Facing({ shot }: { shot: Shot }) {
  const side = String(shot.known.facing || 'left'),
    other = side === 'left' ? 'right' : 'left';
  return (
    <span class="together">
      <button class="choice" data-word="facing" onClick={() => know('facing', other, words.facing(other))}>
        {side}
      </button>
      , on
    </span>
  );
}

function Choices({ id }: { id: string }) {
  const s = shotNow();
  if (!s) return <></>;
  switch (id) {
    case 'shot':
      return <Shots shot={s} />;
    case 'kind':
      return <Kind shot={s} />;
    case 'tyres':
      return (
        <div>
          <p>{words.trays.tyres}</p>
          <Known shot={s} name="tyre" label={words.frontTyre} hint={words.tyreHint} />
          <Known shot={s} name="rear-tyre" label={words.rearTyre} hint={words.tyreHint} />
        </div>
      );
    case 'lens':
      return (
        <div>
          <p>{words.trays.lens}</p>
          <Known shot={s} name="focal" label={words.focal} hint={words.focalHint} />
          <Known shot={s} name="distance" label={words.distance} hint={words.distanceHint} />
          <Known shot={s} name="eye-height" label={words.eye} hint={words.eyeHint} />
          <Switch shot={s} name="cropped" label={words.cropped} />
        </div>
      );
    case 'like':
      return (
        <Segments
          id="like"
          legend={words.trays.like}
          now={String(s.known.like || '')}
          none={words.notSaid}
          choose={v => know('like', v || undefined, words.like(v && titleOf(v)))}
        />
      );
  }
  return (
    <Segments
      id="laid"
      legend={words.trays.over}
      now={photo.work.now.against}
      none={words.nothing}
      more={hasJob() ? [{ value: UNDERLAY, name: words.yourUnderlay, picture: <SegmentPicture name={state.job.segment} /> }] : []}
      choose={v => layOver(v, v === UNDERLAY ? words.overUnderlay : words.over(v && titleOf(v)))}
    />
  );
}

interface Segmented {
  id: string;
  legend: string;
  now: string;
  none: string;
  more?: { value: string; name: string; picture: h.JSX.Element }[];
  choose: (v: string) => void;
}

const Segments = ({ id, legend, now, none, more = [], choose }: Segmented) => (
  <Radios
    id={id}
    legend={legend}
    now={now}
    choose={choose}
    options={[
      { value: '', name: none },
      ...more,
      ...state.segments.map(s => ({ value: s.name, name: s.title, picture: <SegmentPicture name={s.name} /> })),
    ]}
  />
);

function Shots({ shot }: { shot: Shot }) {
  const all = photo.work.now.shots;
  return (
    <div>
      {all.length > 1 ? (
        <Radios
          id="shot"
          legend={words.trays.shot}
          now={String(shot.id)}
          options={all.map(s => ({ value: String(s.id), name: s.name }))}
          choose={v => turnTo(all.find(s => String(s.id) === v)!)}
        />
      ) : null}
      <Pick label={words.another} id="photo-another" />
      <Pick label={words.takeOne} id="photo-take" camera />
      <button
        class="plain"
        id="photo-remove"
        onClick={() => {
          closeTray();
          remove(shot);
        }}
      >
        {words.remove}
      </button>
    </div>
  );
}

function Kind({ shot }: { shot: Shot }) {
  const sheet = isSketch(shot) ? (shot.known['on-sheet'] as Record<string, unknown>) : null;
  const choose = (paper: string) =>
    know('on-sheet', paper ? { ...sheet, paper } : undefined, paper ? words.sketchOn(paper) : words.photograph);
  const flag = (key: string, on: boolean) => {
    const { [key]: _, ...rest } = sheet!;
    know('on-sheet', on ? { ...rest, [key]: true } : rest, key);
  };
  return (
    <div>
      <Radios
        id="kind"
        legend={words.trays.kind}
        now={sheet ? String(sheet.paper) : ''}
        options={[{ value: '', name: words.photograph }, ...photo.papers.map(p => ({ value: p, name: words.sketch(p) }))]}
        choose={choose}
      />
      {sheet ? (
        <>
          <label class="tick">
            <input type="checkbox" checked={!!sheet.portrait} onChange={e => flag('portrait', e.currentTarget.checked)} /> {words.upright}
          </label>
          <label class="tick">
            <input type="checkbox" checked={!!sheet.frame} onChange={e => flag('frame', e.currentTarget.checked)} /> {words.framed}
          </label>
          <Known shot={shot} name="student" label={words.student} hint={words.studentHint} />
        </>
      ) : null}
    </div>
  );
}

/** A key of the marks file, typed. */
function Known({ shot, name, label, hint }: { shot: Shot; name: string; label: string; hint: string }) {
  const set = async (text: string): Promise<string> => {
    const v = text.trim(),
      value = v === '' ? undefined : /^\d+(\.\d+)?$/.test(v) ? Number(v) : v,
      why = value === undefined ? '' : await refused(shot, name, value);
    if (!why) know(name, value, words.set(label, v), shot.id);
    return why;
  };
  return <OwnField label={label} hint={hint} now={String(shot.known[name] ?? '')} set={set} />;
}

/** Why the program cannot read a value; '' if it can. */
async function refused(s: Shot, name: string, value: unknown): Promise<string> {
  try {
    await post('/command', { marks: marksOf({ ...s, known: { ...s.known, [name]: value } }), name: s.name });
  } catch (e) {
    const mine = e instanceof Refusal ? e.problems.find(p => p.where.endsWith(name)) : undefined;
    if (mine) return [mine.text, mine.nearest && common.perhaps(mine.nearest)].filter(Boolean).join('; ');
  }
  return '';
}

function Switch({ shot, name, label }: { shot: Shot; name: string; label: string }) {
  const on = shot.known[name] === true;
  return (
    <label class="tick">
      <input
        type="checkbox"
        checked={on}
        onChange={() => know(name, on ? undefined : true, words.set(label, common.choices[String(!on)]))}
      />{' '}
      {label}
    </label>
  );
}
