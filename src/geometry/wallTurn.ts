import { type Area, isNear, pointOf } from './area.ts';

/**
 * How far the boundary of a piece turns where it is farther than `near` from an area, radians: between two parallel walls half a
 * turn, round a square corner a quarter.
 */
export function wallTurn(piece: Area, area: Area, near: number): number {
  const [edge] = piece;
  if (edge === undefined) return 0;
  let turn = 0;
  edge.forEach((p, i) => {
    if (isNear(area, p, near)) return;
    const [a, b] = [pointOf(edge, i - 1), pointOf(edge, i + 1)];
    const [ux, uy] = [p[0] - a[0], p[1] - a[1]];
    const [vx, vy] = [b[0] - p[0], b[1] - p[1]];
    turn += Math.atan2(ux * vy - uy * vx, ux * vx + uy * vy);
  });
  return turn;
}
