// Settings that have no word of their own in the sentence, made from the program's own table: the page knows their kinds, not their names.
import { h } from 'preact';
import { useRef } from 'preact/hooks';
import type { Setting } from '../calls';
import { type Job, kindOf, list, viewOf, viewsOf, withKey } from '../job';
import { state } from '../store';
import { words } from '../words';
import { choose } from './tray';

export const settingOf = (key: string): Setting | undefined => state.settings.find(s => s.key === key);

/** Whether a kind of sheet is drawn in a view: some setting is used on it. */
export const goes = (kind: string, view: string): boolean =>
  !state.settings.length || state.settings.some(s => s.goes?.some(([k, v]) => k === kind && v === view));

// These have words of the sentence, rules of their own, or no meaning here.
const ELSEWHERE = new Set([
  'sheets',
  'view',
  'paper',
  'portrait',
  'landscape',
  'scale',
  'facing',
  'units',
  'against',
  'camera',
  'turn',
  'eye',
  'lens',
  'segment',
  'tweak',
  'pin',
  'keep',
]);

function here(s: Setting): boolean {
  return !ELSEWHERE.has(s.key) && (!s.goes?.length || s.goes.some(([k, v]) => k === kindOf(state.job) && v === viewOf(state.job)));
}

/** Leaves out what a job's kinds and views have no use for: the program would refuse it. */
export function fitting(j: Job): Job {
  const kinds = list(j.sheets).length ? list(j.sheets) : ['full'];
  const used = (s: Setting) => s.goes!.some(([k, v]) => kinds.includes(k) && viewsOf(j).includes(v));
  return state.settings.filter(s => s.goes?.length && j[s.key] !== undefined && !used(s)).reduce((o, s) => withKey(o, s.key, undefined), j);
}

/** How the sheet's lines are called in the sentence: what is unusual about them. */
export function linesWord(): string {
  const j = state.job,
    said: string[] = [];
  if (j.ink) said.push(words.ink(String(j.ink)));
  if (j.labels && j.labels !== 'full') said.push(words.labels(String(j.labels)));
  if (list(j.guides).length) said.push(words.guidesChosen(list(j.guides).length));
  for (const s of state.settings) {
    if (!here(s) || ['ink', 'labels', 'guides'].includes(s.key) || j[s.key] === undefined) continue;
    const name = words.settings[s.key] || s.key;
    if (s.bool) said.push(String(j[s.key]) === 'false' ? `no ${name}` : name);
    else said.push(s.choices?.length ? `${name} ${j[s.key]}` : `a ${name}`);
  }
  return said.length ? words.and(said) : words.usualLines;
}

export function Settings() {
  const shown = state.settings.filter(here);
  return (
    <div class="settings">
      <h2>{words.trays.lines}</h2>
      {shown.length ? (
        <div class="ticks">
          {shown
            .filter(s => s.bool)
            .map(s => (
              <Tick key={s.key} s={s} />
            ))}
        </div>
      ) : (
        <p>{words.noneGoes}</p>
      )}
      {shown
        .filter(s => !s.bool && s.choices?.length && !s.list)
        .map(s => (
          <Choices key={s.key} s={s} />
        ))}
      {shown
        .filter(s => !s.bool && s.list)
        .map(s => (
          <Several key={s.key} s={s} />
        ))}
      <div class="own">
        {shown
          .filter(s => !s.bool && !s.choices?.length)
          .map(s => (
            <OwnValue key={s.key} name={s.key} label={label(s)} hint={s.help} now={String(state.job[s.key] ?? '')} />
          ))}
      </div>
    </div>
  );
}

const label = (s: Setting): string => words.settings[s.key] || s.key;
const plainHelp = (s: Setting): string => s.help.replace(/`/g, '');

function Tick({ s }: { s: Setting }) {
  const v = state.job[s.key],
    on = v === true || v === 'true' || (s.key === 'outline' && v === undefined && ['full', 'thumbnails'].includes(kindOf(state.job)));
  return (
    <label class="tick" title={plainHelp(s)}>
      <input type="checkbox" checked={on} onChange={() => choose(s.key, !on, s.key === 'outline' ? '' : false)} /> {label(s)}
    </label>
  );
}

function Choices({ s }: { s: Setting }) {
  const now = String(state.job[s.key] ?? s.default ?? '');
  return (
    <fieldset>
      <legend>{label(s)}</legend>
      {s.choices.map(c => (
        <label key={c} class="pick bare">
          <input type="radio" name={`set-${s.key}`} checked={c === now} onChange={() => choose(s.key, c, s.default)} />
          <span>{words.choices[c] || c}</span>
        </label>
      ))}
    </fieldset>
  );
}

/** A list: nothing ticked by hand is everything. */
function Several({ s }: { s: Setting }) {
  const now = list(state.job[s.key]),
    all = s.choices || [];
  const flip = (c: string) => {
    const base = now.length ? now : all,
      next = base.includes(c) ? base.filter(o => o !== c) : all.filter(o => o === c || base.includes(o));
    choose(s.key, next.length === all.length ? [] : next);
  };
  return (
    <fieldset>
      <legend>{label(s)}</legend>
      {all.map(c => (
        <label key={c} class="tick">
          <input type="checkbox" checked={!now.length || now.includes(c)} onChange={() => flip(c)} /> {c}
        </label>
      ))}
    </fieldset>
  );
}

/** A value that is typed; the program says what is wrong with it. */
export function OwnValue({ name, label, hint, now }: { name: string; label: string; hint: string; now: string }) {
  const input = useRef<HTMLInputElement>(null),
    set = () => choose(name, (input.current?.value || '').trim(), '');
  return (
    <label class="field" title={hint.replace(/`/g, '')}>
      {label}{' '}
      <input
        ref={input}
        type="text"
        defaultValue={now}
        spellcheck={false}
        autocomplete="off"
        onChange={set}
        onKeyDown={e => {
          if (e.key === 'Enter') set();
        }}
      />
    </label>
  );
}
