import type { Instrument, Router, Shop, Tool } from '../../src/profile/types.ts';
import { router } from './instrument.ts';
import { planOf } from './job.ts';
import { necked, neckShop } from './neck.ts';
import { type Written, written } from './surfaced.ts';

const ELLIPSE = { shoulder: 0.5523, back: 0.5523 };

/** A station as the profile resolves it: a letter's shares, or points that were measured. */
type Station = NonNullable<Instrument['neckShape']>['stations'][number];

export const station = (fret: number, depth: number, shares: Station['shares'] = ELLIPSE): Station => ({
  fret,
  depth,
  shares,
  points: [],
});

export const STATIONS: readonly Station[] = [
  station(1, 21.5),
  station(5, 22.4),
  station(9, 23.4, { shoulder: 0.7, back: 0.7 }),
];

/** The neck of the made-up instrument with its back described. */
export function shaped(stations: readonly Station[] = STATIONS): Instrument {
  return {
    ...necked,
    neckShape: { stations, from: 25, to: null, leastUnderRod: 3, gauges: null, volute: null },
  };
}

/** A router with room over the head, and two cutters as long as a neck is thick. */
export const neckRouter: Router = { ...router, travel: { x: 900, y: 500, z: 160 } };

const [cutter] = neckShop.tools;
if (cutter === undefined) throw new Error('the workshop has no tools');

export const longFlat: Tool = {
  ...cutter,
  id: 20,
  name: '6 mm flat cutter, long',
  kind: 'flat',
  diameter: 6,
  tolerance: 0.01,
  chipLoad: null,
  cuttingLength: 22,
  shankDiameter: 6,
  stickOut: 34,
};

export const longBall: Tool = { ...longFlat, id: 21, name: '6 mm ball cutter, long', kind: 'ball' };

export const carvingShop: Shop = {
  ...neckShop,
  machines: neckShop.machines.map((m) => (m.id === neckRouter.id ? neckRouter : m)),
  tools: [...neckShop.tools, longFlat, longBall],
  surfacing: { ...neckShop.surfacing, cusp: 0.05, allowance: 0.3 },
  work: { ...neckShop.work, neckBack: neckRouter.id },
};

/** Both programs of the back. */
export function backPrograms(
  instrument: Instrument = shaped(),
  shop: Shop = carvingShop,
): { rough: Written; finish: Written } {
  const jobs = planOf(instrument, shop).jobs.flatMap((job) =>
    job.kind === 'router' && job.program.startsWith('neck-blank-back') ? [written(job)] : [],
  );
  const [rough, finish] = jobs;
  if (rough === undefined || finish === undefined) throw new Error('no programs of the back');
  return { rough, finish };
}
