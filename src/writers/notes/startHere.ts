import type { HandStep, Job, RouterJob } from '../../machining/types.ts';
import type { Part } from '../../parts/types.ts';
import type { Anchor, Instrument, Shop } from '../../profile/types.ts';
import { degreesFromRadians } from '../../units/convert.ts';
import { formatNumber, formatShort } from '../../units/format.ts';
import { afterPrograms } from './afterPrograms.ts';
import { benchChecks } from './benchChecks.ts';
import { cautionsFor } from './cautions.ts';
import { bothUnits, bullets, code, numbered, page, plain, table } from './markdown.ts';
import { reliedNames } from './relianceRows.ts';
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
    ...stringHolderRows(bridge.anchor),
    ...parts.map(
      (part): Row => [
        `Blank: ${plain(part.title)}`,
        `${bothUnits(part.blank.thickness)} thick, ${formatShort(part.blank.box.x[1] - part.blank.box.x[0], 1)} x ${formatShort(part.blank.box.y[1] - part.blank.box.y[0], 1)} mm`,
        'thickness at four corners and the middle, both long edges straight, ends square',
      ],
    ),
    ...kerfRows(jobs),
    ...nutRows(jobs),
  ];
  return table(['What', 'The profile says', 'How to measure'], rows);
}

/** What is measured of what holds the strings. */
function stringHolderRows(anchor: Anchor): Row[] {
  switch (anchor.kind) {
    case 'pins':
      return [
        [
          'Bridge pins',
          `${bothUnits(anchor.seat)} at the bridge’s face, taper ${formatShort(degreesFromRadians(anchor.pinTaper), 2)} degrees included`,
          'every pin, at two heights: the taper is the difference of diameters over the height',
        ],
      ];
    case 'tailpiece':
      return [
        [
          'Tailpiece',
          `${bothUnits(anchor.spread)} between the outer strings, which leave it ${bothUnits(anchor.behindSaddle)} behind the saddle`,
          'laid in its place on the body, before the neck’s angle is settled',
        ],
      ];
    case 'tied':
    case 'through':
      return [];
  }
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

/** One row for each router: what is above the tool, and how far the tools reach out of it. */
function nutRows(jobs: readonly Job[]): Row[] {
  const routers = [...new Set(jobs.flatMap((job) => (job.kind === 'router' ? [job.machine] : [])))];
  return routers.map(({ name, nut }): Row => {
    const said =
      nut === null
        ? 'nothing: until it stands in the shop file (nut), no proof knows of it'
        : `${bothUnits(nut.diameter)} wide, ${bothUnits(nut.length)} from the collet’s face up`;
    const how =
      'over its corners and up to the spindle’s body; and how far each tool reaches out of the collet (stickOut)';
    return [`Collet nut: ${plain(name)}`, said, how];
  });
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
  const deepest = Math.max(0, ...routers.map(depthOf));
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

/** How far a program may go down: through the stock, or in an edge as deep as its holes. */
function depthOf({ setup, below, operations, tool }: RouterJob): number {
  const isThrough = operations.some((o) => 'through' in o && o.through);
  if (setup.lie?.kind !== 'edge' || isThrough) return -setup.stock.bottom + below;
  return Math.max(0, ...operations.map((o) => ('z' in o ? tool.diameter - o.z : 0)));
}

function travelLine(routers: readonly RouterJob[]): string {
  const heights = [...new Set(routers.map((job) => job.machine.travelHeight))];
  const named = heights.map((height) => `${formatShort(height, 2)} mm`).join(' or ');
  return `Router: from one feature to the next the tool travels ${named} above the wood. Nothing on the blank or beside it may stand higher, unless the shop file names it under keepOuts: there the tool goes over it.`;
}

/** What a walk round shows. */
const WALK_CHECK =
  'the tip waits over every corner of the blank, within a millimetre; it passes clear of every clamp; it ends above the work zero, at the clear height by a rule or gauge block';

function partBlocks({ part, items }: PartWork, content: StartHereContent): string[] {
  if (items.length === 0) return [];
  return [
    `### ${plain(part.title)}`,
    `Datum: ${plain(part.datum)}.`,
    numbered(items.map((item) => itemLine(item, content))),
    ...(part.use === undefined ? [] : ['To use it:', bullets(part.use.map(plain))]),
    ...(part.id === 'fingerboard'
      ? ['Then by hand, from top to bottom:', bullets(afterPrograms(content.instrument, items))]
      : []),
  ];
}

function itemLine(item: WorkItem, content: StartHereContent): string {
  const isWalk = item.kind === 'program' && item.jobs.every(isWalkRound);
  const checks = isWalk ? WALK_CHECK : leavesSkin(item) ? SKIN_CHECK : checksAfter(item, content);
  const stop = checks === '' ? '' : ` **Stop and check:** ${checks}.`;
  if (item.kind === 'hand') {
    const { step, features, why } = item.step;
    const places = features.length === 0 ? '' : ` (${features.length} places)`;
    return `By hand, ${code(step)}${places}: ${plain(why)}.${stop}`;
  }
  const [job] = item.jobs;
  const tool = toolWords(item.jobs);
  const minutes = content.figures?.find((f) => f.program === job.program)?.minutes;
  const time = minutes === undefined ? '' : `, ${formatNumber(minutes, 1)} minutes`;
  const still = isWalk ? ', spindle off' : '';
  return `Run ${code(job.program)} on ${plain(job.machine.name)}${still}${tool}${time}. Work zero: ${plain(job.setup.workZero)}.${onlyAfter(item.jobs)}${stop}`;
}

/** A program that goes on from what another cleared says so where it is started. */
function onlyAfter(jobs: readonly Job[]): string {
  const names = [...new Set(jobs.flatMap(reliedNames))];
  return names.length === 0
    ? ''
    : ` Only after ${names.map(code).join(' and ')}: look into every pocket first, it must be clear to its floor but for its corners, or the cutter will break.`;
}

/** Nothing is made yet but the holes that the blank is turned over on. */
const PINS_CHECK =
  'both pins go through the blank into the board below by hand without play, stand upright, and reach no higher than the wood; the board below does not move';

/** A part that a skin holds is measured once it is free. */
const SKIN_CHECK =
  'the skin is whole all round before the blank is moved; where it is cut through the blank is thinner than the profile says, or was not down on its board';

function leavesSkin(item: WorkItem): boolean {
  if (item.kind === 'hand') return false;
  return item.jobs.some((job) => job.operations.some((o) => o.kind === 'outline' && o.skin !== null));
}

/** After the level passes of a surface there is nothing to measure yet. */
function checksAfter(item: WorkItem, content: StartHereContent): string {
  const isRough =
    item.kind === 'program' &&
    item.jobs.every((job) =>
      job.operations.every((o) => o.kind === 'rough surface' || o.kind === 'rough back'),
    );
  if (item.kind === 'program' && item.jobs.every((job) => job.operation === 'turning pins'))
    return PINS_CHECK;
  const checks = benchChecks(content.instrument, content.parts);
  return isRough ? '' : item.works.map((w) => checks[w]).join('; ');
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
  '**Clamps that are not in the shop file, and what is above the collet nut.** Move them, or write them in; watch the spindle’s body and its hoses in the dry run.',
  '**Backlash, lost steps, a blank that shifts, a dull tool.** Stop when the sound changes, and measure after each program.',
];
