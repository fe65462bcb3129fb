/**
 * Heights of the wood over a grid of points of the plan, lowered stroke by stroke.
 *
 * What is deepest between the points is missed: for a ball of radius r on a grid of pitch h by at most the
 * sagitta of half a cell's diagonal, some h^2/(4r). `missedBy` gives that bound; it is added to every depth that is read off the grid. Millimetres.
 */
import type { Box } from '../removal/prim.ts';
import type { Stroke } from './stroke.ts';

export interface Field {
  readonly pitch: number;
  readonly x0: number;
  readonly y0: number;
  readonly nx: number;
  readonly ny: number;
  /** Row by row, along x; -Infinity where there is no wood. */
  readonly z: Float64Array;
}

/** A finer pitch is not needed; a coarser one is taken when this would make more points than `MOST`. */
export const PITCH = 0.1;
const MOST = 6e6;

/** The grid over a box, both of its ends on it, filled with heights. */
export function fieldOver(box: Box, pitch: number, height: (x: number, y: number) => number): Field {
  const [width, depth] = [box.maxX - box.minX, box.maxY - box.minY];
  const nx = Math.max(1, Math.ceil(width / pitch - 1e-9)) + 1;
  const ny = Math.max(1, Math.ceil(depth / pitch - 1e-9)) + 1;
  const z = new Float64Array(nx * ny);
  for (let j = 0; j < ny; j += 1) {
    const y = box.minY + j * pitch;
    for (let i = 0; i < nx; i += 1) z[j * nx + i] = height(box.minX + i * pitch, y);
  }
  return { pitch, x0: box.minX, y0: box.minY, nx, ny, z };
}

/** Pitch for a box: the usual one, or the finest that keeps the grid within memory. */
export function pitchFor(box: Box): number {
  const area = (box.maxX - box.minX) * (box.maxY - box.minY);
  return Math.max(PITCH, Math.sqrt(area / MOST));
}

/** How much deeper a ball may have gone between the points than at them: r - sqrt(r^2 - h^2/2), some h^2/(4r). */
export function missedBy(radius: number, pitch: number): number {
  const square = (pitch * pitch) / 2;
  return square / (radius + Math.sqrt(Math.max(0, radius * radius - square)));
}

/** What one stroke took: its deepest bite, and the sum of all bites (times the cell's area: the volume). */
export interface Bite {
  deepest: number;
  sum: number;
}

/** Counts, for each column of a field, the rows in which one stroke took more than `limit`; and its deepest bite up to that. */
export interface DeepRows {
  readonly limit: number;
  readonly rows: Uint16Array;
  most: number;
  shallow: number;
}

/** Nothing counted yet. */
export function newDeepRows({ nx }: Field, limit: number): DeepRows {
  return { limit, rows: new Uint16Array(nx), most: 0, shallow: 0 };
}

/** Lowers the field under a stroke that is not long, counting rows of deep bites in `deep`. */
export function carveCounting(field: Field, stroke: Stroke, deep: DeepRows): Bite {
  const bite = { deepest: 0, sum: 0 };
  const { pitch, x0, y0, nx, ny } = field;
  deep.rows.fill(0);
  deep.most = 0;
  deep.shallow = 0;
  const first = Math.max(0, Math.ceil((stroke.minY - y0) / pitch));
  const last = Math.min(ny - 1, Math.floor((stroke.maxY - y0) / pitch));
  for (let j = first; j <= last; j += 1) {
    const span = rowSpan(stroke, y0 + j * pitch);
    if (span === null) continue;
    const from = Math.max(0, Math.ceil((span[0] - x0) / pitch));
    const to = Math.min(nx - 1, Math.floor((span[1] - x0) / pitch));
    lowerCounting(field, stroke, j, [from, to], bite, deep);
  }
  return bite;
}

function lowerCounting(
  { z, pitch, x0, y0, nx }: Field,
  { over }: Stroke,
  j: number,
  [from, to]: readonly [number, number],
  bite: Bite,
  deep: DeepRows,
): void {
  const y = y0 + j * pitch;
  for (let i = from; i <= to; i += 1) {
    const before = z[j * nx + i] ?? Number.NEGATIVE_INFINITY;
    const height = over(x0 + i * pitch, y);
    if (!(height < before)) continue;
    z[j * nx + i] = height;
    const taken = before - height;
    bite.sum += taken;
    bite.deepest = Math.max(bite.deepest, taken);
    if (taken <= deep.limit) deep.shallow = Math.max(deep.shallow, taken);
    else {
      const rows = (deep.rows[i] ?? 0) + 1;
      deep.rows[i] = rows;
      deep.most = Math.max(deep.most, rows);
    }
  }
}

