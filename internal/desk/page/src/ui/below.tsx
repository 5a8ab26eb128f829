// Below the fold: the same job as a command line, folded shut, and the table of every figure.
import { h } from 'preact';
import { useEffect, useState } from 'preact/hooks';
import { post } from '../calls';
import { clashing, hold, readable, shown, unitsOf } from '../desk';
import { inOrder, nameOf, numberOf, onPaper, stateWords } from '../figures';
import { say } from '../speak';
import { set, state } from '../store';
import { words } from '../words';

export function Below() {
  return (
    <div class="below">
      <details id="desk-keys-help">
        <summary>{words.keysTitle}</summary>
        <p>
          {words.keys} {words.keysMore}
        </p>
      </details>
      <Command body={{ job: state.job }} />
      <details id="desk-table">
        <summary>{words.everyFigure}</summary>
        <Table />
      </details>
    </div>
  );
}

/** The line that draws or prints the same in a terminal. */
export function Command({ body }: { body: object }) {
  const [open, setOpen] = useState(false),
    [line, setLine] = useState(''),
    asked = JSON.stringify(body);
  useEffect(() => {
    if (!open) return undefined;
    let on = true;
    post<{ line: string }>('/command', body).then(
      a => {
        if (on) setLine(a.line);
      },
      () => {
        if (on) setLine('');
      },
    );
    return () => {
      on = false;
    };
  }, [open, asked]);
  const copy = () => {
    const done = (text: string) => {
      set({ note: { text } });
      say(text);
    };
    if (!navigator.clipboard) return done(words.notCopied); // a page over plain http has no clipboard
    navigator.clipboard.writeText(line).then(
      () => done(words.copied),
      () => done(words.notCopied),
    );
  };
  return (
    <details id="desk-command" onToggle={e => setOpen(e.currentTarget.open)}>
      <summary>{words.terminal}</summary>
      <p class="command">
        <code>{line}</code>{' '}
        <button class="plain" onClick={copy} disabled={!line}>
          {words.copy}
        </button>
      </p>
    </details>
  );
}

function Table() {
  const figures = state.figures,
    units = unitsOf(),
    mm = state.wheelMM,
    paper = state.sheet?.paper['wheel-mm'] || 0;
  return (
    <div class="scroll" tabIndex={0} role="region" aria-label={words.everyFigure}>
      <table>
        <thead>
          <tr>
            {words.columns.map(c => (
              <th key={c} scope="col">
                {c}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {inOrder(Object.keys(figures).filter(n => typeof figures[n].value === 'number')).map(n => {
            const f = figures[n];
            return (
              <tr key={n} class={state.held === n ? 'held' : ''}>
                <th scope="row">
                  <button class="plain" aria-label={words.hold(nameOf(n))} onClick={() => hold(n)}>
                    {nameOf(n)}
                  </button>
                </th>
                <td>{shown(n, numberOf(f), 'w')}</td>
                <td>{f.unit === 'mm' || f.mm === null ? '' : Math.round(f.mm)}</td>
                <td>{f.unit === 'mm' ? '' : onPaper(f, mm, paper).replace(/ .*/, '')}</td>
                <td>{f.typical === undefined ? '' : shown(n, f.typical, 'w')}</td>
                <td>{f.range ? `${shown(n, f.range[0], 'w')} to ${shown(n, f.range[1], 'w')}` : ''}</td>
                <td>{clashing(n) ? words.cannotHold : stateWords(n, f, units, mm) || f.state}</td>
              </tr>
            );
          })}
        </tbody>
      </table>
      <p>{readable(state.sheet?.['reads-as'] || '')}</p>
    </div>
  );
}
