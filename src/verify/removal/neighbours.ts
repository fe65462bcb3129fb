/** Parts cut from one panel: the cut round one may not touch the next. */
import { at } from './at.ts';
import { type Job, NOT_CUTTING } from './job.ts';
import { newPiece } from './piece.ts';
import { boxesNear, boxOf } from './prim.ts';
import { judge, newWorst, note, spare, type Worst } from './proof.ts';
import { isInside } from './rings.ts';
import { loadPiece } from './sweep.ts';
import type { SeparateTarget } from './targets.ts';
import { intoPart } from './walls.ts';
import { pieceLine, piecePlace } from './where.ts';
import { worstInWood } from './wood.ts';

/** Farther than this is not measured. Millimetres. */
const FAR = 1000;

/** Writes the check `next part untouched` of every part that shares its program with others. */
export function checkNeighbours(job: Job): void {
  const parts = job.targets.flatMap((target, number) =>
    target.kind === 'separate' && target.keepsInside ? [{ target, number }] : [],
  );
  if (parts.length < 2) return;
  const apart = parts
    .map(({ target, number }) => ({
      target,
      others: new Set(
        parts.filter((p) => p.number !== number && !isWithin(p.target, target)).map((p) => p.number),
      ),
      worst: newWorst(),
    }))
    .filter(({ others }) => others.size > 0);
  const piece = newPiece();
  for (let i = 0; i < job.sweep.count; i += 1) {
    const owner = at(job.owner, i);
    if (owner === NOT_CUTTING) continue;
    for (const { target, others, worst } of apart) {
      if (!others.has(owner)) continue;
      if (job.known?.calm[i] === 1) spare(worst);
      else lookAt(job, i, target, worst, piece);
    }
  }
  for (const { target, worst } of apart)
    judge(job.ledger, 'next part untouched', worst, target.cut.tolerance.wallOver, target.cut.id);
}

function lookAt(
  job: Job,
  i: number,
  target: SeparateTarget,
  worst: Worst,
  piece: ReturnType<typeof newPiece>,
): void {
  loadPiece(job.sweep, i, piece);
  if (!boxesNear(boxOf(piece), target.box, 2 * job.tool.most)) {
    note(worst, -FAR, null, 0);
    return;
  }
  const found = worstInWood(job, piece, target.cut.tolerance.wallOver, (p) => intoPart(job, target, p));
  note(worst, found.value + job.sweep.bound, piecePlace(piece, found.t), pieceLine(job.sweep, piece));
}

/** A part that lies inside another with all its corners is cut out of it. */
function isWithin(inner: SeparateTarget, outer: SeparateTarget): boolean {
  return inner.ring.edges.every((e) => isInside(outer.ring, e.x0, e.y0));
}
