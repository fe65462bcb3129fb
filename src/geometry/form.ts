import { circle } from './ring.ts';
import type { Ring, Vec } from './types.ts';
import { distance, subtract, unit } from './vec.ts';

/** A marker's outline about its middle: a square stands along the board, a diamond on its points. Millimetres. */
export type Form =
  | { readonly shape: 'round'; readonly diameter: number }
  | { readonly shape: 'square'; readonly side: number }
  | { readonly shape: 'diamond'; readonly length: number; readonly width: number };

/** Extent along x and across it. */
export function formSize(form: Form): { readonly along: number; readonly across: number } {
  switch (form.shape) {
    case 'round':
      return { along: form.diameter, across: form.diameter };
    case 'square':
      return { along: form.side, across: form.side };
    case 'diamond':
      return { along: form.length, across: form.width };
  }
}

/** Diameter of the circle about the middle that holds the whole form. */
export function formReach(form: Form): number {
  const { along, across } = formSize(form);
  return form.shape === 'square' ? Math.hypot(along, across) : Math.max(along, across);
}

/**
 * Counter-clockwise outline of a form about `at`, its walls `out` mm outside the form's own, its corners rounded to `corner` mm.
 */
export function formRing(form: Form, at: Vec, out: number, corner: number): Ring {
  switch (form.shape) {
    case 'round':
      return circle(at, form.diameter / 2 + out);
    case 'square': {
      const half = form.side / 2 + out;
      return rounded(
        [
          [at[0] - half, at[1] - half],
          [at[0] + half, at[1] - half],
          [at[0] + half, at[1] + half],
          [at[0] - half, at[1] + half],
        ],
        corner,
      );
    }
    case 'diamond': {
      const [a, b] = [form.length / 2, form.width / 2];
      // Walls at the distance h = a b / sqrt(a^2 + b^2) from the middle move out with all else in proportion.
      const grow = 1 + (out * Math.hypot(a, b)) / (a * b);
      return rounded(
        [
          [at[0], at[1] - b * grow],
          [at[0] + a * grow, at[1]],
          [at[0], at[1] + b * grow],
          [at[0] - a * grow, at[1]],
        ],
        corner,
      );
    }
  }
}

/** A convex counter-clockwise polygon with its corners rounded: tangent length = radius / tan(half the corner's angle). */
function rounded(points: readonly Vec[], radius: number): Ring {
  if (radius === 0) return points.map(([x, y]) => ({ x, y, bulge: 0 }));
  return points.flatMap((p, i) => {
    const before = pointAt(points, i - 1);
    const after = pointAt(points, i + 1);
    const [u, v] = [unit(subtract(before, p)), unit(subtract(after, p))];
    const angle = Math.acos(Math.max(-1, Math.min(1, u[0] * v[0] + u[1] * v[1])));
    const tangent = radius / Math.tan(angle / 2);
    if (tangent > Math.min(distance(p, before), distance(p, after))) {
      throw new Error(`a corner of radius ${radius} on a side of ${distance(p, after)}`);
    }
    return [
      { x: p[0] + u[0] * tangent, y: p[1] + u[1] * tangent, bulge: Math.tan((Math.PI - angle) / 4) },
      { x: p[0] + v[0] * tangent, y: p[1] + v[1] * tangent, bulge: 0 },
    ];
  });
}

function pointAt(points: readonly Vec[], index: number): Vec {
  const point = points[(index + points.length) % points.length];
  if (point === undefined) throw new Error(`point ${index} of ${points.length}`);
  return point;
}
