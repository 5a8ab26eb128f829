// Several pictures in a row, and what they have in common.
import { h } from 'preact';
import { useEffect, useLayoutEffect, useRef } from 'preact/hooks';
import { keep, post, Refusal } from '../calls';
import { readable } from '../desk';
import { nameOf, plain } from '../figures';
import { complain, download, note } from '../saving';
import { say } from '../speak';
import { Table } from '../ui/table';
import { words as common } from '../words';
import { photoWords as words } from '../words-photo';
import { drawUnderlay, marksOf, turnTo } from './act';
import { readOthers } from './ask';
import type { Norms } from './calls';
import type { Shot } from './marks';
import { pictureOf } from './pictures';
import { photo, setPhoto, shotNow } from './store';

export function Row() {
  const { shots } = photo.work.now,
    read = shots.filter(s => photo.answers[s.id]);
  useEffect(() => void readOthers(), [shots.map(s => s.id).join()]);
  if (shots.length < 2) return null;
  return (
    <section class="row-of" aria-label={words.row}>
      <ul>
        {shots.map(s => (
          <li key={s.id}>
            <Thumb shot={s} />
          </li>
        ))}
      </ul>
      {read.length > 1 ? (
        <p>
          <button class="plain" id="photo-norms" onClick={() => void gather(read)}>
            {words.norms(read.length)}
          </button>
        </p>
      ) : null}
      {photo.norms ? <NormsOf norms={photo.norms} read={read} /> : null}
    </section>
  );
}

function Thumb({ shot }: { shot: Shot }) {
  const canvas = useRef<HTMLCanvasElement>(null),
    picture = pictureOf(shot.id),
    a = photo.answers[shot.id],
    says = readable(a?.reading['reads-as'] || '');
  useLayoutEffect(() => {
    const c = canvas.current;
    if (!c) return;
    c.width = 240;
    c.height = Math.round((240 * shot.size[1]) / shot.size[0]);
    const g = c.getContext('2d')!;
    if (picture) g.drawImage(picture.thumb, 0, 0, c.width, c.height);
  }, [picture]);
  return (
    <button class="thumb" data-shot={shot.id} aria-current={shot === shotNow() ? 'true' : undefined} onClick={() => turnTo(shot)}>
      <canvas ref={canvas} aria-hidden="true" />
      <span>{shot.name}</span>
      <small>{says}</small>
    </button>
  );
}

const body = (read: Shot[]): object => {
  const like = read.map(s => String(s.known.like || '')),
    one = like.every(l => l === like[0]) ? like[0] : '';
  return { readings: read.map(s => ({ marks: marksOf(s), name: s.name })), ...(one ? { like: one } : {}), name: 'norms' };
};

async function gather(read: Shot[]): Promise<void> {
  try {
    setPhoto({ norms: await post<Norms>('/norms', body(read)) });
    say(words.normsTitle(read.length));
  } catch (e) {
    complain(e instanceof Refusal ? e.message : common.gone);
  }
}

function NormsOf({ norms, read }: { norms: Norms; read: Shot[] }) {
  const save = async (format: string) => {
    try {
      const f = await keep({ ...body(read), format }, `norms.${format}`, '/norms');
      download(f.blob, f.name);
      note(common.saved(f.name));
    } catch (e) {
      complain(e instanceof Refusal ? e.message : common.gone);
    }
  };
  const v = (x: number, unit: string) => `${plain(x, unit === 'deg' ? 1 : 2)}${unit === 'deg' ? '°' : ''}`;
  return (
    <div id="photo-norms-table" class="norms">
      <h2>{words.normsTitle(read.length)}</h2>
      <p>
        {words.normsLine}{' '}
        <button class="plain" id="photo-draw-norms" onClick={() => drawUnderlay(norms.profile, 'norms')}>
          {words.drawNorms}
        </button>
        <button class="plain" data-norms="yaml" onClick={() => void save('yaml')}>
          {words.normsProfile}
        </button>
        <button class="plain" data-norms="pdf" onClick={() => void save('pdf')}>
          {words.spread}
        </button>
      </p>
      <Table label={words.normsTitle(read.length)} columns={words.normsColumns}>
        {norms.figures.map(f => (
          <tr key={f.figure}>
            <th scope="row">{nameOf(f.figure)}</th>
            <td>{f.n}</td>
            {[f.p10, f.median, f.p90, ...f.range].map((x, i) => (
              <td key={i}>{v(x, f.unit)}</td>
            ))}
          </tr>
        ))}
      </Table>
      <ul>
        {norms.messages.map(m => (
          <li key={m}>{m}</li>
        ))}
      </ul>
    </div>
  );
}
