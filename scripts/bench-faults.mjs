// Damages every bundled program and its variants in every way the tests know, by seeded random choice, and counts what the
// prover refuses: `npm run bench -- faults`. A judge that shares nothing with the prover says which faults do harm.
//   --faults N   how many (100,000)      --seed S     which ones (1)
//   --threads N  how many at a time (2)  --json       the whole report instead of a table
//   --only A,B   variants whose names hold one of these words (all)
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { Worker } from 'node:worker_threads';
import { build } from 'esbuild';

const ROOT = fileURLToPath(new URL('..', import.meta.url));
const CHUNK = 250;
/** What must come out: share of harmful faults refused, and how far beyond its tolerance a survivor may go, mm. */
const LEAST_SHARE = 0.999;
const MOST_DEVIATION = 0.05;

function option(name, otherwise) {
  const at = process.argv.indexOf(`--${name}`);
  const value = at < 0 ? otherwise : Number(process.argv[at + 1]);
  if (!Number.isInteger(value) || value < 1) throw new Error(`--${name} takes a whole number above 0`);
  return value;
}

/** Words that the names of variants must hold one of; null for all. */
function wordsOption(name) {
  const at = process.argv.indexOf(`--${name}`);
  return at < 0 ? null : (process.argv[at + 1] ?? '').split(',');
}

async function bundle(folder) {
  await build({
    entryPoints: ['corpus', 'worker'].map((name) => join(ROOT, `tests/support/damages/${name}.ts`)),
    outdir: folder,
    outExtension: { '.js': '.mjs' },
    bundle: true,
    format: 'esm',
    platform: 'node',
    target: 'node20',
    logLevel: 'warning',
    banner: {
      js: "import { createRequire as __createRequire } from 'node:module'; const require = __createRequire(import.meta.url);",
    },
  });
}

/** Hands ranges of numbers to the threads until all are done. */
function runAll(folder, programs, { faults, seed, threads }, onReport) {
  let next = 0;
  const runOne = () =>
    new Promise((resolve, reject) => {
      const worker = new Worker(join(folder, 'worker.mjs'), { workerData: { programs, seed } });
      worker.on('error', reject);
      worker.on('message', (report) => {
        if (report !== null) onReport(report);
        if (next >= faults) {
          worker.terminate().then(resolve, reject);
          return;
        }
        const to = Math.min(faults, next + CHUNK);
        worker.postMessage([next, to]);
        next = to;
      });
    });
  return Promise.all(Array.from({ length: threads }, runOne));
}

function add(into, from) {
  for (const [name, value] of Object.entries(from)) {
    if (typeof value === 'number') into[name] = (into[name] ?? 0) + value;
    else into[name] = add(into[name] ?? {}, value);
  }
  return into;
}

function sorted(table, figure) {
  return Object.fromEntries(
    Object.entries(table).sort((a, b) => figure(b[1]) - figure(a[1]) || (a[0] < b[0] ? -1 : 1)),
  );
}

async function measure(options) {
  const folder = mkdtempSync(join(tmpdir(), 'nutline-faults-'));
  try {
    const started = process.hrtime.bigint();
    await bundle(folder);
    const { corpus, VARIANT_NAMES } = await import(pathToFileURL(join(folder, 'corpus.mjs')).href);
    const words = wordsOption('only');
    const names = VARIANT_NAMES.filter((name) => words === null || words.some((word) => name.includes(word)));
    const programs = corpus(join(ROOT, 'profiles'), names);
    const total = { byKind: {}, byHarm: {}, byCheck: {} };
    const survivors = [];
    let done = 0;
    await runAll(folder, programs, options, ({ survivors: more, ...counts }) => {
      add(total, counts);
      survivors.push(...more);
      done += CHUNK;
      if (process.stderr.isTTY)
        process.stderr.write(`\r${Math.min(done, options.faults)} of ${options.faults}`);
    });
    if (process.stderr.isTTY) process.stderr.write('\r\x1b[K');
    const seconds = Number(process.hrtime.bigint() - started) / 1e9;
    const { user, system } = process.cpuUsage();
    return reportOf(options, programs, total, survivors, { seconds, cpuSeconds: (user + system) / 1e6 });
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

function reportOf(options, programs, { byKind, byHarm, byCheck }, survivors, { seconds, cpuSeconds }) {
  const sum = (key) => Object.values(byKind).reduce((all, tally) => all + tally[key], 0);
  const [harmful, refused] = [sum('harmful'), sum('refused')];
  survivors.sort((a, b) => a.number - b.number);
  const worst = Math.max(0, ...survivors.map((s) => s.below));
  const share = harmful === 0 ? 0 : refused / harmful;
  return {
    ...options,
    programs: programs.length,
    made: sum('made'),
    harmful,
    refused,
    share,
    harmless: sum('harmlessRefused') + sum('harmlessPassed'),
    harmlessRefused: sum('harmlessRefused'),
    survivors: survivors.map((s) => ({ ...s, below: Number.isFinite(s.below) ? s.below : null })),
    worstDeviation: Number.isFinite(worst) ? worst : null,
    passed: share >= LEAST_SHARE && worst <= MOST_DEVIATION,
    seconds: Math.round(seconds),
    cpuSeconds: Math.round(cpuSeconds),
    byHarm: sorted(byHarm, (t) => t.made),
    byKind: sorted(byKind, (t) => t.made),
    byCheck: sorted(byCheck, (n) => n),
  };
}

function tableOf(report) {
  const rows = Object.entries(report.byKind).map(([kind, t]) =>
    [
      kind.padEnd(26),
      t.made,
      t.harmful,
      t.refused,
      t.harmful - t.refused,
      t.harmlessRefused,
      (t.milliseconds / t.made).toFixed(1),
    ]
      .map((v, i) => (i === 0 ? v : String(v).padStart(9)))
      .join(''),
  );
  const survivors = report.survivors.map((s) =>
    [
      `  ${s.number} ${s.kind}, ${s.program}: ${s.harm.what} (${s.below === null ? 'no figure' : `less than ${s.below} mm beyond`})`,
      ...s.changes.map((c) => `    line ${c.line}: ${c.before ?? '-'} -> ${c.after ?? '-'}`),
    ].join('\n'),
  );
  const checks = Object.entries(report.byCheck).map(
    ([name, n]) => `  ${name.padEnd(28)}${String(n).padStart(7)}`,
  );
  return [
    `${report.made} faults in ${report.programs} programs, seed ${report.seed}, ${report.seconds} s on ${report.threads} threads (${report.cpuSeconds} s of processor time)`,
    `harmful ${report.harmful}, refused ${report.refused} (${(100 * report.share).toFixed(3)} %); harmless ${report.harmless}, of which refused ${report.harmlessRefused}`,
    '',
    `${'kind'.padEnd(26)}     made  harmful  refused survivors  harmless refused  ms a fault`,
    ...rows,
    '',
    'harmful faults refused first by',
    ...checks,
    '',
    `survivors: ${report.survivors.length}`,
    ...survivors,
    '',
  ].join('\n');
}

const report = await measure({
  faults: option('faults', 100_000),
  seed: option('seed', 1),
  threads: option('threads', 2),
});
process.stdout.write(
  process.argv.includes('--json') ? `${JSON.stringify(report, null, 1)}\n` : tableOf(report),
);
process.exitCode = report.passed ? 0 : 1;
