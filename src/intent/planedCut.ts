import { rectangle } from '../geometry/ring.ts';
import type { Box } from '../geometry/types.ts';
import type { PlaneSurfaceOperation, RouterJob } from '../machining/types.ts';
import type { IntentCut, IntentRing } from './types.ts';

/** A tenth of what a bench works to in the board's thickness. Millimetres. */
export const PLANED_DEEP = 0.01;

/** Of planing: the board's box down to the plane, the waste past its ends and the air beside the blank besides. */
export function planedCut(
  { box, runOut, z }: PlaneSurfaceOperation,
  { tool }: RouterJob,
): Pick<IntentCut, 'kind' | 'region' | 'floor' | 'mayCut' | 'tolerance'> {
  const aside = 2 * tool.diameter + 2;
  const around: Box = {
    x: [box.x[0] - runOut, box.x[1] + runOut],
    y: [box.y[0] - aside, box.y[1] + aside],
  };
  return {
    kind: 'surface',
    region: [pointsOf(box)],
    floor: { kind: 'plane', z },
    mayCut: {
      region: [pointsOf(around)],
      why: 'passes end in the waste past the board and come in from beside the blank',
    },
    tolerance: {
      position: 0.002,
      wallOver: 0.01,
      wallUnder: 0.01,
      floorDeep: PLANED_DEEP,
      floorShallow: PLANED_DEEP,
      cusp: null,
    },
  };
}

function pointsOf(box: Box): IntentRing {
  return rectangle(box).map((v) => [v.x, v.y] as const);
}
