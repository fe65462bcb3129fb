import { segments } from './ring.ts';
import { pointOn } from './segment.ts';
import type { Ring, Segment, Vec } from './types.ts';
import { add, distance, scale, subtract } from './vec.ts';

/** The point of a side that is nearest to a point, and the share of the side's length at which it lies. */
export interface Nearest {
  readonly at: Vec;
  readonly share: number;
  readonly distance: number;
}

/** Nearest point of a side. */
export function nearestOn(segment: Segment, point: Vec): Nearest {
  const share = segment.kind === 'line' ? shareOfLine(segment, point) : shareOfArc(segment, point);
  const at = pointOn(segment, share);
  return { at, share, distance: distance(at, point) };
}

/** Distance from a point to the boundary of a ring. */
export function distanceToRing(ring: Ring, point: Vec): number {
  return Math.min(...segments(ring).map((side) => nearestOn(side, point).distance));
}

/** Unit direction of a side at a share of its length, in the sense in which it is run. */
export function directionAt(segment: Segment, share: number): Vec {
  const along =
    segment.kind === 'line'
      ? subtract(segment.to, segment.from)
      : turned(subtract(pointOn(segment, share), segment.centre), Math.sign(segment.sweep));
  return scale(along, 1 / Math.hypot(...along));
}

/** A vector turned a quarter, counter-clockwise for 1 and clockwise for -1. */
function turned([x, y]: Vec, sense: number): Vec {
  return [-y * sense, x * sense];
}

function shareOfLine({ from, to }: Segment, point: Vec): number {
  const [dx, dy] = subtract(to, from);
  const [px, py] = subtract(point, from);
  const square = dx * dx + dy * dy;
  return square === 0 ? 0 : Math.min(1, Math.max(0, (px * dx + py * dy) / square));
}

function shareOfArc(arc: Segment & { kind: 'arc' }, point: Vec): number {
  const start = angleOf(arc.centre, arc.from);
  const turn = (angleOf(arc.centre, point) - start) * Math.sign(arc.sweep);
  const share = (turn - 2 * Math.PI * Math.floor(turn / (2 * Math.PI))) / Math.abs(arc.sweep);
  if (share <= 1) return share;
  return distance(point, arc.from) <= distance(point, arc.to) ? 0 : 1;
}

function angleOf(centre: Vec, point: Vec): number {
  return Math.atan2(point[1] - centre[1], point[0] - centre[0]);
}

/** The point at a distance from another along a unit direction. */
export function stepFrom(point: Vec, direction: Vec, by: number): Vec {
  return add(point, scale(direction, by));
}
