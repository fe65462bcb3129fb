/** Where slots and holes were cut against where they were meant. */
import { at } from './at.ts';
import type { Piece } from './piece.ts';
import { type Box, boxOf, joinBoxes, type Prim } from './prim.ts';
import type { Region } from './rings.ts';
import type { RegionTarget } from './targets.ts';

/** At a point, seen along a unit direction, a feature lies this far from where it was meant. */
export interface Offset {
  readonly x: number;
  readonly y: number;
  readonly nx: number;
  readonly ny: number;
  readonly off: number;
}

/** A slot is at least this many times as long as it is wide. */
const SLENDER = 4;

/** Offsets of a located feature: of a disc its centre, of a slot its two ends sideways; of another shape none. */
export function offsetsOf(target: RegionTarget, finals: readonly Piece[]): readonly Offset[] {
  const { circle } = target.region;
  if (finals.length === 0) return [];
  if (circle !== null) return centreOffsets(circle.x, circle.y, finals);
  const middle = middleLine(target.region);
  return middle === null ? [] : slotOffsets(middle, finals);
}

function centreOffsets(x: number, y: number, finals: readonly Piece[]): Offset[] {
  const box = finals.map(boxOf).reduce((a: Box, b: Box) => joinBoxes(a, b));
  return [
    { x, y, nx: 1, ny: 0, off: (box.minX + box.maxX) / 2 - x },
    { x, y, nx: 0, ny: 1, off: (box.minY + box.maxY) / 2 - y },
  ];
}

interface Middle {
  readonly from: readonly [number, number];
  readonly to: readonly [number, number];
}

/** The line halfway between the two long sides, or null when the region is not a slot. */
export function middleLine(region: Region): Middle | null {
  const sides = region.edges.filter((e) => !e.arc).sort((a, b) => lengthOf(b) - lengthOf(a));
  const [a, b] = sides;
  if (!region.convex || a === undefined || b === undefined) return null;
  const from = halfway([a.x0, a.y0], [b.x1, b.y1]);
  const to = halfway([a.x1, a.y1], [b.x0, b.y0]);
  const width = Math.max(Math.hypot(a.x0 - b.x1, a.y0 - b.y1), Math.hypot(a.x1 - b.x0, a.y1 - b.y0));
  return lengthOf(b) > SLENDER * width ? { from, to } : null;
}

function lengthOf(e: Prim): number {
  return Math.hypot(e.x1 - e.x0, e.y1 - e.y0);
}

function halfway(a: readonly [number, number], b: readonly [number, number]): [number, number] {
  return [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2];
}

/** Halfway between the outermost paths on either side, at either end. */
function slotOffsets({ from, to }: Middle, finals: readonly Piece[]): Offset[] {
  const length = Math.hypot(to[0] - from[0], to[1] - from[1]);
  const [ux, uy] = [(to[0] - from[0]) / length, (to[1] - from[1]) / length];
  const points = finals.flatMap((p) => [
    [p.x0, p.y0],
    [p.x1, p.y1],
  ]);
  const placed = points.map(([x = 0, y = 0]) => ({
    along: (x - from[0]) * ux + (y - from[1]) * uy,
    off: (y - from[1]) * ux - (x - from[0]) * uy,
  }));
  return [from, to].flatMap((end, k) => {
    const here = placed.filter((p) => (k === 0 ? p.along <= length / 2 : p.along >= length / 2));
    if (here.length === 0) return [];
    const offs = here.map((p) => p.off);
    const off = (Math.min(...offs) + Math.max(...offs)) / 2;
    return [{ x: end[0], y: end[1], nx: -uy, ny: ux, off }];
  });
}

/** A small move of the whole program that explains the offsets best: shift, turn (radians) and growth (share). */
interface Drift {
  readonly shift: number;
  readonly turn: number;
  readonly growth: number;
  /** Greatest distance of an offset's place from the middle of all, mm. */
  readonly span: number;
}

