// Starts the page: asks what there is, restores what an earlier visit left, and listens for what concerns all of it.
import { h, render } from 'preact';
import { ask, type FigureInfo, Refusal, type Segment, type Setting, type Tweak } from './calls';
import { openClass } from './handout';
import { restoreHandout } from './handout/store';
import type { Job } from './job';
import { open } from './opening';
import { showKept } from './photo/act';
import type { MarkInfo } from './photo/calls';
import { openGiven } from './photo/given';
import { photo, restorePhoto } from './photo/store';
import { placeHere } from './places';
import { dark } from './screen';
import { onChange, restore, set, state } from './store';
import { App } from './ui/app';
import { closeTray } from './ui/tray';

const root = document.getElementById('desk')!;
onChange(() => render(<App start={start} />, root));

/** What the program was started with. */
interface Given {
  job: Job;
  name?: string;
  place?: string;
  marks?: Record<string, unknown>;
  class?: unknown;
}

async function start(): Promise<void> {
  try {
    const [{ job, name, ...given }, { segments }, { tweaks }, { settings }, { figures }, marks] = await Promise.all([
      ask<Given>('/job'),
      ask<{ segments: Segment[] }>('/segments'),
      ask<{ tweaks: Tweak[] }>('/tweaks'),
      ask<{ settings: Setting[] }>('/settings'),
      ask<{ figures: FigureInfo[] }>('/figures'),
      ask<{ marks: MarkInfo[]; papers: string[] }>('/marks'),
    ]);
    const from = JSON.stringify([job, given]),
      left = restore();
    // A reload finds the job as it was; another brief on the command line comes first, and the job before it is one undo away.
    const goesOn =
      left && left.from === from
        ? left
        : { job, good: job, past: left ? [...left.past, left.job] : [], future: [], held: 'height', page: 1 };
    const place = left?.from === from ? left.place : given.place || 'underlay';
    photo.infos = marks.marks;
    photo.papers = marks.papers;
    restorePhoto();
    restoreHandout();
    set({ ...goesOn, place, from, name: name || '', segments, tweaks, settings, infos: figures, locked: false, silent: false });
    if (left?.from !== from && given.class) openClass(given.class, name || '');
    if (left?.from !== from && given.marks) await openGiven(given.marks, name || '');
    void showKept();
    placeHere().refresh();
  } catch (e) {
    if (e instanceof Refusal && e.status === 401) set({ locked: true });
    else {
      set({ silent: true });
      setTimeout(() => void start(), 3000);
    }
  }
}

addEventListener('keydown', e => {
  if (e.key === 'Escape') {
    if (!placeHere().escape()) closeTray();
    return;
  }
  const field = (e.target as Element).closest('input:not([type=range]):not([type=radio]):not([type=checkbox]), textarea, select');
  if (!(e.ctrlKey || e.metaKey) || field) return;
  const k = e.key.toLowerCase();
  if (k === 'z' || k === 'y') {
    e.preventDefault();
    if (k === 'y' || e.shiftKey) placeHere().redo();
    else placeHere().undo();
  }
});

addEventListener('dragover', e => e.preventDefault());
addEventListener('drop', e => {
  e.preventDefault();
  void open(Array.from(e.dataTransfer?.files || []));
});

// A new window or new colours want a new drawing, once the hand that pulls at the window rests.
let resting = 0,
  size = '';
function look(): void {
  clearTimeout(resting);
  resting = window.setTimeout(() => {
    const now = [innerWidth, innerWidth < 700 ? 0 : innerHeight, getComputedStyle(document.documentElement).fontSize, dark.matches].join();
    if (now !== size && state.job.segment) {
      size = now;
      placeHere().refresh();
    }
  }, 120);
}
addEventListener('resize', look);
dark.addEventListener('change', look);

set({});
void start();
