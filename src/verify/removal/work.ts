/** Which lines of a program work on which cut, as the proof itself has assigned them. */
import { at } from './at.ts';
import type { Job } from './job.ts';
import { motionOf } from './sweep.ts';
import { lineOf } from './tape.ts';

/** First and last of lines that follow each other without another cut's between them. */
export type LineRun = readonly [first: number, last: number];

export interface CutWork {
  /** Id of the cut. */
  readonly cut: string;
  readonly runs: readonly LineRun[];
}

/** One entry for each cut, in the order of the intent. Lines that touch no wood belong to no cut and end no run. */
export function workOf(job: Job): CutWork[] {
  const runs: [number, number][][] = job.targets.map(() => []);
  let last = -1;
  for (let i = 0; i < job.sweep.count; i += 1) {
    const owner = at(job.owner, i);
    if (owner < 0) continue;
    const line = lineOf(job.sweep.tape, motionOf(job.sweep, i));
    const own = at(runs, owner);
    const run = own.at(-1);
    if (owner === last && run !== undefined) run[1] = line;
    else own.push([line, line]);
    last = owner;
  }
  return job.targets.map((target, k) => ({ cut: target.cut.id, runs: at(runs, k) }));
}
