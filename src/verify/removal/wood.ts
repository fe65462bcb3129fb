/** Where a tool meets wood: within the stock and below its top. */
import type { Job } from './job.ts';
import { partOf, type Piece, planLength, xAt, yAt, zAt } from './piece.ts';
import { boundaryDistance, isInside } from './rings.ts';
import { highestOf, highestUnderDisc } from './surface.ts';

/** A tip this far below the top is in the wood; less is the rounding of the text. */
const TOUCH = 1e-6;

/** Whether any part of the piece is in the stock. The stock may have been cleared there before. */
export function touchesWood(job: Job, p: Piece): boolean {
  if (job.tool.kind === 'beam') return true;
  return isBelowTop(job, p) && isOverStock(job, p);
}

function isOverStock(job: Job, p: Piece): boolean {
  if (isInside(job.stock, p.x0, p.y0) || isInside(job.stock, p.x1, p.y1)) return true;
  const { most } = job.tool;
  return boundaryDistance(job.stock, p, most) < most - TOUCH;
}

function isBelowTop(job: Job, p: Piece): boolean {
  const { top } = job.intent.stock;
  const lowest = Math.min(p.z0, p.z1);
  if (lowest >= highestOf(top) - TOUCH) return false;
  if (top.kind === 'plane') return true;
  const steps = Math.max(2, Math.min(200, Math.ceil(planLength(p) * 2)));
  for (let k = 0; k <= steps; k += 1) {
    const t = k / steps;
    if (zAt(p, t) < highestUnderDisc(top, xAt(p, t), yAt(p, t), job.tool.most) - TOUCH) return true;
  }
  return false;
}

/** A figure with the point of the path at which it was found. */
export interface Found {
  readonly value: number;
  readonly t: number;
}

/** A figure of a whole piece: its worst value. */
export type Measure = (piece: Piece) => Found;

/** Shorter pieces are not divided further to see which part of them is in wood. Millimetres. */
const SHORTEST = 0.02;

/**
 * Worst value of a figure over those parts of a piece that are in wood. A piece within the limit is taken whole; one beyond it
 * is halved until the parts outside the wood fall away.
 */
export function worstInWood(job: Job, piece: Piece, limit: number, measure: Measure): Found {
  const found = measure(piece);
  const length = Math.max(planLength(piece), Math.abs(piece.z1 - piece.z0));
  if (found.value <= limit || length < SHORTEST) return found;
  const halves = [partOf(piece, 0, 0.5), partOf(piece, 0.5, 1)];
  let worst: Found = { value: Number.NEGATIVE_INFINITY, t: 0 };
  halves.forEach((half, k) => {
    if (!touchesWood(job, half)) return;
    const part = worstInWood(job, half, limit, measure);
    if (!(part.value <= worst.value)) worst = { value: part.value, t: (k + part.t) / 2 };
  });
  return worst;
}
