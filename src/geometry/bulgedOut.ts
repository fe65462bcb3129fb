import { directionAt, stepFrom } from './distance.ts';
import { segments } from './ring.ts';
import type { Ring, Segment, Vec, Vertex } from './types.ts';
import { distance } from './vec.ts';

/** A corner that turns less than this is none: one side runs on into the next. Radians. */
const NO_TURN = 1e-9;

/**
 * The ring at distance `by` mm outside a convex counter-clockwise ring, corners rounded by true arcs; null where this simple
 * construction does not hold. Every side moves straight out and an arc about each corner joins them: no two of them can
 * meet elsewhere. That stays true with one side hollowed by a shallow arc, as of a gauge, when the arc is wider than two
 * offsets and its radius larger than one. Nearly all outlines are of this kind, and a kernel's general offset takes tens of
 * milliseconds for each.
 */
export function bulgedOut(ring: Ring, by: number): Ring | null {
  if (!(by > 0)) return null;
  const sides = segments(ring);
  const turns = sides.map((side, i) => turnAfter(side, sides[(i + 1) % sides.length] ?? side));
  if (!isConvexButForOne(sides, turns, by)) return null;
  return sides.flatMap((side, i): Vertex[] => {
    const turn = turns[i] ?? 0;
    const [x, y] = movedOut(side, 0, by);
    const bulge = side.kind === 'arc' ? Math.tan(side.sweep / 4) : 0;
    if (turn < NO_TURN) return [{ x, y, bulge }];
    const [endX, endY] = movedOut(side, 1, by);
    return [
      { x, y, bulge },
      { x: endX, y: endY, bulge: Math.tan(turn / 4) },
    ];
  });
}

/** What lies outside a counter-clockwise ring is on its right. */
function movedOut(side: Segment, share: 0 | 1, by: number): Vec {
  const [dx, dy] = directionAt(side, share);
  return stepFrom(share === 0 ? side.from : side.to, [dy, -dx], by);
}

/** Turn from the end of a side into the next one, radians, left positive. */
function turnAfter(side: Segment, next: Segment): number {
  const [ax, ay] = directionAt(side, 1);
  const [bx, by] = directionAt(next, 0);
  return Math.atan2(ax * by - ay * bx, ax * bx + ay * by);
}

/** A curve that never turns right and turns once round is convex; a hollow side may stand for its chord. */
function isConvexButForOne(sides: readonly Segment[], turns: readonly number[], by: number): boolean {
  const sweeps = sides.map((side) => (side.kind === 'arc' ? side.sweep : 0));
  const hollow = sweeps.flatMap((sweep, i) => (sweep < 0 ? [i] : []));
  if (hollow.length > 1) return false;
  const [at] = hollow;
  const least = turns.map(() => -NO_TURN);
  const side = at === undefined ? undefined : sides[at];
  if (at !== undefined && side?.kind === 'arc') {
    if (!(side.radius > by && distance(side.from, side.to) > 2 * by)) return false;
    const half = -side.sweep / 2;
    // At both ends the arc leans away from its chord by half its sweep.
    least[at] = half;
    least[(at || sides.length) - 1] = half;
  }
  const total = [...turns, ...sweeps].reduce((sum, turn) => sum + turn, 0);
  return turns.every((turn, i) => turn >= (least[i] ?? 0)) && Math.abs(total - 2 * Math.PI) < 1e-6;
}
