/** The wood as it stands after some of a program's steps. */
import type { Intent, Surface } from '../../../src/intent/types.ts';
import type { Step } from '../machine/types.ts';
import { endHeight, lowestBallOver } from './ball.ts';
import { type Box, boxOf, lowestOver } from './reach.ts';
import { backAt } from './shaftBack.ts';
import { contains, type Shape, shapeOf } from './shape.ts';

/** Height of a surface of an intent: a plane, a cone about the line y = 0, or a plane worked down to a cone in part. */
export function surfaceAt(surface: Surface | Intent['stock']['top'], x: number, y: number): number {
  if (surface.kind === 'plane') return surface.z;
  if (surface.kind === 'worked') {
    const worked = x >= surface.x[0] && x <= surface.x[1];
    return worked ? Math.min(surface.z, surfaceAt(surface.cone, x, y)) : surface.z;
  }
  if (surface.kind === 'planed') {
    const planed = x >= surface.x[0] && x <= surface.x[1];
    return planed ? Math.min(surface.z, surface.floor) : surface.z;
  }
  if (surface.kind === 'shaft') return backAt(surface, x, y);
  const [xa, xb] = surface.x;
  const [Ra, Rb] = surface.R;
  const R = xa === xb ? Ra : Ra + ((Rb - Ra) * (x - xa)) / (xb - xa);
  return surface.crest - surface.below + Math.sqrt(R * R - y * y) - R;
}

/** Which steps come near a place: their numbers by the cells of a plain grid, each cell worked out when it is first asked for. */
interface Grid {
  readonly size: number;
  readonly cells: Map<number, readonly number[]>;
  /** x0, y0, x1, y1 of every step, grown by the radius; an empty box for a rapid. */
  readonly boxes: Float64Array;
}

const COLUMNS = 1 << 15;
const ORIGIN = 1 << 14;

function cellOf(value: number, size: number): number {
  return Math.min(COLUMNS - 1, Math.max(0, Math.floor(value / size) + ORIGIN));
}

function gridOf(steps: readonly Step[], radius: number): Grid {
  const boxes = new Float64Array(4 * steps.length);
  steps.forEach((step, k) => {
    const box = step.rapid ? EMPTY : boxOf(step, radius);
    boxes[4 * k] = box.x0;
    boxes[4 * k + 1] = box.y0;
    boxes[4 * k + 2] = box.x1;
    boxes[4 * k + 3] = box.y1;
  });
  return { size: Math.max(2, 2 * radius), cells: new Map(), boxes };
}

const EMPTY: Box = { x0: Infinity, y0: Infinity, x1: -Infinity, y1: -Infinity };

function stepsNear({ size, cells, boxes }: Grid, x: number, y: number): readonly number[] {
  const [i, j] = [cellOf(x, size), cellOf(y, size)];
  const key = i * COLUMNS + j;
  const known = cells.get(key);
  if (known !== undefined) return known;
  const [x0, y0] = [(i - ORIGIN) * size, (j - ORIGIN) * size];
  const [x1, y1] = [x0 + size, y0 + size];
  const near: number[] = [];
  for (let k = 0; 4 * k < boxes.length; k += 1) {
    const b = 4 * k;
    if ((boxes[b] ?? 0) > x1 || (boxes[b + 2] ?? 0) < x0) continue;
    if ((boxes[b + 1] ?? 0) <= y1 && (boxes[b + 3] ?? 0) >= y0) near.push(k);
  }
  cells.set(key, near);
  return near;
}

/** A path whose steps at feed cut with one radius. `lift`: from the tip up to the full width. */
export interface Cutting {
  readonly steps: readonly Step[];
  readonly radius: number;
  readonly lift: number;
  /** Its end is a half ball. */
  readonly isBall: boolean;
  readonly grid: Grid;
  /** Steps that another path's grid does not know; null when the grid is this path's own. */
  readonly loose: Loose | null;
}

