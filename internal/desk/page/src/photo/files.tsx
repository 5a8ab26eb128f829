// Saving what was marked and read.
import { Fragment, h } from 'preact';
import { keep, Refusal } from '../calls';
import { complain, download, note } from '../saving';
import { say } from '../speak';
import { words as common } from '../words';
import { photoWords as words } from '../words-photo';
import { drawUnderlay, marksOf } from './act';
import { againstOf } from './ask';
import type { Shot } from './marks';
import { type Picture, pictureOf } from './pictures';
import { photo, shotNow } from './store';
import { stripped } from './strip';

const SHEETS = ['svg', 'pdf', 'png'];

export function Files() {
  const s = shotNow(),
    read = !!s && !!photo.answers[s.id];
  return (
    <>
      <span role="group" aria-labelledby="desk-save">
        <span id="desk-save" class="label">
          {common.save}
        </span>
        {words.formats.map(([f, name]) => (
          <button
            key={f}
            data-save={f}
            title={SHEETS.includes(f) ? words.handback : undefined}
            aria-disabled={f === 'yaml' ? !s : !read}
            onClick={() => void save(s, f, name)}
          >
            {name}
          </button>
        ))}
      </span>
      <button id="photo-draw" aria-disabled={!read} onClick={() => void drawOne(s)}>
        {words.drawThis}
      </button>
    </>
  );
}

const refusal = (s: Shot | undefined, format: string): string =>
  !s ? words.noMarks : format !== 'yaml' && !photo.answers[s.id] ? words.noReading : '';

async function fetched(s: Shot, format: string): Promise<{ blob: Blob; name: string } | null> {
  const body: Record<string, unknown> = { marks: marksOf(s), name: s.name, format };
  if (SHEETS.includes(format)) {
    body.against = againstOf();
  }
  try {
    const p = SHEETS.includes(format) && pictureOf(s.id);
    if (p) body.picture = await plain(p);
    return await keep(body, `${s.name}.${format === 'profile' ? 'yaml' : format}`);
  } catch (e) {
    complain(e instanceof Refusal ? e.message : e instanceof DOMException ? words.lostPicture(s.picture) : common.gone);
    return null;
  }
}

/** The picture's pixels alone, in base64: whatever else its file holds, a place or a date, stays here. */
async function plain(p: Picture): Promise<string> {
  const own = stripped(await p.file.arrayBuffer(), p.header.orientation),
    blob = own ? new Blob([own]) : await drawn(await createImageBitmap(p.file));
  return new Promise((done, fail) => {
    const r = new FileReader();
    r.onload = () => done(String(r.result).replace(/^[^,]*,/, ''));
    r.onerror = () => fail(r.error);
    r.readAsDataURL(blob);
  });
}

/** A picture drawn anew, for files that are not taken apart here. */
function drawn(bitmap: ImageBitmap): Promise<Blob> {
  const canvas = document.createElement('canvas');
  canvas.width = bitmap.width;
  canvas.height = bitmap.height;
  canvas.getContext('2d')!.drawImage(bitmap, 0, 0);
  return new Promise((done, fail) => canvas.toBlob(b => (b ? done(b) : fail(new DOMException())), 'image/jpeg', 0.95));
}

async function save(s: Shot | undefined, format: string, name: string): Promise<void> {
  const why = refusal(s, format);
  if (why || !s) return say(why);
  note(common.saving(name));
  const f = await fetched(s, format);
  if (!f) return;
  download(f.blob, f.name);
  note(SHEETS.includes(format) && s.picture && !pictureOf(s.id) ? words.noPictureHere(s.picture) : common.saved(f.name));
}

async function drawOne(s: Shot | undefined): Promise<void> {
  if (!s || !photo.answers[s.id]) return say(words.noReading);
  const f = await fetched(s, 'profile');
  if (f) drawUnderlay(await f.blob.text(), s.name);
}
