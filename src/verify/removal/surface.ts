import type { Cone, PlanedTop, Surface, WorkedTop } from '../../intent/types.ts';

/** A floor, or the top of a stock. */
export type Top = Surface | WorkedTop | PlanedTop;

/** Height of a surface at a point of the program frame. A cone: z = crest + sqrt(R(x)^2 - y^2) - R(x) - below. */
export function heightAt(surface: Top, x: number, y: number): number {
  switch (surface.kind) {
    case 'plane':
      return surface.z;
    case 'planed':
      return isWorked(surface, x) ? Math.min(surface.z, surface.floor) : surface.z;
    case 'worked':
      return isWorked(surface, x) ? Math.min(surface.z, heightAt(surface.cone, x, y)) : surface.z;
    case 'cone': {
      const radius = sectionRadius(surface, x);
      // The same as sqrt(R^2 - y^2) - R, without losing digits to cancellation. Past its radius a board has no surface.
      const fall = (y * y) / (Math.sqrt(radius * radius - y * y) + radius);
      return surface.crest - surface.below - fall;
    }
  }
}

function isWorked({ x: [from, to] }: WorkedTop | PlanedTop, x: number): boolean {
  return x >= from && x <= to;
}

/** A height that no point of the surface exceeds. */
export function highestOf(surface: Top): number {
  return surface.kind === 'cone' ? surface.crest - surface.below : surface.z;
}

/** Least radius of curvature; infinite for a plane. */
export function leastRadius(surface: Surface): number {
  return surface.kind === 'plane' ? Number.POSITIVE_INFINITY : Math.min(...surface.R);
}

/**
 * Highest point of the surface under a disc of radius `r` about a point: as low as a flat cutter of that radius may
 * go there without cutting too deep anywhere under it.
 */
export function highestUnderDisc(surface: Top, x: number, y: number, r: number): number {
  if (surface.kind === 'plane') return surface.z;
  if (surface.kind === 'planed') {
    const whole = isWorked(surface, x - r) && isWorked(surface, x + r);
    return whole ? Math.min(surface.z, surface.floor) : surface.z;
  }
  if (surface.kind === 'worked') {
    const whole = isWorked(surface, x - r) && isWorked(surface, x + r);
    return whole ? Math.min(surface.z, highestUnderDisc(surface.cone, x, y, r)) : surface.z;
  }
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

/**
 * How deep a ball of radius `r` with its lowest point at (x, y, z) cuts below a surface: its radius less the distance of its
 * centre. A cone's normal at the angle t from its crest, seen in the section x = const, is (R' (cos t - 1), sin t, cos t):
 * the centre stands radially over its foot, in the section a little way along x.
 */
export function ballDepth(surface: Surface, x: number, y: number, z: number, r: number): number {
  if (surface.kind === 'plane') return surface.z - z;
  const slope = growth(surface);
  let depth = 0;
  let station = x;
  // The section moves by a few thousandths of a millimetre; a second look settles it.
  for (let look = 0; look < 3; look += 1) {
    const radius = sectionRadius(surface, station);
    const up = z + r - (surface.crest - surface.below - radius);
    const rho = Math.hypot(y, up);
    const lean = slope * (up / rho - 1);
    const away = (rho - radius) * Math.hypot(1, lean);
    depth = r - away;
    station = x - (rho - radius) * lean;
  }
  return depth;
}

/** Share of an upright distance from the surface that lies square to it: 1 over the length of its gradient. */
export function squareShare(surface: Surface, x: number, y: number): number {
  if (surface.kind === 'plane') return 1;
  const radius = sectionRadius(surface, x);
  const root = Math.sqrt(radius * radius - y * y);
  return 1 / Math.hypot(1, y / root, (radius / root - 1) * growth(surface));
}

/** Direction of steepest rise, radians from +x. */
function uphill(cone: Cone, slope: number, x: number, y: number): number {
  const radius = sectionRadius(cone, x);
  const root = Math.sqrt(radius * radius - y * y);
  return Math.atan2(-y / root, (radius / root - 1) * slope);
}

function growth({ x, R }: Cone): number {
  return x[1] === x[0] ? 0 : (R[1] - R[0]) / (x[1] - x[0]);
}

/** Radius of a cone's section at x. */
export function sectionRadius(cone: Cone, x: number): number {
  return cone.R[0] + growth(cone) * (x - cone.x[0]);
}
