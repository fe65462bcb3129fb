import { area, flatten } from '../geometry/ring.ts';
import type { Ring, Vec } from '../geometry/types.ts';
import { cross, distance, dot, subtract } from '../geometry/vec.ts';
import type { Router, Tool } from '../profile/types.ts';
import { straightLimit } from './fastestFeed.ts';
import type { PocketOperation, RouterOperation, WallFinish } from './types.ts';

/** Walls are looked at as chords that leave them by at most this. Millimetres. */
const SAGITTA = 0.01;

/**
 * How the last pass along the walls of a job's pockets and outlines is fed, judged by the place where the cutter meets most wood;
 * null when no wall has such a pass. A strip of width a beside a straight wall engages a cutter of radius r over t = acos(1 - a/r)
 * and makes chips sin t as thick as a full cut's (geometry of the circle); where the wall turns toward the cutter by u within its
 * radius, over t + u.
 */
export function wallFinishOf(
  operations: readonly RouterOperation[],
  tool: Tool,
  feed: number,
  router: Router,
): WallFinish | null {
  const walls = operations.flatMap(wallsOf);
  if (walls.length === 0) return null;
  const radius = tool.diameter / 2;
  const width = Math.max(...walls.map((wall) => wall.width));
  const straight = Math.acos(1 - Math.min(1, width / radius));
  const turn = Math.max(...walls.map((wall) => turnOf(wall, radius)));
  const thinning = 1 / Math.sin(Math.min(Math.PI / 2, straight + turn));
  const wanted = feed * thinning;
  const limit = straightLimit(router, 'xy');
  return {
    width,
    thinning,
    feed: Math.floor(Math.min(wanted, limit.feed)),
    boundBy: boundBy(wanted > limit.feed, thinning, limit.by),
  };
}

function boundBy(isHeld: boolean, thinning: number, by: string): string {
  if (thinning < 1.005)
    return 'not raised: in sharp inner corners its chips are as thick as those of a full cut';
  if (isHeld) return `limited by ${by}`;
  return 'raised until its chips are as thick as those of a full cut';
}

/** A wall that turns by more than this within the cutter's radius is a corner: its own radius is less than twice the cutter's. */
const MOST_TURN = 0.5;

interface Wall {
  readonly ring: Ring;
  /** On which side of the ring as it is run the waste lies. */
  readonly waste: 'left' | 'right';
  readonly width: number;
  readonly inPocket: boolean;
}

function wallsOf(operation: RouterOperation): Wall[] {
  if (operation.kind === 'pocket') return pocketWalls(operation);
  if (operation.kind !== 'outline' || operation.finish === null) return [];
  const waste = operation.keep === 'inside' ? 'right' : 'left';
  return [{ ring: operation.ring, waste, width: operation.finish.allowance, inPocket: false }];
}

/** The pocket lies inside its outer wall and outside its islands. */
function pocketWalls({ whole, allowance }: PocketOperation): Wall[] {
  const isLeft = (ring: Ring, isIsland: boolean): boolean => area(ring) > 0 !== isIsland;
  return [whole.outer, ...whole.holes].map((ring, i) => ({
    ring,
    waste: isLeft(ring, i > 0) ? ('left' as const) : ('right' as const),
    width: allowance,
    inPocket: true,
  }));
}

/** In a pocket's tight corners its rounded laps leave more than the allowance: there the cutter counts as fully engaged. */
function turnOf({ ring, waste, inPocket }: Wall, radius: number): number {
  const turn = sharpestTurn(ring, waste, radius);
  return inPocket && turn > MOST_TURN ? Math.PI / 2 : turn;
}

/** Most that a wall turns toward the waste within a way of the cutter's radius, radians. */
function sharpestTurn(ring: Ring, waste: 'left' | 'right', radius: number): number {
  const points = flatten(ring, SAGITTA);
  const sense = waste === 'left' ? 1 : -1;
  const turns = points.map((p, i) => sense * turnAt(points, p, i));
  const lengths = points.map((p, i) => distance(p, after(points, i)));
  let most = 0;
  turns.forEach((_, i) => {
    let [way, sum] = [0, 0];
    for (let k = i; way <= radius && k < i + points.length; k += 1) {
      sum += turns[k % points.length] ?? 0;
      most = Math.max(most, sum);
      way += lengths[k % points.length] ?? 0;
    }
  });
  return most;
}

function turnAt(points: readonly Vec[], p: Vec, i: number): number {
  const before = subtract(p, after(points, i - 2));
  const next = subtract(after(points, i), p);
  return Math.atan2(cross(before, next), dot(before, next));
}

/** The point that follows number `i`. */
function after(points: readonly Vec[], i: number): Vec {
  const point = points[(i + 1 + points.length) % points.length];
  if (point === undefined) throw new Error('a wall without points');
  return point;
}
