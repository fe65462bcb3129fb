/** What is left of the stock at one moment of a program. */
import { at } from './at.ts';
import { cuttersNear } from './cutting.ts';
import { standsAt } from './ground.ts';
import type { Job } from './job.ts';
import { lowestOver, newPiece, newSpan, type Piece, type Span } from './piece.ts';
import { boxOf } from './prim.ts';
import { isInside } from './rings.ts';
import { heightAt } from './surface.ts';
import { loadPiece } from './sweep.ts';

/** The cuts made near one piece before it, latest first. */
export interface Past {
  readonly pieces: Piece[];
  count: number;
  readonly span: Span;
}

/** An empty past, to be filled again and again. */
export function newPast(): Past {
  return { pieces: [], count: 0, span: newSpan() };
}

/** Fills in the cutting pieces before number `i` that come within `gap` of its box. */
export function recall(job: Job, past: Past, i: number, piece: Piece, gap: number): void {
  past.count = 0;
  const numbers = cuttersNear(job, boxOf(piece), gap);
  for (let k = numbers.length - 1; k >= 0; k -= 1) {
    const number = at(numbers, k);
    if (number >= i) continue;
    const room = past.pieces[past.count] ?? newPiece();
    past.pieces[past.count] = room;
    loadPiece(job.sweep, number, room);
    past.count += 1;
  }
}

/**
 * Height of the wood at a point before the piece; -Infinity outside the stock. Looks no further once it is at or below `enough`.
 */
export function heightLeft(
  job: Job,
  past: Past,
  x: number,
  y: number,
  radius: number,
  enough: number,
): number {
  if (!isInside(job.stock, x, y)) return Number.NEGATIVE_INFINITY;
  let height = standsAt(job.cleared, x, y, heightAt(job.intent.stock.top, x, y));
  for (let k = 0; k < past.count && height > enough; k += 1) {
    height = Math.min(height, lowestOver(at(past.pieces, k), x, y, radius, past.span));
  }
  return height;
}
