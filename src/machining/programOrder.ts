import { type OrderedJob, withReliance } from './reliance.ts';
import type { BeamJob, Job, RouterJob } from './types.ts';
import { withWalks } from './walkRound.ts';

/** A job whose place among all programs is not known yet. */
export type Unordered = Omit<RouterJob, 'order' | 'after' | 'reliesOn'> | Omit<BeamJob, 'order' | 'after'>;

/**
 * Jobs with their program's place in the order. On a machine that changes tools, jobs that follow each other on one part
 * become one program: they share its name and its place. A walk round is always a program of its own.
 */
export function putInOrder(jobs: readonly Unordered[]): Job[] {
  const runs = runsOf(withWalks(jobs));
  const names = namesOf(runs);
  const ordered = runs.flatMap((run, i): OrderedJob[] => {
    const program = at(names, i);
    const after = runs
      .slice(0, i)
      .flatMap((earlier, k) => (partOf(earlier) === partOf(run) ? [at(names, k)] : []));
    return run.map((job) => ({ ...job, program, order: i + 1, after }));
  });
  return withReliance(ordered);
}

type Run = readonly Unordered[];

function runsOf(jobs: readonly Unordered[]): Run[] {
  const runs: Unordered[][] = [];
  for (const job of jobs) {
    const run = runs.at(-1);
    if (run !== undefined && goesOn(run, job)) run.push(job);
    else runs.push([job]);
  }
  return runs;
}

function goesOn(run: Run, job: Unordered): boolean {
  const before = run.at(-1);
  return (
    before?.part.id === job.part.id &&
    before.machine.id === job.machine.id &&
    before.setup.lie?.kind === job.setup.lie?.kind &&
    joins(before) &&
    joins(job)
  );
}

/** Whether a job may share its program with the next. */
function joins(job: Unordered): boolean {
  return job.machine.controller.toolChange === 'M6' && job.operations.length > 0;
}

/** A part's program on a machine that changes tools is named for the part, with a number from the second on. */
function namesOf(runs: readonly Run[]): string[] {
  const names: string[] = [];
  for (const run of runs) {
    const first = run[0];
    if (first === undefined) throw new Error('a program without a job');
    names.push(joins(first) ? free(first.part.id, names, 1) : first.program);
  }
  return names;
}

function free(part: string, taken: readonly string[], number: number): string {
  const name = number === 1 ? `${part}.nc` : `${part}-${number}.nc`;
  return taken.includes(name) ? free(part, taken, number + 1) : name;
}

function partOf(run: Run): string | undefined {
  return run[0]?.part.id;
}

function at<T>(list: readonly T[], index: number): T {
  const item = list[index];
  if (item === undefined) throw new Error(`item ${index} of a list of ${list.length}`);
  return item;
}
