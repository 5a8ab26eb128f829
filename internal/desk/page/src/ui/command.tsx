// The same job as a command for a terminal, folded shut.
import { h } from 'preact';
import { useEffect, useState } from 'preact/hooks';
import { post } from '../calls';
import { note } from '../saving';
import { words } from '../words';

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
    if (!navigator.clipboard) return note(words.notCopied); // a page over plain http has no clipboard
    navigator.clipboard.writeText(line).then(
      () => note(words.copied),
      () => note(words.notCopied),
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
