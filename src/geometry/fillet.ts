import type { Vec, Vertex } from './types.ts';
import { add, scale, subtract, unit } from './vec.ts';

/**
 * A corner of a counter-clockwise outline rounded by an arc that touches both of its straight sides: where the arc begins (with its
 * bulge) and where it ends. Radius 0 leaves the corner. Tangent length = radius tan(turn / 2).
 */
export function fillet(before: Vec, corner: Vec, after: Vec, radius: number): Vertex[] {
  if (radius === 0) return [{ x: corner[0], y: corner[1], bulge: 0 }];
  const [into, out] = [unit(subtract(corner, before)), unit(subtract(after, corner))];
  const turn = Math.atan2(into[0] * out[1] - into[1] * out[0], into[0] * out[0] + into[1] * out[1]);
  const tangent = radius * Math.tan(Math.abs(turn) / 2);
  const from = add(corner, scale(into, -tangent));
  const to = add(corner, scale(out, tangent));
  return [
    { x: from[0], y: from[1], bulge: Math.tan(turn / 4) },
    { x: to[0], y: to[1], bulge: 0 },
  ];
}
