// The place of handouts: the class in a sentence, what everybody gets, one student's sheet with its answer, the names, the printing.
import { Fragment, h } from 'preact';
import { Command } from '../ui/command';
import { handout, lessonNow } from './store';
import { Foot } from './foot';
import { Names } from './names';
import { Pages } from './pages';
import { Sentence } from './sentence';
import { Sheets } from './sheets';

export function Main() {
  return (
    <>
      <Sentence />
      <Pages />
      <div class="class">
        <Sheets />
        <Names />
      </div>
      <Foot />
      <div class="below">
        <Command body={{ class: lessonNow(), duplex: handout.work.now.duplex }} />
      </div>
    </>
  );
}
