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
  let [qx, qy] = uphill(surface, x, y, x, y, r);
  // The slope hardly turns over a cutter's radius: the second step changes the height by less than 1e-9 mm.
  [qx, qy] = uphill(surface, qx, qy, x, y, r);
  return Math.max(heightAt(surface, qx, qy), heightAt(surface, x, y - Math.sign(y) * r));
}

function uphill(cone: Cone, x: number, y: number, cx: number, cy: number, r: number): [x: number, y: number] {
  const radius = radiusAt(cone, x);
  const root = Math.sqrt(radius * radius - y * y);
  const gx = (radius / root - 1) * growth(cone);
  const gy = -y / root;
  const length = Math.hypot(gx, gy);
  return length === 0 ? [cx, cy] : [cx + (r * gx) / length, cy + (r * gy) / length];
}

function growth({ x, R }: Cone): number {
  return x[1] === x[0] ? 0 : (R[1] - R[0]) / (x[1] - x[0]);
}

function radiusAt(cone: Cone, x: number): number {
  return cone.R[0] + growth(cone) * (x - cone.x[0]);
}
