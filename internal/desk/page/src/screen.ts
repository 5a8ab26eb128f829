// How large the drawing is asked for. The wheel’s size depends on window and segment only: no tray, clash or line of the sentence changes it.
import type { Screen } from './calls';

const SLIM = 40; // rem; narrower papers leave the upright rule and the names out
const LARGE = 100; // rem; from here on the lettering of the sheet grows with it
const wide = matchMedia('(min-width: 73.76em)'); // as in sizes.css: below it the tweaks need not share the first screen

export const dark = matchMedia('(prefers-color-scheme: dark)');

export const rem = (): number => parseFloat(getComputedStyle(document.documentElement).fontSize) || 16;

/** The screen to draw for, from the width of the paper and where it starts on the page. */
export function screenOf(paper: HTMLElement, camera = false): Screen {
  const width = Math.max(280, Math.floor(paper.clientWidth)),
    r = rem() / 16;
  const top = paper.getBoundingClientRect().top + scrollY;
  const left = innerHeight - top - ((wide.matches ? 214 : 270) + (camera ? 76 : 0)) * r; // title strip, hand and tweaks stand below
  const height =
    width < SLIM * 16 * r ? Math.max(270, width * 0.78) : Math.max(wide.matches ? 400 : width * 0.54, Math.min(width * 0.62, left));
  return {
    width,
    height: Math.round(height),
    'lettering-px': Math.round((width < LARGE * 16 * r ? 13 : 15) * r * 10) / 10,
    dark: dark.matches,
  };
}
