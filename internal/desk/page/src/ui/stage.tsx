// The drawing with everything that lies over it: band, old places, grips, figures, the field that is typed into.
import { h } from 'preact';
import { useLayoutEffect, useRef } from 'preact/hooks';
import type { Sheet, Word } from '../calls';
import { settled } from '../drag';
import { inOrder } from '../figures';
import { state } from '../store';
import { draw } from '../svg';
import { words } from '../words';
import { Band, OldPlaces, placeNumbers } from './band';
import { turnable } from './camera';
import { Editor } from './editor';
import { FigureWord } from './figure';
import { Grips, Offer, Stop } from './grip';
import { Preview } from './preview';

export function Stage() {
  const s = state.sheet,
    art = useRef<SVGSVGElement>(null),
    figures = useRef<HTMLDivElement>(null);
  useLayoutEffect(() => {
    if (s && art.current) draw(art.current, s.svg);
    settled();
  }, [s, state.clash, state.problems]);
  useLayoutEffect(() => {
    if (s && figures.current) part(figures.current, s);
  }, [s, state.was, state.held, state.clash]);
  if (!s) return <div id="desk-stage" class="stage waiting" />;
  const size = { width: `${s.width}px`, height: `${s.height}px` };
  return (
    <div id="desk-stage" class={`stage ${state.clash ? 'clashing' : ''}`} style={size} {...turnable(s)}>
      <svg id="desk-art" class="layer" ref={art} aria-hidden="true" focusable="false" />
      <svg class="layer" viewBox={`0 0 ${s.width} ${s.height}`} aria-hidden="true" focusable="false">
        <Band sheet={s} />
        <OldPlaces sheet={s} />
        <Preview sheet={s} />
      </svg>
      <Grips sheet={s} />
      <div id="desk-figures" role="group" aria-label={words.figuresGroup} aria-describedby="desk-keys" ref={figures}>
        {ordered(s.words).map(({ word, main, key }) => (
          <FigureWord key={key} word={word} main={main} />
        ))}
        <p id="desk-keys" class="aside">
          {words.keys}
        </p>
      </div>
      <Stop sheet={s} />
      <Editor at="sheet" />
      <Offer />
    </div>
  );
}

interface Placed {
  word: Word;
  main: boolean;
  key: string;
}

/** The words in drawing order, those of no figure last. A figure's first word with a value is its slider; its others only lead to it. */
function ordered(all: Word[]): Placed[] {
  const first = new Map<string, Word>(),
    seen = new Map<string, number>();
  for (const w of all) if (w.figure && w.spans.some(p => p.value) && !first.has(w.figure)) first.set(w.figure, w);
  const order = inOrder([...first.keys()]);
  return all
    .map(word => {
      const main = !!word.figure && first.get(word.figure) === word,
        name = main ? word.figure! : word.spans.map(p => p.text).join('');
      const n = (seen.get(name) || 0) + 1;
      seen.set(name, n);
      return { word, main, key: main ? name : `${name} ${n}` };
    })
    .sort((a, b) => (a.main ? order.indexOf(a.word.figure!) : order.length) - (b.main ? order.indexOf(b.word.figure!) : order.length));
}

/** Hides a remark that would lie on another word, for the hand line or the note of a clash has it too; then places the band's numbers. */
function part(group: HTMLElement, s: Sheet): void {
  const boxes = Array.from(group.querySelectorAll('.word')).map(e => ({ e, box: e.getBoundingClientRect() }));
  const paper = group.parentElement!.getBoundingClientRect();
  for (const was of Array.from(group.querySelectorAll<HTMLElement>('.was, .state'))) {
    was.hidden = false;
    const b = was.getBoundingClientRect(),
      own = was.closest('.word');
    const hits = boxes.some(
      o => o.e !== own && o.box.left < b.right && o.box.right > b.left && o.box.top < b.bottom && o.box.bottom > b.top,
    );
    was.hidden = hits || b.right > paper.left + s.width || b.left < paper.left;
  }
  placeNumbers(group.parentElement!);
}
