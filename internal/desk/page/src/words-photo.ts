// Every word that the place of photographs says.
import { nameOf, plain } from './figures';
import type { ReadFigure } from './photo/calls';
import type { Place } from './photo/marks';
import { words } from './words';

const { and } = words;

const px = (v: number): string => String(Math.round(v));
const nth = (i: number, of: number): string => `${i + 1} of ${of}`;

// what a mark is called where it is one of a few
const ENDS: Record<string, string[]> = {
  ground: ['under the front tyre', 'under the rear tyre'],
  belt: ['ahead of mid-wheelbase', 'behind it'],
  pillar: ['lower end', 'upper end'],
  'front-lamp': ['base', 'top'],
  'rear-lamp': ['base', 'top'],
  bar: ['its left end', 'its right end'],
};
const NAMES: Record<string, string> = {
  'tyre-front': 'front tyre',
  'tyre-rear': 'rear tyre',
  'hub-front': 'front hub',
  'hub-rear': 'rear hub',
  ground: 'the road',
  'far-front': 'far front tyre',
  'far-rear': 'far rear tyre',
  pillar: 'A-pillar',
  'glass-end': 'end of the side glass',
  lowest: 'lowest point',
  deck: 'deck',
  'tail-foot': 'foot of the rear screen',
  'tail-low': 'lower rear corner',
  chin: 'lower front corner',
  left: 'left centring mark',
  top: 'top centring mark',
  right: 'right centring mark',
  bottom: 'bottom centring mark',
  bar: '100 mm bar',
};

function placeName({ mark, index }: Place): string {
  const name = NAMES[mark] || mark.replace(/-/g, ' ');
  if (ENDS[mark]) return `${name}, ${ENDS[mark][index] || nth(index, ENDS[mark].length)}`;
  if (mark === 'tyre-front' || mark === 'tyre-rear')
    return index < 8 ? `${name}, ${index < 4 ? 'front' : 'rear'} flank, ${nth(index % 4, 4)}` : `${name}, point ${index + 1}`;
  if (mark === 'far-front' || mark === 'far-rear') return `${name}, ${nth(index, 4)}`;
  return name;
}

const UNITS: Record<string, string> = { w: '', deg: '°', mm: ' mm', ratio: '', count: '', '': '' };
const decimals = (unit: string): number => (unit === 'deg' ? 1 : unit === 'mm' ? 0 : 2);

const amount = (f: ReadFigure): string =>
  f.value === null ? '' : `${plain(f.value, decimals(f.unit))} ± ${(f.pm || 0).toFixed(decimals(f.unit))}${UNITS[f.unit]}`;

