// Figures as people read and hear them. Units are converted for showing; no figure is worked out here.
import type { Figure, Figures } from './calls';
import { words } from './words';

export type Units = 'w' | 'mm' | 'in';
const MM_PER_INCH = 25.4;

/** The figures that stand on a sheet, in the order in which a hand draws them. */
export const DRAWN = [
  'wheel',
  'wheels-between',
  'wheelbase',
  'height',
  'sill',
  'greenhouse-to-body',
  'belt',
  'front-overhang',
  'rear-overhang',
  'length',
  'pillar-aim',
  'pillar-rake',
  'glass-end',
  'arch-gap',
  'lamp-offset',
  'front-lamp',
  'clearance',
];

export function inOrder(names: string[]): string[] {
  const at = (n: string) => {
    const i = DRAWN.indexOf(n);
    return i < 0 ? DRAWN.length : i;
  };
  return names
    .map((n, i) => ({ n, i }))
    .sort((a, b) => at(a.n) - at(b.n) || a.i - b.i)
    .map(e => e.n);
}

export const nameOf = (figure: string): string => words.figures[figure] || figure.replace(/-/g, ' ');

const minus = (s: string): string => s.replace('-', '−');
const fixed = (v: number, n: number): string => minus((Math.abs(v) < 0.5 / 10 ** n ? 0 : v).toFixed(n));

/** A number with so many decimals, a true minus and no minus before zero. */
export const plain = fixed;

/** Shows a value of a figure's own unit in the units that the sheet has. */
export function show(v: number, unit: Figure['unit'], units: Units, wheelMM: number): string {
  const inches = (mm: number) => `${fixed(mm / MM_PER_INCH, 1)} in`;
  switch (unit) {
    case 'deg':
      return `${fixed(v, 1).replace(/\.0$/, '')}°`;
    case 'ratio':
      return `1 : ${(1 / v).toFixed(2)}`;
    case 'count':
      return fixed(v, 2);
    case 'mm':
      return units === 'in' ? inches(v) : `${fixed(v, 0)} mm`;
    case 'w':
      return units === 'w' ? fixed(v, 2) : units === 'in' ? inches(v * wheelMM) : `${fixed(v * wheelMM, 0)} mm`;
  }
  return String(v);
}

/** Only the greenhouse is spoken of as one part to so many; another ratio is shown as the number that it is. */
export const shownUnit = (figure: string, f: Figure | undefined): Figure['unit'] =>
  f?.unit === 'ratio' && figure !== 'greenhouse-to-body' ? 'count' : f?.unit || 'w';

