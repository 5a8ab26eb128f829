// The names: they are the index, and how many there are. Any of them is one press, or one arrow, away.
import { Fragment, h } from 'preact';
import { useEffect, useRef, useState } from 'preact/hooks';
import { complain } from '../saving';
import { OwnField } from '../ui/own';
import { handoutWords as words } from '../words-handout';
import { look } from './ask';
import type { Warning } from './calls';
import { countOf, type Lesson, namedOf, type Student, withStudent, withStudents } from './lesson';
import { Flip } from './sentence';
import { changeLesson, handout, lessonNow } from './store';

const MOST = 400; // names that are shown; more make a page slow, and each can be found in the list

/** What is said of the student at a place of the list. */
const saidOf = (at: number): { wrong: Warning[]; warnings: Warning[] } => {
  const where = `students[${at + 1}]`,
    here = (p: { where: string }) => p.where === where || p.where.startsWith(`${where}.`);
  const wrong = handout.problems.filter(here);
  return { wrong, warnings: wrong.length ? [] : (handout.facts?.warnings || []).filter(here) };
};

/** What a student is called. */
export const calledAt = (l: Lesson, at: number): string => namedOf(l)[at]?.name || words.student(at + 1);

export function Names() {
  const l = lessonNow(),
    names = namedOf(l),
    many = names.length || countOf(l);
  const all: Student[] = names.length ? names : Array.from({ length: Math.min(many, MOST) }, () => ({ name: '' }));
  const box = useRef<HTMLFieldSetElement>(null);
  useEffect(() => {
    const list = box.current!,
      name = list.querySelector<HTMLElement>(':checked')?.parentElement; // it may lie beyond the list's edge
    if (name && (name.offsetTop < list.scrollTop || name.offsetTop + name.offsetHeight > list.scrollTop + list.clientHeight))
      list.scrollTop = name.offsetTop - list.clientHeight / 2;
  }, [handout.student, many]);
  return (
    <section class="names">
      <fieldset ref={box}>
        <legend>{names.length ? words.names : words.numbers}</legend>
        {all.slice(0, MOST).map((s, i) => (
          <Name key={i} student={s} at={i} />
        ))}
      </fieldset>
      {many > MOST ? <p class="note">{words.firstNames(MOST, many)}</p> : null}
      {names.length || countOf(l) < 1 ? <Late /> : null}
    </section>
  );
}

function Name({ student, at }: { student: Student; at: number }) {
  const { wrong, warnings } = saidOf(at),
    now = handout.student === at + 1,
    marks = [student.absent ? words.absent : '', student.facing ? words.facesWord(student.facing) : ''].filter(Boolean);
  return (
    <label class={`name ${student.absent ? 'absent' : ''} ${wrong.length ? 'wrong' : ''}`}>
      <input type="radio" name="handout-student" value={at + 1} checked={now} onChange={() => look({ student: at + 1 })} />
      <span>{student.name || words.student(at + 1)}</span>
      {marks.length ? <small> {marks.join(', ')}</small> : null}
      {wrong.length || warnings.length ? <small class="said"> {wrong.length ? wrong[0].text : '•'}</small> : null}
      {!wrong.length && warnings.length ? <span class="aside"> {warnings.map(w => w.text).join('; ')}</span> : null}
    </label>
  );
}

/** Whether another student than the one at a place has a name. */
const isTaken = (l: Lesson, name: string, at = -1): boolean =>
  namedOf(l).some((s, i) => i !== at && s.name.normalize() === name.normalize());

/** A name that comes late: at the end of the list, where it changes nobody else's pages. */
function Late() {
  const [text, setText] = useState('');
  const add = () => {
    const l = lessonNow(),
      name = text.trim();
    if (!name) return;
    if (isTaken(l, name)) return complain(words.sameName(name));
    setText('');
    changeLesson(withStudents(l, [...namedOf(l), { name }]), words.addedLate(name));
    look({ student: countOf(lessonNow()) });
  };
  return (
    <form
      class="late"
      onSubmit={e => {
        e.preventDefault();
        add();
      }}
    >
      <label class="field">
        <span>{words.late}</span>
        <input value={text} autocomplete="off" data-act="late" onInput={e => setText(e.currentTarget.value)} />
      </label>
      <button class="plain">{words.add}</button>
    </form>
  );
}

/** What holds for the student who is looked at, as words that flip. */
export function AboutStudent() {
  const l = lessonNow(),
    at = handout.student - 1,
    s = namedOf(l)[at];
  const { wrong, warnings } = saidOf(at);
  if (!s) return null;
  const set = (change: Partial<Student>, said: string) => changeLesson(withStudent(lessonNow(), at, change), said),
    facing = s.facing === 'right' ? 'left' : s.facing === 'left' ? '' : 'right';
  return (
    <>
      <p class="about">
        <OwnField label={words.nameIs} now={s.name} set={text => rename(at, s.name, text)} inline />{' '}
        <Flip id="here" end="," to={() => set({ absent: !s.absent }, s.absent ? words.backAgain(s.name) : words.excused(s.name))}>
          {s.absent ? words.isAbsent : words.here}
        </Flip>{' '}
        <Flip id="faces" end="." to={() => set({ facing: facing || undefined }, words.facesSaid(s.name, facing))}>
          {words.faces(s.facing || '')}
        </Flip>{' '}
        <button class="plain" data-act="draw" onClick={() => set({ set: (Number(s.set) || 0) + 1 }, words.anotherDrawSaid(s.name))}>
          {words.anotherDraw}
        </button>
        <button class="plain" data-act="off-list" aria-disabled={namedOf(l).length < 2} onClick={() => takeOff(at)}>
          {words.offList}
        </button>
      </p>
      {[...wrong, ...warnings].map((w, i) => (
        <p key={i} class={wrong.length ? 'wrong' : 'note'}>
          {w.text}{' '}
          {w.set ? (
            <button class="plain" data-act="cure" onClick={() => set({ set: Number(w.set) }, words.anotherDrawSaid(s.name))}>
              {words.cure(String(w.set))}
            </button>
          ) : null}
        </p>
      ))}
    </>
  );
}

/** Corrects the name of who is looked at, or answers why not. */
async function rename(at: number, was: string, text: string): Promise<string> {
  const l = lessonNow(),
    name = text.trim();
  if (!name) return words.noName;
  if (isTaken(l, name, at)) return words.sameName(name);
  changeLesson(withStudent(l, at, { name }), words.renamed(was, name));
  return '';
}

// The name goes with its button: the focus goes to whoever is now in its place.
function takeOff(at: number): void {
  const l = lessonNow(),
    names = namedOf(l);
  if (names.length < 2) return;
  changeLesson(
    withStudents(
      l,
      names.filter((_, i) => i !== at),
    ),
    words.goneName(names[at].name),
  );
  look({ student: Math.min(at + 1, names.length - 1) });
}
