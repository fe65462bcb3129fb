/** Which way cutters go along walls, and what is left for the last pass. */
import type { GivenShop } from '../schema/shop.ts';
import type { MillingDirection, Shop } from '../types.ts';
import { type Fill, PRACTICE } from './fill.ts';

type Given = Pick<GivenShop, 'millingDirection' | 'pockets' | 'bores' | 'outlines'>;

/** What the shop says of walls, its one direction carried to each kind of work that names none of its own. */
export function resolveMilling(given: Given, fill: Fill): Pick<Shop, 'pockets' | 'bores' | 'outlines'> {
  const usual = fill.plain(
    'millingDirection',
    given.millingDirection,
    'climb',
    `cleaner walls where the machine has no play (${PRACTICE})`,
  );
  const direction = (key: keyof Pick<Shop, 'pockets' | 'bores' | 'outlines'>): MillingDirection =>
    fill.plain(`${key}.direction`, given[key]?.direction, usual, 'as millingDirection');
  return {
    pockets: {
      direction: direction('pockets'),
      allowance: fill.shown(
        'pockets.allowance',
        given.pockets?.allowance,
        null,
        '0.04 of the cutter',
        'a shaving for the finishing pass',
      ),
    },
    bores: { direction: direction('bores') },
    outlines: {
      direction: direction('outlines'),
      allowance: fill.shown(
        'outlines.allowance',
        given.outlines?.allowance,
        null,
        '0.04 of the cutter',
        'a shaving for the finishing pass',
      ),
    },
  };
}
