// The guides of the sheet as check boxes. Two of them, outline and ground angles, have settings of their own besides.
import { h } from 'preact';
import type { Guide } from '../calls';
import { change } from '../desk';
import { type Job, list, same, withKey } from '../job';
import { state } from '../store';
import { words } from '../words';
import { among, settingOf } from './settings';

/** Whether a setting is shown as the guide of its name. */
export const asGuide = (key: string): boolean =>
  !!settingOf('guides')?.options?.some(g => g.name === key) && among(settingOf(key)?.goes || null);

export const isOn = (v: unknown): boolean => String(v) === 'true';
const isOff = (v: unknown): boolean => String(v) === 'false';

function wanted(g: Guide): boolean {
  const j = state.job,
    chosen = list(j.guides),
    named = chosen.includes(g.name),
    usual = among(g.usual);
  if (g.name === 'outline' && asGuide(g.name)) return !isOff(j.outline) && (usual || isOn(j.outline)) && (!chosen.length || named);
  if (g.name === 'checks') return isOn(j.checks) || named;
  return chosen.length ? named : usual;
}

const drawn = (g: Guide): boolean => !!state.sheet?.svg.includes(`"guide-${g.name}"`);

/** The guides that the sheet can show. One wanted but not drawn is left out: a practice sheet asks for it, or there is no body. */
export function guidesHere(): Guide[] {
  const s = settingOf('guides');
  if (!s || !among(s.goes)) return [];
  const settled = same(state.job, state.good);
  return (s.options || []).filter(g => among(g.goes) && (!settled || !wanted(g) || drawn(g)));
}

/** The job with a guide drawn or not; the usual choice is left unsaid. */
function flipped(g: Guide, on: boolean): Job {
  const j = state.job,
    options = settingOf('guides')!.options!.filter(o => among(o.goes)),
    usual = options.filter(o => among(o.usual) || asGuide(o.name)).map(o => o.name),
    chosen = list(j.guides).length ? list(j.guides) : usual;
  const others = chosen.filter(n => n !== g.name),
    next = on ? options.map(o => o.name).filter(n => n === g.name || others.includes(n)) : others;
  if (!asGuide(g.name)) return withKey(j, 'guides', same(next, usual) ? undefined : next);
  const set = withKey(j, g.name, on === among(g.usual) ? undefined : on);
  if (!list(j.guides).length) return set;
  return withKey(set, 'guides', on || g.name === 'checks' ? next : chosen);
}

export function Guides({ all }: { all: Guide[] }) {
  const on = all.filter(wanted);
  return (
    <section class="guides" aria-labelledby="group-guides">
      <h2 id="group-guides">{words.groups.guides}</h2>
      <div class="ticks">
        {all.map(g => (
          <label key={g.name} class="tick">
            <input
              type="checkbox"
              checked={on.includes(g)}
              disabled={on.length === 1 && on[0] === g}
              onChange={() => change(flipped(g, !on.includes(g)), { words: words.guideIs(g.title, !on.includes(g)) })}
            />{' '}
            {g.title}
          </label>
        ))}
      </div>
    </section>
  );
}
