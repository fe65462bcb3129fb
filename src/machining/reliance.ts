import type { BeamJob, Job, Reliance, RouterJob } from './types.ts';

/** A job in its place, with its program's name, that does not say yet what it relies on. */
export type OrderedJob = Omit<RouterJob, 'reliesOn'> | BeamJob;

/**
 * Jobs with the programs that they rely on: where a cutter goes on from what an earlier one cleared, that one's program must
 * have run on the same blank.
 */
export function withReliance(jobs: readonly OrderedJob[]): Job[] {
  return jobs.map((job, i) => {
    if (job.kind === 'laser') return job;
    const earlier = jobs.slice(0, i).filter((other) => other.part.id === job.part.id);
    return { ...job, reliesOn: relianceOf(job, earlier) };
  });
}

function relianceOf(
  { operations, program }: Omit<RouterJob, 'reliesOn'>,
  earlier: readonly OrderedJob[],
): Reliance[] {
  const needed = operations.flatMap((o) => (o.kind === 'pocket' && o.cleared !== null ? [o.cleared.by] : []));
  return [...new Set(needed)].map((operation) => {
    const maker = earlier.find((job) => job.operations.some((o) => o.id === operation));
    if (maker === undefined)
      throw new Error(`${program} relies on ${operation}, which no earlier program cuts`);
    return { operation, program: maker.program };
  });
}

/** Names of the programs that a job relies on, its own left out: each is told once. */
export function programsRelied(job: Job): string[] {
  if (job.kind === 'laser') return [];
  return [...new Set(job.reliesOn.map((r) => r.program))].filter((name) => name !== job.program);
}
