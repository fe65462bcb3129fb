/**
 * What each cutting move takes at its own moment: how deep it bites into what earlier moves left.
 *
 * A deleted pass or a doubled depth shows here even if the final shape is right. Looked at under the tool's centre and at
 * 0.7 of its radius ahead, to both sides and between: a shaving narrower than 15 % of the diameter (a finishing pass) may be deep
 * (common practice, no source). Plunges one below the other count as one: a peck is a new one only once the drill has left its
 * hole.
 */
import { at } from './at.ts';
import { type Descent, goAlong, goDown, leave, newDescent } from './descent.ts';
import { type Job, NOT_CUTTING } from './job.ts';
import { lookDirections } from './looking.ts';
import { newPiece, type Piece, planLength, steepness, xAt, yAt, zAt } from './piece.ts';
import {
  breach,
  judge,
  judgeRule,
  keep,
  newRule,
  newWorst,
  note,
  type Rule,
  spare,
  type Worst,
} from './proof.ts';
import { heightLeft, newPast, type Past, recall } from './stock.ts';
import { loadPiece } from './sweep.ts';
import { pieceLine, piecePlace } from './where.ts';

/** A bite may exceed its limit by this: the rounding of heights. Millimetres. */
const BITE_SLACK = 0.001;
/** Share of the radius at which the sides are looked at. */
const RIM = 0.7;
/** Looked at so often along a piece, in radii; what stands out between two looks is no longer than the tool is wide. */
const LOOK_EVERY = 2;
/** Looked at most so often along one piece. */
const MOST_LOOKS = 64;
/** Going down steeper than this (share of the way) is a plunge; a flat cutter may not plunge deeper than PLUNGE. */
const STEEP = Math.SQRT1_2;
const PLUNGE = 0.05;

/** Writes the checks `bite` and, for a flat cutter, `ramped entry`. */
export function checkEngagement(job: Job): void {
  // What each pass over a surface takes is read off a height field: see field/checkSurface.ts.
  if (job.targets.some((target) => target.kind === 'surface')) return;
  const worst = newWorst();
  const limit = job.intent.limits.stepDown + BITE_SLACK;
  const ramped = newRule(
    'ramped entry',
    `a flat cutter goes straight down into wood by no more than ${PLUNGE} mm; deeper only on a ramp or helix`,
  );
  const past = newPast();
  const piece = newPiece();
  const descent = newDescent();
  for (let i = 0; i < job.sweep.count; i += 1) {
    loadPiece(job.sweep, i, piece);
    if (at(job.owner, i) === NOT_CUTTING) {
      leave(job, descent, piece.x1, piece.y1, piece.z1);
      continue;
    }
    if (job.known?.calm[i] === 1) {
      spare(worst);
      keep(ramped);
      continue;
    }
    recall(job, past, i, piece, 2 * job.tool.most);
    const line = pieceLine(job.sweep, piece);
    const deepest = lookAlong(job, past, piece, worst, line);
    const plunge = plungeTo(job, descent, piece, deepest);
    note(worst, plunge, piecePlace(piece, 1), line);
    if (job.tool.kind === 'flat') checkPlunge(job, ramped, piece, plunge, line);
    if (job.hasty && (!(worst.value <= limit) || ramped.broken > 0)) break;
  }
  judge(job.ledger, 'bite', worst, limit);
  if (job.tool.kind === 'flat') judgeRule(job.ledger, ramped);
}

/** Depth of the plunge that the piece belongs to; 0 when it goes down gently, level or up. */
function plungeTo(job: Job, descent: Descent, piece: Piece, bite: number): number {
  if (piece.z1 < piece.z0 && steepness(piece) > STEEP) return goDown(job, descent, piece, bite);
  goAlong(job, descent, piece);
  return 0;
}

function checkPlunge(job: Job, rule: Rule, piece: Piece, depth: number, line: number): void {
  if (!(depth <= PLUNGE))
    breach(job.ledger, rule, `${depth.toFixed(3)} mm straight down`, line, piecePlace(piece, 1));
  else keep(rule);
}

/** Notes the bites along a piece; gives the deepest of those steep pieces are judged by. */
function lookAlong(job: Job, past: Past, piece: Piece, worst: Worst, line: number): number {
  const length = planLength(piece);
  const looks = Math.max(1, Math.min(MOST_LOOKS, Math.ceil(length / (LOOK_EVERY * job.tool.usual))));
  const steep = steepness(piece) > STEEP;
  let deepest = 0;
  for (let k = length === 0 ? looks : 0; k <= looks; k += 1) {
    const t = k / looks;
    const least = steep ? 0 : worst.value;
    const bite = biteAt(job, past, piece, t, least);
    note(worst, bite, piecePlace(piece, t), line);
    deepest = Math.max(deepest, bite);
  }
  return deepest;
}

/** Deepest bite under the tool at `t`; bites below `least` are not told apart. */
function biteAt(job: Job, past: Past, piece: Piece, t: number, least: number): number {
  const [x, y, z] = [xAt(piece, t), yAt(piece, t), zAt(piece, t)];
  const { usual } = job.tool;
  let bite = heightLeft(job, past, x, y, usual, z + least) - z;
  if (job.tool.kind === 'drill') return bite;
  for (const [ux, uy] of lookDirections(piece, t)) {
    const height = heightLeft(
      job,
      past,
      x + ux * RIM * usual,
      y + uy * RIM * usual,
      usual,
      z + Math.max(least, bite),
    );
    bite = Math.max(bite, height - z);
  }
  return bite;
}
