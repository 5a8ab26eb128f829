// The page as a whole.
import { h } from 'preact';
import { state } from '../store';
import { words } from '../words';
import { Below } from './below';
import { Camera } from './camera';
import { Enter } from './enter';
import { Hand } from './hand';
import { Paper } from './paper';
import { Sentence } from './sentence';
import { Top } from './top';
import { Tweaks } from './tweaks';

export function App({ start }: { start: () => void }) {
  if (state.locked) return <Enter then={start} />;
  if (!state.job.segment)
    return (
      <main class="enter">
        <p>{state.silent ? words.gone : ''}</p>
      </main>
    );
  return (
    <div class="page">
      <a class="skip" href="#desk-sheet" onClick={toSheet}>
        {words.toSheet}
      </a>
      <Top />
      <main>
        <Sentence />
        <Paper />
        <Camera />
        <Hand />
        <Tweaks />
        <Below />
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
