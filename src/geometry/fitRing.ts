import { type Polygon, pointOf } from './area.ts';
import { fitWay } from './fit.ts';
import type { Ring, Vec } from './types.ts';
import { distance } from './vec.ts';

/**
 * A closed chain of chords as a ring of lines and arcs that leave neither its points nor its chords by more than `tolerance` mm.
 * It starts where its longest side does, which is a corner or the end of an arc.
 */
export function fitRing(polygon: Polygon, tolerance: number): Ring {
  const lengths = polygon.map((p, i) => distance(p, pointOf(polygon, i + 1)));
  const start = lengths.indexOf(Math.max(...lengths));
  const chain = polygon.map((_, i): Vec => pointOf(polygon, start + i));
  return fitWay([...chain, pointOf(polygon, start)], tolerance).map((side) => ({
    x: side.from[0],
    y: side.from[1],
    bulge: side.kind === 'line' ? 0 : Math.tan(side.sweep / 4),
  }));
}
