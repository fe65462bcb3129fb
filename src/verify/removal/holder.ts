/** What is wider than the tool and turns with it: shank and collet nut, above the wood or in what was cut away. */
import type { Intent } from '../../intent/types.ts';
import { at } from './at.ts';
import { type Job, NOT_CUTTING } from './job.ts';
import { newPiece, type Piece, planLength, xAt, yAt, zAt } from './piece.ts';
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
import { heightLeft, newPast, type Past, recall } from './stock.ts';
import { highestOf, highestUnderDisc } from './surface.ts';
import { loadPiece } from './sweep.ts';
import { pieceLine, piecePlace } from './where.ts';

/** Lengths in the text are rounded by less than this. Millimetres. */
const ROUNDING = 1e-6;
/** Looked at most so often along one piece. */
const MOST_LOOKS = 64;
/** Least looks round one ring. */
const LEAST_LOOKS = 8;

/** A round part of what turns, from its own height above the tip upward. Millimetres. */
export interface RoundPart {
  readonly name: string;
  readonly radius: number;
  readonly from: number;
}

/** Shank and collet nut, as far as the intent states them. */
export function partsAbove({ shank, holder }: Intent['tool']): RoundPart[] {
  const round = (name: string, part: { diameter: number; from: number }): RoundPart => ({
    name,
    radius: part.diameter / 2,
    from: part.from,
  });
  return [
    ...(shank === null ? [] : [round('shank', shank)]),
    ...holder.map((part) => round('collet nut', part)),
  ];
}

/** Writes `cutting length` and, where a shank or holder is wider than the tool, `shank and holder clear`. */
export function checkReach(job: Job): void {
  const { tool } = job.intent;
  const deep = newWorst();
  const parts = partsAbove(tool).filter((part) => part.radius > job.tool.most);
  const rubs = newRule(
    'shank and holder clear',
    'shank and collet nut stay above the wood or in what was cut away',
  );
  const past = newPast();
  const piece = newPiece();
  for (let i = 0; i < job.sweep.count; i += 1) {
    const cuts = at(job.owner, i) !== NOT_CUTTING;
    if (job.known?.calm[i] === 1) {
      if (cuts) {
        spare(deep);
        keep(rubs);
      }
      continue;
    }
    loadPiece(job.sweep, i, piece);
    if (cuts) noteDepth(job, piece, deep);
    for (const part of parts) if (isClear(job, rubs, past, i, piece, part) && cuts) keep(rubs);
    if (job.hasty && rubs.broken > 0) break;
  }
  judge(job.ledger, 'cutting length', deep, tool.cutLength + ROUNDING);
  if (parts.length > 0) judgeRule(job.ledger, rubs);
}

function noteDepth(job: Job, piece: Piece, deep: Worst): void {
  const t = piece.z0 < piece.z1 ? 0 : 1;
  const top = highestUnderDisc(job.intent.stock.top, xAt(piece, t), yAt(piece, t), job.tool.most);
  note(deep, top - zAt(piece, t) - job.tool.tip, piecePlace(piece, t), pieceLine(job.sweep, piece));
}

/** A part that stays above the highest wood, or beside all of it, meets none; else it is looked at all along the piece. */
function isClear(job: Job, rubs: Rule, past: Past, i: number, piece: Piece, part: RoundPart): boolean {
  const top = highestOf(job.intent.stock.top);
  if (Math.min(piece.z0, piece.z1) + part.from >= top - ROUNDING) return true;
  if (!boxesNear(boxOf(piece), job.stock.box, part.radius)) return true;
  recall(job, past, i + 1, piece, 2 * part.radius);
  const looks = Math.min(MOST_LOOKS, Math.ceil(planLength(piece) / apartIn(job, part)));
  const low = piece.z0 < piece.z1 ? 0 : 1;
  const places = [low, ...Array.from({ length: looks }, (_, k) => Math.abs(low - (k + 1) / looks))];
  const t = places.find((place) => touches(job, past, piece, place, part));
  if (t === undefined) return true;
  const down = top - zAt(piece, t) - part.from;
  const found = `the ${part.name}, ${2 * part.radius} mm wide, ${down.toFixed(2)} mm below the top and in wood`;
  breach(job.ledger, rubs, found, pieceLine(job.sweep, piece), piecePlace(piece, t));
  return false;
}

/** Between looks: a quarter of the part's radius, or the tool's own where that is more. */
function apartIn({ tool }: Job, { radius }: RoundPart): number {
  return Math.max(tool.most, radius / 4);
}

/**
 * Whether wood stands under a part where it starts, from its rim in to the tool itself: on rings, and at places on them, a quarter
 * of its radius apart. Wood that stands up thinner than that between two looks is not seen.
 */
function touches(job: Job, past: Past, piece: Piece, t: number, part: RoundPart): boolean {
  const { most, usual } = job.tool;
  const { radius, from } = part;
  const apart = apartIn(job, part);
  const [x, y] = [xAt(piece, t), yAt(piece, t)];
  const z = zAt(piece, t) + from + ROUNDING;
  const rings = Math.max(1, Math.ceil((radius - most) / apart));
  return Array.from({ length: rings }, (_, k) => radius - ((radius - most) * k) / rings).some((r) => {
    const count = Math.max(LEAST_LOOKS, Math.ceil((2 * Math.PI * r) / apart));
    return Array.from({ length: count }, (_, k) => (2 * Math.PI * k) / count).some((angle) => {
      const [px, py] = [x + r * Math.cos(angle), y + r * Math.sin(angle)];
      return heightLeft(job, past, px, py, usual, z) > z;
    });
  });
}
