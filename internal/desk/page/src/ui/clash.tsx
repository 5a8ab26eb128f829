// What cannot all hold, why, and the ways out. It lies over the paper and never pushes it; on a phone it follows the drawing.
import { h } from 'preact';
import { type Clash, type ClashPin, type Held, isClash, post, type Sheet } from '../calls';
import { pin, readable, release, shownPin, undo } from '../desk';
import { nameOf } from '../figures';
import { type Job, withoutPin, withPin } from '../job';
import { screenOf } from '../screen';
import { set, state } from '../store';
import { words } from '../words';
import { focusFigure } from './figure';

export function ClashNote() {
  const c = state.clash;
  if (!c) return state.problems.length ? <Problems /> : null;
  const many = c.sets.some(s => s.pins.length > 1);
  return (
    <section id="desk-clash" class="clash-note" aria-labelledby="desk-clash-h">
      <div class="reason">
        <h2 id="desk-clash-h">{many ? words.cannotAllHold : words.thisCannotHold}</h2>
        <p>{why(c)}</p>
        <TakeBack />
      </div>
      <ul>{c.sets.flatMap((s, i) => s.pins.map(p => <Way key={`${i} ${p.figure}`} pin={p} />))}</ul>
    </section>
  );
}

/** What stands against the pins, in a sentence. */
function why(c: Clash): string {
  const limits = [...new Set(c.sets.flatMap(s => s.limits))];
  return limits.length ? words.against(limits.map(readable)) : words.eachFollows;
}

const TakeBack = () =>
  state.past.length ? (
    <button
      class="plain first"
      data-way="back"
      onClick={() => {
        undo();
        focusFigure(state.held);
      }}
    >
      {words.takeBack}
    </button>
  ) : null;

function Way({ pin: p }: { pin: ClashPin }) {
  const name = nameOf(p.figure),
    f = p.figure;
  const made = () => withPin(state.job, f, p.suggestion),
    free = () => withoutPin(state.job, f);
  const show = (job: () => Job) => ({
    onPointerEnter: () => void preview(job()),
    onFocus: () => void preview(job()),
    onPointerLeave: hide,
    onBlur: hide,
  });
  return (
    <li>
      <span>
        {name} <b>{shownPin(f, p.written)}</b>
      </span>
      {p.suggestion ? (
        <button
          class="plain"
          data-way={`make ${f}`}
          aria-label={`${name}: ${words.makeIt(shownPin(f, p.suggestion))}`}
          {...show(made)}
          onClick={() => {
            hide();
            pin(f, p.suggestion);
            focusFigure(f);
          }}
        >
          {words.makeIt(shownPin(f, p.suggestion))}
        </button>
      ) : (
        <em>{words.noValue}</em>
      )}
      <button
        class="plain"
        data-way={`release ${f}`}
        aria-label={words.releaseOf(name)}
        {...show(free)}
        onClick={() => {
          hide();
          release(f);
          focusFigure(f);
        }}
      >
        {words.release}
      </button>
    </li>
  );
}

let wanted = '';

async function preview(job: Job): Promise<void> {
  const key = JSON.stringify(job),
    paper = document.getElementById('desk-paper'),
    px = state.sheet?.map?.['px-per-w'];
  if (wanted === key || !paper) return;
  wanted = key;
  try {
    const a = await post<Held<Sheet>>('/sheet', {
      job,
      page: state.page,
      screen: { ...screenOf(paper), ...(px ? { 'wheel-px': px } : {}) },
    });
    if (wanted === key && state.clash) set({ preview: isClash(a) ? null : a });
  } catch {
    /* the ways out work without being seen beforehand */
  }
}

function hide(): void {
  wanted = '';
  if (state.preview) set({ preview: null });
}

function Problems() {
  return (
    <section id="desk-clash" class="clash-note" aria-labelledby="desk-clash-h">
      <div class="reason">
        <h2 id="desk-clash-h">{words.cannotDraw}</h2>
        <TakeBack />
      </div>
      <ul>
        {state.problems.map((p, i) => (
          <li key={i}>
            <span>
              {p.where ? <b>{p.where} </b> : null}
              {p.text}
              {p.nearest ? `; ${words.perhaps(p.nearest)}` : ''}
            </span>
          </li>
        ))}
      </ul>
    </section>
  );
}
