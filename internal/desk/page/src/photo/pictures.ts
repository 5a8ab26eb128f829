// The pictures themselves: decoded, and kept in this browser. They go nowhere else.
import { photoWords as words } from '../words-photo';
import { type Header, LOOKED_AT, MOST_BYTES, readHeader } from './header';

export interface Picture {
  file: Blob;
  bitmap: ImageBitmap | null; // decoded; null where it was let go to save memory
  thumb: ImageBitmap;
  header: Header;
}

const pictures = new Map<number, Picture>(); // the one that was looked at last comes last
const MOST_OPEN = 3, // decoded at a time: one of 24 million pixels takes 96 MB
  THUMB = 240; // pixels across

export const pictureOf = (id: number): Picture | undefined => pictures.get(id);

/** Decodes a picture. The error is a sentence for people; a picture that its header says is too large is never decoded. */
export async function decode(file: Blob, name: string): Promise<Picture> {
  if (file.size > MOST_BYTES) throw new Error(words.largeFile(name, Math.round(file.size / (1 << 20))));
  const header = readHeader(await file.slice(0, LOOKED_AT).arrayBuffer(), name);
  try {
    const bitmap = await createImageBitmap(file, { imageOrientation: 'from-image' as ImageOrientation });
    if (bitmap.width !== header.width || bitmap.height !== header.height) {
      bitmap.close();
      throw new Error();
    }
    const thumb = await createImageBitmap(bitmap, {
      resizeWidth: THUMB,
      resizeHeight: Math.max(1, Math.round((THUMB * bitmap.height) / bitmap.width)),
    });
    return { file, bitmap, thumb, header };
  } catch {
    throw new Error(words.brokenPicture(name));
  }
}

/** Takes a picture for a shot, and keeps it for the next visit. */
export function keepPicture(id: number, p: Picture): void {
  pictures.get(id)?.bitmap?.close();
  show(id, p);
  void store('readwrite', s => s.put(p.file, id)).catch(() => undefined); // a browser without a storage shows it until it is closed
}

/** Puts a picture last, and lets go of those that were not looked at for long. */
function show(id: number, p: Picture): void {
  pictures.delete(id);
  pictures.set(id, p);
  const open = [...pictures.values()].filter(q => q.bitmap);
  for (const q of open.slice(0, Math.max(0, open.length - MOST_OPEN))) {
    q.bitmap!.close();
    q.bitmap = null;
  }
}

/** Decodes a picture again that was let go; the answer says whether there is something new to draw. */
export async function wake(id: number): Promise<boolean> {
  const p = pictures.get(id);
  if (!p || p.bitmap) return false;
  const bitmap = await createImageBitmap(p.file, { imageOrientation: 'from-image' as ImageOrientation });
  if (pictures.get(id)?.bitmap)
    bitmap.close(); // another call was quicker
  else p.bitmap = bitmap;
  show(id, p);
  return true;
}

/** What an earlier visit kept for a shot. */
export async function keptPicture(id: number): Promise<Blob | null> {
  try {
    return ((await store('readonly', s => s.get(id))) as Blob) || null;
  } catch {
    return null;
  }
}

/** Takes a picture out of the browser's storage. While the page is open an undo can still show it. */
export function forgetPicture(id: number): void {
  void store('readwrite', s => s.delete(id)).catch(() => undefined);
}

/** Keeps a picture again that was forgotten. */
export function keepAgain(id: number): void {
  const p = pictures.get(id);
  if (p) void store('readwrite', s => s.put(p.file, id)).catch(() => undefined);
}

const KEPT = 14 * 24 * 3600 * 1000; // milliseconds; a shot's number is when it was taken up

/** Forgets what no window has come back for. */
export async function forgetOld(): Promise<void> {
  try {
    for (const id of (await store('readonly', s => s.getAllKeys())) as number[]) if (id < Date.now() - KEPT) forgetPicture(id);
  } catch {
    /* nothing was kept */
  }
}

function store(mode: IDBTransactionMode, ask: (s: IDBObjectStore) => IDBRequest): Promise<unknown> {
  return new Promise((done, fail) => {
    const open = indexedDB.open('hubrule-photo', 1);
    open.onupgradeneeded = () => open.result.createObjectStore('pictures');
    open.onerror = () => fail(open.error);
    open.onsuccess = () => {
      const asked = ask(open.result.transaction('pictures', mode).objectStore('pictures'));
      asked.onsuccess = () => done(asked.result);
      asked.onerror = () => fail(asked.error);
      asked.transaction!.oncomplete = () => open.result.close();
    };
  });
}
