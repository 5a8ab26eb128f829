// Reading what people type at a figure: "2.35", "1737mm", "68in", "1:2.4", "-0.1" relative to now, "= -0.1" absolute, a tyre's designation.
import type { Figure } from './calls';
import { show, type Units, written } from './figures';
import { words } from './words';

export type Typed = { pin: string } | { problem: string } | { doubt: string; instead: { label: string; pin: string }[] };

const MM: Record<string, number> = { mm: 1, cm: 10, m: 1000, in: 25.4 };
const TYRE = /^\d{3}\/\d{2}\s*-?\s*(Z?R|-)?\s*\d{2}(\.\d)?$/i;

function unitOf(word: string, f: Figure, units: Units): string {
  const unit = word.toLowerCase().replace('"', 'in').replace('”', 'in').replace('°', 'deg');
  if (unit) return unit;
  if (f.unit === 'w') return units;
  return f.unit === 'mm' ? (units === 'in' ? 'in' : 'mm') : '';
}

/** Turns typed text into what a pin says; nothing of it is solved here, the program judges the value. */
export function readTyped(text: string, figure: string, f: Figure, units: Units, wheelMM: number): Typed {
  const t = text
    .trim()
    .replace(/−/g, '-')
    .replace(/(\d),(\d)/, '$1.$2');
  if (!t) return { problem: words.typeSomething };
  if (TYRE.test(t) && (figure === 'wheel' || figure === 'rear-wheel')) return { pin: t.replace(/\s/g, '').toUpperCase() };
  const ratio = /^1\s*:\s*(\d*\.?\d+)$/.exec(t);
  if (ratio)
    return f.unit === 'ratio' && Number(ratio[1]) > 0
      ? { pin: String(Number((1 / Number(ratio[1])).toFixed(6))) }
      : { problem: words.noRatio };
  const m = /^(=?)\s*([+-]?)\s*(\d+\.?\d*|\.\d+)\s*(w|mm|cm|m|in|"|”|°|deg)?$/i.exec(t);
  if (!m) return { problem: words.cannotRead(text) };
  const unit = unitOf(m[4] || '', f, units),
    lengths = f.unit === 'w' || f.unit === 'mm';
  if (lengths ? unit !== 'w' && !(unit in MM) : unit !== '' && !(f.unit === 'deg' && unit === 'deg'))
    return { problem: words.noUnit(m[4] || unit) };
  const absolute = m[1] === '=' || m[2] === '',
    typed = Number(m[3]) * (m[2] === '-' ? -1 : 1);
  if (!absolute) return relative(typed, unit, f, wheelMM);
  if (!m[4] && m[1] !== '=') {
    const doubt = doubted(typed, f, units, wheelMM);
    if (doubt) return doubt;
  }
  return { pin: lengths ? `${typed}${unit}` : String(typed) };
}

function relative(by: number, unit: string, f: Figure, wheelMM: number): Typed {
  const now = Number(f.value);
  if (f.unit === 'w' && unit === 'w') return { pin: written(now + by, 'w') };
  if (f.unit === 'w') return { pin: written(now * wheelMM + by * MM[unit], 'mm') };
  if (f.unit === 'mm') return { pin: written(now + by * (unit === 'w' ? wheelMM : MM[unit]), 'mm') };
  return { pin: written(now + by, f.unit) };
}

// A bare number far above the range is asked about: it was probably meant in another unit.
function doubted(v: number, f: Figure, units: Units, wheelMM: number): Typed | null {
  const shown = f.unit === 'w' ? (units === 'w' ? 1 : wheelMM / MM[units]) : 1;
  const top = f.range ? f.range[1] * shown : f.unit === 'w' ? 5 * shown : Infinity;
  if (f.unit !== 'w' || v <= 3 * Math.max(top, 0.5 * shown)) return null;
  const name = units === 'w' ? words.wheels : units;
  const instead = (units === 'w' ? ['mm', 'in'] : units === 'in' ? ['mm'] : [])
    .filter(u => (v * MM[u]) / wheelMM <= 3 * (f.range ? Math.max(f.range[1], 0.5) : 5))
    .map(u => ({ label: words.wouldBe(`${v} ${u}`, show((v * MM[u]) / wheelMM, 'w', units, wheelMM)), pin: `${v}${u}` }));
  return { doubt: words.doubt(`${v} ${name}`), instead };
}
