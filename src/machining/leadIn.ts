import { directionAt, distanceToRing, stepFrom } from '../geometry/distance.ts';
import { bounds, segments } from '../geometry/ring.ts';
import { pointOn, segmentLength } from '../geometry/segment.ts';
import type { Box, Ring, Vec } from '../geometry/types.ts';
import { between } from '../geometry/vec.ts';
import type { LeadIn } from './types.ts';

/** An outline to be cut by a beam, and what else lies on its sheet. */
export interface Surroundings {
  readonly ring: Ring;
  readonly keep: 'inside' | 'outside';
  readonly kerf: number;
  /** Every other outline on the sheet. */
  readonly others: readonly Ring[];
  readonly stock: Ring;
}

/** Kept between a lead-in and any other outline or the sheet's edge, besides half a kerf (common practice, no source). */
const ROOM = 0.3;
/** A lead-in shorter than this takes no scorch away from the outline. */
const SHORTEST = 0.25;
/** Steps along a lead-in at which its room is measured. */
const STEP = 0.05;
const NOISE = 1e-6;

/**
 * Where a beam's path begins: on the kept outline, in the middle of its longest side. A corner would be the other place to
 * hide the start; but corners are what gauges and squares touch, and the beam lingers there anyway, while what is left on
 * a long side is drawn off with one stroke of a file.
 */
export function startOn(ring: Ring): { readonly at: Vec; readonly along: Vec } {
  const sides = segments(ring);
  const lengths = sides.map(segmentLength);
  const side = sides[lengths.indexOf(Math.max(...lengths))];
  if (side === undefined) throw new Error('an outline without sides');
  return { at: pointOn(side, 0.5), along: directionAt(side, 0.5) };
}

/**
 * The way in from the waste: outside a kept part, within an opening, at 45 degrees to the path so that it runs on without a
 * sharp turn. As long as wanted where there is room, else halved until it fits; null when there is none or none is wanted.
 */
export function leadInFor(wanted: number, around: Surroundings): LeadIn | null {
  const { at, along } = startOn(around.ring);
  const [dx, dy] = along;
  // Rings turn counter-clockwise: what they enclose is on their left.
  const toWaste: Vec = around.keep === 'inside' ? [dy, -dx] : [-dy, dx];
  const onPath = stepFrom(at, toWaste, around.kerf / 2);
  const back: Vec = [(toWaste[0] - dx) * Math.SQRT1_2, (toWaste[1] - dy) * Math.SQRT1_2];
  const box = bounds(around.stock);
  // Of a sheet full of parts only one or two lie within reach; to measure all at every step would take a tenth of a job.
  const near = around.others.filter((ring) => isOver(bounds(ring), onPath, -wanted - around.kerf / 2 - ROOM));
  for (let length = wanted; length >= SHORTEST; length /= 2) {
    const from = stepFrom(onPath, back, length);
    if (hasRoom(from, onPath, length, { ...around, others: near }, box)) return { from, length };
  }
  return null;
}

/** The spot scorched where the beam comes on stays clear of the kerf along the outline. */
function hasRoom(from: Vec, to: Vec, length: number, around: Surroundings, sheet: Box): boolean {
  const half = around.kerf / 2;
  const count = Math.ceil(length / STEP);
  if (distanceToRing(around.ring, from) < 3 * half) return false;
  return Array.from({ length: count }, (_, i) => between(from, to, i / count)).every(
    (point) =>
      isOver(sheet, point, half + ROOM) &&
      distanceToRing(around.ring, point) >= half - NOISE &&
      around.others.every((ring) => distanceToRing(ring, point) >= half + ROOM),
  );
}

function isOver({ x, y }: Box, [px, py]: Vec, margin: number): boolean {
  return px >= x[0] + margin && px <= x[1] - margin && py >= y[0] + margin && py <= y[1] - margin;
}
