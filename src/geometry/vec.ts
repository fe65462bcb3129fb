import type { Vec } from './types.ts';

/** Sum of two vectors. */
export function add(a: Vec, b: Vec): Vec {
  return [a[0] + b[0], a[1] + b[1]];
}

/** The vector from `b` to `a`. */
export function subtract(a: Vec, b: Vec): Vec {
  return [a[0] - b[0], a[1] - b[1]];
}

/** A vector times a number. */
export function scale(a: Vec, factor: number): Vec {
  return [a[0] * factor, a[1] * factor];
}

/** Length of a vector. */
export function norm(a: Vec): number {
  return Math.hypot(a[0], a[1]);
}

/** Distance between two points. */
export function distance(a: Vec, b: Vec): number {
  return Math.hypot(a[0] - b[0], a[1] - b[1]);
}

/** The vector of length 1 in the same direction; a zero vector has none and is an error. */
export function unit(a: Vec): Vec {
  const length = norm(a);
  if (!(length > 0)) throw new Error(`direction of a vector of length ${length}`);
  return [a[0] / length, a[1] / length];
}

/** The vector turned a quarter counter-clockwise. */
export function leftNormal(a: Vec): Vec {
  return [-a[1], a[0]];
}

/** The point at share `t` of the way from `a` to `b`. */
export function between(a: Vec, b: Vec, t: number): Vec {
  return [a[0] + (b[0] - a[0]) * t, a[1] + (b[1] - a[1]) * t];
}

/** Scalar product. */
export function dot(a: Vec, b: Vec): number {
  return a[0] * b[0] + a[1] * b[1];
}

/** Twice the area of the triangle that two vectors span, positive when `b` lies to the left of `a`. */
export function cross(a: Vec, b: Vec): number {
  return a[0] * b[1] - a[1] * b[0];
}
