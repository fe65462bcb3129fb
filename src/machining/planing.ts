import type { Box } from '../geometry/types.ts';
import type { PlanedTop, SurfaceFeature } from '../parts/types.ts';
import type { Finding } from '../report/finding.ts';
import type { Place, Planned } from './features.ts';
import { chooseFeeds } from './feeds.ts';
import { noTool, type ToolNeed, toolsFor } from './tools.ts';
import type { PlaneSurfaceOperation } from './types.ts';

/** A blank is planed this far past the board's ends, so that cutters of later programs find it level there. */
const PAST_END = 5;
/** Flat land left at each end of the blank: for clamps, and to touch Z off on. */
const LEAST_LAND = 3;
/** Highest step between two level passes (common practice, no source). */
const HIGHEST_STEP = 0.5;
/** Thicker cutters ask more of a small machine than the work is worth (common practice, no source). */
const THICKEST = 12.7;
/** So much of that length is not counted upon: a thin cutter goes less far. Millimetres. */
const LESS = 0.5;
/** What may be left standing, in the text's rounding. Millimetres. */
const LEFT = 0.01;

/** A flat board's blank planed to thickness by one flat cutter, `z` below its top: level passes over the whole width. */
export function planPlaning({ id, box }: SurfaceFeature, z: number, place: Place): Planned {
  const need: ToolNeed = {
    what: `planing the blank of ${place.part.title.toLowerCase()}`,
    kinds: ['flat'],
    least: 1,
    most: THICKEST,
    reach: -z,
    // What it leaves is measured from above, not at a wall.
    noWalls: true,
  };
  const [tool] = toolsFor(need, place.router, place.shop);
  if (tool === undefined) return { findings: [noTool(need, place.router, place.shop)] };
  const findings = landFindings(box, place);
  if (findings.length > 0) return { findings };
  const { setup, part, router } = place;
  const operation: PlaneSurfaceOperation = {
    id,
    feature: id,
    kind: 'plane surface',
    box: {
      x: [box.x[0] - setup.shift[0], box.x[1] - setup.shift[0]],
      y: [box.y[0] - setup.shift[1], box.y[1] - setup.shift[1]],
    },
    z,
    runOut: PAST_END,
    step: Math.min(HIGHEST_STEP, chooseFeeds(tool, part.materialClass, router).stepDown),
  };
  return { work: [{ tool, operations: [operation], stage: { file: '', operation: 'planing', setup } }] };
}

/** The blank's top, in the part frame, once it is planed: nowhere higher. */
export function planedTop({ x }: Box, z: number): PlanedTop {
  const sure = PAST_END - LESS;
  return { kind: 'planed', z: 0, x: [x[0] - sure, x[1] + sure], floor: z + LEFT };
}

function landFindings(box: Box, { part }: Place): Finding[] {
  const end = Math.min(box.x[0] - part.blank.box.x[0], part.blank.box.x[1] - box.x[1]);
  if (end >= PAST_END + LEAST_LAND) return [];
  return [
    {
      code: 'no-land-at-ends',
      severity: 'error',
      where: { source: 'shop', path: 'allowances.ends' },
      text: `Planing clears ${PAST_END} mm past the board’s ends and leaves ${(end - PAST_END).toFixed(2)} mm of the blank’s own top there, too little to clamp and to touch off on.`,
      allowed: `at least ${PAST_END + LEAST_LAND} mm`,
      remedy: 'leave more waste at the ends, or plane the blank by hand (work: in the shop file)',
    },
  ];
}
