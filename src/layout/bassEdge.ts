import { flatten } from '../geometry/ring.ts';
import type { Ring, Vec } from '../geometry/types.ts';
import { subtract, unit } from '../geometry/vec.ts';

/**
 * The finished board's bass edge, seen from outside as it is worked: a straight line that leans against the centreline, so that
 * lengths along it are a little longer than along the centreline. Seen from above, millimetres.
 */
export interface BassEdge {
  /** Corner of the edge and the nut end: lengths along the edge count from it. */
  readonly from: Vec;
  /** Of length 1, toward the body end. */
  readonly along: Vec;
  /** Of length 1, square to the edge, away from the board. */
  readonly outward: Vec;
  /**
   * Least and greatest length along the edge of any place of the board. The least is below zero where the nut end, lower down, lies
   * farther out than its corner at the edge: a nut end square to the centreline is not square to the edge.
   */
  readonly reach: readonly [least: number, most: number];
  /** How far the board goes down below the edge when that is level. */
  readonly depth: number;
}

/** Chords of the end's curves. Millimetres. */
const SAGITTA = 0.002;

/**
 * The bass edge of an outline of a board whose half width is at0 + slope x, by its corner at the nut end, where y is negative for a
 * right-handed instrument.
 */
export function layOutBassEdge(from: Vec, slope: number, outline: Ring): BassEdge {
  const side = from[1] < 0 ? -1 : 1;
  const along = unit([1, side * slope]);
  const outward: Vec = [-side * along[1], side * along[0]];
  const points = flatten(outline, SAGITTA).map((p) => subtract(p, from));
  const lengths = points.map((p) => dot(p, along));
  return {
    from,
    along,
    outward,
    reach: [Math.min(...lengths), Math.max(...lengths)],
    depth: Math.max(...points.map((p) => -dot(p, outward))),
  };
}

/** Length along the edge from its corner at the nut end to a place on it, millimetres. */
export function lengthAlong({ from, along }: Pick<BassEdge, 'from' | 'along'>, at: Vec): number {
  return dot(subtract(at, from), along);
}

const dot = (a: Vec, b: Vec): number => a[0] * b[0] + a[1] * b[1];
