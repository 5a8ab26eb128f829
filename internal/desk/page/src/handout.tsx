// The place where a class is handed out.
import { refresh } from './handout/ask';
import { Files, refusal } from './handout/files';
import { isLesson, type Lesson } from './handout/lesson';
import { takeFile } from './handout/list';
import { Main } from './handout/main';
import { change, handout, onClassChange, setHandout, step } from './handout/store';
import type { Place } from './places';
import { say } from './speak';
import { state } from './store';
import { handoutWords as words } from './words-handout';

onClassChange(refresh);

const LIST = /\.(txt|csv)$/i;

/** Opens a class: one step of undo. */
export function openClass(lesson: unknown, name: string): boolean {
  if (!isLesson(lesson)) return false;
  setHandout({ file: name, student: 1, page: 1 });
  change({ lesson: lesson as Lesson });
  return true;
}

export const handouts: Place = {
  name: 'handout',
  title: words.title,
  file: () => handout.file,
  steps: () => ({ past: handout.work.past.length, future: handout.work.future.length }),
  undo: () => {
    if (step(true)) say(words.undone);
  },
  redo: () => {
    if (step(false)) say(words.redone);
  },
  refusal,
  Files,
  Main,
  refresh,
  escape: () => false,
  opened: (what, name) => !!what.class && openClass(what.class, name),
  takes: file => LIST.test(file.name) && state.place === 'handout', // elsewhere a text is no list of names
  take: takeFile,
};
