import type { FinishRing, RouterJob } from '../../machining/types.ts';
import { degreesFromRadians } from '../../units/convert.ts';
import { formatInches, formatMm, formatNumber, formatShort } from '../../units/format.ts';
import { holdingRows } from './holdingRows.ts';
import { plain } from './markdown.ts';
import { pocketRows } from './pocketRows.ts';
import { relianceRows } from './relianceRows.ts';
import { speedWords } from './speedWords.ts';
import { wallRows } from './wallRows.ts';

type Row = readonly [what: string, value: string];

const FEET_PER_METRE = 1000 / 304.8;

/** Rows of a program's table that speak of its cutter or drill: speeds, feeds, depths, and what bound each. */
export function cutterRows(job: RouterJob): Row[] {
  const { feeds } = job;
  return [
    ['Tool', toolWords(job)],
    ['Collet nut', nutWords(job)],
    ['Spindle', `${formatNumber(feeds.rpm, 0)} rpm, up to speed before the first cut`],
    ['Spindle bound by', plain(feeds.spindleBoundBy)],
    ['Speed of the edge', edgeWords(feeds.surfaceSpeed)],
    ...(job.tool.kind === 'drill' ? drillRows(job) : millRows(job)),
    ...pocketRows(job),
    ...wallRows(job),
    ...relianceRows(job),
    ...holdingRows(job),
    ['Chip load', chipWords(job)],
    ['Chip load from', plain(feeds.source)],
  ];
}

/** Rows of a walk round: nothing turns and nothing is cut. */
export function walkRows(job: RouterJob): Row[] {
  return [
    ['Tool', toolWords(job)],
    ['Spindle', 'off, and never started'],
    ['Height', `${formatMm(job.machine.clearHeight, 2)} mm above the wood, or more over a keep-out`],
    ['Feed', speedWords(job.feeds.feed)],
  ];
}

function edgeWords(metres: number): string {
  return `${formatNumber(metres, 0)} m/min (${formatNumber(metres * FEET_PER_METRE, 0)} ft/min)`;
}

function chipWords({ tool, feeds }: RouterJob): string {
  const feed = tool.kind === 'drill' ? feeds.plunge : feeds.feed;
  const real = feed / (feeds.rpm * tool.flutes);
  return `aimed at ${formatMm(feeds.chipLoad, 4)} mm a tooth; ${formatMm(real, 4)} mm at this feed`;
}

function drillRows({ tool, feeds }: RouterJob): Row[] {
  const perTurn = feeds.plunge / feeds.rpm;
  return [
    ['Feed down', speedWords(feeds.plunge)],
    ['Feed bound by', plain(feeds.boundBy)],
    [
      'Feed of one turn',
      `${formatMm(perTurn, 3)} mm, ${formatShort((100 * perTurn) / tool.diameter, 1)} % of the diameter`,
    ],
    ['Peck', `${depthWords(feeds.stepDown)} at most`],
    ['Peck bound by', plain(feeds.stepDownBoundBy)],
  ];
}

function millRows({ feeds }: RouterJob): Row[] {
  return [
    ['Feed', speedWords(feeds.feed)],
    ['Feed bound by', plain(feeds.boundBy)],
    ['Plunge', speedWords(feeds.plunge)],
    ['Plunge bound by', plain(feeds.plungeBoundBy)],
    ['Step down', `${depthWords(feeds.stepDown)} a pass`],
    ['Step down bound by', plain(feeds.stepDownBoundBy)],
    ...(feeds.bend === null ? [] : [bendRow(feeds.bend)]),
    ['Thickest chip', `${formatMm(feeds.chip, 4)} mm with half the cutter or more in the wood`],
    ...(feeds.finish === null ? [] : [finishRow(feeds.finish)]),
  ];
}

function depthWords(mm: number): string {
  return `${formatMm(mm, 2)} mm (${formatInches(mm, 3)} in)`;
}

function bendRow({ force, tip }: { readonly force: number; readonly tip: number }): Row {
  return [
    'Bending',
    `the tip gives way by ${formatMm(tip, 3)} mm under about ${formatNumber(force, 1)} N in a full-width pass; a rough estimate for a sharp carbide cutter, twice as much when dull`,
  ];
}

function finishRow(finish: FinishRing): Row {
  return [
    'Finishing ring',
    `the last ${formatMm(finish.width, 2)} mm of a bore at ${speedWords(finish.feed)}: so narrow a ring makes chips ${formatShort(finish.thinning, 2)} times thinner in the smallest bore; ${plain(finish.boundBy)}`,
  ];
}

function nutWords({ tool, machine: { nut } }: RouterJob): string {
  if (nut === null)
    return 'not in the shop file, so no proof knows whether it meets wood or a clamp: measure it (nut: diameter, length)';
  const top = tool.stickOut + nut.length;
  return `${formatShort(nut.diameter, 1)} mm wide from ${formatShort(tool.stickOut, 1)} mm above the tip; what is more than ${formatShort(top, 1)} mm above the tip, the spindle’s body and its hoses, no proof knows`;
}

function toolWords({ tool }: RouterJob): string {
  const tip =
    tool.tipAngle === null
      ? ''
      : `, tip ${formatShort(degreesFromRadians(tool.tipAngle), 1)} degrees included`;
  return (
    `no. ${tool.id}, ${plain(tool.name)}: ${tool.kind}, ${formatShort(tool.diameter, 3)} mm +/- ${formatShort(tool.tolerance, 3)}, ` +
    `${tool.flutes} ${tool.flutes === 1 ? 'flute' : 'flutes'}, cuts ${formatShort(tool.cuttingLength, 1)} mm deep${tip}; ` +
    `${formatShort(tool.stickOut, 1)} mm out of the collet`
  );
}
