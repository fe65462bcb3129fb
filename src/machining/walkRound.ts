import type { Unordered } from './programOrder.ts';

/** Slow enough to follow with the eye, mm/min. */
const PACE = 1000;

/**
 * Jobs with a walk round before the first program of each blank on each router, and whenever it is set up anew: the same tool and
 * work zero, no cut. It shows whether blank, work zero and clamps are where they are meant to be before anything turns.
 */
export function withWalks(jobs: readonly Unordered[]): Unordered[] {
  const walked = new Map<string, number>();
  const last = new Map<string, string>();
  return jobs.flatMap((job) => {
    if (job.kind !== 'router') return [job];
    const blank = [job.part.id, job.machine.id, job.setup.workZero, ...job.setup.shift].join('|');
    const place = `${job.part.id}|${job.machine.id}`;
    if (last.get(place) === blank) return [job];
    last.set(place, blank);
    const number = (walked.get(job.part.id) ?? 0) + 1;
    walked.set(job.part.id, number);
    return [walkBefore(job, number), job];
  });
}

function walkBefore(job: Unordered & { kind: 'router' }, number: number): Unordered {
  const feed = Math.min(PACE, job.machine.maxFeed.xy);
  return {
    ...job,
    program: `${job.part.id}-walk-round${number === 1 ? '' : `-${number}`}.nc`,
    operation: 'walk round',
    feeds: { ...job.feeds, feed },
    operations: [],
  };
}
