// The answers of the calls of a class, as docs/calls.md has them.
import type { Problem } from '../calls';

export interface Warning {
  where: string;
  text: string;
  set?: string;
}

export interface Facts {
  students: number;
  absent: string[];
  'per-student': number;
  sheets: number;
  'key-pages': number;
  'wheel-mm': number;
  pages: { title: string; first: number; copies: number; practice: boolean; sheets: { kind: string; view: string }[] }[];
  warnings: Warning[];
}

export interface ClassSheet {
  student: string;
  number: number;
  page: number;
  pages: number;
  of: number;
  kind: string;
  view: string;
  paper: { width: number; height: number; 'wheel-mm': number };
  svg: string;
  answer?: string;
  notes: string[];
}

export interface Progress {
  done: number;
  of: number;
  student: string;
  ended: boolean;
  notes: string[];
  problems: Problem[];
}
