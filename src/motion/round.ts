import { nearestOn } from '../geometry/distance.ts';
import { segmentLength } from '../geometry/segment.ts';
import type { Segment, Vec } from '../geometry/types.ts';
import { splitSegment } from './split.ts';

/** The same closed path from its point nearest to a place. */
export function fromNearest(sides: readonly Segment[], place: Vec): Segment[] {
  const found = sides.map((side) => nearestOn(side, place));
  const distances = found.map((f) => f.distance);
  const number = distances.indexOf(Math.min(...distances));
  const [side, share] = [sides[number], found[number]?.share];
  if (side === undefined || share === undefined) return [];
  const later = [...sides.slice(number + 1), ...sides.slice(0, number)];
  const [first, second] = splitSegment(side, share > 0 && share < 1 ? [share] : []);
  if (first === undefined) throw new Error('a side did not split');
  if (second !== undefined) return [second.side, ...later, first.side];
  return share === 0 ? [side, ...later] : [...later, side];
}

/** The first stretch of a path, of a given length. */
export function firstStretch(sides: readonly Segment[], length: number): Segment[] {
  const stretch: Segment[] = [];
  let left = length;
  for (const side of sides) {
    if (left < 1e-9) break;
    const whole = segmentLength(side);
    const [piece] = splitSegment(side, left < whole ? [left / whole] : []);
    if (piece !== undefined) stretch.push(piece.side);
    left -= whole;
  }
  return stretch;
}
