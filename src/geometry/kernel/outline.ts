import { lengthRound, type Polygon, polygonSize } from '../area.ts';
import { fitRing } from '../fitRing.ts';
import { area, segments } from '../ring.ts';
import type { Region, Ring } from '../types.ts';
import { areaOf, grown } from './area.ts';
import { offsetRing } from './offset.ts';

/** An outline with more sides is offset as chords: the time of the exact way grows steeply with them. */
const FEW_SIDES = 12;
/** Arcs that shrink to less than this share of themselves are too near to nothing for the exact way. */
const LEAST_SHARE = 0.2;
/** Walls that enclose the same but for this much of their length are the same. Millimetres. */
const SAME_WALL = 0.002;
/** Chords are fitted with arcs within this. Millimetres. */
const FIT = 0.001;

/**
 * Rings at distance `by` outside a counter-clockwise outline (inside when negative), whatever its shape: exact arcs where the
 * outline is simple, else arcs fitted within 0.001 mm. Counter-clockwise; empty when nothing is left inside. Millimetres.
 */
export function offsetOutline(ring: Ring, by: number): Ring[] {
  const chords = grown(areaOf({ outer: ring, holes: [] }), by).filter((polygon) => polygonSize(polygon) > 0);
  const exact = isSimple(ring, by) ? offsetRing(ring, by) : [];
  return agree(exact, chords) ? exact : chords.map((polygon) => fitRing(polygon, FIT));
}

/** The exact way now and then loses a ring, or a side of one, where arcs nearly vanish: the chords tell. */
function agree(exact: readonly Ring[], chords: readonly Polygon[]): boolean {
  const size = (rings: readonly number[]): number => rings.reduce((sum, one) => sum + one, 0);
  const off = Math.abs(size(exact.map(area)) - size(chords.map(polygonSize)));
  return exact.length === chords.length && off <= SAME_WALL * size(chords.map(lengthRound));
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
