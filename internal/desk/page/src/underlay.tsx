// The place where an underlay is changed.
import { Fragment, h } from 'preact';
import { change, plainly, redo, refresh, undo } from './desk';
import { cancel } from './drag';
import type { Place } from './places';
import { set, state } from './store';
import { Below } from './ui/below';
import { Camera } from './ui/camera';
import { Files, refusal } from './ui/files';
import { Hand } from './ui/hand';
import { Paper } from './ui/paper';
import { Sentence } from './ui/sentence';
import { Tweaks } from './ui/tweaks';
import { words } from './words';

function Main() {
  return (
    <>
      <Sentence />
      <Paper />
      <Camera />
      <Hand />
      <Tweaks />
      <Below />
    </>
  );
}

export const underlay: Place = {
  name: 'underlay',
  title: words.place,
  file: () => state.name,
  steps: () => ({ past: state.past.length, future: state.future.length }),
  undo,
  redo,
  refusal,
  Files,
  Main,
  refresh: () => refresh(),
  escape: cancel,
  opened: ({ job }, name) => {
    if (!job) return false;
    set({ name, page: 1 });
    change(job, { words: `${words.opened(name)}: ${plainly(job)}` });
    return true;
  },
  takes: () => false,
  take: () => Promise.resolve(),
};
