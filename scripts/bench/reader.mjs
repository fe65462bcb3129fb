// The reader of programs against `rs274` on the same text, each in a process of its own, output thrown away; against a bare
// scan for line ends; and its memory on a text of about 100 MB, which it gets in pieces.
import { spawnSync } from 'node:child_process';
import { statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { bundleTo } from './bundle.mjs';
import { writeLongProgram } from './longProgram.mjs';
import { jsonFrom, median, repeat, round } from './measure.mjs';

const LINES = 1_000_000;
const LONG_LINES = 4_300_000;
const RUNS = 5;
const REFEREE_RUNS = 3;

// Reads in pieces of 64 KB, as a stream would bring them; nothing of the motions is kept but a sum.
const CHILD = `
import { closeSync, openSync, readSync } from 'node:fs';
import { createReader } from './src/verify/gcode/readProgram.ts';
import { UNDERSTANDS_EVERYTHING } from './src/verify/gcode/understands.ts';
const [path, how] = process.argv.slice(2);
const start = { units: 'mm', distance: 'absolute', plane: 'xy', feedMode: 'per minute', position: [0, 0, 0] };
const began = process.hrtime.bigint();
const file = openSync(path ?? '', 'r');
const piece = new Uint8Array(65536);
const sum = new Float64Array(1);
let lines = 0;
const reader = createReader(start, UNDERSTANDS_EVERYTHING, (motion) => { sum[0] += motion.toX; });
for (;;) {
  const length = readSync(file, piece);
  if (length === 0) break;
  if (how === 'read') reader.push(piece.subarray(0, length));
  else for (let at = piece.indexOf(10); at >= 0 && at < length; at = piece.indexOf(10, at + 1)) lines += 1;
}
closeSync(file);
const result = how === 'read' ? reader.finish() : { refusals: [], lines, motions: 0 };
const ms = Number(process.hrtime.bigint() - began) / 1e6;
const megabytes = process.resourceUsage().maxRSS / 1024;
process.stdout.write(JSON.stringify({ ms, megabytes, lines: result.lines, motions: result.motions, refusals: result.refusals.length, sum: sum[0] }));
`;

export async function measureReader(folder) {
  const child = await bundleTo(join(folder, 'read.cjs'), CHILD);
  const program = join(folder, 'million.ngc');
  writeLongProgram(program, LINES);
  const { read, scan, bare, referee } = inTurns(child, folder, 'million.ngc');
  const long = join(folder, 'long.ngc');
  writeLongProgram(long, LONG_LINES);
  const streamed = runsOf(child, long, 'read', 1)[0];
  const size = (path) => round(statSync(path).size / 1e6, 1);
  const rows = [
    row('the reader', LINES, size(program), read, referee),
    row('the reader, starting node counted', LINES, size(program), read.map(wholeProcess), referee),
    row('a bare scan for line ends', LINES, size(program), scan, referee),
    ...(referee === null ? [] : [row('rs274', LINES, size(program), referee, referee)]),
    row('the reader, a long text', LONG_LINES, size(long), [streamed], null),
  ];
  const times = median(read.map((r) => r.ms)) / median(scan.map((r) => r.ms));
  return {
    title: `reading one program, medians of ${RUNS} runs (rs274: ${REFEREE_RUNS})`,
    notes: [
      `The reader takes ${round(times, 1)} times as long as the bare scan; node alone starts in ${round(median(bare), 0)} ms.`,
      ...(referee === null ? ['rs274 is not installed: no ratio.'] : []),
    ],
    rows,
  };
}

/** One run of each after the other, again and again, so that what else the machine does falls on all alike. */
function inTurns(child, folder, name) {
  const program = join(folder, name);
  const hasReferee = spawnSync('rs274', ['-z'], { stdio: 'ignore' }).error === undefined;
  const [read, scan, bare, referee] = [[], [], [], []];
  for (let turn = 0; turn < RUNS; turn += 1) {
    read.push(...runsOf(child, program, 'read', 1));
    scan.push(...runsOf(child, program, 'scan', 1));
    bare.push(timed(process.execPath, ['-e', '0'], folder));
    if (hasReferee && turn < REFEREE_RUNS) referee.push(refereeRun(folder, name));
  }
  return { read, scan, bare, referee: hasReferee ? referee : null };
}

/** As `timed` by itself the reader leaves out what node takes to start. */
function wholeProcess(run) {
  return { ...run, ms: run.wall };
}

function row(what, lines, megabytes, runs, referee) {
  const ms = median(runs.map((r) => r.ms));
  return {
    what,
    lines,
    megabytesOfText: megabytes,
    seconds: round(ms / 1000, 3),
    linesPerSecond: Math.round((lines / ms) * 1000),
    timesRs274: referee === null ? null : round(median(referee.map((r) => r.ms)) / ms, 1),
    peakMegabytes: runs[0].megabytes === null ? null : Math.round(median(runs.map((r) => r.megabytes))),
  };
}

/** Wall time of the whole process, and what the child says of itself. */
function runsOf(child, program, how, count) {
  return repeat(count, () => {
    const began = process.hrtime.bigint();
    const said = jsonFrom([child, program, how]);
    const wall = Number(process.hrtime.bigint() - began) / 1e6;
    if (said.refusals !== 0) throw new Error(`the reader refuses the program ${said.refusals} times`);
    return { ...said, wall };
  });
}

function refereeRun(folder, program) {
  writeFileSync(join(folder, 'tools.tbl'), 'T1 P1 Z0 D0\n');
  return { ms: timed('rs274', ['-g', '-t', 'tools.tbl', program], folder), megabytes: null };
}

function timed(command, args, cwd) {
  const began = process.hrtime.bigint();
  const { status } = spawnSync(command, args, { cwd, stdio: 'ignore' });
  if (status !== 0) throw new Error(`${command} ended with ${status}`);
  return Number(process.hrtime.bigint() - began) / 1e6;
}
