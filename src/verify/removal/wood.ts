/** Where a tool meets wood: within the stock and below its top. */
import type { Job } from './job.ts';
import { type Piece, partOf, planLength, xAt, yAt, zAt } from './piece.ts';
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
 * is halved, the worse half first, until the parts outside the wood fall away.
 */
export function worstInWood(job: Job, piece: Piece, limit: number, measure: Measure): Found {
  return worstOf(job, piece, limit, measure, measure(piece));
}

function worstOf(job: Job, piece: Piece, limit: number, measure: Measure, whole: Found): Found {
  const length = Math.max(planLength(piece), Math.abs(piece.z1 - piece.z0));
  if (whole.value <= limit || length < SHORTEST || Number.isNaN(whole.value)) return whole;
  const halves = [0, 1].map((k) => {
    const part = partOf(piece, k / 2, (k + 1) / 2);
    return { k, part, found: measure(part) };
  });
  halves.sort((a, b) => b.found.value - a.found.value);
  let worst: Found = { value: Number.NEGATIVE_INFINITY, t: 0 };
  for (const { k, part, found } of halves) {
    if (!touchesWood(job, part)) continue;
    const inner = worstOf(job, part, Math.max(limit, worst.value), measure, found);
    if (!(inner.value <= worst.value)) worst = { value: inner.value, t: (k + inner.t) / 2 };
  }
  return worst;
}
