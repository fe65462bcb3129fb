import type { BeamJob, HandStep, Job } from '../../machining/types.ts';
import type { Instrument, Shop } from '../../profile/types.ts';
import { formatMm, formatNumber, formatShort } from '../../units/format.ts';
import { cautionsFor } from './cautions.ts';
import { cutterRows, walkRows } from './cutterRows.ts';
import { code, page, plain, table } from './markdown.ts';
import { cautionList, situationOf, situationOfAll } from './situations.ts';
import { speedWords } from './speedWords.ts';
import { surfaceRows } from './surfaceRows.ts';
import type { ProgramFigures } from './types.ts';
import { isWalkRound } from './workOrder.ts';

type Row = readonly [what: string, value: string];

/**
 * Feeds, speeds, work zero, time, proof and cautions of every program, and what is left to the hand, as Markdown.
 * @example writeFeedNotes(plan.jobs, plan.handSteps, instrument, shop, figures)
 */
export function writeFeedNotes(
  jobs: readonly Job[],
  handSteps: readonly HandStep[],
  instrument: Instrument,
  shop: Shop,
  figures: readonly ProgramFigures[] = [],
): string {
  const sorted = [...jobs].sort((a, b) => a.order - b.order);
  return page([
    `# Feed notes: ${plain(instrument.name)}`,
    `Shop: ${plain(shop.name)}. Every figure here is a starting point: try it in scrap of the same wood, listen, and change it in the shop file rather than at the machine, so that the next program knows.`,
    '## Cautions',
    cautionList(cautionsFor(situationOfAll(jobs, handSteps, instrument))),
    '## Programs',
    sorted.length === 0 ? 'No program: everything is made by hand.' : totalLine(sorted, figures),
    ...sorted.flatMap((job) => programBlocks(job, figures)),
    '## By hand',
    handBlock(handSteps),
  ]);
}

function totalLine(jobs: readonly Job[], figures: readonly ProgramFigures[]): string {
  const programs = [...new Set(jobs.map((job) => job.program))];
  const known = figures.filter((f) => programs.includes(f.program));
  const minutes = known.reduce((sum, f) => sum + f.minutes, 0);
  const count = `${programs.length} ${programs.length === 1 ? 'program' : 'programs'}`;
  return known.length === programs.length
    ? `${count}, ${formatNumber(minutes, 1)} minutes of machine time, tool changes and touching off not counted.`
    : `${count}.`;
}

function programBlocks(job: Job, figures: readonly ProgramFigures[]): string[] {
  const rows: Row[] = [
    ['Machine', plain(job.machine.name)],
    ...toolRows(job),
    ...pathRows(job),
    ['Work zero', plain(job.setup.workZero)],
    ['Stock', stockWords(job)],
    ...holdingRows(job),
    ['Run after', job.after.length === 0 ? 'nothing' : job.after.map(code).join(', ')],
    ...figureRows(
      job,
      figures.find((f) => f.program === job.program),
    ),
    ['Cautions, in full above', cautionTitles(job)],
  ];
  return [
    `### ${job.order}. ${code(job.program)}: ${plain(job.part.title)}, ${plain(job.operation)}`,
    table(['What', 'Value'], rows),
  ];
}

/** Common practice, no source. */
const ON_ITS_FACE =
  'Lay the blank on its face on a flat board that carries it all along, its channel downward, and clamp it at both ends outside what is carved; the head must hang free over the board’s end or stand up clear of everything. Strips of wood as high as the channel is deep, or tape, under the shaft keep it from humming. Touch both long edges and halve; the body end must be square and sawn to the length that the work zero names.';

/** What the control does where two moves meet; a program that only looks has no corners. */
function pathRows(job: Job): Row[] {
  return job.operations.length === 0 ? [] : [['Corners of the path', pathWords(job)]];
}

function pathWords({ machine: { controller } }: Job): string {
  const { exactPath, corners } = controller;
  if (exactPath) return 'exact: the program says so (G61)';
  if (corners === null)
    return 'nobody has said how far this control leaves the written path there, so they may come out rounder than proven: look it up (controller: corners)';
  return corners === 0
    ? 'exact, as the shop file says of this control'
    : `left by at most ${formatShort(corners, 4)} mm, which the proof adds to every wall and depth`;
}

/** Parts too small for tabs are glued down before they are cut (common practice, no source). */
function holdingRows({ part, kind, setup, operation }: Job): Row[] {
  if (setup.lie?.kind === 'on its face') return [['Holding', ON_ITS_FACE]];
  if (setup.lie?.kind === 'turned') return [['Holding', TURNED]];
  if (operation === 'turning pins') return [['Holding', PINS]];
  if (setup.lie?.kind === 'edge') return [['Holding', edgeWords(part)]];
  const isCarried = part.features.some((f) => f.kind === 'outline' && f.carried !== undefined);
  if (!isCarried) return [];
  const how =
    kind === 'laser'
      ? 'Tape the piece to a flat sheet that may be burnt: its parts come free and must not tip into the beam.'
      : 'Glue the whole piece, thinly and without voids, to a flat carrier of hardwood or MDF with glue that heat, water or a solvent loosens again, and hold the carrier. Z0 is on top of the piece. The cutter goes on into the carrier.';
  return [
    [
      'Holding',
      `${how} Nothing but the glue holds the parts: no tabs, light cuts. Keep them in order; they are alike only to the eye.`,
    ],
  ];
}

