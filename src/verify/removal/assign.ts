/** Finds by geometry alone which cut each piece of the path works on, and how far it errs there. */
import { at } from './at.ts';
import { deepLimit, depthBelow } from './depth.ts';
import { type Job, NOT_CUTTING, NOWHERE, UNKNOWN } from './job.ts';
import { newPiece, type Piece } from './piece.ts';
import { boxesNear, boxOf } from './prim.ts';
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
import { loadPiece } from './sweep.ts';
import type { Target } from './targets.ts';
import { blendOf } from './tool.ts';
import { overcut } from './walls.ts';
import { pieceLine, piecePlace } from './where.ts';
import { type Found, worstInWood } from './wood.ts';

interface Fit {
  readonly target: number;
  readonly over: Found;
  readonly deep: Found;
  /** How far beyond its limits, worst of both; 0 or less is good. */
  readonly excess: number;
}

/** What has been found of each target so far. */
interface Marks {
  readonly over: readonly Worst[];
  readonly deep: readonly Worst[];
  readonly meant: Rule;
  /** The target of the piece before. */
  last: number;
}

/** Fills `job.owner` and writes the checks `wall overcut` and `floor deep` of every cut and `cuts where meant`. */
export function assignPieces(job: Job): void {
  const marks: Marks = {
    over: job.targets.map(newWorst),
    deep: job.targets.map(newWorst),
    meant: newRule(
      'cuts where meant',
      'wood is cut only inside the region, or along the ring or line, of a cut',
    ),
    last: 0,
  };
  const piece = newPiece();
  let brokeOff = false;
  for (let i = 0; i < job.sweep.count && !brokeOff; i += 1) {
    if (at(job.owner, i) === NOT_CUTTING) continue;
    const isGood = assignOne(job, marks, i, piece);
    brokeOff = job.hasty && !isGood;
  }
  judgeRule(job.ledger, marks.meant);
  job.targets.forEach((target, k) => {
    // What has not been looked at yet speaks neither for nor against the program.
    if (brokeOff && at(marks.over, k).seen === 0) return;
    judge(job.ledger, 'wall overcut', at(marks.over, k), wallLimit(target), target.cut.id);
    if (job.tool.kind !== 'beam')
      judge(job.ledger, 'floor deep', at(marks.deep, k), deepLimit(target), target.cut.id);
  });
}

/** Gives whether the piece is good. */
function assignOne(job: Job, marks: Marks, i: number, piece: Piece): boolean {
  const before = job.known?.owner[i] ?? UNKNOWN;
  if (before >= 0) {
    marks.last = before;
    job.owner[i] = before;
    keep(marks.meant);
    spare(at(marks.over, before));
    spare(at(marks.deep, before));
    return true;
  }
  loadPiece(job.sweep, i, piece);
  const fit = bestFit(job, piece, marks.last);
  job.owner[i] = fit?.target ?? NOWHERE;
  if (fit === null) {
    const line = pieceLine(job.sweep, piece);
    breach(job.ledger, marks.meant, 'a cut in wood where none is meant', line, piecePlace(piece, 1));
    return false;
  }
  keep(marks.meant);
  marks.last = fit.target;
  noteFit(job, piece, fit, at(marks.over, fit.target), at(marks.deep, fit.target));
  return fit.excess <= 0;
}

function noteFit(job: Job, piece: Piece, fit: Fit, over: Worst, deep: Worst): void {
  const line = pieceLine(job.sweep, piece);
  note(over, fit.over.value + job.sweep.bound, piecePlace(piece, fit.over.t), line);
  note(deep, fit.deep.value + blendOf(job.intent), piecePlace(piece, fit.deep.t), line);
}

/** The cut that the piece suits best; the one before it is tried first. Null when it has nothing to do with any. */
function bestFit(job: Job, piece: Piece, last: number): Fit | null {
  const box = boxOf(piece);
  let best: Fit | null = null;
  for (let k = 0; k < job.targets.length; k += 1) {
    const number = (last + k) % job.targets.length;
    const target = at(job.targets, number);
    if (!boxesNear(box, target.box, 2 * job.tool.most)) continue;
    const fit = fitOf(job, target, number, piece);
    if (fit.excess <= 0) return fit;
    if (best === null || fit.excess < best.excess) best = fit;
  }
  return best !== null && best.over.value < 2 * job.tool.most ? best : null;
}

function fitOf(job: Job, target: Target, number: number, piece: Piece): Fit {
  const wall = wallLimit(target);
  const floor = deepLimit(target);
  const over = worstInWood(job, piece, wall, (p) => overcut(job, target, p));
  const deep = worstInWood(job, piece, floor, (p) => depthBelow(job, target, p));
  const excess = Math.max(over.value - wall, deep.value - floor);
  return { target: number, over, deep, excess: Number.isNaN(excess) ? Number.POSITIVE_INFINITY : excess };
}

function wallLimit(target: Target): number {
  const { wallOver, position } = target.cut.tolerance;
  return target.kind === 'line' ? position : wallOver;
}
