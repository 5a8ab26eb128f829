// The place of photographs: a picture is marked on the paper, and its figures stand where a sheet has them.
import { Fragment, h } from 'preact';
import { photoWords as words } from '../words-photo';
import { Empty } from './empty';
import { Foot } from './foot';
import { Row } from './row';
import { PhotoSentence } from './sentence';
import { PhotoStage } from './stage';
import { shotNow } from './store';
import { FigureTable } from './table';
import { Walk } from './walk';

export function Main() {
  const s = shotNow();
  if (!s) return <Empty />;
  return (
    <>
      <PhotoSentence shot={s} />
      <Walk shot={s} />
      <section id="desk-sheet" class="board" aria-label={words.title} tabIndex={-1}>
        <div id="desk-paper" class="paper photo">
          <PhotoStage shot={s} />
        </div>
      </section>
      <Foot shot={s} />
      <Row />
      <FigureTable shot={s} />
    </>
  );
}
