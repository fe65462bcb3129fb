import type { PocketOperation } from '../machining/types.ts';
import { regionOf } from './regions.ts';
import type { IntentCut } from './types.ts';

const LATER = 'left for a smaller cutter, in a program of its own';
const RADIUS = 'the cutter’s radius does not reach into the corners';

/** What a pocket's cut adds to a blank one: what is removed, and what the cutter's radius may leave. */
export function pocketCut(
  pocket: PocketOperation,
): Pick<IntentCut, 'region' | 'floor' | 'mayCut' | 'mayRemain'> {
  const { left, around } = pocket;
  return {
    region: regionOf(pocket.region),
    floor: { kind: 'plane', z: pocket.z },
    mayCut:
      around === null
        ? null
        : { region: regionOf(around), why: 'what an earlier cutter cleared of the same pocket' },
    mayRemain:
      left === null
        ? null
        : { region: left.regions.flatMap(regionOf), maxGap: left.gap, why: left.follows ? LATER : RADIUS },
  };
}
