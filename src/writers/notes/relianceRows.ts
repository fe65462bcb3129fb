import type { Job, RouterJob } from '../../machining/types.ts';
import { formatMm } from '../../units/format.ts';
import { code } from './markdown.ts';

type Row = readonly [what: string, value: string];

/** Rows of a program's table that say what must have run before it, and what happens where it has not; none where it relies on nothing. */
export function relianceRows(job: RouterJob): Row[] {
  if (!reliesOnEarlier(job)) return [];
  const others = reliedNames(job);
  const first = others.length === 0 ? 'the tool before it in this program' : others.map(code).join(' and ');
  return [
    [
      'Only after',
      `${first}, run to its end on this blank, neither it nor the work zero changed since: the proof counts with what was cleared there`,
    ],
    [
      'Where that has not run',
      `do not start: beside every corner the cutter would go straight down into standing wood, by ${formatMm(job.feeds.stepDown, 2)} mm or nearly so at each level, which it is not made for. It would break. A pocket that is not clear to its floor, corners apart, means: stop`,
    ],
    [
      'Way down',
      'straight, at the plunge feed, beside each corner where the larger cutter has been; on a ramp where there is no room for that',
    ],
  ];
}

/** Names of other programs that a job relies on, each told once. */
export function reliedNames(job: Job): string[] {
  if (job.kind === 'laser') return [];
  return [...new Set(job.reliesOn.map((r) => r.program))].filter((name) => name !== job.program);
}

/** Whether a job goes on from what an earlier cutter cleared. */
export function reliesOnEarlier(job: Job): boolean {
  return job.kind === 'router' && job.reliesOn.length > 0;
}
