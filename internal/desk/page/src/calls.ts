// The calls of the server, as docs/calls.md has them.

export interface Figure {
  value: number | string;
  unit: 'w' | 'mm' | 'ratio' | 'count' | 'deg' | '';
  mm: number | null;
  range: [number, number] | null;
  state: 'given' | 'free' | 'pinned' | 'limited' | 'kept' | 'derived';
  beyond: number;
  limit?: string;
  typical?: number;
}
export type Figures = Record<string, Figure>;
export interface Solved {
  figures: Figures;
  'wheel-mm': number;
  'reads-as'?: string;
  notes?: string[];
}
export interface Room {
  room: [number, number];
  stops: { lo: string; hi: string };
}

export interface ClashPin {
  figure: string;
  value: number;
  written: string;
  nearest: number | null;
  suggestion: string;
}
export interface ClashSet {
  pins: ClashPin[];
  limits: string[];
  words: string;
}
export interface Clash {
  sets: ClashSet[];
  words: string;
}

export interface Span {
  text: string;
  weight: number;
  value?: boolean;
}
export interface Word {
  figure?: string;
  angle?: number;
  x: number;
  y: number;
  anchor: 'start' | 'middle' | 'end';
  size: number;
  says?: string;
  spans: Span[];
}
export interface Grip {
  figure?: string;
  setting?: 'turn' | 'eye' | 'lens';
  x: number;
  y: number;
  way: 'up' | 'along' | 'turn';
  per: number;
  about?: [number, number];
  ids?: string[];
  value?: number; // of a setting, with its bounds
  lo?: number;
  hi?: number;
}
export interface Camera {
  turn: number;
  'eye-mm': number;
  lens: number; // 0 where a distance was chosen
  horizon: number; // its height on the screen
  'per-mm': number;
  turns: [number, number];
  eyes: [number, number];
  lenses: [number, number];
}
export interface PlanMap {
  x: number;
  y: number;
  'px-per-w': number;
  facing: 'left' | 'right';
}
export interface Sheet extends Solved {
  page: number;
  pages: number;
  kind: string;
  view: string;
  width: number;
  height: number;
  svg: string;
  words: Word[];
  grips: Grip[];
  camera?: Camera;
  map?: PlanMap;
  problem?: string; // why the sheet does not fit its real paper
  title: { heading: string; sub: string };
  facts: [string, string][];
  paper: { width: number; height: number; 'wheel-mm': number; box?: [number, number, number, number] };
}
export interface Screen {
  width: number;
  height: number;
  'lettering-px': number;
  dark: boolean;
  'wheel-px'?: number;
  moving?: boolean;
}

export interface Problem {
  where: string;
  text: string;
  nearest?: string;
}
export interface Segment {
  name: string;
  title: string;
  line: string;
  form: string;
  svg: string;
}
export interface Tweak {
  name: string;
  title: string;
  line: string;
  refused: Record<string, string>;
}
export interface Bounds {
  lo: number;
  hi: number;
  unit: string;
}
export interface Setting {
  key: string;
  flag: string;
  group: string;
  help: string;
  default: string;
  choices: string[];
  list: boolean;
  bool: boolean;
  bounds: Bounds[] | null;
  goes: [string, string][] | null;
  'by-kind'?: Record<string, string>; // defaults of single kinds of sheet
  options?: Guide[];
}
export interface Guide {
  name: string;
  title: string;
  goes: [string, string][];
  usual: [string, string][]; // where it is drawn without a choice
}
export interface FigureInfo {
  name: string;
  role: string;
  unit: string;
  lo: number;
  hi: number;
  meaning: string;
}

export type Held<T> = T | { clash: Clash };
export const isClash = (a: object): a is { clash: Clash } => 'clash' in a && !!(a as { clash: unknown }).clash;

/** A refusal of the server: its status, and what is wrong with the body. */
export class Refusal extends Error {
  constructor(
    readonly status: number,
    readonly problems: Problem[],
  ) {
    super(problems.map(p => [p.where, p.text].filter(Boolean).join(': ')).join('; ') || `the program answers ${status}`);
  }
}

// The bearer lives in memory only: a reload asks for the word again, and nothing on disk lets anybody in.
let bearer = '';

async function call(path: string, body?: object, signal?: AbortSignal): Promise<Response> {
  const headers: Record<string, string> = {};
  if (bearer) headers.Authorization = `Bearer ${bearer}`;
  if (body) headers['Content-Type'] = 'application/json';
  const r = await fetch(path, body ? { method: 'POST', headers, signal, body: JSON.stringify(body) } : { headers });
  if (r.ok) return r;
  let problems: Problem[] = [];
  try {
    problems = (await r.json()).problems || [];
  } catch {
    /* a refusal without words: its status says enough */
  }
  throw new Refusal(r.status, problems);
}

export const ask = async <T>(path: string): Promise<T> => (await call(path)).json();
export const post = async <T>(path: string, body: object): Promise<T> => (await call(path, body)).json();

/** Fetches a file that the program was started with. */
export const fetched = async (path: string): Promise<Blob> => (await call(path)).blob();

/** Exchanges the word that the program printed for the bearer of this page. */
export async function enter(word: string): Promise<void> {
  bearer = (await post<{ bearer: string }>('/enter', { word })).bearer;
}

/** Asks for a file; returns its bytes and its name, or the one given where the program names none. */
export async function keep(body: object, unnamed: string, path = '/keep', signal?: AbortSignal): Promise<{ blob: Blob; name: string }> {
  const r = await call(path, body, signal);
  const name = /filename="?([^";]+)"?/.exec(r.headers.get('Content-Disposition') || '');
  return { blob: await r.blob(), name: name ? name[1] : unnamed };
}

/**
 * Sends one question at a time. While one is under way only the newest waits; an answer older than `forget` is dropped.
 */
export class Newest<Q, A> {
  private busy = false;
  private waiting: { q: Q; n: number } | null = null;
  private n = 0;
  private from = 0;

  constructor(
    private send: (q: Q) => Promise<A>,
    private use: (a: A, q: Q) => void,
    private fail: (e: unknown, q: Q) => void,
  ) {}

  ask(q: Q): void {
    const next = { q, n: ++this.n };
    if (this.busy) this.waiting = next;
    else void this.go(next);
  }

  /** Asks a question anew, unless a newer one waits. */
  askAgain(q: Q): void {
    if (!this.waiting) this.ask(q);
  }

  /** Drops the answers to everything asked so far. */
  forget(): void {
    this.from = this.n + 1;
  }

  private async go({ q, n }: { q: Q; n: number }): Promise<void> {
    this.busy = true;
    try {
      const a = await this.send(q);
      if (n >= this.from) this.use(a, q);
    } catch (e) {
      if (n >= this.from) this.fail(e, q);
    }
    this.busy = false;
    const next = this.waiting;
    this.waiting = null;
    if (next) void this.go(next);
  }
}
