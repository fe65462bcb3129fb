/** A feed that is meant for a shaving off a wall is used for nothing else. */
import { at } from './at.ts';
import { type Job, NOT_CUTTING } from './job.ts';
import { lookDirections } from './looking.ts';
import { newPiece, type Piece, planLength, xAt, yAt, zAt } from './piece.ts';
import { breach, judgeRule, keep, newRule } from './proof.ts';
import { heightLeft, newPast, type Past, recall } from './stock.ts';
import { loadPiece } from './sweep.ts';
import { feedOf } from './tape.ts';
import { pieceLine, piecePlace } from './where.ts';

/** Feeds are written in whole mm/min: half a unit is let pass. */
const FEED_ROUNDING = 0.5;
/** Strips are measured within this: rounding, and the chords of curved walls. Millimetres. */
const WIDTH_SLACK = 0.01;
/** Wood no higher above the tip than this is the rounding of heights. Millimetres. */
const HEIGHT_SLACK = 0.002;
/** Looked at so often along a piece, in radii, and at most so often. */
const LOOK_EVERY = 1;
const MOST_LOOKS = 128;

/** Writes the check `shavings only` where the plan raises a feed for them. */
export function checkShavings(job: Job): void {
  const { shaving } = job.intent.limits;
  if (shaving === undefined) return;
  const rule = newRule(
    'shavings only',
    `faster than ${shaving.above} mm/min only where no more than ${shaving.width.toFixed(2)} mm is taken off a wall`,
  );
  const past = newPast();
  const piece = newPiece();
  for (let i = 0; i < job.sweep.count; i += 1) {
    if (at(job.owner, i) === NOT_CUTTING) continue;
    loadPiece(job.sweep, i, piece);
    const isFast = feedOf(job.sweep.tape, piece.motion) > shaving.above + FEED_ROUNDING;
    // A piece among pieces that were all there before is new to this rule only when it is fed faster.
    if (!isFast || (job.known?.calm[i] === 1 && job.known.noFaster[i] === 1)) {
      keep(rule);
      continue;
    }
    recall(job, past, i, piece, 2 * job.tool.most);
    const t = fullAt(job, past, piece, job.tool.usual - shaving.width - WIDTH_SLACK);
    if (t === null) keep(rule);
    else
      breach(
        job.ledger,
        rule,
        `F ${feedOf(job.sweep.tape, piece.motion)} in a wider cut`,
        pieceLine(job.sweep, piece),
        piecePlace(piece, t),
      );
    if (job.hasty && rule.broken > 0) break;
  }
  judgeRule(job.ledger, rule);
}

/** Where along a piece wood stands in the way of the inner part of the tool, of the given radius; null where nowhere. */
function fullAt(job: Job, past: Past, piece: Piece, inner: number): number | null {
  const looks = Math.max(
    1,
    Math.min(MOST_LOOKS, Math.ceil(planLength(piece) / (LOOK_EVERY * job.tool.usual))),
  );
  for (let k = 0; k <= looks; k += 1) {
    const t = k / looks;
    const [x, y, z] = [xAt(piece, t), yAt(piece, t), zAt(piece, t)];
    const isFull = lookDirections(piece, t).some(([ux, uy]) => {
      const [px, py] = [x + ux * inner, y + uy * inner];
      return heightLeft(job, past, px, py, job.tool.usual, z + HEIGHT_SLACK) > z + HEIGHT_SLACK;
    });
    if (isFull) return t;
  }
  return null;
}