interface Loose {
  readonly head: number;
  readonly tail: number;
  readonly boxes: readonly Box[];
  /** How many steps the path of the grid has. */
  readonly count: number;
}

export function cuttingOf(steps: readonly Step[], radius: number, lift: number, isBall: boolean): Cutting {
  return { steps, radius, lift, isBall, grid: gridOf(steps, radius), loose: null };
}

/** Above this many steps that differ a grid of their own is quicker. */
const MANY = 120;

/** The same for a path that differs from another in the steps between `head` and the last `tail`. */
export function cuttingLike(good: Cutting, steps: readonly Step[], head: number, tail: number): Cutting {
  const middle = steps.slice(head, steps.length - tail);
  if (middle.length > MANY) return cuttingOf(steps, good.radius, good.lift, good.isBall);
  const boxes = middle.map((step) => boxOf(step, good.radius));
  return { ...good, steps, loose: { head, tail, boxes, count: good.steps.length } };
}

/** How far the tool's end stands above its lowest full width, `d` from its axis. */
export function endAt({ isBall, radius }: Cutting, d: number): number {
  return isBall ? endHeight(radius, d) : 0;
}

/** Lowest that the full width of the tool went over a point in the first `before` steps; +Infinity when it never came. */
export function cutTo(cutting: Cutting, x: number, y: number, before: number): number {
  const { grid, steps, radius, lift, isBall, loose } = cutting;
  const lowestUnder = isBall ? lowestBallOver : lowestOver;
  const list = stepsNear(grid, x, y);
  let lowest = Number.POSITIVE_INFINITY;
  // Later passes lie deeper: with the lowest known early, most others need no second look.
  for (let m = list.length - 1; m >= 0; m -= 1) {
    const number = list[m] ?? 0;
    const k = loose === null ? number : renumbered(number, loose, steps.length);
    if (k < 0 || k >= before) continue;
    const step = steps[k];
    if (step !== undefined && Math.min(step.z0, step.z1) < lowest)
      lowest = Math.min(lowest, lowestUnder(step, x, y, radius));
  }
  if (loose === null) return lowest + lift;
  for (let m = 0; m < loose.boxes.length && loose.head + m < before; m += 1) {
    const box = loose.boxes[m];
    const step = steps[loose.head + m];
    if (box === undefined || step === undefined || step.rapid) continue;
    if (x < box.x0 || x > box.x1 || y < box.y0 || y > box.y1) continue;
    lowest = Math.min(lowest, lowestUnder(step, x, y, radius));
  }
  return lowest + lift;
}

function renumbered(number: number, { head, tail, count }: Loose, length: number): number {
  if (number < head) return number;
  return number >= count - tail ? number - count + length : -1;
}

/** Ground that earlier programs have cleared, once worked out for each intent. */
const CLEARED = new WeakMap<Intent, readonly { readonly shape: Shape; readonly z: number }[]>();

function clearedTo(intent: Intent, x: number, y: number): number {
  const known = CLEARED.get(intent);
  const ground = known ?? (intent.cleared ?? []).map(({ region, z }) => ({ shape: shapeOf(region), z }));
  if (known === undefined) CLEARED.set(intent, ground);
  const heights = ground.filter(({ shape }) => contains(shape, x, y)).map(({ z }) => z);
  return Math.min(Number.POSITIVE_INFINITY, ...heights);
}

/** Height of the wood at a point after the first `before` steps; -Infinity where there is none. */
export function woodAt(
  intent: Intent,
  stock: Shape,
  cutting: Cutting,
  x: number,
  y: number,
  before: number,
): number {
  if (!contains(stock, x, y)) return Number.NEGATIVE_INFINITY;
  const stands = Math.min(surfaceAt(intent.stock.top, x, y), clearedTo(intent, x, y));
  const left = Math.min(stands, cutTo(cutting, x, y, before));
  return left <= intent.stock.bottom ? Number.NEGATIVE_INFINITY : left;
}
