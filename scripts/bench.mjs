// Measures what a person waits for and what the tool promises. `npm run bench` runs every part and prints
// tables;
// `npm run bench -- reader tours` runs those parts alone; `--json` prints JSON. Times are medians; ratios are
// of one run. `npm run bench -- faults` is a run of its own: see bench-faults.mjs.
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { measureCutting } from './bench/cutting.mjs';
import { measureJobs } from './bench/jobs.mjs';
import { measurePreview } from './bench/preview.mjs';
import { measureProver } from './bench/prover.mjs';
import { measureReader } from './bench/reader.mjs';
import { measureStart } from './bench/start.mjs';
import { measureStrings } from './bench/strings.mjs';
import { tableText } from './bench/table.mjs';
import { measureTours } from './bench/tours.mjs';

const PARTS = {
  start: measureStart,
  strings: measureStrings,
  jobs: measureJobs,
  reader: measureReader,
  prover: measureProver,
  tours: measureTours,
  cutting: measureCutting,
  preview: measurePreview,
};

const words = process.argv.slice(2);
// The faults take minutes, so they run only when they are asked for by name.
if (words[0] === 'faults') await import('./bench-faults.mjs');
else await measureParts();

async function measureParts() {
  const wanted = words.filter((word) => word !== '--json');
  const unknown = wanted.filter((name) => !(name in PARTS));
  if (unknown.length > 0) {
    process.stderr.write(`no part ${unknown.join(', ')}; parts: ${Object.keys(PARTS).join(', ')}\n`);
    process.exit(64);
  }

  const folder = mkdtempSync(join(tmpdir(), 'nutline-bench-'));
  const results = {};
  try {
    for (const [name, measure] of Object.entries(PARTS)) {
      if (wanted.length > 0 && !wanted.includes(name)) continue;
      const result = await measure(folder);
      results[name] = result;
      if (!words.includes('--json')) process.stdout.write(tableText(name, result));
    }
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
  if (words.includes('--json'))
    process.stdout.write(`${JSON.stringify({ node: process.version, parts: results }, null, 1)}\n`);
}
