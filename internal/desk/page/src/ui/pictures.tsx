// The small pictures of the trays. They name a choice and measure nothing.
import { h } from 'preact';
import type { ComponentChildren } from 'preact';
import { useLayoutEffect, useRef } from 'preact/hooks';
import { state } from '../store';
import { adopt, parse } from '../svg';

/** The program's own side view of a segment. */
export function SegmentPicture({ name }: { name: string }) {
  const ref = useRef<HTMLSpanElement>(null);
  useLayoutEffect(() => {
    const root = parse(state.segments.find(s => s.name === name)?.svg || ''), made = root && adopt(root, false);
    if (!made) return;
    made.setAttribute('aria-hidden', 'true');
    made.setAttribute('focusable', 'false');
    ref.current?.replaceChildren(made);
  }, [name]);
  return <span class="picture segment" ref={ref} />;
}

const Small = ({ children, page = true }: { children: ComponentChildren; page?: boolean }) => (
  <svg class="picture" viewBox="0 0 100 70" aria-hidden="true" focusable="false">{page ? <rect class="page" x=".5" y=".5" width="99" height="69" /> : null}{children}</svg>
);

const BODY = 'M16 46v-9q0-4 5-5l17-3 12-11q3-2 7-2h17q4 0 6 3l5 11 2 4v12z', GLASS = 'M42 29l10-9q2-2 5-2h15q3 0 4 2l4 9z';
const Wheels = ({ dash = '' }) => <g class={`line ${dash}`}><circle cx="28" cy="46" r="7" /><circle cx="74" cy="46" r="7" /></g>;
const Ground = () => <path class="line" d="M8 53h84" />;
const Levels = () => <path class="hair" d="M14 16h78M14 29h78M14 44h78" />;
const Strip = () => <path class="hair" d="M6 63h18M70 63h24" />;
const rows = (y: number[], d: (y: number) => string) => y.map(v => <path key={v} class="hair" d={d(v)} />);

export function KindPicture({ kind }: { kind: string }) {
  switch (kind) {
    case 'full': return <Small><path class="body" d={BODY} /><path class="glass" d={GLASS} /><Levels /><Wheels /><Ground /><path class="line" d="M28 42l22-24M94 53V16" /><Strip /></Small>;
    case 'trace': return <Small><g class="pale"><Levels /><Wheels /><Ground /><path class="line" d="M28 42l22-24" /><Strip /></g></Small>;
    case 'steps': return <Small>{[0, 1, 2, 3, 4, 5, 6, 7].map(i => <g key={i} transform={`translate(${4 + i % 4 * 23} ${i < 4 ? 8 : 36}) scale(.24)`}>{i ? <Wheels /> : null}<Ground />{i > 2 ? <Levels /> : null}{i > 5 ? <path class="line" d={BODY} /> : null}</g>)}<Strip /></Small>;
    case 'demonstration': return <Small><Wheels /><Ground /><path class="line" d="M28 42l22-24" /><path class="ink" d="M8 10h5v9h-5zM16 10h5v9h-5z" /><path class="hair" d="M24 10h10v9h-10z" /></Small>;
    case 'practice': return <Small><Wheels /><Ground />{rows([10, 17], y => `M8 ${y}h22M38 ${y}h22M68 ${y}h22`)}<Strip /></Small>;
    case 'answer': return <Small><Levels /><Wheels /><Ground /><path class="line" d="M28 42l22-24" /><path class="ink" d="M18 6h8v4h-8zM48 6h8v4h-8zM78 6h8v4h-8z" /><Strip /></Small>;
    case 'overlay': return <Small><path class="dash" d={BODY} transform="translate(0 -3)" /><path class="chalk" d={BODY} transform="translate(2 2)" /><Wheels /><Ground /><Strip /></Small>;
    case 'spread': return <Small>{rows([12, 22, 32, 42, 52], y => `M14 ${y}h72`)}<path class="ink" d="M40 9h3v6h-3zM60 19h3v6h-3zM34 29h3v6h-3zM70 39h3v6h-3zM50 49h3v6h-3z" /></Small>;
    case 'thumbnails': return <Small>{[0, 1, 2, 3, 4, 5, 6, 7, 8].map(i => <g key={i} class="pale" transform={`translate(${4 + i % 3 * 31} ${2 + Math.floor(i / 3) * 20}) scale(.3)`}><path class="line" d={BODY} /><Wheels /><Ground /></g>)}</Small>;
  }
  return <Small>{null}</Small>;
}

