// The small pictures of the trays. They name a choice and measure nothing.
import { h } from 'preact';
import { useLayoutEffect, useRef } from 'preact/hooks';
import { state } from '../store';
import { adopt, parse } from '../svg';

/** The program's own side view of a segment. */
export function SegmentPicture({ name }: { name: string }) {
  const ref = useRef<HTMLSpanElement>(null);
  useLayoutEffect(() => {
    const root = parse(state.segments.find(s => s.name === name)?.svg || ''),
      made = root && adopt(root, false);
    if (!made) return;
    made.setAttribute('aria-hidden', 'true');
    made.setAttribute('focusable', 'false');
    ref.current?.replaceChildren(made);
  }, [name]);
  return <span class="picture segment" ref={ref} />;
}

// A picture is a few lines: the class of each, its path, and where it is drawn small.
type Line = [cls: string, path: string, place?: string];

const Small = ({ lines, page = false }: { lines: Line[]; page?: boolean }) => (
  <svg class="picture" viewBox="0 0 100 70" aria-hidden="true" focusable="false">
    {page ? <rect class="page" x=".5" y=".5" width="99" height="69" /> : null}
    {lines.map(([cls, path, place], i) => (
      <path key={i} class={cls} d={path} transform={place} />
    ))}
  </svg>
);

const BODY = 'M16 46v-9q0-4 5-5l17-3 12-11q3-2 7-2h17q4 0 6 3l5 11 2 4v12z';
const GLASS = 'M42 29l10-9q2-2 5-2h15q3 0 4 2l4 9z';
const WHEELS = 'M21 46a7 7 0 1 0 14 0a7 7 0 1 0-14 0M67 46a7 7 0 1 0 14 0a7 7 0 1 0-14 0';
const GROUND = 'M8 53h84',
  LEVELS = 'M14 16h78M14 29h78M14 44h78',
  PILLAR = 'M28 42l22-24',
  STRIP = 'M6 63h18M70 63h24';
const FRONT = 'M34 50v-14q0-6 6-7l4-10q1-3 4-3h4q3 0 4 3l4 10q6 1 6 7v14z';
const TOP = 'M14 35q-2-14 4-16l16-3h36q14 0 16 5 3 14 0 28-2 5-16 5h-36l-16-3q-6-2-4-16z';
const TYRES = 'M34 46h6v8h-6zM60 46h6v8h-6z';

const upTo = (n: number): number[] => Array.from({ length: n }, (_, i) => i);
const step = (i: number): Line[] => {
  const place = `translate(${4 + (i % 4) * 23} ${i < 4 ? 8 : 36}) scale(.24)`;
  const drawn: Line[] = [
    ['line', GROUND, place],
    ['line', WHEELS, place],
    ['hair', LEVELS, place],
    ['line', BODY, place],
  ];
  return drawn.slice(0, 1 + Math.ceil(i / 2.4));
};
const thumbnail = (i: number): Line[] => {
  const place = `translate(${4 + (i % 3) * 31} ${2 + Math.floor(i / 3) * 20}) scale(.3)`;
  return [
    ['line pale', BODY, place],
    ['line pale', WHEELS, place],
    ['line pale', GROUND, place],
  ];
};

const KINDS: Record<string, Line[]> = {
  full: [
    ['body', BODY],
    ['glass', GLASS],
    ['hair', LEVELS],
    ['line', WHEELS + GROUND + PILLAR + 'M94 53V16'],
    ['hair', STRIP],
  ],
  trace: [
    ['hair pale', LEVELS + STRIP],
    ['line pale', WHEELS + GROUND + PILLAR],
  ],
  steps: [...upTo(8).flatMap(step), ['hair', STRIP]],
  demonstration: [
    ['line', WHEELS + GROUND + PILLAR],
    ['ink', 'M8 10h5v9h-5zM16 10h5v9h-5z'],
    ['hair', 'M24 10h10v9h-10z'],
  ],
  practice: [
    ['line', WHEELS + GROUND],
    ['hair', 'M8 10h22M38 10h22M68 10h22M8 17h22M38 17h22M68 17h22' + STRIP],
  ],
  answer: [
    ['hair', LEVELS + STRIP],
    ['line', WHEELS + GROUND + PILLAR],
    ['ink', 'M18 6h8v4h-8zM48 6h8v4h-8zM78 6h8v4h-8z'],
  ],
  overlay: [
    ['dash', BODY, 'translate(0 -3)'],
    ['chalk', BODY, 'translate(2 2)'],
    ['line', WHEELS + GROUND],
    ['hair', STRIP],
  ],
  spread: [
    ['hair', 'M14 12h72M14 22h72M14 32h72M14 42h72M14 52h72'],
    ['ink', 'M40 9h3v6h-3zM60 19h3v6h-3zM34 29h3v6h-3zM70 39h3v6h-3zM50 49h3v6h-3z'],
  ],
  thumbnails: upTo(9).flatMap(thumbnail),
};

