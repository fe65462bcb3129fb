// All bundled instruments in the default shop, one after the other in one process: read, made, proven and written.
import { join } from 'node:path';
import { bundleTo, root } from './bundle.mjs';
import { median, repeat, reportOf, round } from './measure.mjs';
import { jobList } from './profiles.mjs';

/** What the whole set may cost: seconds of wall time and megabytes at the peak. */
const MOST = { seconds: 12, megabytes: 500 };

const SOURCE = `
import { join } from 'node:path';
import { makeJob } from './src/app/make.ts';
import { replaceFolder } from './src/cli/replaceFolder.ts';
import { readSources } from './src/cli/sources.ts';

const [out, profiles, shop, ...instruments] = process.argv.slice(2);
const rows = instruments.map((instrument) => {
  const start = performance.now();
  const made = makeJob(readSources({ profile: join(profiles, instrument), shop: join(profiles, shop) }));
  if (!made.ok) throw new Error(instrument + ': ' + made.findings.map((f) => f.text).join(' '));
  if (made.value.programs.some((p) => !p.proof.passed)) throw new Error(instrument + ': not proven');
  replaceFolder(join(out, made.value.slug), made.value.files);
  return {
    instrument,
    programs: made.value.programs.length,
    files: made.value.files.length,
    milliseconds: performance.now() - start,
  };
});
process.stdout.write(JSON.stringify(rows));
`;

/** A table of the instruments and of all together, the median of some runs. */
export async function measureTogether(folder, runs) {
  const script = await bundleTo(join(folder, 'together.mjs'), SOURCE);
  const own = jobList().filter(({ shop }) => shop === jobList()[0].shop);
  const profiles = join(root, 'profiles');
  const args = [script, join(folder, 'together'), profiles, own[0].shop, ...own.map((job) => job.instrument)];
  const all = repeat(runs, () => reportOf(args));
  const rows = all[0].json.map((row, i) => ({
    ...row,
    milliseconds: Math.round(median(all.map((run) => run.json[i].milliseconds))),
  }));
  const sum = (key) => rows.reduce((total, row) => total + row[key], 0);
  const seconds = median(all.map((run) => run.ms)) / 1000;
  const megabytes = Math.max(...all.map((run) => run.peakMegabytes));
  return {
    title: `all ${rows.length} instruments in one process, proven and written; median of ${runs} runs`,
    notes: [
      `Together ${round(seconds, 1)} s of ${MOST.seconds} s, ${round(median(all.map((run) => run.cpuMs)) / 1000, 1)} s of them the processor's; ${Math.round(megabytes)} MB of ${MOST.megabytes} MB.`,
    ],
    rows: [
      ...rows,
      {
        instrument: 'together',
        programs: sum('programs'),
        files: sum('files'),
        milliseconds: Math.round(1000 * seconds),
      },
    ],
    together: {
      seconds: round(seconds, 2),
      processorSeconds: round(median(all.map((run) => run.cpuMs)) / 1000, 2),
      peakMegabytes: Math.round(megabytes),
      most: MOST,
      within: seconds < MOST.seconds && megabytes < MOST.megabytes,
    },
  };
}
