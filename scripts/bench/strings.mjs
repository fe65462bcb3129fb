// What the strings' numbers take: the two commands as a person waits for them, and within one process a whole plan of a bundled
// instrument's strings, 2,000 seeded samples a string included, against what was promised.
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { load, root } from './bundle.mjs';
import { median, repeat, round, timeNode } from './measure.mjs';

const RUNS = 7;
/** Promised, milliseconds. */
const PROMISED = { command: 400, plan: 1000 };

export async function measureStrings(folder) {
  const main = join(root, 'dist/main.js');
  const bare = median(repeat(RUNS, () => timeNode(['-e', '0'])));
  const commands = ['strings', 'bridge'].map((name) =>
    row(`nutline ${name}`, median(repeat(RUNS, () => timeNode([main, name]))), PROMISED.command),
  );
  const { planned } = await load(folder, 'strings.mjs', SOURCE);
  const profiles = ['tarn-parlour', 'scree-baritone', 'heather-dulcimer'].map((name) => {
    const text = readFileSync(join(root, `profiles/${name}.yaml`), 'utf8');
    const plan = planned(text, `${name}.yaml`);
    const times = repeat(RUNS, () => {
      const began = process.hrtime.bigint();
      plan();
      return Number(process.hrtime.bigint() - began) / 1e6;
    });
    return row(`strings of ${name}, 2,000 samples each`, median(times), PROMISED.plan);
  });
  // On a busy machine everything takes longer; the start of node alone tells by how much.
  const notes = [`node -e 0: ${round(bare, 0)} ms`];
  return { title: `median of ${RUNS} runs`, notes, rows: [...commands, ...profiles] };
}

function row(what, milliseconds, promised) {
  return {
    case: what,
    milliseconds: round(milliseconds, 0),
    promised,
    kept: milliseconds < promised ? 'yes' : 'NO',
  };
}

const SOURCE = `
  import { layOut } from './src/layout/layOut.ts';
  import { loadInstrument } from './src/profile/loadInstrument.ts';
  import { planStrings } from './src/stringing/plan.ts';
  export function planned(text: string, path: string) {
    const loaded = loadInstrument(text, path);
    if (!loaded.ok) throw new Error(path);
    const layout = layOut(loaded.value.value);
    if (!layout.ok) throw new Error(path);
    return () => {
      if (!planStrings(loaded.value.value, layout.value).ok) throw new Error(path);
    };
  }
`;
