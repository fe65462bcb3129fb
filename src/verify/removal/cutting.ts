/** Which pieces of the path take material away. */
import { type Job, NOT_CUTTING, NOWHERE } from './job.ts';
import { newPiece, type Piece } from './piece.ts';
import type { Box } from './prim.ts';
import { copyPiece, loadPiece, piecesNear } from './sweep.ts';
import { kindOf, speedOf } from './tape.ts';
import { touchesWood } from './wood.ts';

/** Fills `job.cutting`, and `job.owner` as far as it is known without looking at any cut. */
export function markCutting(job: Job): void {
  const piece = newPiece();
  for (let i = 0; i < job.sweep.count; i += 1) {
    const cuts = takesAway(job, loadPiece(job.sweep, i, piece));
    job.cutting[i] = cuts ? 1 : 0;
    job.owner[i] = cuts ? NOWHERE : NOT_CUTTING;
  }
}

/** A feed in wood, or a beam that burns. Rapids are looked at elsewhere. */
function takesAway(job: Job, piece: Piece): boolean {
  if (kindOf(job.sweep.tape, piece.motion) === 'rapid') return false;
  return job.tool.kind === 'beam' ? speedOf(job.sweep.tape, piece.motion) > 0 : touchesWood(job, piece);
}

/** Numbers of the pieces that take material away within `gap` of a box, in the order they are run. */
export function cuttersNear(job: Job, box: Box, gap: number): number[] {
  return piecesNear(job.sweep, box, gap).filter((i) => job.cutting[i] === 1);
}

/** Copies of the same pieces. */
export function cuttingNear(job: Job, box: Box, gap: number): Piece[] {
  return cuttersNear(job, box, gap).map((i) => copyPiece(job.sweep, i));
}
