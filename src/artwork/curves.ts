import type { Vec } from '../geometry/types.ts';

/** A straight line, a cubic Bezier curve, or a stretch of an ellipse: centre + u cos t + v sin t, t from `from` through `sweep`. */
export type Curve =
  | { readonly kind: 'line'; readonly from: Vec; readonly to: Vec }
  | { readonly kind: 'cubic'; readonly p: readonly [Vec, Vec, Vec, Vec] }
  | {
      readonly kind: 'ellipse';
      readonly centre: Vec;
      readonly u: Vec;
      readonly v: Vec;
      readonly from: number;
      readonly sweep: number;
    };

/** x' = a x + c y + e, y' = b x + d y + f, as SVG writes it. */
export type Matrix = readonly [a: number, b: number, c: number, d: number, e: number, f: number];

export const IDENTITY: Matrix = [1, 0, 0, 1, 0, 0];

/** The second, then the first. */
export function times(first: Matrix, second: Matrix): Matrix {
  const [a, b, c, d, e, f] = first;
  const [g, h, i, j, k, l] = second;
  return [a * g + c * h, b * g + d * h, a * i + c * j, b * i + d * j, a * k + c * l + e, b * k + d * l + f];
}

/** A point under a matrix. */
export function apply([a, b, c, d, e, f]: Matrix, [x, y]: Vec): Vec {
  return [a * x + c * y + e, b * x + d * y + f];
}

/** A curve under a matrix: exact, an ellipse stays one. */
export function applyToCurve(m: Matrix, curve: Curve): Curve {
  const turn = ([x, y]: Vec): Vec => [m[0] * x + m[2] * y, m[1] * x + m[3] * y];
  switch (curve.kind) {
    case 'line':
      return { kind: 'line', from: apply(m, curve.from), to: apply(m, curve.to) };
    case 'cubic': {
      const [p, q, r, s] = curve.p;
      return { kind: 'cubic', p: [apply(m, p), apply(m, q), apply(m, r), apply(m, s)] };
    }
    case 'ellipse':
      return { ...curve, centre: apply(m, curve.centre), u: turn(curve.u), v: turn(curve.v) };
  }
}

/** The point of a curve at a share of its parameter. */
export function pointAt(curve: Curve, t: number): Vec {
  switch (curve.kind) {
    case 'line':
      return [
        curve.from[0] + (curve.to[0] - curve.from[0]) * t,
        curve.from[1] + (curve.to[1] - curve.from[1]) * t,
      ];
    case 'cubic': {
      const [a, b, c, d] = curve.p;
      const s = 1 - t;
      const [i, j, k, l] = [s * s * s, 3 * s * s * t, 3 * s * t * t, t * t * t];
      return [i * a[0] + j * b[0] + k * c[0] + l * d[0], i * a[1] + j * b[1] + k * c[1] + l * d[1]];
    }
    case 'ellipse': {
      const angle = curve.from + curve.sweep * t;
      const [cos, sin] = [Math.cos(angle), Math.sin(angle)];
      const { centre, u, v } = curve;
      return [centre[0] + u[0] * cos + v[0] * sin, centre[1] + u[1] * cos + v[1] * sin];
    }
  }
}

/**
 * Chords needed so that none leaves the curve by more than `sagitta`: a chord over a step h of the parameter leaves it by at most
 * h^2 / 8 times the greatest second derivative.
 */
export function chordsFor(curve: Curve, sagitta: number): number {
  return Math.max(1, Math.ceil(Math.sqrt(bend(curve) / (8 * sagitta))));
}

function bend(curve: Curve): number {
  switch (curve.kind) {
    case 'line':
      return 0;
    case 'cubic': {
      const [a, b, c, d] = curve.p;
      const second = (p: Vec, q: Vec, r: Vec): number =>
        6 * Math.hypot(p[0] - 2 * q[0] + r[0], p[1] - 2 * q[1] + r[1]);
      return Math.max(second(a, b, c), second(b, c, d));
    }
    case 'ellipse':
      return curve.sweep * curve.sweep * Math.hypot(...curve.u, ...curve.v);
  }
}

/** Points of a chain, from its start up to but without its end, by chords that leave it by at most `sagitta`. */
export function flattenChain(curves: readonly Curve[], sagitta: number): Vec[] {
  return curves.flatMap((curve) => {
    const count = chordsFor(curve, sagitta);
    return Array.from({ length: count }, (_, i) => pointAt(curve, i / count));
  });
}
