import { type Area, isNear } from '../../geometry/area.ts';
import type { Vec } from '../../geometry/types.ts';
import { between, distance } from '../../geometry/vec.ts';

/** A straight way counts as within an area when it leaves it by no more than this. Millimetres. */
const WITHIN = 0.01;

/** Whether a straight way stays in an area. */
export function isFree(free: Area, from: Vec, to: Vec): boolean {
  const count = Math.max(1, Math.ceil(distance(from, to) / 0.1));
  return Array.from({ length: count + 1 }, (_, i) => between(from, to, i / count)).every((p) =>
    isNear(free, p, WITHIN),
  );
}
