// What a person waits for before anything happens, as ratios to a bare `node -e 0`.
import { join } from 'node:path';
import { root } from './bundle.mjs';
import { median, memoryOf, round, timeNode } from './measure.mjs';

const RUNS = 9;

export async function measureStart(folder) {
  const main = join(root, 'dist/main.js');
  const cases = {
    'node -e 0': ['-e', '0'],
    'nutline --version': [main, '--version'],
    'nutline --help': [main, '--help'],
    'nutline check': [main, 'check'],
    'nutline sheet': [main, 'sheet'],
    'nutline strings (2,000 samples included)': [main, 'strings'],
    'nutline make (whole default job, proof included)': [main, 'make', '--out', join(folder, 'start')],
  };
  const times = Object.fromEntries(Object.keys(cases).map((name) => [name, []]));
  for (let i = 0; i < RUNS; i += 1)
    for (const [name, args] of Object.entries(cases)) times[name].push(timeNode(args));
  const bare = median(times['node -e 0']);
  const rows = Object.entries(cases).map(([name, args]) => ({
    case: name,
    milliseconds: Math.round(median(times[name])),
    timesBareNode: round(median(times[name]) / bare, 2),
    peakMegabytes: Math.round(memoryOf(args)),
  }));
  return { title: `median of ${RUNS} starts`, rows };
}
