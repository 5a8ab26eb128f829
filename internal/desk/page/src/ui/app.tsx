// The page as a whole.
import { h } from 'preact';
import { placeHere } from '../places';
import { state } from '../store';
import { words } from '../words';
import { Enter } from './enter';
import { Top } from './top';

export function App({ start }: { start: () => void }) {
  if (state.locked) return <Enter then={start} />;
  if (!state.job.segment)
    return (
      <main class="enter">
        <p>{state.silent ? words.gone : ''}</p>
      </main>
    );
  const here = placeHere();
  return (
    <div class="page">
      <a class="skip" href="#desk-sheet" onClick={toSheet}>
        {words.toSheet}
      </a>
      <Top />
      <main key={here.name}>
        <here.Main />
      </main>
    </div>
  );
}

// The first figure takes the focus: the sheet itself cannot be read or changed.
function toSheet(e: Event): void {
  e.preventDefault();
  const first =
    document.querySelector<HTMLElement>('#desk-figures [tabindex="0"], #desk-grips [tabindex="0"]') ||
    document.getElementById('desk-sheet');
  first?.focus();
  first?.scrollIntoView({ block: 'nearest' });
}
