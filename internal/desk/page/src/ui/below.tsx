// Below the fold: the same job as a command line, folded shut, and the table of every figure.
import { h } from 'preact';
import { clashing, hold, readable, shown, unitsOf } from '../desk';
import { inOrder, nameOf, numberOf, onPaper, stateWords } from '../figures';
import { state } from '../store';
import { words } from '../words';
import { Command } from './command';
import { Table } from './table';

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
        <Figures />
      </details>
    </div>
  );
}

function Figures() {
  const figures = state.figures,
    units = unitsOf(),
    mm = state.wheelMM,
    paper = state.sheet?.paper['wheel-mm'] || 0;
  return (
    <div>
      <Table label={words.everyFigure} columns={words.columns}>
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
      </Table>
      <p>{readable(state.sheet?.['reads-as'] || '')}</p>
    </div>
  );
}
