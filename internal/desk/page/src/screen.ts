// How large the drawing is asked for. The wheel's size hangs on window and segment only: no tray, clash or line of the sentence changes it.
import type { Screen } from './calls';

const SLIM = 640; // narrower papers leave the upright rule and the names out
const WIDE = 1180;

export const dark = matchMedia('(prefers-color-scheme: dark)');

const rem = (): number => parseFloat(getComputedStyle(document.documentElement).fontSize) || 16;

/** The screen to draw for, from the width of the paper and where it starts on the page. */
export function screenOf(paper: HTMLElement, camera = false): Screen {
  const width = Math.max(280, Math.floor(paper.clientWidth)), r = rem() / 16;
  const top = paper.getBoundingClientRect().top + scrollY;
  const left = innerHeight - top - ((innerWidth > WIDE ? 214 : 270) + (camera ? 76 : 0)) * r; // title strip, hand and tweaks stand below
  const height = width < SLIM ? Math.max(270, width * .78)
    : Math.max(innerWidth > WIDE ? 400 : width * .54, Math.min(width * .62, left));
  return { width, height: Math.round(height), 'lettering-px': Math.round((width < SLIM ? 13 : 15) * r * 10) / 10, dark: dark.matches };
}
