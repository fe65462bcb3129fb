/** The walls that a cutter leaves: every point at its radius from the path, and nearer to no other part of the path. */
import Flatbush from 'flatbush';
import { at } from '../removal/at.ts';
import { type Piece, xAt, yAt } from '../removal/piece.ts';
import { boxOf, pointToPrim } from '../removal/prim.ts';

/** Walls are looked at in such steps. Millimetres. */
const STEP = 0.01;

/** A path is written to a thousandth or so: a point this much inside what was cut still is a wall. Millimetres. */
const NOISE = 0.0012;

export type Point = readonly [x: number, y: number];

/** A piece of a path at full depth, and the radius of what runs along it. */
export interface Run {
  readonly piece: Piece;
  readonly radius: number;
}

/** What has been cut away: the discs along all runs. */
export interface CutAway {
  readonly runs: readonly Run[];
  readonly index: Flatbush | null;
}

/** What a path at full depth cuts away. */
export function cutAwayBy(runs: readonly Run[]): CutAway {
  return { runs, index: runs.length === 0 ? null : indexOf(runs) };
}

/** How deep inside what was cut a point lies, at least 0. */
export function depthAt(cut: CutAway, x: number, y: number): number {
  const near = cut.index?.search(x, y, x, y) ?? [];
  return near.reduce((deepest, i) => {
    const { piece, radius } = at(cut.runs, i);
    return Math.max(deepest, radius - pointToPrim(x, y, piece));
  }, 0);
}

function indexOf(runs: readonly Run[]): Flatbush {
  const index = new Flatbush(runs.length);
  for (const { piece, radius } of runs) {
    const box = boxOf(piece);
    index.add(box.minX - radius, box.minY - radius, box.maxX + radius, box.maxY + radius);
  }
  index.finish();
  return index;
}

/** Points of the walls of what was cut, no farther apart than a step. */
export function wallsOf(cut: CutAway): Point[] {
  const points: Point[] = [];
  for (const { piece, radius } of cut.runs) {
    for (const side of [-1, 1]) alongSide(cut, piece, side * radius, points);
    // A straight plunge has no length; every piece is round at its ends.
    for (const t of [0, 1]) roundEnd(cut, xAt(piece, t), yAt(piece, t), radius, points);
  }
  return points;
}

/** A point inside what was cut by d cannot become a wall within d: so far the walk goes on at once. */
function alongSide(cut: CutAway, piece: Piece, off: number, points: Point[]): void {
  const length = lengthAt(piece, off);
  if (!(length > 0)) return;
  for (let u = 0; u <= length; ) {
    const [x, y] = offPath(piece, u / length, off);
    const depth = depthAt(cut, x, y);
    if (depth <= NOISE) points.push([x, y]);
    u += Math.max(STEP, depth - NOISE);
  }
}

function roundEnd(cut: CutAway, x: number, y: number, radius: number, points: Point[]): void {
  for (let angle = 0; angle < 2 * Math.PI; ) {
    const [px, py] = [x + radius * Math.cos(angle), y + radius * Math.sin(angle)];
    const depth = depthAt(cut, px, py);
    if (depth <= NOISE) points.push([px, py]);
    angle += Math.max(STEP, depth - NOISE) / radius;
  }
}

/** Length of the line at a signed distance to the left of a piece. */
function lengthAt(p: Piece, off: number): number {
  if (!p.arc) return Math.hypot(p.x1 - p.x0, p.y1 - p.y0);
  return Math.abs((p.radius - Math.sign(p.sweep) * off) * p.sweep);
}

function offPath(p: Piece, t: number, off: number): Point {
  const [x, y] = [xAt(p, t), yAt(p, t)];
  if (!p.arc) {
    const length = Math.hypot(p.x1 - p.x0, p.y1 - p.y0);
    return [x - ((p.y1 - p.y0) / length) * off, y + ((p.x1 - p.x0) / length) * off];
  }
  // The left of a counter-clockwise arc is toward its centre.
  const share = 1 - (Math.sign(p.sweep) * off) / p.radius;
  return [p.cx + (x - p.cx) * share, p.cy + (y - p.cy) * share];
}
