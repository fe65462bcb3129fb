import { ringEngagement } from '../geometry/ringEngagement.ts';
import type { Router, Tool } from '../profile/types.ts';
import { ringLimit } from './fastestFeed.ts';
import { DEEPEST_FINISH } from './outlineFinish.ts';
import { thinningFactor } from './thinning.ts';
import type { FinishRing, RouterOperation } from './types.ts';

/** Left on a bore's wall for its finishing ring, mm (common practice, no source). */
const WIDTH = 0.15;

/** How the finishing rings of a job's bores are fed, judged by the smallest; null when the job bores nothing. */
export function finishRingOf(
  operations: readonly RouterOperation[],
  tool: Tool,
  feed: number,
  router: Router,
): FinishRing | null {
  const limit = ringLimit(operations, tool, router);
  if (limit === null) return null;
  const least = Math.min(...operations.flatMap((o) => (o.kind === 'bore' ? [o.diameter] : [])));
  const thinning = thinningFactor(ringEngagement(least, tool.diameter, WIDTH));
  const wanted = feed * thinning;
  return {
    width: WIDTH,
    thinning,
    feed: Math.floor(Math.min(wanted, limit.feed)),
    boundBy:
      wanted > limit.feed
        ? `limited by ${limit.by}`
        : 'raised until its chips are as thick as those of a full cut',
    deepest: DEEPEST_FINISH * tool.diameter,
  };
}
