/** The parts of the path that run at full depth: what is left is what they do not reach. */
import { at } from './at.ts';
import { cuttersNear } from './cutting.ts';
import { floorOf } from './depth.ts';
import type { Job } from './job.ts';
import { type Piece, partOf, planLength, xAt, yAt, zAt } from './piece.ts';
import { highestUnderDisc } from './surface.ts';
import { copyPiece } from './sweep.ts';
import type { Target } from './targets.ts';

/** Arithmetic only: a floor that may be no shallower than meant is met within this. Millimetres. */
export const EXACT = 1e-6;

/** On a curved floor the plan counts as cleared at this much too little depth; the depth itself is judged by `floor shallow`. */
const CURVED_SLACK = 0.01;

/** Full-depth parts of all pieces near a target, in the order they are run. */
export function finalsOf(job: Job, target: Target): Piece[] {
  // A beam takes nothing away by passing near; what a cutter clears is cleared whichever cut it works on.
  return job.tool.kind === 'beam' ? ownFinalsOf(job, target) : finalsAmong(job, target, nearOf(job, target));
}

/** The same of the pieces that work on the target itself: slanted slots lie in one another's boxes. */
export function ownFinalsOf(job: Job, target: Target): Piece[] {
  const number = job.targets.indexOf(target);
  return finalsAmong(
    job,
    target,
    nearOf(job, target).filter((i) => job.owner[i] === number),
  );
}

const nearOf = (job: Job, target: Target): number[] => cuttersNear(job, target.box, 2 * job.tool.most);

const finalsAmong = (job: Job, target: Target, pieces: readonly number[]): Piece[] =>
  pieces.flatMap((i) => finalParts(job, target, copyPiece(job.sweep, i)));

function finalParts(job: Job, target: Target, piece: Piece): Piece[] {
  if (job.tool.kind === 'beam') return [piece];
  const floor = floorOf(job, target);
  const { floorShallow } = target.cut.tolerance;
  const allowed = target.cut.through ? 0 : floorShallow;
  if (floor.kind === 'plane') return belowPlane(piece, floor.z + allowed + EXACT - job.tool.tip);
  const slack = allowed + CURVED_SLACK;
  const steps = Math.max(2, Math.ceil(planLength(piece)));
  for (let k = 0; k <= steps; k += 1) {
    const t = k / steps;
    const deepEnough = highestUnderDisc(floor, xAt(piece, t), yAt(piece, t), job.tool.most) + slack;
    if (!(zAt(piece, t) + job.tool.tip <= deepEnough)) return [];
  }
  return [piece];
}

/** The part of a piece whose tip is at or below a height. */
export function belowPlane(piece: Piece, z: number): Piece[] {
  const [first, last] = [piece.z0 <= z, piece.z1 <= z];
  if (first && last) return [piece];
  if ((!first && !last) || piece.upright) return [];
  const t = (z - piece.z0) / (piece.z1 - piece.z0);
  return [first ? partOf(piece, 0, t) : partOf(piece, t, 1)];
}

/** The last of them; they are in order. */
export function lastMotion(finals: readonly Piece[]): number {
  return finals.length === 0 ? -1 : at(finals, finals.length - 1).motion;
}
