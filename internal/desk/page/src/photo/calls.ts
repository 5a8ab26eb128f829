// The calls about photographs, as docs/calls.md has them.
import type { Problem, Word } from '../calls';

export interface MarkInfo {
  name: string;
  least: number;
  most: number;
  where: string; // an instruction
}

export interface ReadFigure {
  value: number | null;
  pm: number | null;
  unit: 'w' | 'mm' | 'ratio' | 'count' | 'deg' | '';
  mm: number | null;
  'mm-pm': number | null;
  state: 'read' | 'absent' | 'unreadable' | 'assumed';
  'most-from'?: string;
}

export interface Reading {
  name: string;
  'wheel-mm': number | null;
  skew: string;
  figures: Record<string, ReadFigure>;
  messages: string[];
  'reads-as': string;
}

/** What one more mark would gain. */
export interface Gain {
  mark: string; // or a key of the marks file
  with?: string;
  count: number;
  figure: string;
  pm: number;
  from: number;
  text?: string;
}

export interface Placed {
  width: number;
  height: number;
  box: [number, number, number, number]; // where the shown part of the picture stands
}

export interface PhotoSheet extends Placed {
  svg: string;
  words: Word[];
}

/** How a figure lies to what the reading is held against; `follows`: it only says again what others say. */
export interface Difference {
  figure: string;
  words: string;
  follows?: boolean;
}

export interface ReadAnswer {
  reading: Reading;
  head: string;
  'skew-words': string;
  ranking: string;
  differences?: Difference[];
  moves?: string[];
  unsure?: string[];
  narrows?: Gain[];
  sheet?: PhotoSheet;
}

export interface PhotoScreen {
  width: number;
  height: number;
  'lettering-px': number;
  dark: boolean;
  shown: [number, number, number, number]; // part of the picture, in its pixels
}

export interface Norms {
  figures: { figure: string; n: number; p10: number; median: number; p90: number; range: [number, number]; unit: ReadFigure['unit'] }[];
  base: string;
  messages: string[];
  profile: string; // its YAML
}

export type { Problem };
