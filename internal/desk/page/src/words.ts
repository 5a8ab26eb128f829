// Every word that the page says, in one place.
const and = (a: string[]): string => a.length < 2 ? a.join('') : `${a.slice(0, -1).join(', ')} and ${a[a.length - 1]}`;

export const words = {
  and,
  figures: {
    wheel: 'front wheel', height: 'roof', 'pillar-aim': 'A-pillar aims at', 'pillar-rake': 'A-pillar', 'glass-end': 'side glass ends',
    'lamp-offset': 'front lamp off the arch top',
  } as Record<string, string>,
  kinds: {
    full: 'full sheet', trace: 'trace sheet', steps: 'sheet of steps', demonstration: 'demonstration', practice: 'practice sheet', answer: 'answer sheet',
    overlay: 'overlay', spread: 'spread of figures', thumbnails: 'sheet of thumbnails',
  } as Record<string, string>,
  kindLines: {
    full: 'everything labelled, to read', trace: 'pale and wordless, to draw over', steps: 'the construction in eight panels',
    demonstration: 'a step a page, to project', practice: 'blanks to fill in', answer: 'the practice sheet solved',
    spread: 'where each figure lies in its range', thumbnails: 'many small ones to sketch on',
  } as Record<string, string>,
  views: {
    side: 'from the side', front: 'from the front', rear: 'from the rear', top: 'from above', arrangement: 'in every flat view',
    perspective: 'in perspective', ellipses: 'as ellipses',
  } as Record<string, string>,
  tweakEnds: {
    sporty: 'softer', tough: 'gentler', stately: 'plainer', roomy: 'tighter', shorter: 'less short', longer: 'less long', 'cab-forward': 'cab back',
    fastback: 'boxier',
  } as Record<string, string>,
  settings: {
    ink: 'ink', labels: 'labels', guides: 'guides', outline: 'outline', checks: 'ground angles', frame: 'frame', legend: 'legend', title: 'title', author: 'author',
    given: 'given on a practice sheet', count: 'how many', angle: 'projection', dpi: 'dots per inch of a PNG', transparent: 'no paper in a PNG',
    letters: 'letters of an SVG', tile: 'cut into pages to glue', portrait: 'upright', distance: 'distance', tilt: 'tilt', 'near-wheel': 'nearest wheel on paper',
    turn: 'turn', eye: 'height of the eye', lens: 'lens',
  } as Record<string, string>,
  choices: { w: 'wheels', mm: 'millimetres', in: 'inches', true: 'yes', false: 'no', '': 'as usual' } as Record<string, string>,

  // top row
  place: 'Underlay', toSheet: 'to the sheet', undo: 'undo', redo: 'redo', save: 'save', brief: 'brief', print: 'print', open: 'open…',
  saved: (name: string) => `${name} is saved`,
  saving: (name: string) => `writing the ${name}…`,
  printing: (mm: string) => `Print at 100 %, not fitted to the page${mm ? `: a wheel is then ${mm} mm on paper` : ''}.`,
  openPDF: 'open the PDF',
  notWhileClash: 'no saving while pins clash',
  notWhileProblem: 'no saving until this can be drawn',
  opened: (name: string) => `${name} is open`,
  notOpened: (name: string) => `${name} cannot be opened`,
  dropHere: 'drop a brief to open it',

  // sentence
  a: (noun: string) => /^[aeiou]/i.test(noun) ? 'an' : 'a',
  typicalProportions: 'at its typical proportions',
  made: (tweaks: string[]) => `made ${and(tweaks)}`,
  pins: (n: number) => `${n} pins`,
  release: 'release',
  releaseOf: (name: string) => `release ${name}`,
  largest: 'as large as fits',
  scaleWheel: (mm: string) => `with wheels of ${mm}`,
  units: { w: 'wheels', mm: 'millimetres', in: 'inches' } as Record<string, string>,
  usualLines: 'its usual lines',
  guidesChosen: (n: number) => `${n} guides`,
  ink: (ink: string) => `${ink} ink`,
  labels: (style: string) => style === 'none' ? 'no labels' : `${style} labels`,
  alone: 'without comparison',
  overTypical: 'laid over its typical self',
  nothingChanged: 'once something is changed',
  over: (title: string) => `laid over a ${title}`,
  backToTypical: 'back to typical',
  done: 'done',
  trays: {
    segment: 'Which vehicle', sheet: 'Which sheet', view: 'Seen from where', paper: 'Which paper', scale: 'How large', units: 'Numbers in',
    over: 'Laid over what', lines: 'What is drawn, and how', pins: 'What is pinned',
  } as Record<string, string>,
  ownPaper: 'or a size', ownPaperHint: '500x300mm, 20x12in', ownScale: 'or a scale', ownScaleHint: '1:16, wheel=60mm', set: 'set',
  also: (kind: string) => `and a ${kind}`, camera: 'Camera',
  noneGoes: 'This sheet has no such settings.',

  // figures
  free: 'free', pinned: 'pinned', kept: 'kept through the tweaks', cannotHold: 'cannot hold', wheels: 'wheels',
  limited: (limit: string) => `pushed back: ${limit}`,
  higher: (between: string) => `higher than typical (${between})`,
  lower: (between: string) => `lower than typical (${between})`,
  onPaper: (mm: string) => `${mm} mm on paper`,
  range: (lo: string, hi: string) => `range ${lo} to ${hi}`,
  was: (v: string) => `was ${v}`,
  gaveWay: (moves: string[]) => `gave way: ${moves.join(', ')}`,
  spokenWheels: (w: string, mm: string) => `${w} wheels${mm ? `, ${mm} millimetres` : ''}`,
  spoken: (v: string) => v.replace('mm', 'millimetres').replace('°', ' degrees').replace(' : ', ' to '),
  stops: (name: string, v: string, why: string) => `${name} stops at ${v}: ${why}`,
  noRoom: 'no further',
  figuresGroup: 'Figures, in the order a hand draws them',
  keys: 'Arrows move by one hundredth, with Shift by one tenth. Enter types a value. P pins or releases. Escape cancels a drag.',
  released: (name: string) => `${name} released`,
  dragCancelled: 'drag cancelled',
  which: 'Which one?',

  // typing
  inAnyUnit: (name: string) => `${name}, in any unit`,
  typeHint: (unit: string, range: string) => [unit, range].filter(Boolean).join('; '),
  typeSomething: 'type a value, like 2.35, 1737mm or 68in',
  cannotRead: (t: string) => `“${t}” is not a value: write 2.35, 1737mm, 68in, 1:2.4 or −0.1`,
  noRatio: 'only a ratio is written 1:2.4',
  noUnit: (unit: string) => `this figure is not measured in ${unit}`,
  doubt: (v: string) => `${v}?`,
  wouldBe: (v: string, shown: string) => `${v} = ${shown}`,
  cancel: 'cancel',

  // hand
  hand: 'The figure in hand', before: 'figure before', after: 'figure after', less: (n: string) => `${n} less`, more: (n: string) => `${n} more`,
  type: 'type', typeOf: (n: string) => `type ${n}`, pin: 'pin', pinOf: (n: string) => `pin ${n}`,

  // clash and problems
  cannotAllHold: 'These cannot all hold', thisCannotHold: 'This cannot hold', cannotDraw: 'This cannot be drawn',
  takeBack: 'take back my last change',
  makeIt: (v: string) => `make it ${v}`,
  noValue: 'no value alone helps',
  clashAloud: (pins: string[], ways: string[]) => `Clash. ${and(pins)} cannot ${pins.length > 1 ? 'all ' : ''}hold.${ways.length ? ` ${ways.join('; ')}.` : ''}`,
  wouldWork: (name: string, v: string) => `${name} ${v} would work`,
  perhaps: (nearest: string) => `perhaps ${nearest}`,
  gone: 'The program does not answer. Start it again and reload this page; the job is kept here.',
  busy: 'The program is busy; this is the drawing before.',

  // tweaks
  tweaks: 'Tweaks, strength from −2 to 2',
  strength: (v: number) => v ? `${v > 0 ? 'plus' : 'minus'} ${Math.abs(v)}` : 'zero',
  refused: (name: string, why: string) => `no ${name} here: ${why}`,
  tweakGone: (names: string[], title: string) => `${and(names)} left out: no such tweak of a ${title}`,

  // camera
  cameraRow: 'The camera', turn: 'turn', eye: 'eye', lens: 'lens', cameraEnds: { turn: ['towards the tail', 'towards the nose'], eye: ['low', 'high'], lens: ['near, wide', 'far, long'] } as Record<string, [string, string]>,

  // paper
  sheet: 'The sheet', sheetOf: (n: number, of: number) => `sheet ${n} of ${of}`, sheetBefore: 'sheet before', sheetAfter: 'sheet after', fit: 'fit',
  fitHint: 'fit the drawing to the window again', rule: '100 mm on paper',

  // below
  terminal: 'The same in a terminal', copy: 'copy', copied: 'copied', notCopied: 'not copied: select the line',
  everyFigure: 'Every figure', columns: ['figure', 'wheels', 'millimetres', 'on paper', 'typical', 'range', 'state'],
  hold: (name: string) => `take ${name} in hand`,

  // entering from another device
  enter: 'This desk is open to your network', enterWord: 'The word that the program printed', enterGo: 'enter', wrongWord: 'That is not the word.',
  tooManyWords: 'Too many tries; wait a minute.',

  undone: (job: string) => `undone: ${job}`, redone: (job: string) => `redone: ${job}`, noPins: 'nothing pinned', pinnedList: (pins: string[]) => `${and(pins)} pinned`,
};
