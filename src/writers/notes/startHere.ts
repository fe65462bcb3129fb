import type { HandStep, Job, RouterJob } from '../../machining/types.ts';
import type { Feature, Part } from '../../parts/types.ts';
import type { Instrument, Shop } from '../../profile/types.ts';
import { degreesFromRadians } from '../../units/convert.ts';
import { formatNumber, formatShort } from '../../units/format.ts';
import { cautionsFor } from './cautions.ts';
import { bothUnits, bullets, code, numbered, page, plain, table } from './markdown.ts';
import { cautionList, situationOfAll } from './situations.ts';
import type { ProgramFigures } from './types.ts';
import { isWalkRound, type PartWork, type WorkItem, workOrder } from './workOrder.ts';

export interface StartHereContent {
  readonly instrument: Instrument;
  readonly shop: Shop;
  readonly parts: readonly Part[];
  readonly jobs: readonly Job[];
  readonly handSteps: readonly HandStep[];
  /** Files to open, in this order, with what each is. Paths below the instrument's folder. */
  readonly files: readonly { readonly path: string; readonly what: string }[];
  readonly figures?: readonly ProgramFigures[];
}

/** The first page to read: what to open, what to measure, the order of work, the dry run, where to stop and check. Markdown. */
export function writeStartHere(content: StartHereContent): string {
  const { instrument, jobs, handSteps } = content;
  return page([
    `# Start here: ${plain(instrument.name)}`,
    `Made for the shop "${plain(content.shop.name)}". Read this page to its end before any wood is cut.`,
    '## 1. Cautions',
    cautionList(cautionsFor(situationOfAll(jobs, handSteps, instrument))),
    '## 2. Open these first',
    numbered(content.files.map((f) => `${code(f.path)}: ${plain(f.what)}`)),
    '## 3. Measure these before any cut',
    'The profile says what it was told. Where your caliper says otherwise, write the true figure into the profile or shop file and make everything again; do not correct at the machine.',
    measureTable(content),
    ...couponBlock(jobs),
    '## 4. Dry run',
    dryRun(jobs),
    '## 5. The order of work',
    'Within a part keep this order. Parts may follow each other in any order; begin with one that costs little.',
    ...workOrder(content.parts, jobs, handSteps).flatMap((work) => partBlocks(work, content)),
    '## 6. What a proof cannot see',
    bullets(UNSEEN),
  ]);
}

type Row = readonly [what: string, profile: string, how: string];

type FaceMarkers = StartHereContent['instrument']['faceMarkers'];

/** One row for each shape and size of face marker, the largest first. */
function markerRows(faceMarkers: FaceMarkers): Row[] {
  const rows = faceMarkers.at.map((marker) => markerRow(marker, faceMarkers));
  const once = new Map(rows.map((r) => [r.row[0], r] as const));
  return [...once.values()].sort((a, b) => b.size - a.size).map((r) => r.row);
}

function markerRow(marker: FaceMarkers['at'][number], faceMarkers: FaceMarkers): { size: number; row: Row } {
  const { thickness, cornerRadius } = faceMarkers;
  const how = 'every one; sort out those that differ by more than the clearance';
  const thick = `${bothUnits(thickness)} thick`;
  const corners = cornerRadius === 0 ? 'as sharp as its pocket’s' : `rounded to ${bothUnits(cornerRadius)}`;
  switch (marker.shape) {
    case 'round': {
      const { diameter: size } = marker;
      return {
        size,
        row: [`Face markers of ${formatShort(size, 2)} mm`, `${bothUnits(size)} in diameter, ${thick}`, how],
      };
    }
    case 'square': {
      const { side: size } = marker;
      const name = `Square face markers of ${formatShort(size, 2)} mm`;
      return { size, row: [name, `${bothUnits(size)} square, corners ${corners}, ${thick}`, how] };
    }
    case 'diamond': {
      const { length: size, width } = marker;
      const name = `Diamond face markers of ${formatShort(size, 2)} x ${formatShort(width, 2)} mm`;
      const points = `${bothUnits(size)} and ${bothUnits(width)} from point to point`;
      return { size, row: [name, `${points}, corners ${corners}, ${thick}`, how] };
    }
    case 'ring': {
      const { diameter: size, inner } = marker;
      const name = `Ring face markers of ${formatShort(size, 2)} mm`;
      return {
        size,
        row: [name, `${bothUnits(size)} in diameter, ${bothUnits(inner)} inside, ${thick}`, how],
      };
    }
    case 'block':
    case 'notched block': {
      const { length: size, width } = marker;
      const words = marker.shape === 'block' ? 'Blocks' : 'Notched blocks';
      const name = `${words} of ${formatShort(size, 2)} x ${formatShort(width, 2)} mm`;
      const sizes = `${bothUnits(size)} along and ${bothUnits(width)} across, through the middle`;
      return { size, row: [name, `${sizes}, corners ${corners}, ${thick}`, how] };
    }
  }
}

