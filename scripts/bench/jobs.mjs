// Whole jobs, proof included: every bundled instrument, and the default one in every bundled shop.
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { median, memoryOf, repeat, round, runNode } from './measure.mjs';
import { jobList, makeArguments } from './profiles.mjs';
import { measureTogether } from './together.mjs';

const RUNS = 3;

export async function measureJobs(folder) {
  const bare = median(repeat(RUNS, () => runNode(['-e', '0']).ms));
  const rows = jobList().map((job, i) => {
    const args = makeArguments(job, join(folder, `job-${i}`));
    const runs = repeat(RUNS, () => runNode(args));
    const made = runs.every((run) => run.status === 0);
    const ms = median(runs.map((run) => run.ms));
    return {
      instrument: job.instrument,
      shop: job.shop,
      programs: made ? manifestIn(join(folder, `job-${i}`)).programs.length : null,
      milliseconds: Math.round(ms),
      timesBareNode: round(ms / bare, 1),
      peakMegabytes: made ? Math.round(memoryOf(args)) : null,
    };
  });
  return {
    title: `median of ${RUNS} runs of nutline make`,
    notes: ['Without a number of programs: the shop cannot make that instrument, and says why.'],
    rows,
    more: [await measureTogether(folder, RUNS)],
  };
}

/** The folder that a job was made into. */
function madeIn(folder) {
  const [name] = readdirSync(folder);
  return join(folder, name);
}

function manifestIn(folder) {
  return JSON.parse(readFileSync(join(madeIn(folder), 'manifest.json'), 'utf8'));
}

/** Every program of every job that can be made, with the folder it lies in and its entry in the manifest. */
export function everyProgram(folder) {
  return jobList().flatMap((job, i) => {
    const out = join(folder, `made-${i}`);
    if (!existsSync(out) && runNode(makeArguments(job, out)).status !== 0) return [];
    return manifestIn(out).programs.map((program) => ({ job, folder: madeIn(out), program }));
  });
}
