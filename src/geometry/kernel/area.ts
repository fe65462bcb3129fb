import { Clipper, EndType, FillRule, JoinType, type Path64, type Paths64 } from 'clipper2-ts';
import { type Area, polygonSize } from '../area.ts';
import { flatten, reverse, area as ringArea } from '../ring.ts';
import type { Region, Ring } from '../types.ts';

/** Units of the integer grid in a millimetre: 0.1 um, exact in doubles up to 900 m. */
const UNITS = 10_000;

/** Round corners are chords inside the true arc by at most this. Millimetres. */
export const ARC_TOLERANCE = 0.0005;

/** Points that tell less than this are dropped after an offset, else chained offsets grow without end. Millimetres. */
const SIMPLIFY = 0.0005;

/** A region as polygons; arcs become chords that leave them by at most the arc tolerance. */
export function areaOf({ outer, holes }: Region): Area {
  return united([flat(outer, 1), ...holes.map((hole) => flat(hole, -1))]);
}

function flat(ring: Ring, sense: 1 | -1): Area[number] {
  return flatten(ringArea(ring) * sense > 0 ? ring : reverse(ring), ARC_TOLERANCE);
}

/**
 * All within `by` of an area (round outside), or what is farther than `-by` from its boundary inside; round corners are chords
 * that leave their arcs by at most `grain`. Millimetres.
 */
export function grown(area: Area, by: number, grain = ARC_TOLERANCE): Area {
  if (!Number.isFinite(by)) throw new Error(`an area grown by ${by}`);
  if (area.length === 0) return [];
  const paths = Clipper.inflatePaths(
    inward(area),
    by * UNITS,
    JoinType.Round,
    EndType.Polygon,
    2,
    grain * UNITS,
  );
  return outward(paths, Math.max(grain / 2, SIMPLIFY));
}

/** What a disc of a radius reaches without leaving the area: grown inward, then outward again. */
export function opened(area: Area, radius: number, grain = ARC_TOLERANCE): Area {
  return grown(grown(area, -radius, grain), radius, grain);
}

/** All that is in either. */
export function united(a: Area, b: Area = []): Area {
  return outward(Clipper.union(inward([...a, ...b]), FillRule.NonZero));
}

/** What is in the first and not in the second. */
export function less(a: Area, b: Area): Area {
  return outward(Clipper.difference(inward(a), inward(b), FillRule.NonZero));
}

/** What is in both. */
export function common(a: Area, b: Area): Area {
  return outward(Clipper.intersect(inward(a), inward(b), FillRule.NonZero));
}

function inward(area: Area): Paths64 {
  return area.map((polygon) =>
    polygon.map(([x, y]) => ({ x: Math.round(x * UNITS), y: Math.round(y * UNITS) })),
  );
}

function outward(paths: Paths64, simplify = SIMPLIFY): Area {
  return Clipper.simplifyPaths(paths, simplify * UNITS, true)
    .filter((path: Path64) => path.length > 2)
    .map((path) => path.map(({ x, y }) => [x / UNITS, y / UNITS] as const))
    .filter((polygon) => Math.abs(polygonSize(polygon)) > LEAST_SIZE);
}

/** Polygons smaller than this are crumbs of rounding. Square millimetres. */
const LEAST_SIZE = 1e-5;
