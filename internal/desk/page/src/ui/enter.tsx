// A desk that listens beyond this machine asks for the word that the program printed.
import { h } from 'preact';
import { useRef, useState } from 'preact/hooks';
import { enter, Refusal } from '../calls';
import { words } from '../words';

export function Enter({ then }: { then: () => void }) {
  const input = useRef<HTMLInputElement>(null),
    [wrong, tell] = useState('');
  const go = async (e: Event) => {
    e.preventDefault();
    try {
      await enter((input.current?.value || '').trim());
      then();
    } catch (why) {
      tell(why instanceof Refusal ? (why.status === 429 ? words.tooManyWords : words.wrongWord) : words.gone);
    }
  };
  return (
    <main class="enter">
      <form onSubmit={go}>
        <h1>{words.enter}</h1>
        <label>
          {words.enterWord} <input ref={input} autocomplete="off" autocapitalize="off" spellcheck={false} aria-describedby="desk-wrong" />
        </label>
        <button class="plain" type="submit">
          {words.enterGo}
        </button>
        <p id="desk-wrong" role="alert">
          {wrong}
        </p>
      </form>
    </main>
  );
}