/** Common practice, no source. */
const TURNED =
  'Blow the holes and the waste board clean. Set both pins, no longer than the blank is thick and the holes below are deep, so that neither stands above the wood; press the blank down on them, its top on the waste board, and hold it down with tape or outside its middle. Check with a finger that nothing rocks. Afterwards lift it straight off, turn it back, and touch off again as the next program says.';
const PINS =
  'Screw a flat waste board, thicker than the pins are to stand in it, to the table, and leave it there until the blank has been turned over: it carries the pins. The drill goes through the blank into it; look that no screw lies below.';

/** A board on edge is narrow and high: it tips where only its lower edge is held (common practice, no source). */
function edgeWords({ edge }: Job['part']): string {
  if (edge !== undefined && edge.strip !== null)
    return 'Tape the strip all along to a flat waste board, hard against a fence: it is thin, bends, and lifts with the drill. The drill goes on into the waste board.';
  return 'Clamp the board between two straight, flat jaws that reach to just below the edge, lined so that they do not mark it, with packing on the side of the playing surface where that is rounded. Its edges are not parallel: put a wedge under the lower one until the upper one is level from end to end. Nothing of the jaws may stand higher than the edge.';
}

function toolRows(job: Job): Row[] {
  if (job.kind === 'laser') return beamRows(job);
  return isWalkRound(job) ? walkRows(job) : [...cutterRows(job), ...surfaceRows(job)];
}

/** What applies to this program; what always applies stands at the top only. */
function cautionTitles(job: Job): string {
  return cautionsFor(situationOf(job))
    .filter((c) => c.when.every((when) => when.kind !== 'always'))
    .map((c) => c.title.toLowerCase())
    .join('; ');
}

function beamRows(job: BeamJob): Row[] {
  const { cut, mark } = job;
  const share = (s: number): string =>
    `${formatShort((100 * s) / job.machine.fullPower, 1)} % (S${formatShort(s, 3)})`;
  const passes = `${cut.passes} ${cut.passes === 1 ? 'pass' : 'passes'}`;
  return [
    ['Cut', `${share(cut.s)} at ${speedWords(cut.feed)}, ${passes}`],
    ['Mark', `${share(mark.s)} at ${speedWords(mark.feed)}`],
    ['Air', job.air === null ? 'as the machine’s manual says for this material' : plain(job.air)],
    ['Start of a cut', startWords(job)],
    ['Kerf', `${formatShort(job.kerf, 3)} mm, corrected in the program; measure it again for each sheet`],
    ['Power and speed from', plain(job.source)],
  ];
}

function startWords({ cut, operations }: BeamJob): string {
  const lengths = operations.flatMap((o) => (o.kind === 'beam cut' ? [o.leadIn?.length ?? 0] : []));
  if (lengths.length === 0) return 'nothing is cut through';
  const [least, most] = [Math.min(...lengths), Math.max(...lengths)];
  const range = least === most ? formatShort(most, 2) : `${formatShort(least, 2)} to ${formatShort(most, 2)}`;
  const pierce = cut.pierce > 0 ? `${formatShort(cut.pierce, 2)} s standing still, then ` : '';
  const from = most > 0 ? `${range} mm away in the waste` : 'in the outline itself';
  const over = cut.overCut > 0 ? `; runs ${formatShort(cut.overCut, 2)} mm past its start at the end` : '';
  return `${pierce}${from}, beside the middle of the longest side${over}`;
}

function stockWords(job: Job): string {
  const xs = job.setup.stock.region.outer.map((v) => v.x);
  const ys = job.setup.stock.region.outer.map((v) => v.y);
  const size = [
    Math.max(...xs) - Math.min(...xs),
    Math.max(...ys) - Math.min(...ys),
    -job.setup.stock.bottom,
  ];
  return `${size.map((s) => formatShort(s, 2)).join(' x ')} mm, ${plain(job.part.material)}`;
}

function figureRows(job: Job, figures: ProgramFigures | undefined): Row[] {
  if (figures === undefined) return [];
  const verdict = figures.passed ? 'proven' : 'NOT PROVEN: do not run it';
  if (isWalkRound(job)) {
    return [
      ['Time', `${formatNumber(figures.minutes, 1)} minutes`],
      ['Proof', `${verdict}; the spindle never on, never below the clear height, over every corner`],
    ];
  }
  return [
    ['Time', timeWords(figures)],
    [
      'Proof',
      `${verdict}; at most ${formatMm(figures.maxOvercut, 4)} mm too much (limit ${formatMm(figures.limits.over, 3)} mm) and ${formatMm(figures.maxUndercut, 4)} mm too little (limit ${formatMm(figures.limits.under, 3)} mm)`,
    ],
  ];
}

function timeWords({ minutes, time }: ProgramFigures): string {
  const part = (value: number): string => formatNumber(value, 1);
  return (
    `${part(minutes)} minutes: ${part(time.cutting)} cutting, ${part(time.travel)} travel, ${part(time.waiting)} waiting; ` +
    `${formatNumber(100 * time.atFeed, 0)} % of the cutting way at the written feed (by ${time.model})`
  );
}

function handBlock(handSteps: readonly HandStep[]): string {
  if (handSteps.length === 0) return 'Nothing is left to the hand but fitting and finishing.';
  return table(
    ['Step', 'Part', 'Features', 'Why by hand'],
    handSteps.map((s) => [code(s.step), code(s.part), featureWords(s), plain(s.why)]),
  );
}

function featureWords(step: HandStep): string {
  const [first, ...others] = step.features;
  const last = others[others.length - 1];
  if (first === undefined) return 'none';
  return last === undefined ? code(first) : `${step.features.length}: ${code(first)} to ${code(last)}`;
}
