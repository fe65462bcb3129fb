import type { Surface } from '../../intent/types.ts';

type Cone = Extract<Surface, { kind: 'cone' }>;

/** Height of a surface at a point of the program frame. A cone: z = crest + sqrt(R(x)^2 - y^2) - R(x) - below. */
export function heightAt(surface: Surface, x: number, y: number): number {
  if (surface.kind === 'plane') return surface.z;
  const radius = radiusAt(surface, x);
  // The same as sqrt(R^2 - y^2) - R, without losing digits to cancellation. Past its radius a board has no surface.
  const fall = (y * y) / (Math.sqrt(radius * radius - y * y) + radius);
  return surface.crest - surface.below - fall;
}

/** A height that no point of the surface exceeds. */
export function highestOf(surface: Surface): number {
  return surface.kind === 'plane' ? surface.z : surface.crest - surface.below;
}

/** Least radius of curvature; infinite for a plane. */
export function leastRadius(surface: Surface): number {
  return surface.kind === 'plane' ? Number.POSITIVE_INFINITY : Math.min(...surface.R);
}

/**
 * Highest point of the surface under a disc of radius `r` about a point: as low as a flat cutter of that radius may
 * go there without cutting too deep anywhere under it.
 */
export function highestUnderDisc(surface: Surface, x: number, y: number, r: number): number {
  if (surface.kind === 'plane') return surface.z;
  if (Math.abs(y) <= r) return surface.crest - surface.below;
  const straight = heightAt(surface, x, y - Math.sign(y) * r);
  const slope = growth(surface);
  if (slope === 0) return straight;
  // Uphill from the centre, then once more from there: the slope hardly turns over a cutter's radius, and the second step
  // changes the height by less than 1e-9 mm.
  let turn = uphill(surface, slope, x, y);
  turn = uphill(surface, slope, x + r * Math.cos(turn), y + r * Math.sin(turn));
  return Math.max(straight, heightAt(surface, x + r * Math.cos(turn), y + r * Math.sin(turn)));
}

/** Direction of steepest rise, radians from +x. */
function uphill(cone: Cone, slope: number, x: number, y: number): number {
  const radius = radiusAt(cone, x);
  const root = Math.sqrt(radius * radius - y * y);
  return Math.atan2(-y / root, (radius / root - 1) * slope);
}

function growth({ x, R }: Cone): number {
  return x[1] === x[0] ? 0 : (R[1] - R[0]) / (x[1] - x[0]);
}

function radiusAt(cone: Cone, x: number): number {
  return cone.R[0] + growth(cone) * (x - cone.x[0]);
}
