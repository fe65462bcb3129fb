import type { LengthUnit } from '../profile/types.ts';
import { placeIn } from '../sheet/lengthWords.ts';
import {
  heading,
  left,
  lengthCells,
  lengthColumns,
  measuredTable,
  right,
  text,
} from '../sheet/pages/blocks.ts';
import type { Page, PageBlock } from '../sheet/pages/types.ts';
import { formatNumber } from '../units/format.ts';
import type { BuildStep, Doer, StepNumber } from './types.ts';

export interface OrderHead {
  readonly instrument: string;
  readonly shop: string;
  readonly units: LengthUnit;
  /** Of the profile, in hex. */
  readonly profileHash: string;
}

/** The order of work as pages to work down: a box for each step, its figures, and where to stop and look. */
export function orderPage(steps: readonly BuildStep[], head: OrderHead): Page {
  const place = new Map(steps.map(({ id }, i) => [id, i + 1]));
  return {
    title: `Order of work: ${head.instrument}`,
    head: [
      `${steps.length} steps from the blank to the strings, for the shop "${head.shop}". Each comes after the steps that it names; two of which neither waits for the other may change places.`,
      'A stop is where a mistake can still be mended: do not go on before what stands there is so. Figures in full stand on the bench sheets.',
    ],
    foot: `${head.instrument}, profile ${head.profileHash.slice(0, 12)}`,
    blocks: steps.flatMap((step, i) => stepBlocks(step, i + 1, place, head)),
  };
}

function stepBlocks(
  step: BuildStep,
  number: number,
  place: ReadonlyMap<string, number>,
  head: OrderHead,
): PageBlock[] {
  const after = step.after.map((id) => place.get(id)).filter((n) => n !== undefined);
  const waits =
    after.length === 0
      ? ''
      : `After ${after.length === 1 ? 'step' : 'steps'} ${after.sort((a, b) => a - b).join(', ')}.`;
  const jigs = step.jigs.length === 0 ? '' : `With the ${step.jigs.join(' and the ')}.`;
  const aside = [waits, jigs].filter((words) => words !== '').join(' ');
  return [
    heading(`${number}. ${step.title}`),
    ...(aside === '' ? [] : [text(aside)]),
    { kind: 'ticks', items: [...step.does, ...step.doers.map(doerWords)] },
    ...numbersOf(step, head),
    ...step.cautions.map((words): PageBlock => ({ kind: 'caution', title: 'Caution', text: words })),
    ...(step.hold === null ? [] : [{ kind: 'stop', title: 'Stop and check', text: step.hold } as const]),
  ];
}

function doerWords(doer: Doer): string {
  if (doer.kind === 'hand') return `By hand, ${doer.step}: ${doer.why}.`;
  if (doer.done) return `Made in the same run of ${doer.file} as before: look at it now.`;
  const minutes = doer.minutes === null ? '' : `, ${formatNumber(doer.minutes, 1)} minutes`;
  return `Run ${doer.file} on the ${doer.worker} (${doer.machine})${minutes}.`;
}

function numbersOf({ title, numbers }: BuildStep, { units }: OrderHead): PageBlock[] {
  if (numbers.length === 0) return [];
  return [
    measuredTable(
      `Figures: ${title}`,
      [left('what'), ...lengthColumns({ units }, 'is to be'), right(`work to +/-, ${units}`)],
      numbers.map((row) => numberRow(row, units)),
    ),
  ];
}

function numberRow({ what, is, workTo }: StepNumber, units: LengthUnit): string[] {
  const to = limitWords(workTo, units);
  return typeof is === 'string' ? [what, is, '', to] : [what, ...lengthCells({ units }, is), to];
}

function limitWords(workTo: StepNumber['workTo'], units: LengthUnit): string {
  if (workTo === null) return '';
  return typeof workTo === 'number' ? placeIn(units, workTo) : `+${placeIn(units, workTo.more)} -0`;
}
