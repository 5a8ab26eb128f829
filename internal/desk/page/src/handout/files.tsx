// Saving the class file.
import { h } from 'preact';
import { keep, Refusal } from '../calls';
import { download, note } from '../saving';
import { say } from '../speak';
import { words as common } from '../words';
import { handoutWords as words } from '../words-handout';
import { handout, lessonNow } from './store';

/** Why nothing can be saved; '' if it can. */
export const refusal = (): string => (handout.problems.length ? words.notWhileProblem : '');

export function Files() {
  return (
    <span role="group" aria-labelledby="desk-save">
      <span id="desk-save" class="label">
        {common.save}
      </span>
      <button data-save="yaml" aria-disabled={!!refusal()} onClick={() => void save()}>
        {words.classFile}
      </button>
    </span>
  );
}

async function save(): Promise<void> {
  if (refusal()) return say(refusal());
  try {
    const f = await keep({ class: lessonNow(), format: 'yaml' }, 'class.yaml');
    download(f.blob, f.name);
    note(common.saved(f.name));
  } catch (e) {
    note(e instanceof Refusal ? e.message : common.gone);
  }
}
