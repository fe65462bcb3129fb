import { bounds } from '../geometry/ring.ts';
import type { Vec } from '../geometry/types.ts';
import type { RouterJob } from '../machining/types.ts';
import type { KeepOut } from '../profile/types.ts';
import type { Move } from './types.ts';

/** Room between the tool and a keep-out, beside it and above it, mm (common practice, no source). */
const ROOM = 1;
/** The tool travels low no farther from the stock than this: beyond it, anything may stand on the bed unnamed. */
const BESIDE = 9;

/**
 * Operations end by lifting to the clear height and begin with a rapid across; what lies between a lift and
 * its rapid.
 */
interface Across {
  readonly to: Vec;
  /** The spindle has been stopped: nothing follows. */
  readonly isHome: boolean;
}

/**
 * Brings the travel between features down to the travel height, and up where a keep-out lies in the way.
 * Where the tool comes from at the start nobody knows, so the first lift goes above every keep-out; the way
 * home is run at the clear height or, over a keep-out, above it, and ends at the clear height.
 */
export function lowTravel(moves: readonly Move[], job: RouterJob): Move[] {
  const out: Move[] = [];
  let here: Vec | null = null;
  let height = 0;
  moves.forEach((move, i) => {
    const across: Across | null = isLift(move, job) ? acrossAfter(moves, i, here) : null;
    if (across === null) out.push(move);
    else {
      height = heightOf(here, across, job);
      out.push({ kind: 'rapid', z: height });
    }
    here = placeAfter(move, here);
  });
  const { clearHeight } = job.machine;
  return height > clearHeight ? [...out, { kind: 'rapid', z: clearHeight }] : out;
}

function isLift(move: Move, job: RouterJob): boolean {
  return (
    move.kind === 'rapid' &&
    move.x === undefined &&
    move.y === undefined &&
    move.z !== undefined &&
    move.z >= job.machine.clearHeight
  );
}

function acrossAfter(moves: readonly Move[], lift: number, here: Vec | null): Across | null {
  let isHome = false;
  for (const move of moves.slice(lift + 1)) {
    if (move.kind === 'spindle off') isHome = true;
    else if (move.kind !== 'comment' && move.kind !== 'spindle') {
      const to = placeAfter(move, here);
      // A drilled hole is gone to at rapid, at the height where the tool stands.
      const isAcross = move.kind === 'drill' || (move.kind === 'rapid' && move.z === undefined);
      return isAcross && to !== null ? { to, isHome } : null;
    }
  }
  return null;
}

/** Where the tool stands in plan after a move; null until the program has said so. */
function placeAfter(move: Move, here: Vec | null): Vec | null {
  if (move.kind === 'arc') return [move.to.x, move.to.y];
  if (move.kind === 'drill') return [move.x, move.y];
  if (move.kind !== 'rapid' && move.kind !== 'feed') return here;
  const [x, y] = [move.x ?? here?.[0], move.y ?? here?.[1]];
  return x === undefined || y === undefined ? here : [x, y];
}

function heightOf(here: Vec | null, { to, isHome }: Across, job: RouterJob): number {
  const { clearHeight, travelHeight } = job.machine;
  if (here === null) return heightFromAnywhere(job);
  const over = heightOver(here, to, job, job.machine.controller.straightRapids);
  if (over > travelHeight) return Math.max(clearHeight, over);
  const isLow = !isHome && [here, to].every((place) => isNearStock(place, job));
  return isLow ? travelHeight : clearHeight;
}

/** Whether a place lies over the stock or close beside it. */
function isNearStock([x, y]: Vec, { setup }: RouterJob): boolean {
  const box = bounds(setup.stock.region.outer);
  return x > box.x[0] - BESIDE && x < box.x[1] + BESIDE && y > box.y[0] - BESIDE && y < box.y[1] + BESIDE;
}

/** Height of a way whose start nobody knows. */
export function heightFromAnywhere({ machine, setup }: RouterJob): number {
  return Math.max(machine.clearHeight, ...setup.keepOuts.map((k) => k.z[1] + ROOM));
}

/**
 * Least height of the tip on a way at which neither tool nor shank comes near a keep-out; -Infinity where
 * none is near.
 */
export function heightOver(from: Vec, to: Vec, job: RouterJob, isStraight: boolean): number {
  const heights = job.setup.keepOuts.map((keepOut) => heightOverOne(keepOut, from, to, job, isStraight));
  return Math.max(...heights, Number.NEGATIVE_INFINITY);
}

function heightOverOne(keepOut: KeepOut, from: Vec, to: Vec, job: RouterJob, isStraight: boolean): number {
  const gap = isStraight ? gapToWay(keepOut, from, to) : gapToBox(keepOut, from, to);
  const top = keepOut.z[1] + ROOM;
  const near = roundParts(job).filter((part) => gap < part.radius + ROOM);
  return Math.max(...near.map((part) => top - part.from), Number.NEGATIVE_INFINITY);
}

/** The cutter at its thickest from its tip up, its shank from where the edges end, the collet's nut from the collet's face. */
function roundParts({
  tool,
  machine: { nut },
}: RouterJob): readonly { readonly radius: number; readonly from: number }[] {
  return [
    { radius: (tool.diameter + tool.tolerance) / 2, from: 0 },
    { radius: tool.shankDiameter / 2, from: tool.cuttingLength },
    ...(nut === null ? [] : [{ radius: nut.diameter / 2, from: tool.stickOut }]),
  ];
}

/** Axes that do not arrive together may take the tool anywhere in the box between both places. */
function gapToBox({ x, y }: KeepOut, from: Vec, to: Vec): number {
  const dx = Math.max(x[0] - Math.max(from[0], to[0]), Math.min(from[0], to[0]) - x[1], 0);
  const dy = Math.max(y[0] - Math.max(from[1], to[1]), Math.min(from[1], to[1]) - y[1], 0);
  return Math.hypot(dx, dy);
}

/**
 * From the straight way to the rectangle: between an end of one and a side of the other, unless they cross.
 */
function gapToWay(keepOut: KeepOut, from: Vec, to: Vec): number {
  if (crosses(keepOut, from, to)) return 0;
  const { x, y } = keepOut;
  const corners: Vec[] = [
    [x[0], y[0]],
    [x[1], y[0]],
    [x[1], y[1]],
    [x[0], y[1]],
  ];
  return Math.min(
    gapToBox(keepOut, from, from),
    gapToBox(keepOut, to, to),
    ...corners.map((corner) => pointToWay(corner, from, to)),
  );
}

/** Cuts the way at the four sides' lines and looks whether any of it is left inside. */
function crosses({ x, y }: KeepOut, from: Vec, to: Vec): boolean {
  let [first, last] = [0, 1];
  for (const [axis, [low, high]] of [x, y].entries()) {
    const start = from[axis] ?? 0;
    const run = (to[axis] ?? 0) - start;
    if (run === 0) {
      if (start < low || start > high) return false;
      continue;
    }
    const [a, b] = [(low - start) / run, (high - start) / run];
    first = Math.max(first, Math.min(a, b));
    last = Math.min(last, Math.max(a, b));
  }
  return first <= last;
}

function pointToWay(point: Vec, from: Vec, to: Vec): number {
  const run: Vec = [to[0] - from[0], to[1] - from[1]];
  const square = run[0] * run[0] + run[1] * run[1];
  const along = (point[0] - from[0]) * run[0] + (point[1] - from[1]) * run[1];
  const t = square === 0 ? 0 : Math.min(1, Math.max(0, along / square));
  return Math.hypot(point[0] - from[0] - t * run[0], point[1] - from[1] - t * run[1]);
}
