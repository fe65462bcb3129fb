/** Runs faults by the hundred in a thread of its own. In: programs, a seed, ranges of numbers. Out: one report for each range. */
import { parentPort, workerData } from 'node:worker_threads';
import { emptyReport, makeReady, runFaults } from './run.ts';
import type { Program } from './text.ts';

interface Work {
  readonly programs: readonly Program[];
  readonly seed: number;
}

const port = parentPort;
if (port === null) throw new Error('this file runs in a thread');
const { programs, seed } = workerData as Work;
const ready = makeReady(programs);

port.on('message', ([from, to]: readonly [number, number]) => {
  const numbers = Array.from({ length: to - from }, (_, k) => from + k);
  port.postMessage(runFaults(ready, seed, numbers, emptyReport()));
});
port.postMessage(null);
