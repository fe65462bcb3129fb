import type { Job } from './job.ts';
import { lowestOver, newSpan, type Piece } from './piece.ts';
import { heightAt } from './surface.ts';

/** Height of the wood left at a point once a tool of a radius has run the given pieces. Millimetres. */
export function lowestOf(pieces: readonly Piece[], x: number, y: number, radius: number, job: Job): number {
  const span = newSpan();
  let lowest = heightAt(job.intent.stock.top, x, y);
  for (const piece of pieces) lowest = Math.min(lowest, lowestOver(piece, x, y, radius, span));
  return lowest;
}