/** Lowers the field under a stroke. */
export function carve(field: Field, stroke: Stroke): Bite {
  const bite = { deepest: 0, sum: 0 };
  const { pitch, y0, ny } = field;
  const from = Math.max(0, Math.ceil((stroke.minY - y0) / pitch));
  const to = Math.min(ny - 1, Math.floor((stroke.maxY - y0) / pitch));
  for (let j = from; j <= to; j += 1) carveRow(field, stroke, j, bite);
  return bite;
}

function carveRow(field: Field, stroke: Stroke, j: number, bite: Bite): void {
  const { pitch, x0, nx } = field;
  const y = field.y0 + j * pitch;
  const span = rowSpan(stroke, y);
  if (span === null) return;
  const from = Math.max(0, Math.ceil((span[0] - x0) / pitch));
  const to = Math.min(nx - 1, Math.floor((span[1] - x0) / pitch));
  if (!stroke.isLong) {
    lowerEach(field, stroke, j, from, to, bite);
    return;
  }
  const first = Math.max(from, Math.ceil((Math.min(stroke.x0, stroke.x1) - x0) / pitch));
  const last = Math.min(to, Math.floor((Math.max(stroke.x0, stroke.x1) - x0) / pitch));
  if (first > last) {
    lowerEach(field, stroke, j, from, to, bite);
    return;
  }
  lowerEach(field, stroke, j, from, first - 1, bite);
  lowerAll(field, j, first, last, stroke.over(stroke.x0, y), bite);
  lowerEach(field, stroke, j, last + 1, to, bite);
}

/** Where the stadium that the tool's disc sweeps crosses a row: one stretch, for it is convex. */
function rowSpan({ x0, y0, x1, y1, radius }: Stroke, y: number): [number, number] | null {
  let [from, to] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  const take = (x: number, half: number): void => {
    from = Math.min(from, x - half);
    to = Math.max(to, x + half);
  };
  const [off0, off1] = [y - y0, y - y1];
  if (Math.abs(off0) <= radius) take(x0, Math.sqrt(radius * radius - off0 * off0));
  if (Math.abs(off1) <= radius) take(x1, Math.sqrt(radius * radius - off1 * off1));
  const length = Math.hypot(x1 - x0, y1 - y0);
  if (length > 0) {
    const [nx, ny] = [(-(y1 - y0) / length) * radius, ((x1 - x0) / length) * radius];
    for (const side of [1, -1])
      takeSide(x0 + side * nx, y0 + side * ny, x1 + side * nx, y1 + side * ny, y, take);
  }
  return from <= to ? [from, to] : null;
}

function takeSide(
  x0: number,
  y0: number,
  x1: number,
  y1: number,
  y: number,
  take: (x: number, half: number) => void,
): void {
  if (y0 === y1 || y < Math.min(y0, y1) || y > Math.max(y0, y1)) return;
  take(x0 + ((x1 - x0) * (y - y0)) / (y1 - y0), 0);
}

function lowerEach(field: Field, stroke: Stroke, j: number, from: number, to: number, bite: Bite): void {
  const { z, pitch, x0, nx } = field;
  const y = field.y0 + j * pitch;
  const row = j * nx;
  const { over } = stroke;
  for (let i = from; i <= to; i += 1) {
    const before = z[row + i] ?? Number.NEGATIVE_INFINITY;
    const height = over(x0 + i * pitch, y);
    if (height < before) {
      z[row + i] = height;
      bite.sum += before - height;
      if (before - height > bite.deepest) bite.deepest = before - height;
    }
  }
}

function lowerAll(field: Field, j: number, from: number, to: number, height: number, bite: Bite): void {
  const { z, nx } = field;
  const row = j * nx;
  let { deepest, sum } = bite;
  for (let k = row + from; k <= row + to; k += 1) {
    const before = z[k] ?? Number.NEGATIVE_INFINITY;
    if (height < before) {
      z[k] = height;
      sum += before - height;
      if (before - height > deepest) deepest = before - height;
    }
  }
  bite.deepest = deepest;
  bite.sum = sum;
}
