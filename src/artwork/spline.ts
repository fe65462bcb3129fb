import type { Vec } from '../geometry/types.ts';
import type { Curve } from './curves.ts';

/**
 * A plain B-spline of degree 1 to 3 as Bezier curves, exactly: knots are put in until each stands as often as the degree (Boehm,
 * Inserting new knots into B-spline curves, Computer-Aided Design 12(4), 1980). Null when degree, knots and points do not agree.
 */
export function splineCurves(
  degree: number,
  knots: readonly number[],
  points: readonly Vec[],
): Curve[] | null {
  if (degree < 1 || degree > 3 || points.length <= degree || knots.length !== points.length + degree + 1)
    return null;
  if (knots.some((knot, i) => knot < (knots[i - 1] ?? knot))) return null;
  let spline: Spline = { knots, points };
  const [first, last] = [knots[degree] ?? 0, knots[points.length] ?? 0];
  for (const value of new Set(knots.filter((k) => k >= first && k <= last))) {
    while (countOf(spline.knots, value) < degree) spline = withKnot(spline, degree, value);
  }
  return pieces(spline, degree, first, last);
}

interface Spline {
  readonly knots: readonly number[];
  readonly points: readonly Vec[];
}

function countOf(knots: readonly number[], value: number): number {
  return knots.filter((knot) => knot === value).length;
}

function withKnot({ knots, points }: Spline, degree: number, value: number): Spline {
  const before = knots.findLastIndex((knot) => knot <= value);
  const fresh = Array.from({ length: points.length + 1 }, (_, i): Vec => {
    if (i <= before - degree) return pick(points, i);
    if (i > before) return pick(points, i - 1);
    const [from, to] = [knots[i] ?? 0, knots[i + degree] ?? 0];
    const share = to === from ? 0 : (value - from) / (to - from);
    return mix(pick(points, i - 1), pick(points, i), share);
  });
  return { knots: [...knots.slice(0, before + 1), value, ...knots.slice(before + 1)], points: fresh };
}

/** One Bezier curve for each stretch between two knots. */
function pieces({ knots, points }: Spline, degree: number, first: number, last: number): Curve[] {
  const values = [...new Set(knots)].filter((knot) => knot >= first && knot <= last);
  return values.slice(0, -1).map((value) => {
    const at = knots.lastIndexOf(value) - degree;
    return bezier(Array.from({ length: degree + 1 }, (_, i) => pick(points, at + i)));
  });
}

/** Raised to a cubic where it is not one. */
function bezier([a, b, c, d]: readonly Vec[]): Curve {
  if (a === undefined || b === undefined) throw new Error('a spline of no degree');
  if (c === undefined) return { kind: 'line', from: a, to: b };
  if (d === undefined) return { kind: 'cubic', p: [a, mix(a, b, 2 / 3), mix(c, b, 2 / 3), c] };
  return { kind: 'cubic', p: [a, b, c, d] };
}

function mix(a: Vec, b: Vec, t: number): Vec {
  return [a[0] + (b[0] - a[0]) * t, a[1] + (b[1] - a[1]) * t];
}

function pick(points: readonly Vec[], i: number): Vec {
  const point = points[i];
  if (point === undefined) throw new Error(`control point ${i} of ${points.length}`);
  return point;
}
