// The sheet that is looked at, as it is printed, and its answer beside it.
import { h } from 'preact';
import { words as common } from '../words';
import { handoutWords as words } from '../words-handout';
import { AboutStudent, calledAt } from './names';
import { handout, lessonNow, setHandout } from './store';

export function Sheets() {
  const s = handout.shown,
    { large, facts } = handout;
  if (!s) return <section id="desk-sheet" class="sheets" tabIndex={-1} aria-label={common.sheet} />;
  const stale = handout.problems.length ? words.asBefore : '';
  const name = s.name || calledAt(lessonNow(), s.student - 1),
    kind = words.kinds[s.kind] || s.kind;
  return (
    <section
      id="desk-sheet"
      class={`sheets ${large ? 'large' : ''} ${handout.problems.length ? 'stale' : ''}`}
      tabIndex={-1}
      aria-labelledby="handout-sheet"
    >
      <div class="head">
        <h2 id="handout-sheet">
          {name}: {kind}
          {stale ? <small>, {stale}</small> : null}
          {facts ? <small>, {words.pageIs(s.page, facts['per-student'])}</small> : null}
        </h2>
        <button class="plain" data-act="large" aria-pressed={large} onClick={() => setHandout({ large: !large })}>
          {large ? words.smaller : words.larger}
        </button>
      </div>
      <div class="pair">
        <figure>
          <Picture address={s.sheet} text={words.sheetOf(kind, name)} />
        </figure>
        {s.answer ? (
          <figure>
            <Picture address={s.answer} text={words.answerOf(kind, name)} />
            <figcaption>{words.answer}</figcaption>
          </figure>
        ) : null}
      </div>
      {s.notes.map(n => (
        <p key={n} class="note">
          {n}
        </p>
      ))}
      <AboutStudent />
    </section>
  );
}

/** A sheet of paper. Large, it may be wider than the window: then it is moved in its own frame. */
function Picture({ address, text }: { address: string; text: string }) {
  const s = handout.shown!;
  return (
    <div class="scroll" {...(handout.large ? { tabIndex: 0, role: 'region' as const, 'aria-label': text } : {})}>
      <img class="print" src={address} alt={text} width={s.width * 4} height={s.height * 4} />
    </div>
  );
}
