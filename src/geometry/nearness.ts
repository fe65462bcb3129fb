import { type Area, pointOf } from './area.ts';
import type { Vec } from './types.ts';

/** Tells whether a point is within a distance of an area: inside it or near its boundary. */
export type Nearness = (point: Vec) => boolean;

/** Sides that a cell of the grid has to do with: those within the distance, and those that cross its row. */
interface Grid {
  readonly x0: number;
  readonly y0: number;
  readonly cell: number;
  readonly columns: number;
  readonly rows: number;
  /** Numbers of sides near each cell. */
  readonly near: ReadonlyMap<number, readonly number[]>;
  /** Numbers of sides that cross each row. */
  readonly crossing: readonly (readonly number[])[];
  /** Four numbers a side. */
  readonly sides: Float64Array;
}

/** About so many sides to a cell of the grid, or more. */
const SIDES_A_CELL = 0.5;

/**
 * The same answer as `isNear(area, point, most)`, for very many points: the sides are sorted into a grid first.
 * @example
 * const near = nearnessTo(cleared, 1.5);
 * near([10, 20]);
 */
export function nearnessTo(area: Area, most: number): Nearness {
  if (area.length === 0) return () => false;
  const grid = gridOf(area, most);
  const square = most * most;
  return ([x, y]) => {
    const i = Math.floor((x - grid.x0) / grid.cell);
    const j = Math.floor((y - grid.y0) / grid.cell);
    if (i < 0 || j < 0 || i >= grid.columns || j >= grid.rows) return false;
    return (
      isNearSide(grid, grid.near.get(j * grid.columns + i) ?? [], x, y, square) || isInside(grid, j, x, y)
    );
  };
}

function gridOf(area: Area, most: number): Grid {
  const points = area.flat();
  const [xs, ys] = [points.map((p) => p[0]), points.map((p) => p[1])];
  const [x0, x1] = [least(xs) - most, -least(xs.map((x) => -x)) + most];
  const [y0, y1] = [least(ys) - most, -least(ys.map((y) => -y)) + most];
  const cell = Math.max(most / 2, Math.sqrt(((x1 - x0) * (y1 - y0) * SIDES_A_CELL) / points.length));
  const [columns, rows] = [Math.floor((x1 - x0) / cell) + 1, Math.floor((y1 - y0) / cell) + 1];
  const near = new Map<number, number[]>();
  const crossing: number[][] = Array.from({ length: rows }, () => []);
  const sides = sidesOf(area);
  const grid = { x0, y0, cell, columns, rows, near, crossing, sides };
  for (let n = 0; 4 * n < sides.length; n += 1) sortIn(grid, near, crossing, n, most);
  return grid;
}

function least(list: readonly number[]): number {
  return list.reduce((a, b) => Math.min(a, b), Number.POSITIVE_INFINITY);
}

function sidesOf(area: Area): Float64Array {
  return Float64Array.from(
    area.flatMap((polygon) => polygon.flatMap((p, i) => [...p, ...pointOf(polygon, i + 1)])),
  );
}

function sortIn(
  grid: Grid,
  near: Map<number, number[]>,
  crossing: number[][],
  n: number,
  most: number,
): void {
  const [px = 0, py = 0, qx = 0, qy = 0] = grid.sides.subarray(4 * n, 4 * n + 4);
  const { x0, y0, cell, columns, rows } = grid;
  const column = (x: number): number => Math.min(columns - 1, Math.max(0, Math.floor((x - x0) / cell)));
  const row = (y: number): number => Math.min(rows - 1, Math.max(0, Math.floor((y - y0) / cell)));
  const [low, high] = [Math.min(py, qy), Math.max(py, qy)];
  for (let j = row(low); j <= row(high); j += 1) crossing[j]?.push(n);
  const [left, right] = [column(Math.min(px, qx) - most), column(Math.max(px, qx) + most)];
  for (let j = row(low - most); j <= row(high + most); j += 1)
    for (let i = left; i <= right; i += 1) {
      const list = near.get(j * columns + i);
      if (list === undefined) near.set(j * columns + i, [n]);
      else list.push(n);
    }
}

function isNearSide(
  { sides }: Grid,
  numbers: readonly number[],
  x: number,
  y: number,
  square: number,
): boolean {
  for (const n of numbers) {
    const px = sides[4 * n] ?? 0;
    const py = sides[4 * n + 1] ?? 0;
    const dx = (sides[4 * n + 2] ?? 0) - px;
    const dy = (sides[4 * n + 3] ?? 0) - py;
    const long = dx * dx + dy * dy;
    const t = long === 0 ? 0 : Math.min(1, Math.max(0, ((x - px) * dx + (y - py) * dy) / long));
    const [ex, ey] = [x - px - t * dx, y - py - t * dy];
    if (ex * ex + ey * ey <= square) return true;
  }
  return false;
}

/** By counting the sides to the point's right. */
function isInside({ sides, crossing }: Grid, row: number, x: number, y: number): boolean {
  let inside = false;
  for (const n of crossing[row] ?? []) {
    const [px, py] = [sides[4 * n] ?? 0, sides[4 * n + 1] ?? 0];
    const [qx, qy] = [sides[4 * n + 2] ?? 0, sides[4 * n + 3] ?? 0];
    if (py > y !== qy > y && px + ((qx - px) * (y - py)) / (qy - py) > x) inside = !inside;
  }
  return inside;
}
