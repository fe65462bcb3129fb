// Pockets of several shapes, and the markers of every bundled job: how long the way is, and how much of it
// meets no wood.
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { load } from './bundle.mjs';
import { everyProgram } from './jobs.mjs';
import { repeat, round } from './measure.mjs';

const RUNS = 3;
const CUTTERS = [[3.175, 0.6], [2]];

const MODULES = `
export { figuresOf, writtenOf } from './tests/support/pocketFigures.ts';
export { MEASURED, planPocketPart } from './tests/support/pocketShapes.ts';
export { planMoves } from './src/motion/planMoves.ts';
export { measureAir } from './src/verify/air.ts';
`;

export async function measurePockets(folder) {
  const modules = await load(folder, 'pockets.mjs', MODULES);
  const rows = CUTTERS.flatMap((cutters) =>
    Object.keys(modules.MEASURED).flatMap((shape) => rowsOf(modules, shape, cutters)),
  );
  return {
    title: 'ways of pockets, 2 mm deep in hardwood, and of the markers of every bundled job',
    notes: [
      'Way: all that is run at feed, entries and finishing included, over area / step-over + once round for each level,',
      'of the places where the middle of the cutter may be. Air: share of the way at feed that meets no wood.',
      'What a thinner cutter does follows in a row of its own. Planning: laps and moves, the fastest of three in one process.',
    ],
    rows: [...rows, ...markerRows(modules, folder)],
  };
}

function rowsOf({ MEASURED, planPocketPart, planMoves, figuresOf, writtenOf }, shape, cutters) {
  // Another depth by less than matters, so that no plan is taken from memory.
  const times = repeat(RUNS, (_, i) => timeOf(() => planned(i)));
  function planned(i) {
    const plan = planPocketPart([MEASURED[shape]], { cutters, depth: 2 - (i ?? 0) * 1e-7 });
    return plan.jobs.map((job) => ({ job, moves: planMoves(job) }));
  }
  const before = [];
  return planned(0).map(({ job }) => {
    const { way, air, minutes, proven } = figuresOf(job, [...before]);
    if (!proven) throw new Error(`${shape} does not prove`);
    before.push(writtenOf(job, [...before]));
    return {
      pocket: shape,
      cutter: job.tool.diameter,
      way: round(way, 3),
      airPercent: round(100 * air, 1),
      minutes: round(minutes, 2),
      planningMilliseconds: before.length === 1 ? Math.round(Math.min(...times)) : null,
    };
  });
}

function timeOf(work) {
  const start = process.cpuUsage().user;
  work();
  return (process.cpuUsage().user - start) / 1000;
}

function markerRows({ measureAir }, folder) {
  const all = everyProgram(folder);
  return all.flatMap(({ job, folder: made, program }) => {
    if (!program.path.includes('markers')) return [];
    const written = writtenIn(made, program);
    const { intent } = written;
    if (intent.stages !== undefined || intent.tool.kind !== 'flat') return [];
    const { feed, air } = measureAir(written, ranBefore(all, made, intent));
    return [
      {
        pocket: `${job.instrument}, ${job.shop}: ${program.path.replace('programs/', '')}`,
        cutter: intent.tool.diameter,
        way: null,
        airPercent: round((100 * air) / feed, 1),
        minutes: round(program.time.cutting, 2),
        planningMilliseconds: null,
      },
    ];
  });
}

function writtenIn(made, program) {
  const intent = JSON.parse(readFileSync(join(made, program.intent.path), 'utf8'));
  return { bytes: readFileSync(join(made, program.path)), intent };
}

/** The programs of the same job whose cleared ground an intent counts with. */
function ranBefore(all, made, { cleared = [] }) {
  const names = new Set(cleared.map((ground) => `programs/${ground.program}`));
  return all
    .filter(({ folder, program }) => folder === made && names.has(program.path))
    .map(({ program }) => writtenIn(made, program));
}
