/** How deep a tool goes against a floor, judged over its whole end and not at its centre alone. */
import type { Surface } from '../../intent/types.ts';
import type { Job } from './job.ts';
import { type Piece, planLength, xAt, yAt, zAt } from './piece.ts';
import { ballDepth, highestUnderDisc, leastRadius } from './surface.ts';
import type { Target } from './targets.ts';
import type { Found } from './wood.ts';

/** Between two samples on a curved floor the figure is off by at most this; it is added. Millimetres. */
const SAMPLING = 0.0005;

/** Floor that must be reached everywhere: the stated one, or for a through cut the stock's bottom. */
export function floorOf(job: Job, target: Target): Surface {
  return target.cut.through ? { kind: 'plane', z: job.intent.stock.bottom } : target.cut.floor;
}

/** What "too deep" is measured from: the floor, or for a through cut the least height allowed to the tip. */
export function deepLimit(target: Target): number {
  return target.cut.through ? 0 : target.cut.tolerance.floorDeep;
}

/** Deepest the full diameter of the tool goes below the floor along a piece (mm, positive = too deep). */
export function depthBelow(job: Job, target: Target, piece: Piece): Found {
  if (job.tool.kind === 'beam') return { value: 0, t: 0 };
  if (target.cut.through)
    return { value: job.intent.limits.zMin - Math.min(piece.z0, piece.z1), t: lowEnd(piece) };
  const { floor } = target.cut;
  if (floor.kind === 'plane') {
    return { value: floor.z - Math.min(piece.z0, piece.z1) - job.tool.tip, t: lowEnd(piece) };
  }
  return sampledDepth(job, floor, piece);
}

function lowEnd(piece: Piece): number {
  return piece.z0 < piece.z1 ? 0 : 1;
}

function depthAt(job: Job, floor: Surface, piece: Piece, t: number): number {
  const [x, y, z] = [xAt(piece, t), yAt(piece, t), zAt(piece, t)];
  if (job.tool.kind === 'ball') return ballDepth(floor, x, y, z, job.tool.most);
  return highestUnderDisc(floor, x, y, job.tool.most) - z - job.tool.tip;
}

function sampledDepth(job: Job, floor: Surface, piece: Piece): Found {
  const longest = Math.sqrt(8 * leastRadius(floor) * (SAMPLING / 2));
  const steps = Math.max(1, Math.min(2000, Math.ceil(planLength(piece) / longest)));
  let worst: Found = { value: Number.NEGATIVE_INFINITY, t: 0 };
  for (let k = 0; k <= steps; k += 1) {
    const t = k / steps;
    const value = depthAt(job, floor, piece, t) + SAMPLING;
    if (!(value <= worst.value)) worst = { value, t };
  }
  return worst;
}
