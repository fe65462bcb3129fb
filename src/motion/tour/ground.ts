import type { Vec } from '../../geometry/types.ts';
import { distance } from '../../geometry/vec.ts';

/**
 * The nodes of a way and what it costs to go from one to another, mm. An open way is made a closed round:
 * node `START` is tied to node `END`, and from `END` every node is as far as what follows the way.
 */
export interface Ground {
  readonly count: number;
  readonly x: Float64Array;
  readonly y: Float64Array;
  /** The node that must stay next to a node, or -1. */
  readonly tied: Int32Array;
  /** Length of the way from a node to what follows, or 0 where nothing does. */
  readonly toEnd: Float64Array;
}

export const START = 0;
export const END = 1;

/** Nodes tied to each other attract more than any gain could part. */
export const TIED = 1e7;

/** A place that is passed as a whole: entered at one end and left at the other, whichever is nearer. */
export interface Passage {
  readonly a: Vec;
  readonly b: Vec;
}

/**
 * Nodes for a start, passages (one node where both ends are one place, else two tied nodes) and what may
 * follow.
 */
export function groundOf(start: Vec, passages: readonly Passage[], next: readonly Vec[]): Ground {
  const places: Vec[] = [start, start];
  const tied = [END, START];
  for (const { a, b } of passages) {
    places.push(a);
    if (distance(a, b) === 0) tied.push(-1);
    else {
      tied.push(places.length, places.length - 1);
      places.push(b);
    }
  }
  return {
    count: places.length,
    x: Float64Array.from(places, ([x]) => x),
    y: Float64Array.from(places, ([, y]) => y),
    tied: Int32Array.from(tied),
    toEnd: Float64Array.from(places, (place) => nearest(place, next)),
  };
}

function nearest(place: Vec, next: readonly Vec[]): number {
  return next.length === 0 ? 0 : Math.min(...next.map((other) => distance(place, other)));
}

/** Cost of going from one node to another; below zero when they are tied. */
export function cost(ground: Ground, i: number, j: number): number {
  if (ground.tied[i] === j) return -TIED;
  if (i === END) return ground.toEnd[j] as number;
  if (j === END) return ground.toEnd[i] as number;
  const dx = (ground.x[i] as number) - (ground.x[j] as number);
  const dy = (ground.y[i] as number) - (ground.y[j] as number);
  return Math.sqrt(dx * dx + dy * dy);
}

/** The `reach` nearest nodes of each node, nearest first, equal ones by number; -1 where there are fewer. */
export function nearNodes(ground: Ground, reach: number): Int32Array {
  const near = new Int32Array(ground.count * reach).fill(-1);
  const far = new Float64Array(reach);
  for (let i = 0; i < ground.count; i += 1) {
    far.fill(Number.POSITIVE_INFINITY);
    for (let j = 0; j < ground.count; j += 1) {
      if (j === i || ground.tied[i] === j) continue;
      insert(near, i * reach, far, j, cost(ground, i, j));
    }
  }
  return near;
}

function insert(near: Int32Array, base: number, far: Float64Array, j: number, gap: number): void {
  let k = far.length - 1;
  if (gap >= (far[k] as number)) return;
  for (; k > 0 && gap < (far[k - 1] as number); k -= 1) {
    far[k] = far[k - 1] as number;
    near[base + k] = near[base + k - 1] as number;
  }
  far[k] = gap;
  near[base + k] = j;
}
