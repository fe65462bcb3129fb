import { type Area, isInArea } from '../../geometry/area.ts';
import { areaOf, grown } from '../../geometry/kernel/area.ts';
import type { Vec } from '../../geometry/types.ts';
import type { PocketOperation, RouterJob } from '../../machining/types.ts';
import { isFree } from './free.ts';

/** The rim may be over a wall by this share of the radius: finishing passes touch walls, their text is rounded. */
const RIM = 0.97;

/** Whether a rapid from one place of the centre to another stays over what a pocket clears. */
export type LowWay = (from: Vec, to: Vec) => boolean;

/**
 * Tells where rapids may be lower than the travel height: nothing stands or is clamped where the pocket is cleared, but on an
 * island, or beyond a wall, it may. Where the axes need not arrive together, the whole box between both places counts.
 */
export function lowWays({ around, region }: PocketOperation, { machine, tool }: RouterJob): LowWay {
  const area = grown(areaOf(around ?? region), (-RIM * tool.diameter) / 2);
  return machine.controller.straightRapids
    ? (from, to) => isFree(area, from, to)
    : (from, to) => isBoxFree(area, from, to);
}

function isBoxFree(area: Area, from: Vec, to: Vec): boolean {
  const corners: Vec[] = [from, [to[0], from[1]], to, [from[0], to[1]]];
  const sides = corners.every((corner, i) => isFree(area, corner, corners[(i + 1) % 4] ?? corner));
  return sides && !area.flat().some((p) => isInArea([corners], p));
}
