// Before there is a picture.
import { h } from 'preact';
import { useRef } from 'preact/hooks';
import { photoWords as words } from '../words-photo';
import { openPicture } from './act';

export function Empty() {
  return (
    <section id="desk-sheet" class="board" aria-label={words.title} tabIndex={-1}>
      <div id="desk-paper" class="paper empty">
        <p class="call">{matchMedia('(pointer: coarse)').matches ? words.choose : words.drop}</p>
        <p class="ways">
          <Pick label={words.openOne} id="photo-open" />
          <Pick label={words.takeOne} id="photo-take" camera />
        </p>
        <p>{words.stays}</p>
        <div class="how">
          <h2>{words.how}</h2>
          <ul>
            {words.tips.map(t => (
              <li key={t}>{t}</li>
            ))}
            <li>{words.sketchTips}</li>
          </ul>
        </div>
      </div>
    </section>
  );
}

/** A button that opens a picture, or takes one with the device's camera where it has one. */
export function Pick({ label, id, camera }: { label: string; id: string; camera?: boolean }) {
  const file = useRef<HTMLInputElement>(null);
  return (
    <span>
      <button class="plain" id={id} onClick={() => file.current?.click()}>
        {label}
      </button>
      <input
        ref={file}
        type="file"
        accept="image/*"
        capture={camera ? 'environment' : undefined}
        multiple={!camera}
        hidden
        onChange={async e => {
          const i = e.currentTarget,
            files = Array.from(i.files || []);
          i.value = '';
          for (const f of files) await openPicture(f, f.name);
        }}
      />
    </span>
  );
}
