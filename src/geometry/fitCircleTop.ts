import type { Vec } from './types.ts';

/**
 * The curve of a shaped top through points given as [along, height]: the parabola of least squares, told as the radius at
 * its crown (1 / 2c), which over a top's few degrees is a circle's. A radius of null: straight, or hollow. `miss` is the farthest
 * that a point stands off it.
 */
export function fitCircleTop(points: readonly Vec[]): { radius: number | null; miss: number } {
  const middle = points.reduce((sum, p) => sum + p[0], 0) / points.length;
  const [a, b, c] = leastSquares(points.map(([x, z]) => [x - middle, z]));
  const miss = Math.max(...points.map(([x, z]) => Math.abs(z - (a + (x - middle) * (b + (x - middle) * c)))));
  // A top flatter than 10 m of radius is straight to any file.
  return { radius: c < -5e-5 ? -1 / (2 * c) : null, miss };
}

/** a + b x + c x^2 through the normal equations; x about its own mean keeps them well conditioned. */
function leastSquares(points: readonly Vec[]): readonly [number, number, number] {
  const s = (power: number): number => points.reduce((sum, [x]) => sum + x ** power, 0);
  const t = (power: number): number => points.reduce((sum, [x, z]) => sum + z * x ** power, 0);
  const rows = [
    [s(0), s(1), s(2), t(0)],
    [s(1), s(2), s(3), t(1)],
    [s(2), s(3), s(4), t(2)],
  ] as const;
  const det = (i: number, j: number, k: number): number => {
    const [p, q, r] = rows;
    const m = (row: readonly number[], at: number): number => row[at] ?? 0;
    return (
      m(p, i) * (m(q, j) * m(r, k) - m(q, k) * m(r, j)) -
      m(p, j) * (m(q, i) * m(r, k) - m(q, k) * m(r, i)) +
      m(p, k) * (m(q, i) * m(r, j) - m(q, j) * m(r, i))
    );
  };
  const whole = det(0, 1, 2);
  return [det(3, 1, 2) / whole, det(0, 3, 2) / whole, det(0, 1, 3) / whole];
}