/**
 * Least-squares fit of shift, turn and growth about the middle of all places. What the offsets do not show (the shift along
 * parallel slots) comes out as 0, and so does what they show no better than their own scatter (the shift along slots that are almost
 * parallel): there a hair's breadth of rounding would stand for any drift. `limit`: the drift that must not be missed.
 */
export function fitDrift(offsets: readonly Offset[], limit: number): Drift {
  const cx = offsets.reduce((sum, o) => sum + o.x, 0) / offsets.length;
  const cy = offsets.reduce((sum, o) => sum + o.y, 0) / offsets.length;
  const span = Math.max(...offsets.map((o) => Math.hypot(o.x - cx, o.y - cy)));
  const size = Math.max(span, 1);
  const rows = offsets.map((o) => {
    const [x, y] = [(o.x - cx) / size, (o.y - cy) / size];
    return [o.nx, o.ny, o.ny * x - o.nx * y, o.nx * x + o.ny * y];
  });
  const offs = offsets.map((o) => o.off);
  const by = (ridge: number): Drift => {
    const [tx = 0, ty = 0, turn = 0, growth = 0] = solve(rows, offs, ridge);
    return { shift: Math.hypot(tx, ty), turn: turn / size, growth: growth / size, span };
  };
  const scatter = scatterOf(rows, offs, solve(rows, offs, RIDGE));
  const ridge = Math.max(RIDGE, Math.min(((TRUST * scatter) / limit) ** 2, MOST_RIDGE * rows.length));
  const [plain, trusted] = [by(RIDGE), by(ridge)];
  return areFarApart(plain, trusted, limit / 2) ? trusted : plain;
}

function areFarApart(a: Drift, b: Drift, far: number): boolean {
  const most = Math.max(Math.abs(a.turn - b.turn) * a.span, Math.abs(a.growth - b.growth) * a.span);
  return Math.max(Math.abs(a.shift - b.shift), most) > far;
}

/** Keeps unknowns that nothing speaks of at 0. */
const RIDGE = 1e-9;
/** With a ridge of (TRUST * scatter / limit)^2 scatter makes a drift of limit / (2 * TRUST) at most, in the mean. */
const TRUST = 4;
/** A drift that all offsets show alike is told short by no more than this share. */
const MOST_RIDGE = 0.02;
/** Steps of the numbers in a program, as they scatter: offsets that fit by chance are not taken for better. Millimetres. */
const LEAST_SCATTER = 3e-5;

/** What is left of the offsets once a drift is taken off, root mean square by the degrees of freedom. */
function scatterOf(
  rows: readonly (readonly number[])[],
  offs: readonly number[],
  drift: readonly number[],
): number {
  const free = Math.max(1, rows.length - drift.length);
  const squares = rows.reduce((sum, row, k) => {
    const left = at(offs, k) - row.reduce((told, a, i) => told + a * at(drift, i), 0);
    return sum + left * left;
  }, 0);
  return Math.max(LEAST_SCATTER, Math.sqrt(squares / free));
}

/** Normal equations by elimination. */
function solve(rows: readonly (readonly number[])[], right: readonly number[], ridge: number): number[] {
  const count = rows[0]?.length ?? 0;
  const matrix = Array.from({ length: count }, (_, i) => [
    ...Array.from({ length: count }, (_, j) =>
      rows.reduce((sum, row) => sum + at(row, i) * at(row, j), i === j ? ridge : 0),
    ),
    rows.reduce((sum, row, k) => sum + at(row, i) * at(right, k), 0),
  ]);
  for (let i = 0; i < count; i += 1) {
    const pivot = at(matrix, i);
    for (let j = 0; j < count; j += 1) {
      if (i === j) continue;
      const row = at(matrix, j);
      const factor = at(row, i) / at(pivot, i);
      for (let k = i; k <= count; k += 1) row[k] = at(row, k) - factor * at(pivot, k);
    }
  }
  return matrix.map((row, i) => at(row, count) / at(row, i));
}
