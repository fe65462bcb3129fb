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
 * parallel slots) comes out as 0.
 */
export function fitDrift(offsets: readonly Offset[]): Drift {
  const cx = offsets.reduce((sum, o) => sum + o.x, 0) / offsets.length;
  const cy = offsets.reduce((sum, o) => sum + o.y, 0) / offsets.length;
  const span = Math.max(...offsets.map((o) => Math.hypot(o.x - cx, o.y - cy)));
  const size = Math.max(span, 1);
  const rows = offsets.map((o) => {
    const [x, y] = [(o.x - cx) / size, (o.y - cy) / size];
    return [o.nx, o.ny, o.ny * x - o.nx * y, o.nx * x + o.ny * y];
  });
  const [tx = 0, ty = 0, turn = 0, growth = 0] = solve(
    rows,
    offsets.map((o) => o.off),
  );
  return { shift: Math.hypot(tx, ty), turn: turn / size, growth: growth / size, span };
}

/** Keeps unknowns that nothing speaks of at 0. */
const RIDGE = 1e-9;

/** Normal equations by elimination. */
function solve(rows: readonly (readonly number[])[], right: readonly number[]): number[] {
  const count = rows[0]?.length ?? 0;
  const matrix = Array.from({ length: count }, (_, i) => [
    ...Array.from({ length: count }, (_, j) =>
      rows.reduce((sum, row) => sum + at(row, i) * at(row, j), i === j ? RIDGE : 0),
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
