// Below the fold: every figure that was read, and the same in a terminal.
import { h } from 'preact';
import { useEffect, useState } from 'preact/hooks';
import { post } from '../calls';
import { nameOf, plain } from '../figures';
import { words as common } from '../words';
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
      <Command shot={shot} />
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
        <div class="scroll" tabIndex={0} role="region" aria-label={words.table}>
          <table>
            <thead>
              <tr>
                {words.columns.slice(0, a.differences ? 8 : 7).map((c, i) => (
                  <th key={i} scope="col">
                    {c}
                  </th>
                ))}
              </tr>
            </thead>
            <tbody>
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
            </tbody>
          </table>
        </div>
      </details>
    </div>
  );
}

const number = (v: number | null, unit: string): string =>
  v === null ? '' : `${plain(v, unit === 'deg' ? 1 : unit === 'mm' ? 0 : 2)}${unit === 'deg' ? '°' : ''}`;

function Command({ shot }: { shot: Shot }) {
  const [open, setOpen] = useState(false),
    [line, setLine] = useState(''),
    body = JSON.stringify({ marks: marksOf(shot), name: shot.name, against: againstOf() });
  useEffect(() => {
    if (!open) return undefined;
    let on = true;
    post<{ line: string }>('/command', JSON.parse(body)).then(
      a => on && setLine(a.line),
      () => on && setLine(''),
    );
    return () => {
      on = false;
    };
  }, [open, body]);
  return (
    <details id="photo-command" onToggle={e => setOpen(e.currentTarget.open)}>
      <summary>{common.terminal}</summary>
      <p class="command">
        <code>{line}</code>
      </p>
    </details>
  );
}
