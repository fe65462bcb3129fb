import type { PocketOperation, RouterJob } from '../../machining/types.ts';
import { passDepth } from '../heights.ts';

/** Deepest single finishing pass along a wall, in cutter diameters (common practice, no source). */
const DEEPEST_FINISH = 1.5;

/** Heights of a pocket's levels, from the first below the top down to its floor. */
export function levelsOf(pocket: PocketOperation, job: RouterJob): number[] {
  return evenly(pocket, Math.ceil(-pocket.z / passDepth(job) - 1e-9));
}

/** Heights of the passes that finish walls which are cleared down to the floor. */
export function finishesOf(pocket: PocketOperation, job: RouterJob): number[] {
  return evenly(pocket, Math.ceil(-pocket.z / (DEEPEST_FINISH * job.tool.diameter) - 1e-9));
}

function evenly({ z }: PocketOperation, count: number): number[] {
  return Array.from({ length: count }, (_, k) => (k + 1 === count ? z : (z * (k + 1)) / count));
}
