/**
 * A board's top about the line y = 0: in every section across it a circle of radius R(x), linear in x, through the crest.
 * Its rulings are straight: the points of one angle t from the crest, y = R sin t, z = crest - below - R (1 - cos t).
 * Millimetres, radians.
 */
import { surfaceHeight } from './surface.ts';

export interface ConeShape {
  readonly x: readonly [number, number];
  readonly R: readonly [number, number];
  readonly crest: number;
  readonly below: number;
}

/** Radius of the section at x. */
export function coneRadius(cone: ConeShape, x: number): number {
  return cone.R[0] + growth(cone) * (x - cone.x[0]);
}

/** Height of the surface. */
export function coneHeight(cone: ConeShape, x: number, y: number): number {
  return cone.crest - cone.below + surfaceHeight(coneRadius(cone, x), y);
}

/**
 * Lowest point of a ball of radius `r` that rests on the ruling at `angle`, touching it in the section at x. Its centre lies r
 * along the normal (R' (cos t - 1), sin t, cos t), which is the same all along a ruling: the ball rolls down the whole ruling on a
 * straight line and never cuts below the surface, which curves away from it.
 */
export function ballOnRuling(
  cone: ConeShape,
  x: number,
  angle: number,
  r: number,
): { readonly x: number; readonly y: number; readonly z: number } {
  const radius = coneRadius(cone, x);
  const lean = growth(cone) * (Math.cos(angle) - 1);
  const share = r / Math.hypot(1, lean);
  return {
    x: x + share * lean,
    y: (radius + share) * Math.sin(angle),
    z: cone.crest - cone.below - (radius + share) * (1 - Math.cos(angle)) + share - r,
  };
}

/**
 * Angle between neighbouring passes of a ball of radius `r` on a round of radius `radius` that leaves ridges of height `cusp`
 * between them, the same wherever the round slopes: sin^2(angle / 4) = h (2r - h) / (4 (R + r) (R + h)), by the law of
 * cosines in the triangle of the round's centre, a ball's centre and the ridge. On a flat it becomes s = 2 sqrt(2 r h - h^2).
 */
export function angleForCusp(radius: number, r: number, cusp: number): number {
  if (!(cusp > 0 && cusp < r)) throw new Error(`ridges of ${cusp} mm by a ball of radius ${r}`);
  const square = (cusp * (2 * r - cusp)) / (4 * (radius + r) * (radius + cusp));
  return 4 * Math.asin(Math.sqrt(square));
}

function growth({ x, R }: ConeShape): number {
  return x[1] === x[0] ? 0 : (R[1] - R[0]) / (x[1] - x[0]);
}
