// Undo and redo of whole values.
export interface History<T> {
  now: T;
  past: T[];
  future: T[];
}

const MOST = 100; // steps that are kept

export const begun = <T>(now: T): History<T> => ({ now, past: [], future: [] });

/** Makes a change: a step of its own, or with `goesOn` one step with the change before. */
export const changed = <T>(h: History<T>, now: T, goesOn = false): History<T> => ({
  now,
  past: goesOn ? h.past : [...h.past, h.now].slice(-MOST),
  future: [],
});

export function undone<T>(h: History<T>): History<T> {
  const now = h.past[h.past.length - 1];
  return now === undefined ? h : { now, past: h.past.slice(0, -1), future: [...h.future, h.now] };
}

export function redone<T>(h: History<T>): History<T> {
  const now = h.future[h.future.length - 1];
  return now === undefined ? h : { now, past: [...h.past, h.now], future: h.future.slice(0, -1) };
}
