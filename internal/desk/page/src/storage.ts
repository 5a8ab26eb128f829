// What the browser keeps, so that a reload or a sleeping tablet loses nothing.
const last = new Map<string, string>();

/** Keeps a value for the next visit: of this window, or else of any. Where there is no room, `less` of it is kept. */
export function keepFor(key: string, value: unknown, less?: unknown): void {
  const text = JSON.stringify(value);
  if (text === last.get(key)) return;
  last.set(key, text);
  for (const storage of [() => sessionStorage, () => localStorage])
    try {
      storage().setItem(key, text);
    } catch {
      try {
        storage().setItem(key, JSON.stringify(less ?? value));
      } catch {
        /* a full or closed storage: the page works on without */
      }
    }
}

/** What was kept, or null where nothing was or it is damaged. Whoever asks checks its form. */
export function kept(key: string): unknown {
  try {
    return JSON.parse(sessionStorage.getItem(key) || localStorage.getItem(key) || 'null');
  } catch {
    return null;
  }
}
