// The round of asking: what there is to print, the sheet that is looked at, and then the small ones, one after the other.
import { Newest, post, Refusal } from '../calls';
import { set } from '../store';
import { say } from '../speak';
import { words } from '../words';
import type { ClassSheet, Facts, Warning } from './calls';
import { countOf, type Lesson } from './lesson';
import { handout, lessonNow, setHandout, type Shown } from './store';

interface Question {
  lesson: Lesson;
  student: number;
  page: number;
}

const checks = new Newest<Lesson, Facts>(lesson => post('/class/check', { class: lesson }), checked, failed);
const sheets = new Newest<Question, ClassSheet>(
  q => post('/class/page', { class: q.lesson, student: q.student, page: q.page, answer: true }),
  drawn,
  (e, q) => {
    if (!(e instanceof Refusal)) failed(e, q.lesson); // what is wrong with the class stands in the answer of the check
  },
);

/** Asks for everything anew. */
export function refresh(): void {
  checks.forget();
  sheets.forget();
  checks.ask(lessonNow());
}

let retrying = 0;

function failed(e: unknown, lesson: Lesson): void {
  if (e instanceof Refusal && e.status === 401) return set({ locked: true });
  if (e instanceof Refusal && e.status !== 503)
    return setHandout({ problems: e.problems.length ? e.problems : [{ where: '', text: e.message }] });
  clearTimeout(retrying);
  retrying = window.setTimeout(() => checks.askAgain(lesson), 2000);
  if (e instanceof Refusal) say(words.busy);
  else set({ note: { text: words.gone } });
}

// The page has no face to add; how the command adds one stands in docs/class.md.
const plainly = (w: Warning): Warning => ({ ...w, text: w.text.replace('; --font FILE adds a face', '') });

function checked(found: Facts, lesson: Lesson): void {
  const facts = { ...found, warnings: found.warnings.map(plainly) };
  setHandout({ facts, factsOf: JSON.stringify(lesson), problems: [], page: Math.min(handout.page, facts['per-student']) });
  look({});
}

/** Looks at another student, or another sheet. */
export function look({ student = handout.student, page = handout.page }: { student?: number; page?: number }): void {
  const lesson = lessonNow();
  student = Math.min(student, countOf(lesson)) || 1;
  setHandout({ student, page });
  if (!handout.facts || handout.problems.length) return;
  sheets.forget();
  sheets.ask({ lesson, student, page: Math.min(page, handout.facts['per-student']) });
}

/** Makes pictures of a sheet. They are pictures, not elements of the page: nothing in them can run or reach anything. */
function picture(svg: string | undefined): string {
  return svg ? URL.createObjectURL(new Blob([svg], { type: 'image/svg+xml' })) : '';
}

function shownOf(a: ClassSheet): Shown {
  const { number, student, page, kind, paper, notes } = a;
  return {
    student: number,
    name: student,
    page,
    kind,
    notes,
    sheet: picture(a.svg),
    answer: picture(a.answer),
    width: paper.width,
    height: paper.height,
  };
}

/** Frees pictures that nothing shows any more. */
function free(old: Shown | null | undefined): void {
  if (old && old !== handout.shown && !Object.values(handout.small).includes(old))
    setTimeout(() => [old.sheet, old.answer].forEach(u => u && URL.revokeObjectURL(u)), 1000);
}

function drawn(a: ClassSheet, q: Question): void {
  const before = handout.shown,
    shown = shownOf(a),
    small = handout.small[a.page];
  setHandout({ shown, small: { ...handout.small, [a.page]: shown } });
  free(before);
  free(small);
  void drawSmall(q, ++round);
}

/** The numbers of the sheets that are shown small: one of each kind, whatever its copies. */
export const smallOnes = (): number[] => (handout.facts?.pages || []).flatMap(p => p.sheets.map((_, i) => p.first + i));

let round = 0;
const MOST = 40; // small sheets; a class with more shows these

/** Draws the other sheets of the student, until somebody asks for something else. */
async function drawSmall(q: Question, mine: number): Promise<void> {
  for (const page of smallOnes().slice(0, MOST)) {
    if (page === q.page) continue;
    try {
      const a = await post<ClassSheet>('/class/page', { class: q.lesson, student: q.student, page });
      if (mine !== round) return;
      const old = handout.small[page];
      setHandout({ small: { ...handout.small, [page]: shownOf(a) } });
      free(old);
    } catch {
      return; // the next change asks again
    }
  }
}
