// Choosing a setting of the underlay.
import { change } from '../desk';
import { withKey } from '../job';
import { state } from '../store';
import { words } from '../words';

/** Sets a key of the job; the usual value is left unsaid, as in a brief. */
export function choose(key: string, v: string | boolean | string[], usual: string | boolean = ''): void {
  change(withKey(state.job, key, v === usual ? undefined : v), {
    words: `${words.settings[key] || key}: ${words.choices[String(v)] || String(v)}`,
  });
}
