// A field in a tray: what is typed holds once it is left or Enter is pressed; Escape forgets it.
import { h } from 'preact';
import { useEffect, useRef, useState } from 'preact/hooks';

interface Props {
  label: string;
  now: string;
  set: (v: string) => void;
  hint?: string;
  numeric?: boolean;
  wide?: boolean;
}

export function OwnField({ label, now, set, hint, numeric, wide }: Props) {
  const [text, setText] = useState(now),
    last = useRef({ text, now, set, typed: false });
  Object.assign(last.current, { text, now, set });
  useEffect(() => {
    last.current.typed = false;
    setText(now);
  }, [now]);
  const done = () => {
    const l = last.current;
    if (l.typed && l.text !== l.now) l.set(l.text); // what was picked beside it is not taken back
    l.typed = false;
  };
  // A press outside shuts the tray before the field is left.
  useEffect(() => () => void setTimeout(done), []);
  return (
    <label class={`field ${wide ? 'wide' : ''}`}>
      <span>{label}</span>
      <input
        value={text}
        placeholder={hint}
        inputMode={numeric ? 'numeric' : undefined}
        autocomplete="off"
        onInput={e => {
          last.current.typed = true;
          setText(e.currentTarget.value);
        }}
        onBlur={done}
        onKeyDown={e => {
          if (e.key === 'Enter') done();
          if (e.key === 'Escape') last.current.typed = false;
        }}
      />
    </label>
  );
}