export const photoWords = {
  title: 'Photo',
  busy: words.busy,
  undone: (name: string, n: number) => (name ? `undone: ${n} marks on ${name}` : 'undone: no picture'),
  redone: (name: string, n: number) => (name ? `redone: ${n} marks on ${name}` : 'redone: no picture'),
  noStep: 'no step is left',

  // no picture yet
  drop: 'Drop a side photo here, or a sketch on a printed sheet',
  openOne: 'open a picture',
  takeOne: 'take one',
  choose: 'Choose a side photo, or a sketch on a printed sheet',
  stays:
    'The picture stays in this browser, and only marks go to the program. It leaves it only for a photo sheet that you save, ' +
    'to the program that serves this page.',
  how: 'How to take it',
  tips: [
    'Stand 15 m away or more, 30 m for overhangs, and zoom in: 85 mm or longer.',
    'Kneel, so that the far tyres show under the sill.',
    'Aim at the middle between the wheels; let the vehicle fill three quarters of the picture.',
    'Front wheels straight, level ground, no crop, no panorama.',
    'Stay off the carriageway, and off other people’s ground.',
  ],
  sketchTips: 'For a sketch, photograph the whole sheet from straight above, with its four centring marks.',

  // opening
  largeFile: (name: string, mb: number) => `${name} has ${mb} MB; pictures of up to 40 MB can be opened`,
  hugePicture: (name: string, w: number, t: number) =>
    `${name} is ${w} × ${t} pixels; up to 20 000 on a side and 100 million in all can be opened`,
  smallPicture: (name: string, w: number, t: number) => `${name} is too small to mark: ${w} × ${t} pixels`,
  otherSize: (name: string, size: number[], other: number[]) =>
    `These marks are of a picture of ${size.join(' × ')} pixels; the ${name} that is open has ${other.join(' × ')}`,
  phonePicture: (name: string, kind: string) => `${name} is a ${kind} picture; save it as JPEG first`,
  noPicture: (name: string) => `${name} is no picture that can be read: JPEG, PNG or WebP`,
  brokenPicture: (name: string) => `${name} is damaged: it cannot be decoded`,
  opened: (name: string, w: number, t: number, focal: number) =>
    `${name} is open, ${w} × ${t} pixels${focal ? `, lens of ${focal} mm` : ''}`,
  lostPicture: (name: string) => `${name} has changed since it was opened, or is too large to be sent: open it again`,
  wantsPicture: (name: string) => `Open ${name} to see it under its marks`,
  removed: (name: string) => `${name} taken off the desk`,
  onPaper: (name: string) => `${name} is on the paper`,
  again: (name: string) => `${name} is open already, with the same marks`,

  // sentence
  reading: 'Reading',
  from: (what: string, w: number, t: number) => `${what}, ${w} × ${t}`,
  noFile: 'marks without a picture',
  photograph: 'a photograph',
  sketchOn: (paper: string) => `a sketch on a printed ${paper} sheet`,
  sketch: (paper: string) => `sketch on ${paper}`,
  nose: 'nose to the',
  facing: (side: string) => `nose to the ${side}`,
  tyres: (t: string) => (t ? `${t} tyres` : 'tyres of unknown size'),
  lens: (mm: string) => (mm ? `a lens of ${mm} mm` : 'a lens that is not known'),
  like: (title: string) => (title ? `${words.a(title)} ${title}` : 'no known segment'),
  over: (title: string) => (title ? `${words.a(title)} ${title} over it` : 'nothing over it'),
  overUnderlay: 'your underlay over it',
  trays: {
    shot: 'Which picture',
    kind: 'What it is',
    tyres: 'Its tyres',
    lens: 'The camera',
    like: 'Taken as',
    over: 'What lies over it',
  } as Record<string, string>,
  notSaid: 'not said',
  nothing: 'nothing',
  yourUnderlay: 'your underlay',
  frontTyre: 'tyre',
  rearTyre: 'rear tyre, if another',
  tyreHint: 'such as 225/50R17 or 658mm',
  focal: 'focal length, for 35 mm film',
  focalHint: 'such as 96',
  distance: 'distance, if measured',
  distanceHint: 'such as 16m',
  eye: 'height of the eye, if measured',
  eyeHint: 'such as 1.4m',
  cropped: 'the picture was cut',
  framed: 'with a frame',
  upright: 'upright',
  student: 'student',
  studentHint: 'whose sketch it is',
  set: (name: string, v: string) => `${name}: ${v || 'not known'}`,
  another: 'open another…',
  remove: 'off the desk',

  // walk
  walk: 'What is marked, in order',
  steps: {
    sheet: 'centring marks',
    'front-front': 'front tyre, front',
    'front-rear': 'front tyre, rear',
    'rear-front': 'rear tyre, front',
    'rear-rear': 'rear tyre, rear',
    ground: 'on the road',
    far: 'far tyres',
    ends: 'nose and tail',
    roof: 'roof',
    belt: 'belt',
    under: 'sill, lowest',
    pillar: 'A-pillar',
    'glass-end': 'side glass end',
    lamps: 'lamps',
    more: 'more',
  } as Record<string, string>,
  stepState: (set: number, of: number, unseen: number) =>
    set === of
      ? 'marked'
      : set + unseen === of
        ? `${set} marked, ${unseen} cannot be seen`
        : set || unseen
          ? `${set} of ${of} marked`
          : 'open',
  placeName,
  sheetWhere: 'The inner end of this centring mark, at the edge of the printed sheet.',
  barWhere: 'The end of the 100 mm bar in the title block: it shows whether the paper is flat.',
  keysHint: 'Arrows move by one pixel, with Shift by ten; Enter sets it. Ctrl and the wheel zoom; a drag moves the picture.',
  place: 'set here',
  cannot: 'cannot be seen',
  before: 'earlier',
  closer: 'closer',
  farther: 'farther',
  asSet: (px: number) => `not to the edge (${px} px)`,
  whole: 'whole',
  placed: (name: string, x: number, y: number) => `${name}, at ${px(x)} across, ${px(y)} down.`,
  cross: (x: number, y: number) => `${px(x)} across, ${px(y)} down`,
  unseen: (name: string) => `${name}: cannot be seen.`,
  next: (name: string) => `Next: ${name}.`,
  crossLabel: (name: string) => `Cross for: ${name}`,

  // figures
  figureOf: {
    roof: 'height',
    belt: 'belt',
    sill: 'sill',
    nose: 'front-overhang',
    tail: 'rear-overhang',
    pillar: 'pillar-rake',
    'glass-end': 'glass-end',
    lowest: 'clearance',
    'front-lamp': 'front-lamp',
    cowl: 'cowl',
    'tyre-front': 'wheels-between',
    'tyre-rear': 'wheels-between',
    'far-front': 'front-overhang',
    'far-rear': 'front-overhang',
  } as Record<string, string>,
  amount,
  aloud: (figure: string, f?: ReadFigure) =>
    f && f.value !== null && f.state === 'read'
      ? `${nameOf(figure)} ${amount(f).replace('±', 'plus or minus').replace(/°/g, '')}${f.unit === 'deg' ? ' degrees' : ''}.`
      : '',

  gone: words.gone,
  gainWhat: (mark: string, count: number, also?: string) => {
    if (mark === 'ground') return 'where the tyres meet the road';
    const of = also === 'far-rear' ? 'each far tyre' : also === 'tyre-rear' ? 'each tyre' : `the ${NAMES[mark] || mark.replace(/-/g, ' ')}`;
    return count > 1 ? `${count} more points of ${of}` : of;
  },

  // foot
  foot: 'What the picture tells',
  wants: 'Mark three points or more on each tyre, and its figures appear.',
  wantsSheet: 'Mark the four centring marks and three points on each tyre, and its figures appear.',
  cannotRead: 'These marks cannot be read',
  means: '± holds the true value 19 times in 20',
  helps: 'To know more:',
  gain: (what: string, figure: string, from: string, to: string) => `mark ${what}: ${figure} to ± ${to}, from ± ${from}`,
  gainLens: (figure: string, from: string, to: string) => `give the lens: ${figure} to ± ${to}, from ± ${from}`,
  against: (title: string) => `Against ${title}:`,
  outside: (list: string[]) => `outside are ${list.join('; ')}.`,
  noneOutside: 'nothing lies outside.',
  unsure: (list: string[]) => `Too close to call: ${list.join('; ')}.`,
  within: (list: string[]) => `Within: ${and(list)}.`,

  // table
  table: 'Every figure that was read',
  columns: ['figure', 'value', '±', 'millimetres', '±', 'state', 'most of the ± from', 'against'],
  messages: 'Remarks',

  // several
  row: 'Pictures on the desk',
  norms: (n: number) => `norms of these ${n}`,
  normsTitle: (n: number) => `Norms of ${n} pictures`,
  normsLine: 'Median and range of each figure; few pictures give wide ranges.',
  normsColumns: ['figure', 'pictures', 'tenth', 'median', 'nine tenths', 'from', 'to'],
  drawThis: 'draw an underlay of this',
  drawNorms: 'draw an underlay of these',
  drawn: (name: string) => `the underlay is ${name} now`,

  // saving
  formats: [
    ['yaml', 'marks'],
    ['profile', 'profile'],
    ['svg', 'SVG'],
    ['pdf', 'PDF'],
    ['png', 'PNG'],
  ] as [string, string][],
  handback: 'The sheet has the picture in it: for that it is sent to the program that serves this page, without its EXIF.',
  noReading: 'nothing to save before it can be read',
  noMarks: 'nothing to save yet',
  noPictureHere: (name: string) => `${name} is not open: the sheet is drawn on white`,
  spread: 'spread (PDF)',
  normsProfile: 'profile',
};
