/**
 * How much of a program's way at feed meets no wood: the wood is a height for every cell of a grid, and the path carves it.
 * Nothing is proven with it; it tells how well a program is made.
 */
import type { Intent } from '../intent/types.ts';
import { readBack } from './prove.ts';
import { newPiece, type Piece, spaceLength, xAt, yAt, zAt } from './removal/piece.ts';
import { newLedger } from './removal/proof.ts';
import { isInside, regionOf } from './removal/rings.ts';
import { heightAt } from './removal/surface.ts';
import { loadPiece, type Sweep } from './removal/sweep.ts';
import { kindOf } from './removal/tape.ts';

/** A program and what it must do. */
export interface Written {
  readonly bytes: Uint8Array;
  readonly intent: Intent;
}

/** Lengths in mm. */
export interface AirCutting {
  /** Way at feed. */
  readonly feed: number;
  /** Of it, way along which hardly any wood is met. */
  readonly air: number;
}

/** Cells in a cutter's radius, and steps along the way in it. */
const CELLS = 32;
const STEPS = 8;
/** More cells than this are made larger. */
const MOST_CELLS = 8e6;
/** Less than this share of a full cut (diameter times the deepest pass) is air. */
const HARDLY_ANY = 0.005;

/**
 * Way at feed of a program that a flat cutter runs, and how much of it cuts air; `before` ran earlier on the same blank.
 *
 * @example
 * const { feed, air } = measureAir({ bytes, intent });
 * const share = air / feed;
 */
export function measureAir(program: Written, before: readonly Written[] = []): AirCutting {
  const sweep = sweepOf(program);
  const radius = radiusOf(program.intent);
  const field = newField(sweep, program.intent, radius);
  for (const earlier of before) {
    runAlong(sweepOf(earlier), radiusOf(earlier.intent), field, () => undefined);
  }
  const least = HARDLY_ANY * 2 * radius * program.intent.limits.stepDown;
  const total = { feed: 0, air: 0 };
  runAlong(sweep, radius, field, (length, volume) => {
    total.feed += length;
    if (volume < least * length) total.air += length;
  });
  return total;
}

function sweepOf({ bytes, intent }: Written): Sweep {
  return readBack(bytes, intent, {}, newLedger());
}

function radiusOf({ tool }: Intent): number {
  if (tool.kind !== 'flat') throw new Error(`air is measured for flat cutters, not for a ${tool.kind}`);
  return tool.diameter / 2;
}

/** Heights of the wood, row by row. */
interface Field {
  readonly x0: number;
  readonly y0: number;
  readonly cell: number;
  readonly columns: number;
  readonly rows: number;
  readonly heights: Float64Array;
}

/** As wide as the program reaches; -Infinity outside the stock. */
function newField(sweep: Sweep, { stock }: Intent, radius: number): Field {
  const { x0, y0, x1, y1 } = boxOf(sweep, radius);
  const cell = Math.max(radius / CELLS, Math.sqrt(((x1 - x0) * (y1 - y0)) / MOST_CELLS));
  const [columns, rows] = [Math.ceil((x1 - x0) / cell), Math.ceil((y1 - y0) / cell)];
  const heights = new Float64Array(columns * rows);
  const region = regionOf(stock.region);
  for (let k = 0; k < heights.length; k += 1) {
    const [x, y] = [x0 + ((k % columns) + 0.5) * cell, y0 + (Math.floor(k / columns) + 0.5) * cell];
    heights[k] = isInside(region, x, y) ? heightAt(stock.top, x, y) : Number.NEGATIVE_INFINITY;
  }
  return { x0, y0, cell, columns, rows, heights };
}

interface Bounds {
  x0: number;
  y0: number;
  x1: number;
  y1: number;
}

function boxOf(sweep: Sweep, radius: number): Bounds {
  const far = Number.POSITIVE_INFINITY;
  const box = { x0: far, y0: far, x1: -far, y1: -far };
  eachFeed(sweep, (piece) => {
    for (const t of [0, 0.25, 0.5, 0.75, 1]) {
      const [x, y] = [xAt(piece, t), yAt(piece, t)];
      box.x0 = Math.min(box.x0, x - 1.5 * radius);
      box.y0 = Math.min(box.y0, y - 1.5 * radius);
      box.x1 = Math.max(box.x1, x + 1.5 * radius);
      box.y1 = Math.max(box.y1, y + 1.5 * radius);
    }
  });
  if (box.x0 > box.x1) throw new Error('a program without a way at feed');
  return box;
}

function eachFeed(sweep: Sweep, see: (piece: Piece) => void): void {
  const piece = newPiece();
  for (let i = 0; i < sweep.count; i += 1) {
    loadPiece(sweep, i, piece);
    if (kindOf(sweep.tape, piece.motion) !== 'rapid') see(piece);
  }
}

/** Carves along all feeds; `tell` is given each step's length and the wood it takes, in mm^3. */
function runAlong(
  sweep: Sweep,
  radius: number,
  field: Field,
  tell: (length: number, volume: number) => void,
): void {
  eachFeed(sweep, (piece) => {
    const length = spaceLength(piece);
    const count = Math.max(1, Math.ceil(length / (radius / STEPS)));
    for (let k = 1; k <= count; k += 1) {
      const t = k / count;
      tell(length / count, carve(field, radius, xAt(piece, t), yAt(piece, t), zAt(piece, t)));
    }
  });
}

/** Takes away what stands above `z` under the cutter; gives its volume. */
function carve(field: Field, radius: number, cx: number, cy: number, z: number): number {
  const { x0, y0, cell, columns, rows, heights } = field;
  const last = Math.min(rows - 1, Math.floor((cy + radius - y0) / cell));
  let taken = 0;
  for (let j = Math.max(0, Math.floor((cy - radius - y0) / cell)); j <= last; j += 1) {
    const dy = y0 + (j + 0.5) * cell - cy;
    const half = Math.sqrt(Math.max(0, radius * radius - dy * dy));
    const to = j * columns + Math.min(columns - 1, Math.floor((cx + half - x0) / cell - 0.5));
    for (let k = j * columns + Math.max(0, Math.ceil((cx - half - x0) / cell - 0.5)); k <= to; k += 1) {
      const height = heights[k] ?? 0;
      if (height <= z) continue;
      taken += height - z;
      heights[k] = z;
    }
  }
  return taken * cell * cell;
}