const WRITTEN = /^([-−]?[\d.]+)\s*([a-z"]*)$/i;

/** Shows a pin as it was typed, with a space before its unit; wheels as the sheet shows them. */
export function showWritten(written: string, f: Figure | undefined, units: Units, wheelMM: number): string {
  const m = WRITTEN.exec(written.trim());
  if (!m || !f) return written;
  if (!m[2] || m[2] === 'w') return show(Number(m[1].replace('−', '-')), f.unit, units, wheelMM);
  return `${minus(m[1])} ${m[2]}`;
}

/** How a value is written into a pin: its unit is never left to be guessed. */
export function written(v: number, unit: Figure['unit']): string {
  const n = String(Number(v.toFixed(unit === 'deg' || unit === 'mm' ? 1 : unit === 'ratio' ? 6 : 3)));
  return unit === 'w' || unit === 'mm' ? n + unit : n;
}

/** The same in the unit that is shown, so that a pin holds what people saw; inside its room, whatever is rounded. */
export function writtenShown(
  v: number,
  unit: Figure['unit'],
  units: Units,
  wheelMM: number,
  room: [number, number] = [-Infinity, Infinity],
): string {
  if (unit !== 'w' || units === 'w') return written(v, unit);
  const per = wheelMM / (units === 'in' ? MM_PER_INCH : 1),
    fine = units === 'in' ? 0.01 : 0.1;
  let n = Math.round((v * per) / fine);
  if ((n * fine) / per > room[1]) n--;
  if ((n * fine) / per < room[0]) n++;
  return `${Number((n * fine).toFixed(2))}${units}`;
}

/** Small and large steps of the arrow keys, and what a drag rounds to. */
export function steps(unit: Figure['unit'], units: Units = 'w', wheelMM = 1): { small: number; large: number } {
  if (unit === 'w' && units !== 'w') {
    const mm = units === 'in' ? MM_PER_INCH / 10 : 1;
    return { small: mm / wheelMM, large: (10 * mm) / wheelMM };
  }
  switch (unit) {
    case 'deg':
      return { small: 0.5, large: 3 };
    case 'mm':
      return { small: 1, large: 10 };
    case 'ratio':
      return { small: 0.01, large: 0.05 };
  }
  return { small: 0.01, large: 0.1 };
}

export const round = (v: number, to: number): number => Number((Math.round(v / to) * to).toFixed(9));

export const numberOf = (f: Figure | undefined): number => (typeof f?.value === 'number' ? f.value : NaN);

/** A figure's length on the vehicle; '' where it has none or it is shown already. */
export function onVehicle(f: Figure, units: Units): string {
  if (f.mm === null || (f.unit !== 'w' && f.unit !== 'count') || (units !== 'w' && f.unit === 'w')) return '';
  return units === 'in' ? `${fixed(f.mm / MM_PER_INCH, 1)} in` : `${fixed(f.mm, 0)} mm`;
}

export const onPaper = (f: Figure, wheelMM: number, paperWheel: number): string =>
  f.mm === null || !paperWheel ? '' : words.onPaper(fixed((f.mm / wheelMM) * paperWheel, 1));

/** Whether two values look different where they are shown. */
export function differs(a: number, b: number, unit: Figure['unit']): boolean {
  return Math.abs(a - b) > (unit === 'deg' ? 0.05 : unit === 'mm' ? 0.5 : 0.005);
}

// Figures that run along the vehicle are longer or shorter than typical, not higher or lower.
const ALONG = /^(length|wheelbase|wheels-between|.*-overhang.*|.*-setback|width|track)$/;

/** What a figure's state is called where it stands; '' for the plain ones. */
export function stateWords(figure: string, f: Figure, units: Units, wheelMM: number, kept = false): string {
  const parts: string[] = [];
  if (f.state === 'pinned') parts.push(words.pinned);
  if (f.state === 'kept' || kept) parts.push(words.kept);
  if (f.state === 'limited' && f.limit) parts.push(words.limited(f.limit));
  if (f.beyond && f.range) {
    const [lo, hi] = f.range,
      between = `${show(lo, f.unit, units, wheelMM)}–${show(hi, f.unit, units, wheelMM)}`;
    const way = f.unit === 'deg' ? 'deg' : ALONG.test(figure) ? 'along' : 'up';
    parts.push(words.beyond((numberOf(f) > hi ? words.over : words.under)[way], between));
  }
  return parts.join(', ');
}

/** What is spoken of a figure after its name. */
export function aloud(figure: string, f: Figure, wheelMM: number, clashes: boolean): string {
  const v = numberOf(f),
    plain = (x: number) => show(x, f.unit, 'w', wheelMM);
  const value =
    f.unit === 'w' || f.unit === 'count' ? words.spokenWheels(plain(v), f.mm === null ? '' : f.mm.toFixed(0)) : words.spoken(plain(v));
  const state = clashes ? words.cannotHold : stateWords(figure, f, 'w', wheelMM) || words.free;
  return `${value}, ${state}${f.range ? `; ${words.range(plain(f.range[0]), plain(f.range[1]))}` : ''}`;
}

/** The figures that moved between two solves, the largest move (in widths of range) first. */
export function moved(before: Figures, now: Figures, but: string): string[] {
  const size = (n: string) => {
    const r = now[n].range;
    return Math.abs(numberOf(now[n]) - numberOf(before[n])) / (r && r[1] > r[0] ? r[1] - r[0] : 1);
  };
  return DRAWN.filter(n => n !== but && n in now && n in before && differs(numberOf(now[n]), numberOf(before[n]), now[n].unit)).sort(
    (a, b) => size(b) - size(a),
  );
}