const FRONT = 'M34 50v-14q0-6 6-7l4-10q1-3 4-3h4q3 0 4 3l4 10q6 1 6 7v14z';
const TOP = 'M14 40q-2-14 4-16l16-3h36q14 0 16 5 3 14 0 28-2 5-16 5h-36l-16-3q-6-2-4-16z';

export function ViewPicture({ view }: { view: string }) {
  switch (view) {
    case 'side': return <Small page={false}><path class="body" d={BODY} /><path class="glass" d={GLASS} /><Wheels /><Ground /></Small>;
    case 'front': return <Small page={false}><path class="body" d={FRONT} /><path class="glass" d="M41 29l3-9h12l3 9z" /><path class="ink" d="M34 46h6v8h-6zM60 46h6v8h-6z" /><path class="line" d="M20 54h60M36 36h8M56 36h8" /></Small>;
    case 'rear': return <Small page={false}><path class="body" d={FRONT} /><path class="glass" d="M42 27l3-7h10l3 7z" /><path class="ink" d="M34 46h6v8h-6zM60 46h6v8h-6zM36 33h4v7h-4zM60 33h4v7h-4z" /><path class="line" d="M20 54h60" /></Small>;
    case 'top': return <Small page={false}><path class="body" d={TOP} transform="translate(0 -5)" /><path class="glass" d="M36 24h36v22H36q-4-11 0-22z" /></Small>;
    case 'arrangement': return <Small><g transform="translate(2 26) scale(.55)"><path class="body" d={BODY} /><Wheels /><Ground /></g><g transform="translate(2 -1) scale(.55)"><path class="body" d={TOP} /></g><g transform="translate(46 24) scale(.55)"><path class="body" d={FRONT} /></g></Small>;
    case 'perspective': return <CameraPicture camera="front-quarter" />;
    case 'ellipses': return <Small>{[6, 10, 14, 18].map((r, i) => <ellipse key={r} class="line" cx={16 + i * 22} cy="35" rx={r / 2.4} ry="18" />)}</Small>;
  }
  return <Small>{null}</Small>;
}

/** A box on the ground as the named camera has it, by eye: all its edges run to two points of a horizon. */
export function CameraPicture({ camera }: { camera: string }) {
  const horizon = camera.endsWith('low') ? 42 : camera.endsWith('high') ? -24 : 6, far = camera.endsWith('long') ? 2 : 1;
  const right = [30 + 150 * far, horizon], left = [30 - 90 * far, horizon], x = (v: number) => camera.startsWith('rear') ? 100 - v : v;
  const to = ([ax, ay]: number[], [bx, by]: number[], at: number) => [at, ay + (by - ay) * (at - ax) / (bx - ax)];
  const top = [30, 24], foot = [30, 54], side = [to(top, right, 90), to(foot, right, 90)], face = [to(top, left, 9), to(foot, left, 9)];
  const back = crossing(side[0], left, face[0], right), line = (...p: number[][]) => `M${p.map(([a, b]) => `${x(a)} ${b}`).join('L')}z`;
  const wheel = (at: number, r: number) => { const y = to(foot, right, at)[1]; return <ellipse class="line" cx={x(at)} cy={y - r * .7} rx={r * .62} ry={r} />; };
  return (
    <Small page={false}><path class="body" d={line(top, side[0], side[1], foot)} /><path class="glass" d={line(top, face[0], face[1], foot)} />
      {horizon < 24 ? <path class="body" d={line(top, side[0], back, face[0])} /> : null}{wheel(43, 8)}{wheel(79, 6.5)}</Small>
  );
}

function crossing([ax, ay]: number[], [bx, by]: number[], [cx, cy]: number[], [dx, dy]: number[]): number[] {
  const t = ((cx - ax) * (dy - cy) - (cy - ay) * (dx - cx)) / ((bx - ax) * (dy - cy) - (by - ay) * (dx - cx));
  return [ax + t * (bx - ax), ay + t * (by - ay)];
}

const PAPERS: Record<string, [number, number]> = { A0: [1189, 841], A1: [841, 594], A2: [594, 420], A3: [420, 297], A4: [297, 210], A5: [210, 148], tabloid: [432, 279], legal: [356, 216], letter: [279, 216] };

export function PaperPicture({ paper }: { paper: string }) {
  const [w, t] = PAPERS[paper] || [420, 297], k = 96 / 1189;
  return <svg class="picture" viewBox="0 0 100 70" aria-hidden="true" focusable="false"><rect class="page" x={50 - w * k / 2} y={69 - t * k} width={w * k} height={t * k} /><path class="line" d={`M${50 - w * k * .35} ${69 - t * k * .3}h${w * k * .7}`} /></svg>;
}
