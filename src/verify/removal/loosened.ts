/** Inner before outer: nothing is cut in wood that an earlier cut of the same program has set loose. */
import { at } from './at.ts';
import { finalsOf, lastMotion } from './finals.ts';
import { type Job, NOT_CUTTING } from './job.ts';
import { newPiece, xAt, yAt } from './piece.ts';
import { breach, judgeRule, keep, newRule } from './proof.ts';
import { isInside } from './rings.ts';
import { loadPiece } from './sweep.ts';
import type { SeparateTarget } from './targets.ts';
import { pieceLine, piecePlace } from './where.ts';

interface Loose {
  readonly target: SeparateTarget;
  readonly number: number;
  /** From this motion on what the ring encloses is loose. */
  readonly from: number;
}

/** Writes the check `inner before outer` where a cut separates right through without tabs. */
export function checkLoosened(job: Job): void {
  const loose = looseParts(job);
  if (loose.length === 0) return;
  const rule = newRule('inner before outer', 'no cut inside a part after it was cut loose');
  const piece = newPiece();
  for (let i = 0; i < job.sweep.count; i += 1) {
    const owner = at(job.owner, i);
    if (owner === NOT_CUTTING) continue;
    loadPiece(job.sweep, i, piece);
    const [x, y] = [xAt(piece, 0.5), yAt(piece, 0.5)];
    const off = loose.find(
      (l) => piece.motion > l.from && owner !== l.number && isInside(l.target.ring, x, y),
    );
    if (off === undefined) keep(rule);
    else {
      const found = `a cut inside ${off.target.cut.id}, which was already loose`;
      breach(job.ledger, rule, found, pieceLine(job.sweep, piece), piecePlace(piece, 0.5));
    }
  }
  judgeRule(job.ledger, rule);
}

function looseParts(job: Job): Loose[] {
  return job.targets.flatMap((target, number) =>
    target.kind === 'separate' && target.cut.through && target.cut.tabs.length === 0
      ? [{ target, number, from: lastMotion(finalsOf(job, target)) }]
      : [],
  );
}
