import { type Area, type Polygon, pointOf } from '../area.ts';
import type { Vec } from '../types.ts';
import { between, distance } from '../vec.ts';
import { along, mouthOf, type Spike } from './spikes.ts';
import { type Bound, isBuriedAt, woodAfter } from './wood.ts';

/** A stroke, and the ends of the front at the corner's mouth. */
export type Stroke = Pick<Spike, 'way' | 'leaves' | 'joins'>;

/**
 * One stroke round a blunt corner along its walls, from where its mouth ends to where it begins: it neither begins nor ends in
 * wood, so it can be run to and fro. Null where the cutter would be buried on it, one way or the other.
 */
export function strokeRound(
  corner: Polygon,
  base: Area,
  bound: Bound & { readonly grain: number },
): Stroke | null {
  const mouth = mouthOf(corner, base, bound.radius, bound.grain);
  if (mouth === null || mouth.length < 2) return null;
  const [leaves, joins] = [pointOf(mouth, 0), pointOf(mouth, -1)];
  const way = finely(along(corner, leaves, joins), bound.radius / 8).reverse();
  const wood = woodAfter(base, bound);
  const isBuried = (points: readonly Vec[]): boolean =>
    points.some((p, i) => i > 0 && isBuriedAt(p, points[i - 1] ?? p, wood, bound));
  return isBuried(way) || isBuried([...way].reverse()) ? null : { way, leaves, joins };
}

/** The same open way with points no farther apart than `most` mm. */
export function finely(way: readonly Vec[], most: number): Vec[] {
  return way.flatMap((p, i) => {
    const q = way[i + 1];
    if (q === undefined) return [p];
    const count = Math.max(1, Math.ceil(distance(p, q) / most));
    return Array.from({ length: count }, (_, k) => between(p, q, k / count));
  });
}