export const KindPicture = ({ kind }: { kind: string }) => <Small page lines={KINDS[kind] || []} />;

const small = (x: number, y: number): string => `translate(${x} ${y}) scale(.55)`;
const VIEWS: Record<string, Line[]> = {
  side: [
    ['body', BODY],
    ['glass', GLASS],
    ['line', WHEELS + GROUND],
  ],
  front: [
    ['body', FRONT],
    ['glass', 'M41 29l3-9h12l3 9z'],
    ['ink', TYRES],
    ['line', 'M20 54h60M36 36h8M56 36h8'],
  ],
  rear: [
    ['body', FRONT],
    ['glass', 'M42 27l3-7h10l3 7z'],
    ['ink', TYRES + 'M36 33h4v7h-4zM60 33h4v7h-4z'],
    ['line', 'M20 54h60'],
  ],
  top: [
    ['body', TOP],
    ['glass', 'M36 24h36v22H36q-4-11 0-22z'],
  ],
  arrangement: [
    ['body', TOP, small(2, 2)],
    ['body', BODY, small(2, 26)],
    ['line', WHEELS + GROUND, small(2, 26)],
    ['body', FRONT, small(46, 24)],
  ],
  ellipses: [6, 10, 14, 18].map((r, i): Line => ['line', `M${16 + i * 22} 17a${r / 2.4} 18 0 1 0 .01 0`]),
};

export const ViewPicture = ({ view }: { view: string }) =>
  view === 'perspective' ? (
    <CameraPicture camera="front-quarter" />
  ) : (
    <Small page={view === 'arrangement' || view === 'ellipses'} lines={VIEWS[view] || []} />
  );

/** A box on the ground as the named camera has it, by eye: all its edges run to two points of a horizon. */
export function CameraPicture({ camera }: { camera: string }) {
  const horizon = camera.endsWith('low') ? 42 : camera.endsWith('high') ? -24 : 6,
    far = camera.endsWith('long') ? 2 : 1;
  const right = [30 + 150 * far, horizon],
    left = [30 - 90 * far, horizon],
    x = (v: number) => (camera.startsWith('rear') ? 100 - v : v);
  const to = ([ax, ay]: number[], [bx, by]: number[], at: number) => [at, ay + ((by - ay) * (at - ax)) / (bx - ax)];
  const top = [30, 24],
    foot = [30, 54],
    side = [to(top, right, 90), to(foot, right, 90)],
    face = [to(top, left, 9), to(foot, left, 9)];
  const back = crossing(side[0], left, face[0], right),
    line = (...p: number[][]) => `M${p.map(([a, b]) => `${x(a)} ${b}`).join('L')}z`;
  const ellipse = (at: number, r: number) => `M${x(at)} ${to(foot, right, at)[1] - r * 1.7}a${r * 0.62} ${r} 0 1 0 .01 0`;
  const roof: Line[] = horizon < 24 ? [['body', line(top, side[0], back, face[0])]] : [];
  return (
    <Small
      lines={[
        ['body', line(top, side[0], side[1], foot)],
        ['glass', line(top, face[0], face[1], foot)],
        ...roof,
        ['line', ellipse(43, 8) + ellipse(79, 6.5)],
      ]}
    />
  );
}

function crossing([ax, ay]: number[], [bx, by]: number[], [cx, cy]: number[], [dx, dy]: number[]): number[] {
  const t = ((cx - ax) * (dy - cy) - (cy - ay) * (dx - cx)) / ((bx - ax) * (dy - cy) - (by - ay) * (dx - cx));
  return [ax + t * (bx - ax), ay + t * (by - ay)];
}

const PAPERS: Record<string, [number, number]> = {
  A0: [1189, 841],
  A1: [841, 594],
  A2: [594, 420],
  A3: [420, 297],
  A4: [297, 210],
  A5: [210, 148],
  tabloid: [432, 279],
  legal: [356, 216],
  letter: [279, 216],
};

export function PaperPicture({ paper }: { paper: string }) {
  const [w, t] = PAPERS[paper] || [420, 297],
    k = 96 / 1189;
  return (
    <svg class="picture" viewBox="0 0 100 70" aria-hidden="true" focusable="false">
      <rect class="page" x={50 - (w * k) / 2} y={69 - t * k} width={w * k} height={t * k} />
      <path class="line" d={`M${50 - w * k * 0.35} ${69 - t * k * 0.3}h${w * k * 0.7}`} />
    </svg>
  );
}
