// Below the fold: every figure that was read, and the same in a terminal.
import { h } from 'preact';
import { nameOf, plain } from '../figures';
import { Command } from '../ui/command';
import { Table } from '../ui/table';
import { photoWords as words } from '../words-photo';
import { marksOf } from './act';
import { againstOf } from './ask';
import type { Shot } from './marks';
import { photo } from './store';

export function FigureTable({ shot }: { shot: Shot }) {
  const a = photo.answers[shot.id];
  if (!a) return null;
  const against = new Map((a.differences || []).map(d => [d.figure, d.words]));
  return (
    <div class="below">
      <Command body={{ marks: marksOf(shot), name: shot.name, against: againstOf() }} />
      {a.reading.messages.length ? (
        <details id="photo-remarks" open>
          <summary>{words.messages}</summary>
          <ul>
            {a.reading.messages.map(m => (
              <li key={m}>{m}</li>
            ))}
          </ul>
        </details>
      ) : null}
      <details id="photo-table">
        <summary>{words.table}</summary>
        <Table label={words.table} columns={words.columns.slice(0, a.differences ? 8 : 7)}>
          {Object.entries(a.reading.figures)
            .filter(([, f]) => f.state !== 'absent' && f.value !== null)
            .map(([n, f]) => (
              <tr key={n} data-figure={n}>
                <th scope="row">{nameOf(n)}</th>
                <td data-value={f.value}>{number(f.value, f.unit)}</td>
                <td data-pm={f.pm}>{number(f.pm, f.unit)}</td>
                <td>{f.mm === null ? '' : Math.round(f.mm)}</td>
                <td>{f['mm-pm'] === null ? '' : Math.round(f['mm-pm'])}</td>
                <td>{f.state}</td>
                <td>{f['most-from'] || ''}</td>
                {a.differences ? <td>{against.get(n) || ''}</td> : null}
              </tr>
            ))}
        </Table>
      </details>
    </div>
  );
}

const number = (v: number | null, unit: string): string =>
  v === null ? '' : `${plain(v, unit === 'deg' ? 1 : unit === 'mm' ? 0 : 2)}${unit === 'deg' ? '°' : ''}`;
