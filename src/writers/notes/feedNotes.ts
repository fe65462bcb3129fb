import type { BeamJob, HandStep, Job, RouterJob } from '../../machining/types.ts';
import type { Instrument, Shop } from '../../profile/types.ts';
import { degreesFromRadians } from '../../units/convert.ts';
import { formatInches, formatMm, formatNumber, formatShort } from '../../units/format.ts';
import { cautionsFor } from './cautions.ts';
import { code, page, plain, table } from './markdown.ts';
import { cautionList, situationOf, situationOfAll } from './situations.ts';
import type { ProgramFigures } from './types.ts';

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
  const known = jobs.flatMap((job) => figures.filter((f) => f.program === job.program));
  const minutes = known.reduce((sum, f) => sum + f.minutes, 0);
  const count = `${jobs.length} ${jobs.length === 1 ? 'program' : 'programs'}`;
  return known.length === jobs.length
    ? `${count}, ${formatNumber(minutes, 1)} minutes of machine time, tool changes and touching off not counted.`
    : `${count}.`;
}

function programBlocks(job: Job, figures: readonly ProgramFigures[]): string[] {
  const rows: Row[] = [
    ['Machine', plain(job.machine.name)],
    ...(job.kind === 'router' ? routerRows(job) : beamRows(job)),
    ['Work zero', plain(job.setup.workZero)],
    ['Stock', stockWords(job)],
    ['Run after', job.after.length === 0 ? 'nothing' : job.after.map(code).join(', ')],
    ...figureRows(figures.find((f) => f.program === job.program)),
    ['Cautions, in full above', cautionTitles(job)],
  ];
  return [
    `### ${job.order}. ${code(job.program)}: ${plain(job.part.title)}, ${plain(job.operation)}`,
    table(['What', 'Value'], rows),
  ];
}

/** What applies to this program; what always applies stands at the top only. */
function cautionTitles(job: Job): string {
  return cautionsFor(situationOf(job))
    .filter((c) => c.when.every((when) => when.kind !== 'always'))
    .map((c) => c.title.toLowerCase())
    .join('; ');
}

function routerRows(job: RouterJob): Row[] {
  const { tool, feeds } = job;
  const isDrill = tool.kind === 'drill';
  const real = (isDrill ? feeds.plunge : feeds.feed) / (feeds.rpm * tool.flutes);
  const bite = `${formatMm(feeds.stepDown, 2)} mm (${formatInches(feeds.stepDown, 3)} in)`;
  const ways: Row[] = isDrill
    ? [
        ['Feed down', speed(feeds.plunge)],
        ['Peck', `${bite} at most`],
      ]
    : [
        ['Feed', speed(feeds.feed)],
        ['Plunge', speed(feeds.plunge)],
        ['Step down', `${bite} a pass`],
      ];
  return [
    ['Tool', toolWords(job)],
    ['Spindle', `${formatNumber(feeds.rpm, 0)} rpm, up to speed before the first cut`],
    ...ways,
    ['Chip load', `aimed at ${formatMm(feeds.chipLoad, 4)} mm a tooth; ${formatMm(real, 4)} mm at this feed`],
    ['Chip load from', plain(feeds.source)],
    ['Feed bound by', plain(feeds.boundBy)],
  ];
}

function toolWords({ tool }: RouterJob): string {
  const tip =
    tool.tipAngle === null
      ? ''
      : `, tip ${formatShort(degreesFromRadians(tool.tipAngle), 1)} degrees included`;
  return (
    `no. ${tool.id}, ${plain(tool.name)}: ${tool.kind}, ${formatShort(tool.diameter, 3)} mm +/- ${formatShort(tool.tolerance, 3)}, ` +
    `${tool.flutes} ${tool.flutes === 1 ? 'flute' : 'flutes'}, cuts ${formatShort(tool.cuttingLength, 1)} mm deep${tip}`
  );
}

function beamRows(job: BeamJob): Row[] {
  const share = (s: number): string =>
    `${formatShort((100 * s) / job.machine.fullPower, 1)} % (S${formatShort(s, 3)})`;
  const passes = `${job.cut.passes} ${job.cut.passes === 1 ? 'pass' : 'passes'}`;
  return [
    ['Cut', `${share(job.cut.s)} at ${speed(job.cut.feed)}, ${passes}`],
    ['Mark', `${share(job.mark.s)} at ${speed(job.mark.feed)}`],
    ['Kerf', `${formatShort(job.kerf, 3)} mm, corrected in the program; measure it again for each sheet`],
    ['Power and speed from', 'what the shop tested for this material and thickness'],
  ];
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

function figureRows(figures: ProgramFigures | undefined): Row[] {
  if (figures === undefined) return [];
  const verdict = figures.passed ? 'proven' : 'NOT PROVEN: do not run it';
  return [
    ['Time', `${formatNumber(figures.minutes, 1)} minutes`],
    [
      'Proof',
      `${verdict}; at most ${formatMm(figures.maxOvercut, 4)} mm too much and ${formatMm(figures.maxUndercut, 4)} mm too little, limit ${formatMm(figures.tolerance, 3)} mm`,
    ],
  ];
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

function speed(mmPerMinute: number): string {
  return `${formatNumber(mmPerMinute, 0)} mm/min (${formatInches(mmPerMinute, 1)} in/min)`;
}
