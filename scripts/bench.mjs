// Measures what a person waits for, as medians and as ratios to a bare `node -e 0` in the same run.
// `npm run bench` prints a table; `npm run bench -- --json` prints JSON.
import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

const RUNS = 9;
const out = mkdtempSync(join(tmpdir(), 'nutline-bench-'));

/** One run: wall milliseconds and peak memory of the child alone, in MB. */
function once(args) {
  const wrapped = [
    '-e',
    `const {spawnSync}=require('node:child_process');const t=process.hrtime.bigint();const r=spawnSync(process.execPath,${JSON.stringify(args)},{stdio:['ignore','ignore','inherit']});const ms=Number(process.hrtime.bigint()-t)/1e6;process.stdout.write(JSON.stringify({ms,status:r.status}))`,
  ];
  const result = JSON.parse(spawnSync(process.execPath, wrapped, { encoding: 'utf8' }).stdout);
  if (result.status !== 0) throw new Error(`node ${args.join(' ')} ended with ${result.status}`);
  return result.ms;
}

/** Peak memory of a run in MB, as the child itself reports it when it ends. */
function memory(args) {
  const hook = "process.on('exit',()=>process.stderr.write('\\nPEAK '+process.resourceUsage().maxRSS+'\\n'))";
  const result = spawnSync(
    process.execPath,
    ['--import', `data:text/javascript,${encodeURIComponent(hook)}`, ...args],
    {
      encoding: 'utf8',
    },
  );
  return Number(/PEAK (\d+)/.exec(result.stderr)?.[1]) / 1024;
}

function median(list) {
  const sorted = [...list].sort((a, b) => a - b);
  return sorted[Math.floor(sorted.length / 2)];
}

const cases = {
  'node -e 0': ['-e', '0'],
  'nutline --version': ['dist/main.js', '--version'],
  'nutline --help': ['dist/main.js', '--help'],
  'nutline check': ['dist/main.js', 'check'],
  'nutline sheet': ['dist/main.js', 'sheet'],
  'nutline strings (2,000 samples included)': ['dist/main.js', 'strings'],
  'nutline make (whole default job, proof included)': ['dist/main.js', 'make', '--out', out],
};

const times = Object.fromEntries(Object.keys(cases).map((name) => [name, []]));
for (let i = 0; i < RUNS; i += 1)
  for (const [name, args] of Object.entries(cases)) times[name].push(once(args));

const bare = median(times['node -e 0']);
const rows = Object.entries(cases).map(([name, args]) => ({
  case: name,
  milliseconds: Math.round(median(times[name])),
  timesBareNode: Number((median(times[name]) / bare).toFixed(2)),
  peakMegabytes: Math.round(memory(args)),
}));
rmSync(out, { recursive: true, force: true });

if (process.argv.includes('--json'))
  process.stdout.write(`${JSON.stringify({ node: process.version, runs: RUNS, rows }, null, 1)}\n`);
else {
  for (const row of rows) {
    const columns = [
      row.case.padEnd(50),
      `${row.milliseconds} ms`.padStart(9),
      `${row.timesBareNode} x`.padStart(8),
      `${row.peakMegabytes} MB`.padStart(8),
    ];
    process.stdout.write(`${columns.join('')}\n`);
  }
}