function measureTable({ instrument, parts, jobs }: StartHereContent): string {
  const { fretWire, frets, faceMarkers, sideMarkers, bridge } = instrument;
  const inlay = markerRows(faceMarkers);
  const rows: Row[] = [
    [
      'Fret wire, tang',
      `${bothUnits(fretWire.tangWidth)} wide, ${bothUnits(fretWire.tangDepth)} deep, ${bothUnits(fretWire.barbWidth)} over the barbs`,
      `five pieces from different places of the coil; slots are ${bothUnits(frets.slotWidth)} wide`,
    ],
    ...inlay,
    ...(sideMarkers.at.length === 0
      ? []
      : [
          [
            'Side marker rod',
            `${bothUnits(sideMarkers.diameter)} in diameter`,
            'at both ends and across',
          ] as const,
        ]),
    [
      'Bridge pins',
      `${bothUnits(bridge.pins.seat)} at the bridge’s face, taper ${formatShort(degreesFromRadians(bridge.pins.pinTaper), 2)} degrees included`,
      'every pin, at two heights: the taper is the difference of diameters over the height',
    ],
    ...parts.map(
      (part): Row => [
        `Blank: ${plain(part.title)}`,
        `${bothUnits(part.blank.thickness)} thick, ${formatShort(part.blank.box.x[1] - part.blank.box.x[0], 1)} x ${formatShort(part.blank.box.y[1] - part.blank.box.y[0], 1)} mm`,
        'thickness at four corners and the middle, both long edges straight, ends square',
      ],
    ),
    ...kerfRows(jobs),
  ];
  return table(['What', 'The profile says', 'How to measure'], rows);
}

/** One row for each material and thickness that a laser cuts. */
function kerfRows(jobs: readonly Job[]): Row[] {
  const rows = jobs.flatMap((job): [string, Row][] => {
    if (job.kind !== 'laser') return [];
    const sheet = `${job.part.materialClass} ${formatShort(job.part.blank.thickness, 2)} mm`;
    return [
      [
        sheet,
        [
          `Laser kerf in ${sheet}`,
          bothUnits(job.kerf, 3),
          'cut a square without correction, measure it and its opening: the kerf is half the difference',
        ],
      ],
    ];
  });
  return [...new Map(rows).values()];
}

function couponBlock(jobs: readonly Job[]): string[] {
  const routerJobs = jobs.filter((j): j is RouterJob => j.kind === 'router');
  const tools = [...new Map(routerJobs.map((j) => [j.tool.id, j.tool])).values()];
  if (tools.length === 0) return [];
  return [
    '### The cutter’s true width',
    'No caliper measures a cutter as it turns. Cut a coupon with each tool, in scrap of the same wood, at the program’s own speed and feed: one straight groove (a drill: one hole). Measure the groove with feeler gauges or the fret wire itself.',
    table(
      ['Tool', 'The groove must measure'],
      tools.map((t) => [
        `no. ${t.id}, ${plain(t.name)}`,
        `${formatShort(t.diameter - t.tolerance, 3)} to ${formatShort(t.diameter + t.tolerance, 3)} mm`,
      ]),
    ),
    'Outside these limits the proof no longer holds: write the true diameter into the shop file and make everything again.',
  ];
}

function dryRun(jobs: readonly Job[]): string {
  const routers = jobs.filter((j): j is RouterJob => j.kind === 'router');
  const deepest = Math.max(0, ...routers.map((j) => -j.setup.stock.bottom + j.below));
  const lines = [
    ...(routers.length === 0
      ? []
      : [
          'Router: the first program of each blank is a walk round. It only looks: spindle off, never below the clear height, a pause over each corner of the blank, and its end above the work zero. What it shows wrong is put right before anything turns.',
          travelLine(routers),
          `Router: touch off as the program’s head says, then raise Z zero by ${formatNumber(Math.ceil(deepest) + 10, 0)} mm and run the whole program above the wood. The tool must stay over the blank, pass every clamp clear, and never come near the wood. Check that the machine has that much height to spare. Set Z zero back and touch off again.`,
          'Then run it once in scrap of the same thickness, and measure what came out against the sheet.',
        ]),
    ...(jobs.length > routers.length
      ? [
          'Laser: trace the program with the beam off, lid shut, and see that it stays on the sheet. Then cut one small part from an offcut and measure it.',
        ]
      : []),
    ...(jobs.length === 0
      ? [
          'By hand: saw two slots in scrap with the same saw and press the wire in, before the board is touched.',
        ]
      : []),
  ];
  return bullets(lines);
}

