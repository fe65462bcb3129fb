// Proving each program of every bundled instrument: time, and peak memory of a process that does nothing
// else.
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { bundleTo } from './bundle.mjs';
import { everyProgram } from './jobs.mjs';
import { jsonFrom, median, round } from './measure.mjs';

const RUNS = 7;

const CHILD = `
import { readFileSync } from 'node:fs';
import { proveAgainst } from './src/app/proveFile.ts';
const [program, intent] = process.argv.slice(2);
const bytes = readFileSync(program ?? '');
const text = readFileSync(intent ?? '', 'utf8');
const times = [];
let passed = true;
for (let i = 0; i < ${RUNS}; i += 1) {
  const began = process.hrtime.bigint();
  const result = proveAgainst(bytes, text);
  times.push(Number(process.hrtime.bigint() - began) / 1e6);
  passed = passed && result.ok && result.proof.passed;
}
process.stdout.write(JSON.stringify({ times, passed, megabytes: process.resourceUsage().maxRSS / 1024 }));
`;

export async function measureProver(folder) {
  const child = await bundleTo(join(folder, 'prove.mjs'), CHILD);
  const rows = everyProgram(folder).map(({ job, folder: made, program }) => rowOf(child, made, program, job));
  return {
    title: `proving a program, median of ${RUNS} times in one process; the first is the slowest`,
    rows,
  };
}

function rowOf(child, folder, program, { instrument, shop }) {
  const path = join(folder, program.path);
  const said = jsonFrom([child, path, join(folder, program.intent.path)]);
  if (!said.passed) throw new Error(`${program.path} does not prove`);
  return {
    instrument,
    shop,
    program: program.path.replace('programs/', ''),
    lines: readFileSync(path, 'utf8').split('\n').length - 1,
    firstMilliseconds: round(said.times[0], 1),
    milliseconds: round(median(said.times), 1),
    peakMegabytes: Math.round(said.megabytes),
  };
}
