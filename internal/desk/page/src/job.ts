// The job: the brief of docs/files.md as JSON. Every edit gives a new job, so that undo is a list of whole jobs.

export type Value = string | number | boolean | string[];
export interface Job {
  segment: string;
  profile?: string; // YAML of a profile that was read, in place of the segment's own
  tweak?: Record<string, number | string>;
  pin?: Record<string, string | number>;
  keep?: string[];
  sheets?: string[];
  view?: string[] | string;
  against?: string[];
  [key: string]: unknown;
}

export const list = (v: unknown): string[] =>
  Array.isArray(v)
    ? v.map(String)
    : v === undefined || v === ''
      ? []
      : String(v)
          .split(',')
          .map(s => s.trim());

export const kindOf = (j: Job): string => list(j.sheets)[0] || 'full';
export const viewsOf = (j: Job): string[] => (list(j.view).length ? list(j.view) : ['side']);
export const viewOf = (j: Job): string => viewsOf(j)[0];
export const pinsOf = (j: Job): [string, string][] => Object.entries(j.pin || {}).map(([k, v]) => [k, String(v)]);
export const tweaksOf = (j: Job): [string, number][] =>
  Object.entries(j.tweak || {})
    .map(([k, v]) => [k, Number(v)] as [string, number])
    .filter(([, v]) => v !== 0);
export const pinned = (j: Job, figure: string): boolean => figure in (j.pin || {});
export const compared = (j: Job): boolean => kindOf(j) === 'overlay';

/** Sets a key, or takes it out where the value is undefined. */
export function withKey(j: Job, key: string, v: Value | undefined): Job {
  const next: Job = { ...j };
  if (v === undefined || (Array.isArray(v) && v.length === 0)) delete next[key];
  else next[key] = v;
  return next;
}

function withEntry<T>(j: Job, key: 'pin' | 'tweak', name: string, v: T | undefined): Job {
  const entries: Record<string, unknown> = { ...j[key] };
  if (v === undefined) delete entries[name];
  else entries[name] = v;
  const next: Job = { ...j };
  if (Object.keys(entries).length) (next as Record<string, unknown>)[key] = entries;
  else delete next[key];
  return next;
}

/** Pins a figure; a figure that is pinned is no longer kept, for the program refuses both at once. */
export const withPin = (j: Job, figure: string, written: string): Job => withEntry(withoutKept(j, figure), 'pin', figure, written);
export const withoutPin = (j: Job, figure: string): Job => withEntry(j, 'pin', figure, undefined);
export const withoutKept = (j: Job, figure: string): Job =>
  withKey(
    j,
    'keep',
    list(j.keep).filter(f => f !== figure),
  );
export const withTweak = (j: Job, name: string, strength: number): Job => withEntry(j, 'tweak', name, strength || undefined);

export function typical(j: Job): Job {
  const next = { ...j };
  delete next.tweak;
  delete next.pin;
  delete next.keep;
  return next;
}

/** Ends a comparison of a vehicle with its typical self once nothing of it is changed: there is nothing to compare. */
export const sensible = (j: Job): Job => (compared(j) && !list(j.against).length && isTypical(j) ? withKey(j, 'sheets', undefined) : j);

export const isTypical = (j: Job): boolean => !tweaksOf(j).length && !pinsOf(j).length;
export const same = (a: unknown, b: unknown): boolean => JSON.stringify(a) === JSON.stringify(b);

/** Reports whether something kept by a browser or read from a file can be taken for a job. */
export function isJob(v: unknown): v is Job {
  if (typeof v !== 'object' || v === null) return false;
  const j = v as Record<string, unknown>;
  const mapping = (m: unknown) => m === undefined || (typeof m === 'object' && m !== null && !Array.isArray(m));
  return typeof j.segment === 'string' && mapping(j.tweak) && mapping(j.pin);
}

/** The segment of the program that a job's vehicle is, or that its profile extends. */
export const baseOf = (j: Job): string => /^extends: *["']?([\w-]+)/m.exec(j.profile || '')?.[1] || j.segment;

/** What a profile that a job brings is called; '' where it brings none. */
export const profileName = (j: Job): string =>
  /^(?:title|name): *["']?(.+?)["']?$/m.exec(j.profile || '')?.[1] || (j.profile ? j.segment : '');
