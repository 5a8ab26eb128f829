// Settings that have no word of their own in the sentence, made from the program's own table: the page knows their kinds, not their names.
import { h } from 'preact';
import { useRef } from 'preact/hooks';
import type { Setting } from '../calls';
import { type Job, kindOf, list, viewOf, viewsOf, withKey } from '../job';
import { asGuide, Guides, guidesHere, isOn } from './guides';
import { state } from '../store';
import { words } from '../words';
import { choose } from './choose';

export const settingOf = (key: string): Setting | undefined => state.settings.find(s => s.key === key);

/** Whether a kind of sheet is drawn in a view: some setting is used on it. */
export const goes = (kind: string, view: string): boolean =>
  !state.settings.length || state.settings.some(s => s.goes?.some(([k, v]) => k === kind && v === view));

/** Whether the sheet that is drawn is among pairs of kind and view. */
export const among = (pairs: [string, string][] | null): boolean =>
  !!pairs?.some(([k, v]) => k === kindOf(state.job) && v === viewOf(state.job));

// These have words of the sentence, rules of their own, or no meaning here.
const ELSEWHERE = new Set([
  'sheets',
  'view',
  'paper',
  'portrait',
  'landscape',
  'scale',
  'tile',
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

const here = (s: Setting): boolean => !ELSEWHERE.has(s.key) && among(s.goes);

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

/** The groups of the tray: the guides, then the program's own groups, those words apart that stand on the sheet. */
function groups(): [string, Setting[]][] {
  const out = new Map<string, Setting[]>();
  for (const s of state.settings.filter(o => here(o) && !o.options && !asGuide(o.key))) {
    const name = s.group === settingOf('guides')?.group && isText(s) ? 'words' : s.group;
    out.set(name, [...(out.get(name) || []), s]);
  }
  const order = Object.keys(words.groups);
  return [...out].sort(([a], [b]) => order.indexOf(a) - order.indexOf(b));
}

const isText = (s: Setting): boolean => !s.bool && !s.list && !s.choices?.length;

export function Settings() {
  const guides = guidesHere(),
    all = groups();
  return (
    <div class="settings">
      {guides.length ? <Guides all={guides} /> : null}
      {all.map(([name, rows]) => (
        <section key={name} aria-labelledby={`group-${rows[0].key}`}>
          <h2 id={`group-${rows[0].key}`}>{words.groups[name] || name}</h2>
          {rows.map(s => (s.bool ? null : isText(s) ? <TextRow key={s.key} s={s} /> : <Choices key={s.key} s={s} />))}
          {rows.some(s => s.bool) ? <div class="ticks">{rows.map(s => (s.bool ? <Tick key={s.key} s={s} /> : null))}</div> : null}
        </section>
      ))}
    </div>
  );
}

const label = (s: Setting): string => words.settings[s.key] || s.key;

export function Tick({ s, disabled }: { s: Setting; disabled?: boolean }) {
  const on = isOn(state.job[s.key]);
  return (
    <label class="tick" title={s.help}>
      <input type="checkbox" checked={on} disabled={disabled} onChange={() => choose(s.key, !on, false)} /> {label(s)}
    </label>
  );
}

/** One of a few values; one that was typed in a brief stands among them. */
function Choices({ s }: { s: Setting }) {
  const usual = s['by-kind']?.[kindOf(state.job)] ?? s.default,
    now = String(state.job[s.key] ?? usual),
    name = `name-${s.key}`;
  return (
    <div class="row" role="radiogroup" aria-labelledby={name} title={s.help}>
      <span id={name}>{label(s)}</span>
      <span>
        {(s.choices.includes(now) || !now ? s.choices : [...s.choices, now]).map(c => (
          <label key={c} class="pick bare">
            <input type="radio" name={`set-${s.key}`} checked={c === now} onChange={() => choose(s.key, c, usual)} />
            <span>{words.choicesOf[s.key]?.[c] || words.choices[c] || c}</span>
          </label>
        ))}
      </span>
    </div>
  );
}

function TextRow({ s }: { s: Setting }) {
  const unsaid = s.key === 'title' ? state.sheet?.title.heading : words.unsaid[s.key];
  return <OwnValue name={s.key} label={label(s)} hint={s.help} now={String(state.job[s.key] ?? '')} unsaid={unsaid} />;
}

/** A value that is typed; the program says what is wrong with it. */
export function OwnValue({ name, label, hint, now, unsaid }: { name: string; label: string; hint: string; now: string; unsaid?: string }) {
  const input = useRef<HTMLInputElement>(null),
    set = () => choose(name, (input.current?.value || '').trim(), '');
  return (
    <label class="field" title={hint}>
      <span>{label}</span>{' '}
      <input
        ref={input}
        type="text"
        defaultValue={now}
        placeholder={unsaid}
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
