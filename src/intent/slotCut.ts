import { fillet } from '../geometry/fillet.ts';
import type { Ring, Vec, Vertex } from '../geometry/types.ts';
import { add, distance, leftNormal, scale, subtract, unit } from '../geometry/vec.ts';
import type { RouterJob, SlotOperation } from '../machining/types.ts';
import { ringOf } from './regions.ts';
import type { IntentCut } from './types.ts';

/**
 * Of a slot: a strip about its line, down to its floor. An end that runs out at an edge is square and may be overrun; one that stops
 * in the wood is round from the cutter.
 */
export function slotCut(
  slot: SlotOperation,
  job: RouterJob,
): Pick<IntentCut, 'kind' | 'region' | 'floor' | 'mayCut'> {
  const radius = Math.min(job.tool.diameter, slot.width) / 2;
  return {
    kind: 'region',
    region: [ringOf(strip(slot, [0, 0], radius))],
    floor: slot.floor,
    mayCut: slot.runOut.some((length) => length > 0)
      ? {
          region: [ringOf(strip(slot, slot.runOut, radius))],
          why: 'run-out past the board’s edges into waste',
        }
      : null,
  };
}

/** Of the slot's width about its line, lengthened at either end; counter-clockwise. */
function strip(
  { line, width, runOut }: SlotOperation,
  longer: readonly [number, number],
  radius: number,
): Ring {
  const along = unit(subtract(line[1], line[0]));
  const side = scale(leftNormal(along), width / 2);
  const from = subtract(line[0], scale(along, longer[0]));
  const to = add(line[1], scale(along, longer[1]));
  const corners: Vec[] = [subtract(from, side), subtract(to, side), add(to, side), add(from, side)];
  const radii = [0, 1, 1, 0].map((end) => (runOut[end] === 0 ? radius : 0));
  const ring = corners.flatMap((corner, i) =>
    fillet(at(corners, i - 1), corner, at(corners, i + 1), radii[i] ?? 0),
  );
  return ring.filter((vertex, i) => !isSame(vertex, at(ring, i + 1)));
}

/** Where the cutter is as wide as the slot the end is one round: its two halves meet without a straight between them. */
function isSame(a: Vertex, b: Vertex): boolean {
  return distance([a.x, a.y], [b.x, b.y]) < 1e-9;
}

function at<T>(list: readonly T[], index: number): T {
  const item = list[(index + list.length) % list.length];
  if (item === undefined) throw new Error(`item ${index} of a list of ${list.length}`);
  return item;
}
