// The pictures themselves: decoded, and kept in this browser. They go nowhere else.
import { photoWords as words } from '../words-photo';
import { type Header, LOOKED_AT, MOST_BYTES, readHeader } from './header';

export interface Picture {
  file: Blob;
  bitmap: ImageBitmap;
  header: Header;
}

const pictures = new Map<number, Picture>();

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
    return { file, bitmap, header };
  } catch {
    throw new Error(words.brokenPicture(name));
  }
}

/** Takes a picture for a shot, and keeps it for the next visit. */
export function keepPicture(id: number, p: Picture): void {
  pictures.get(id)?.bitmap.close();
  pictures.set(id, p);
  void store('readwrite', s => s.put(p.file, id)).catch(() => undefined); // a browser without a storage shows it until it is closed
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
