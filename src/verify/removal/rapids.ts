/** Rapids: never sideways low down, never down into wood, never with a beam on. */
import type { Job } from './job.ts';
import { newPiece, type Piece } from './piece.ts';
import { breach, judgeRule, keep, newRule, type Rule } from './proof.ts';
import { heightLeft, newPast, type Past, recall } from './stock.ts';
import { highestOf } from './surface.ts';
import { loadPiece } from './sweep.ts';
import { kindOf, speedOf } from './tape.ts';
import { pieceLine, piecePlace } from './where.ts';

/** Heights in the text are rounded by less than this. Millimetres. */
const ROUNDING = 1e-6;
/** Least height of the tip above the highest point of the stock when it moves sideways at rapid. Millimetres. */
const LEAST_AIR = 0.1;

/** Writes the check `rapids` of a cutter's program. */
export function checkRapids(job: Job): void {
  const rapidFloor = floorOf(job);
  const rule = newRule(
    'rapids',
    `no rapid sideways below ${rapidFloor} mm, and none down below it but into a place already cut`,
  );
  const past = newPast();
  const piece = newPiece();
  for (let i = 0; i < job.sweep.count; i += 1) {
    loadPiece(job.sweep, i, piece);
    if (kindOf(job.sweep.tape, piece.motion) !== 'rapid') continue;
    if (job.known?.calm[i] === 1) keep(rule);
    else lookAt(job, rule, past, i, piece);
    if (job.hasty && rule.broken > 0) break;
  }
  judgeRule(job.ledger, rule);
}

/** The floor of the intent is itself held against the stock: never at or below its highest point. */
function floorOf({ intent }: Job): number {
  return Math.max(intent.limits.rapidFloor, highestOf(intent.stock.top) + LEAST_AIR);
}

function lookAt(job: Job, rule: Rule, past: Past, i: number, piece: Piece): void {
  const line = pieceLine(job.sweep, piece);
  const lowest = Math.min(piece.z0, piece.z1);
  const floor = floorOf(job) - ROUNDING;
  const sideways = piece.x0 !== piece.x1 || piece.y0 !== piece.y1;
  // Axes need not arrive together: a rapid in several axes may sink before it has moved aside, so its lowest end counts.
  if (sideways && !(lowest >= floor)) {
    breach(job.ledger, rule, `sideways at z ${lowest.toFixed(3)}`, line, piecePlace(piece, 1));
  } else if (!sideways && piece.z1 < piece.z0 && !(piece.z1 >= floor) && !isCleared(job, past, i, piece)) {
    breach(
      job.ledger,
      rule,
      `down to z ${piece.z1.toFixed(3)} where nothing was cut`,
      line,
      piecePlace(piece, 1),
    );
  } else keep(rule);
}

/** Whether all under the tool was cut away down to where it goes. */
function isCleared(job: Job, past: Past, i: number, piece: Piece): boolean {
  recall(job, past, i, piece, 2 * job.tool.most);
  const { usual, kind } = job.tool;
  const rim = kind === 'drill' ? 0 : 0.95 * usual;
  const looks = kind === 'drill' ? [0] : [0, 1, 2, 3, 4, 5, 6, 7];
  const enough = piece.z1 + ROUNDING;
  const { x0: x, y0: y } = piece;
  if (past.count === 0 || !(heightLeft(job, past, x, y, usual, enough) <= enough)) return false;
  return looks.every((k) => {
    const angle = (k * Math.PI) / 4;
    const height = heightLeft(job, past, x + rim * Math.cos(angle), y + rim * Math.sin(angle), usual, enough);
    return height <= enough;
  });
}

/** Writes the check `beam off in rapids`. */
export function checkBeamRapids(job: Job): void {
  const rule = newRule('beam off in rapids', 'the beam is off in every rapid');
  const piece = newPiece();
  for (let i = 0; i < job.sweep.count; i += 1) {
    loadPiece(job.sweep, i, piece);
    if (kindOf(job.sweep.tape, piece.motion) !== 'rapid') continue;
    const speed = speedOf(job.sweep.tape, piece.motion);
    if (speed !== 0)
      breach(job.ledger, rule, `S ${speed}`, pieceLine(job.sweep, piece), piecePlace(piece, 1));
    else keep(rule);
  }
  judgeRule(job.ledger, rule);
}
