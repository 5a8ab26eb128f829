// The paper: the drawing, and under it the strip that a sheet's title block becomes on screen.
import { h } from 'preact';
import type { Sheet } from '../calls';
import { readable, refresh } from '../desk';
import { set, state } from '../store';
import { words } from '../words';
import { ClashNote } from './clash';
import { Stage } from './stage';

export function Paper() {
  const s = state.sheet;
  return (
    <section id="desk-sheet" class="board" aria-label={words.sheet} tabIndex={-1}>
      <div id="desk-paper" class="paper">
        <div class="view">
          <Stage />
        </div>
        {s ? <Strip sheet={s} /> : null}
        <ClashNote />
      </div>
      {state.silent ? (
        <p class="silent" role="alert">
          {words.gone}
        </p>
      ) : null}
    </section>
  );
}

function Strip({ sheet: s }: { sheet: Sheet }) {
  return (
    <div class="strip">
      <div class="title">
        <strong>{s.title.heading}</strong>
        {s.title.sub ? <span>{readable(verdict(s.title.sub))}</span> : null}
      </div>
      <Place sheet={s} />
      <p class="facts">
        {s.facts.map(([k, v]) => (
          <span key={k}>
            {k} {v}
          </span>
        ))}
      </p>
      {s.pages > 1 ? (
        <span class="leaf">
          <button class="plain" aria-label={words.sheetBefore} aria-disabled={s.page <= 1} onClick={() => leaf(-1)}>
            ‹
          </button>
          {words.sheetOf(s.page, s.pages)}
          <button class="plain" aria-label={words.sheetAfter} aria-disabled={s.page >= s.pages} onClick={() => leaf(1)}>
            ›
          </button>
        </span>
      ) : null}
      <Bar sheet={s} />
    </div>
  );
}

/** What the sheet says of the vehicle after naming what was changed: that stands in the sentence already. */
const verdict = (sub: string): string => sub.slice(sub.indexOf('; ') + 1).trim();

function leaf(by: number): void {
  const page = state.page + by;
  if (page < 1 || page > (state.sheet?.pages || 1)) return;
  set({ page });
  refresh();
}

/** Where the vehicle stands on the real paper, at true proportion. */
function Place({ sheet: { paper: p } }: { sheet: Sheet }) {
  if (!p.box?.[2]) return null;
  const k = 60 / Math.max(p.width, p.height),
    [x, y, w, t] = p.box;
  return (
    <svg
      class="place"
      width={p.width * k + 2}
      height={p.height * k + 2}
      viewBox={`${-1 / k} ${-1 / k} ${p.width + 2 / k} ${p.height + 2 / k}`}
      aria-hidden="true"
      focusable="false"
    >
      <rect class="page" width={p.width} height={p.height} stroke-width={1 / k} />
      <rect class="ink" x={x} y={y} width={w} height={t} />
    </svg>
  );
}

/** Fifty millimetres of the paper, as large as the drawing has them. */
function Bar({ sheet: s }: { sheet: Sheet }) {
  if (!s.map || !s.paper['wheel-mm']) return null;
  const long = (50 / s.paper['wheel-mm']) * s.map['px-per-w'];
  if (long > s.width * 0.4) return null;
  return (
    <span class="bar">
      <span>{words.rule}</span>
      <svg width={long + 2} height="12" aria-hidden="true" focusable="false">
        <path d={`M1 0v9h${long}v-9M${1 + long / 2} 4v5`} />
      </svg>
    </span>
  );
}
