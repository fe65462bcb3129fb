import type { Vec } from '../../geometry/types.ts';
import { between, distance } from '../../geometry/vec.ts';
import { follow, type Trace } from './trace.ts';

/** Slope of the ramp through what should be cleared already, radians: 30 degrees. */
const SLOPE = Math.PI / 6;

/** Down to `z` along the mouth of a corner, from its end, and back to where it began, as often as it takes. */
export function rampDown(trace: Trace, mouth: readonly Vec[], z: number): void {
  const length = (trace.z - z) / Math.tan(SLOPE);
  const there = partOf([...mouth].reverse(), length / 2);
  const times = 2 * Math.ceil(length / (2 * wayLength(there)) - 1e-9);
  const fall = (trace.z - z) / times;
  for (let k = 1; k <= times; k += 1) {
    follow(trace, k % 2 === 1 ? there : [...there].reverse(), k === times ? z : trace.z - fall);
  }
}

/** Length of an open way, mm. */
export function wayLength(way: readonly Vec[]): number {
  return way.slice(1).reduce((sum, p, i) => sum + distance(p, way[i] ?? p), 0);
}

/** The beginning of a way, or all of it where it is no longer. */
function partOf(way: readonly Vec[], length: number): Vec[] {
  const part: Vec[] = way.slice(0, 1);
  let left = length;
  for (let i = 1; i < way.length && left > 0; i += 1) {
    const [p, q] = [way[i - 1], way[i]];
    if (p === undefined || q === undefined) break;
    const side = distance(p, q);
    part.push(side <= left ? q : between(p, q, left / side));
    left -= side;
  }
  return part;
}
