// Opening files, wherever one is: a file leads to the place that it belongs to.
import { post, Refusal } from './calls';
import { goTo, type Opened, placeHere, places } from './places';
import { complain, note } from './saving';
import { state } from './store';
import { words } from './words';

const MOST = 1 << 20; // bytes; the program takes no more, and a picture is not worth reading

/** Opens files, one after the other. */
export async function open(files: File[]): Promise<void> {
  for (const file of files) {
    const here = placeHere(),
      place = here.takes(file) ? here : places.find(p => p.takes(file));
    if (place) {
      goTo(place.name);
      await place.take(file);
    } else await openText(file);
  }
  if (files.length > 1 && !state.note?.wrong) note(words.severalOpen(files.length));
}

/** Opens a file that the program reads: one step of undo, or every mistake in it. */
async function openText(file: File): Promise<void> {
  if (file.size > MOST) return complain(words.tooLarge(file.name));
  try {
    const what = await post<Opened>('/open', { yaml: await file.text() });
    const place = places.find(p => p.opened(what, file.name));
    if (place) goTo(place.name);
    note(words.opened(file.name));
  } catch (e) {
    complain(`${words.notOpened(file.name)}. ${e instanceof Refusal ? e.message.replace(/\b[a-z]+\.yaml\b/g, file.name) : words.gone}`);
  }
}
