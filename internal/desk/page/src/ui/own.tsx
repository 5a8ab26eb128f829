// A field in a tray or a sentence: what is typed holds once it is left or Enter is pressed; Escape forgets it. What is refused stays, with the reason.
import { h } from 'preact';
import { useEffect, useRef, useState } from 'preact/hooks';
import { complain } from '../saving';
import { say } from '../speak';

interface Props {
  label: string;
  now: string;
  set: (v: string) => void | Promise<string>; // which answers with why it refuses, '' if it does not
  hint?: string;
  numeric?: boolean;
  wide?: boolean;
  inline?: boolean; // a word of a sentence, whose label is spoken alone
}

export function OwnField({ label, now, set, hint, numeric, wide, inline }: Props) {
  const [text, setText] = useState(now),
    [wrong, tell] = useState(''),
    last = useRef({ text, now, set, typed: false, open: true });
  Object.assign(last.current, { text, now, set });
  useEffect(() => {
    last.current.typed = false;
    setText(now);
    tell('');
  }, [now]);
  const done = async () => {
    const l = last.current;
    if (!l.typed || l.text === l.now) return; // what was picked beside it is not taken back
    l.typed = false;
    const why = (await l.set(l.text)) || '';
    if (!l.open) return why ? complain(`${label}: ${why}`) : undefined;
    tell(why);
    if (why) say(why);
  };
  // A press outside shuts the tray before the field is left.
  useEffect(
    () => () => {
      last.current.open = false;
      setTimeout(() => void done());
    },
    [],
  );
  return (
    <label class={`field ${wide ? 'wide' : ''} ${inline ? 'inline' : ''}`}>
      <span class={inline ? 'aside' : ''}>{label}</span>
      <input
        size={inline ? Math.max(text.length, 3) : undefined}
        value={text}
        placeholder={hint}
        inputMode={numeric ? 'numeric' : undefined}
        autocomplete="off"
        onFocus={e => e.currentTarget.select()}
        onInput={e => {
          last.current.typed = true;
          setText(e.currentTarget.value);
        }}
        onBlur={() => void done()}
        onKeyDown={e => {
          if (e.key === 'Enter') void done();
          if (e.key !== 'Escape') return;
          last.current.typed = false;
          setText(now);
          tell('');
        }}
      />
      {wrong ? <span class="wrong">{wrong}</span> : null}
    </label>
  );
}
