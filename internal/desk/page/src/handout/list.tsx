// Who gets the handout: names pasted or opened as a list, or how many there are without.
import { Fragment, h } from 'preact';
import { useEffect, useRef, useState } from 'preact/hooks';
import { post, Refusal } from '../calls';
import { complain, note } from '../saving';
import { closeTray } from '../ui/tray';
import { words as common } from '../words';
import { handoutWords as words } from '../words-handout';
import { countOf, type Lesson, namedOf, relisted, type Student, withSetting, withStudents } from './lesson';
import { OwnField } from '../ui/own';
import { change, changeLesson, endStep, lessonNow, setHandout } from './store';

const RESTING = 250; // milliseconds after the last letter

/** A pasted table has a first line that names its columns. */
const isTable = (text: string): boolean => /^\s*"?name"?\s*[,;\t]/i.test(text);

let asked = 0;

/** Takes a list as the class's students; answers with what is wrong with it. Who was in `before` keeps what was said of them. */
async function take(text: string, before: Lesson, name = ''): Promise<string[]> {
  const mine = ++asked;
  try {
    const { students } = await post<{ students: Student[] }>('/open', { roster: text, name: name || (isTable(text) ? 'names.csv' : '') });
    if (mine !== asked) return []; // a newer list is on its way
    const now = lessonNow();
    changeLesson(withStudents(now, relisted(before, students)), words.listed(students.length), name ? '' : 'list');
    return [];
  } catch (e) {
    if (!(e instanceof Refusal)) return [common.gone];
    return e.problems.map(p => p.text.replace(/^names\.(txt|csv):(\d+)/, (_, __, n) => words.lineIs(n)));
  }
}

/** Opens a list of names as a file. */
export async function takeFile(file: File): Promise<void> {
  const wrong = await take(await file.text(), lessonNow(), file.name);
  if (wrong.length) return complain(`${common.notOpened(file.name)}. ${wrong.join('; ')}`);
  setHandout({ student: 1 });
  note(words.listIsOpen(file.name, countOf(lessonNow())));
}

let refused = ''; // a list that was not taken; it is there again when the tray is opened

/** The list as it is typed: it is the class's list at once, so there is nothing to confirm and nothing to lose. */
function useList(l: Lesson): { text: string; wrong: string[]; typed: (text: string) => void } {
  const [text, setText] = useState(
      refused ||
        namedOf(l)
          .map(s => s.name)
          .join('\n'),
    ),
    [wrong, setWrong] = useState<string[]>([]),
    refusedWhy = useRef(''),
    last = useRef({ timer: 0, text: '', before: l, open: true });
  const end = (list: string[]) => {
    endStep();
    if (list.length) complain(`${words.notTaken}: ${list.slice(0, 5).join('; ')}`);
  };
  const takeNow = async () => {
    clearTimeout(last.current.timer);
    last.current.timer = 0;
    const t = last.current.text;
    if (!t.trim()) return;
    const list = await take(t, last.current.before);
    refused = list.length ? t : '';
    setWrong(list);
    refusedWhy.current = list.slice(0, 5).join('; ');
    if (!last.current.open) end(list);
  };
  useEffect(
    () => () => {
      last.current.open = false;
      if (last.current.timer) void takeNow();
      else end(refusedWhy.current ? [refusedWhy.current] : []);
    },
    [],
  );
  const typed = (t: string) => {
    setText(t);
    clearTimeout(last.current.timer);
    Object.assign(last.current, { text: t, timer: window.setTimeout(() => void takeNow(), RESTING) });
  };
  return { text, wrong, typed };
}

export function StudentList() {
  const l = lessonNow(),
    { text, wrong, typed } = useList(l);
  return (
    <div class="list">
      <h2>{words.trays.students}</h2>
      <label for="handout-list">{words.list}</label>
      <textarea
        id="handout-list"
        rows={10}
        spellcheck={false}
        autocomplete="off"
        value={text}
        aria-describedby="handout-list-line"
        onInput={e => typed(e.currentTarget.value)}
      />
      <p id="handout-list-line" class="note">
        {words.listLine}
      </p>
      {wrong.length ? (
        <p class="wrong" role="status">
          {words.notTaken}: {wrong.slice(0, 5).join('; ')}
        </p>
      ) : null}
      <p>
        <OpenList />
        <OwnField
          label={words.orCount}
          now={namedOf(l).length ? '' : String(countOf(l))}
          numeric
          set={v => {
            if (v.trim()) change({ lesson: withSetting(l, 'students', Number(v) || 0) as Lesson });
          }}
        />
      </p>
    </div>
  );
}

function OpenList() {
  const file = useRef<HTMLInputElement>(null);
  return (
    <>
      <button class="plain first" onClick={() => file.current?.click()}>
        {words.openList}
      </button>
      <input
        ref={file}
        type="file"
        accept=".txt,.csv"
        hidden
        onChange={e => {
          const f = e.currentTarget.files?.[0];
          if (f) void takeFile(f).then(closeTray);
        }}
      />
    </>
  );
}
