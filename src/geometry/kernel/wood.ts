import type { Area } from '../area.ts';
import { engagementAt } from '../engagement.ts';
import { type Nearness, nearnessTo } from '../nearness.ts';
import type { Vec } from '../types.ts';
import { distance, subtract, unit } from '../vec.ts';

/** What is known of the wood once the cutter's centre has been in an area. */
export interface Wood {
  /** No farther than a step from where the centre has been: straight ways are known to be good there. */
  readonly isNext: Nearness;
  /** Cut away. */
  readonly isCleared: Nearness;
}

export interface Bound {
  /** Of the cutter. */
  readonly radius: number;
  /** Between laps. */
  readonly step: number;
  /** Most of the cutter's front half that may meet wood, radians. */
  readonly engagement: number;
}

/** A way one step out may be off by this much besides. Share of the step; mm. */
const ONE_STEP = { share: 1.02, more: 0.02 };

/** The wood that is left once the centre has been everywhere in `been`. */
export function woodAfter(been: Area, { radius, step }: Bound): Wood {
  return {
    isNext: nearnessTo(been, step * ONE_STEP.share + ONE_STEP.more),
    isCleared: nearnessTo(been, radius),
  };
}

/** Whether the cutter meets more wood than is allowed at a point of its way, coming from the point before. */
export function isBuriedAt(at: Vec, before: Vec, wood: Wood, { radius, engagement }: Bound): boolean {
  if (distance(before, at) < 1e-9 || wood.isNext(at)) return false;
  return engagementAt(at, unit(subtract(at, before)), radius, wood.isCleared) > engagement;
}
