import { type Polygon, polygonSize } from '../area.ts';
import { fitRing } from '../fitRing.ts';
import { segments } from '../ring.ts';
import type { Region, Ring } from '../types.ts';
import { areaOf, grown } from './area.ts';
import { offsetRing } from './offset.ts';

/** An outline with more sides is offset as chords: the time of the exact way grows steeply with them. */
const FEW_SIDES = 12;
/** Arcs that shrink to less than this share of themselves are too near to nothing for the exact way. */
const LEAST_SHARE = 0.2;
/** Chords are fitted with arcs within this. Millimetres. */
const FIT = 0.001;

/**
 * Rings at distance `by` outside a counter-clockwise outline (inside when negative), whatever its shape: exact arcs where the
 * outline is simple, else arcs fitted within 0.001 mm. Counter-clockwise; empty when nothing is left inside. Millimetres.
 */
export function offsetOutline(ring: Ring, by: number): Ring[] {
  if (isSimple(ring, by)) return offsetRing(ring, by);
  return grown(areaOf({ outer: ring, holes: [] }), by)
    .filter((polygon) => polygonSize(polygon) > 0)
    .map((polygon) => fitRing(polygon, FIT));
}

function isSimple(ring: Ring, by: number): boolean {
  if (ring.length > FEW_SIDES) return false;
  return segments(ring).every(
    (side) => side.kind === 'line' || side.radius + Math.sign(side.sweep) * by > LEAST_SHARE * side.radius,
  );
}

/** A region of chords as rings of lines and arcs, within `tolerance` mm of them. */
export function fitRegion(polygons: readonly Polygon[], tolerance: number): Region {
  const outer = polygons.find((p) => polygonSize(p) > 0);
  if (outer === undefined) throw new Error('a region without an outline');
  const holes = polygons.filter((p) => polygonSize(p) < 0);
  return { outer: fitRing(outer, tolerance), holes: holes.map((hole) => fitRing(hole, tolerance)) };
}