function travelLine(routers: readonly RouterJob[]): string {
  const heights = [...new Set(routers.map((job) => job.machine.travelHeight))];
  const named = heights.map((height) => `${formatShort(height, 2)} mm`).join(' or ');
  return `Router: from one feature to the next the tool travels ${named} above the wood. Nothing on the blank or beside it may stand higher, unless the shop file names it under keepOuts: there the tool goes over it.`;
}

/** What to look at after a kind of work, before going on. */
const CHECKS: Readonly<Record<Feature['work'], string>> = {
  indexPins: 'both pins go in by hand without play, and the distance between them is that of the sheet',
  fretSlots:
    'the octave slot is at half the scale from the nut line; count the slots; wire presses in without splitting; depth at both edges',
  faceMarkers: 'a marker drops in without force and stands proud by what the profile says',
  boardSurface:
    'a gauge of the radius (of a cone: of each of its two radii, at its own place) stands without light under it at the nut, the middle and the end; thickness along the middle and at both edges; the fine ridges still have to be sanded off',
  boardOutline: 'width at the nut and at the stated fret; both edges straight; tabs cut and pared, not torn',
  inlays:
    'each part goes into its pocket by hand without force and without play that shows; none is chipped at its edge',
  sideMarkers: 'all on the bass edge, each between the slots that the sheet names',
  radiusBlock:
    'the plates stand on a gauge of the radius without light under them, and the dowels go through all of them',
  pinTemplate: 'the distances between holes and from the saddle line are those of the sheet',
  slotTemplate: 'its nut end is square, and its octave line is at half the scale from it',
};

/** What a walk round shows. */
const WALK_CHECK =
  'the tip waits over every corner of the blank, within a millimetre; it passes clear of every clamp; it ends above the work zero, at the clear height by a rule or gauge block';

function partBlocks({ part, items }: PartWork, content: StartHereContent): string[] {
  if (items.length === 0) return [];
  return [
    `### ${plain(part.title)}`,
    `Datum: ${plain(part.datum)}.`,
    numbered(items.map((item) => itemLine(item, content))),
  ];
}

function itemLine(item: WorkItem, content: StartHereContent): string {
  const isWalk = item.kind === 'program' && item.jobs.every(isWalkRound);
  const checks = isWalk ? WALK_CHECK : checksAfter(item);
  const stop = checks === '' ? '' : ` **Stop and check:** ${checks}.`;
  if (item.kind === 'hand') {
    return `By hand, ${code(item.step.step)} (${item.step.features.length} places): ${plain(item.step.why)}.${stop}`;
  }
  const [job] = item.jobs;
  const tool = toolWords(item.jobs);
  const minutes = content.figures?.find((f) => f.program === job.program)?.minutes;
  const time = minutes === undefined ? '' : `, ${formatNumber(minutes, 1)} minutes`;
  const still = isWalk ? ', spindle off' : '';
  return `Run ${code(job.program)} on ${plain(job.machine.name)}${still}${tool}${time}. Work zero: ${plain(job.setup.workZero)}.${stop}`;
}

/** After the level passes of a surface there is nothing to measure yet. */
function checksAfter(item: WorkItem): string {
  const isRough =
    item.kind === 'program' &&
    item.jobs.every((job) => job.operations.every((o) => o.kind === 'rough surface'));
  return isRough ? '' : item.works.map((w) => CHECKS[w]).join('; ');
}

/** The tools of a program in the order in which they are put in; none for a beam. */
function toolWords(jobs: readonly Job[]): string {
  const tools = jobs.flatMap((job) => (job.kind === 'router' ? [job.tool] : []));
  const named = tools.map((tool) => `no. ${tool.id}, ${plain(tool.name)}`);
  return named.length === 0 ? '' : `, tool ${named.join(', then ')}`;
}

/** Blind spots of every proof, each with what closes it. */
const UNSEEN: readonly string[] = [
  '**The profile itself.** A wrong scale length gives a wrong instrument, proven. The sheet’s first line and its sum check are there to be tried with a rule.',
  '**The cutter’s true diameter and how true it runs.** Proven between the limits in the table above only: cut the coupon.',
  '**The stock.** Thickness, flatness and squareness are taken from the profile: measure.',
  '**Where you touched off.** A work zero that is off moves everything: touch off twice, and compare.',
  '**A control that reads a word differently.** Only what the shop file states is used, and every program sets its own state: still, watch the dry run.',
  '**Clamps that are not in the shop file.** Move them, or write them in.',
  '**Backlash, lost steps, a blank that shifts, a dull tool.** Stop when the sound changes, and measure after each program.',
];
