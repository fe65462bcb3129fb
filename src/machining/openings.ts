import { bounds, segments, translate } from '../geometry/ring.ts';
import type { Ring } from '../geometry/types.ts';
import type { OutlineFeature } from '../parts/types.ts';
import type { Place } from './features.ts';
import type { BoreOperation } from './types.ts';

/** A round opening, cleared out. */
export function openRound(outline: OutlineFeature, place: Place): BoreOperation {
  const { x, y } = bounds(shifted(outline.ring, place));
  return {
    id: outline.id,
    feature: outline.id,
    kind: 'bore',
    at: [(x[0] + x[1]) / 2, (y[0] + y[1]) / 2],
    diameter: x[1] - x[0],
    z: -place.part.blank.thickness,
    through: true,
    direction: place.shop.bores.direction,
  };
}

/** A ring of the part frame, in the program frame. */
export function shifted(ring: Ring, place: Place): Ring {
  return translate(ring, [-place.setup.shift[0], -place.setup.shift[1]]);
}

/** Extent of a ring along x. */
export function widthOf(ring: Ring): number {
  const { x } = bounds(ring);
  return x[1] - x[0];
}

/** Whether a ring is a whole circle. */
export function isCircle(ring: Ring): boolean {
  return (
    ring.length === 2 &&
    segments(ring).every((s) => s.kind === 'arc' && Math.abs(Math.abs(s.sweep) - Math.PI) < 1e-9)
  );
}
