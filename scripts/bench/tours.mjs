// Length of tours against the best there are. NUTLINE_TSP names a folder of TSPLIB files (*.tsp, EUC_2D) with
// their
// best lengths in optima.json; without it, the instances of the tests and grids whose best round is known.
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { load } from './bundle.mjs';
import { median, repeat, round } from './measure.mjs';

const RUNS = 3;

export async function measureTours(folder) {
  const { shortTravel, instances } = await load(
    folder,
    'tours.mjs',
    `export { shortTravel } from './src/motion/order.ts'; export { instances } from './tests/support/tours.ts';`,
  );
  const given = process.env.NUTLINE_TSP;
  const list = [
    ...(given === undefined || !existsSync(given) ? typed(instances) : published(given)),
    grid(20, 10),
    grid(25, 20),
    grid(40, 25),
  ];
  const rows = list.map(({ name, points, best, isRounded }) => {
    const [first, ...rest] = points;
    const stops = rest.map((point) => ({ thing: point, ways: [{ from: point, to: point }] }));
    let visits = [];
    const ms = median(
      repeat(RUNS, () => {
        const began = process.hrtime.bigint();
        visits = shortTravel([stops], first, first);
        return Number(process.hrtime.bigint() - began) / 1e6;
      }),
    );
    const length = lengthOf([first, ...visits.map((visit) => visit.thing)], isRounded);
    return {
      instance: name,
      points: points.length,
      best,
      length: round(length, 1),
      excessPercent: round((100 * length) / best - 100, 2),
      milliseconds: Math.round(ms),
    };
  });
  return {
    title: 'closed tours against the best there are',
    notes: [
      given === undefined
        ? 'NUTLINE_TSP is not set: instances of the tests and grids only.'
        : 'TSPLIB: G. Reinelt, ORSA Journal on Computing 3(4) (1991) 376-384; grids: a step for each point is the least.',
    ],
    rows,
  };
}

function typed(instances) {
  return Object.entries(instances).map(([name, { points, best }]) => ({
    name,
    points,
    best,
    isRounded: true,
  }));
}

function published(folder) {
  const optima = JSON.parse(readFileSync(join(folder, 'optima.json'), 'utf8'));
  return readdirSync(folder)
    .filter((name) => name.endsWith('.tsp') && name.replace(/\.tsp$/, '') in optima)
    .map((file) => {
      const text = readFileSync(join(folder, file), 'utf8');
      const points = [...text.matchAll(/^\s*\d+\s+([-+.\de]+)\s+([-+.\de]+)\s*$/gim)].map((m) => [
        +m[1],
        +m[2],
      ]);
      const name = file.replace(/\.tsp$/, '');
      return { name, points, best: optima[name], isRounded: true };
    })
    .sort((a, b) => a.points.length - b.points.length);
}

/** An even number of points a step of 10 apart, in an order that has nothing to do with where they lie. */
function grid(columns, rows) {
  const count = columns * rows;
  const points = Array.from({ length: count }, (_, i) => {
    const k = (i * 371) % count;
    return [(k % columns) * 10, Math.floor(k / columns) * 10];
  });
  return { name: `grid ${columns} x ${rows}`, points, best: 10 * count, isRounded: false };
}

function lengthOf(tour, isRounded) {
  return tour.reduce((sum, p, i) => {
    const q = tour[(i + 1) % tour.length];
    const step = Math.hypot(p[0] - q[0], p[1] - q[1]);
    return sum + (isRounded ? Math.floor(step + 0.5) : step);
  }, 0);
}
