import type { MaterialClass, Router, Tool } from '../profile/types.ts';
import { chipLoadFor } from './chipLoads.ts';
import { drillFeedsFor } from './drillFeeds.ts';
import { type FeedLimit, jobLimit, straightLimit } from './fastestFeed.ts';
import { finishRingOf } from './finishRing.ts';
import { chooseSpindle, type Spindle } from './spindle.ts';
import { chooseStepDown } from './stepDown.ts';
import type { Feeds, RouterOperation } from './types.ts';
import { wallFinishOf } from './wallFinish.ts';

/** Share of the sideways feed at which a flat cutter may go down (common practice, no source). */
const PLUNGE_SHARE = 0.3;

/**
 * Feeds and speeds for a tool in a material on a machine, mm/min. Feed = rpm x flutes x chip load, within the machine's limits;
 * each choice says in words what bound it. The operations tell whether there are finishing rings to feed.
 */
export function chooseFeeds(
  tool: Tool,
  material: MaterialClass,
  router: Router,
  operations: readonly RouterOperation[] = [],
): Feeds {
  return tool.kind === 'drill'
    ? drillFeeds(tool, material, router)
    : cutterFeeds(tool, material, router, operations);
}

function cutterFeeds(
  tool: Tool,
  material: MaterialClass,
  router: Router,
  operations: readonly RouterOperation[],
): Feeds {
  const table = chipLoadFor(material, tool.diameter);
  const chipLoad = tool.chipLoad ?? table.chipLoad;
  const perTurn = tool.flutes * chipLoad;
  const limit = jobLimit(operations, tool, router);
  const spindle = chooseSpindle(tool, material, router, perTurn, limit);
  const wanted = spindle.rpm * perTurn;
  const feed = whole(Math.min(wanted, limit.feed));
  const chip = feed / (spindle.rpm * tool.flutes);
  const step = chooseStepDown(tool, material, chip);
  const plunge = feed * PLUNGE_SHARE;
  return {
    rpm: spindle.rpm,
    surfaceSpeed: spindle.surfaceSpeed,
    feed,
    plunge: whole(Math.min(plunge, router.maxFeed.z)),
    stepDown: step.stepDown,
    chipLoad,
    chip,
    boundBy: feedBoundBy(spindle, wanted, limit),
    spindleBoundBy: spindle.boundBy,
    plungeBoundBy:
      plunge > router.maxFeed.z
        ? `limited by ${straightLimit(router, 'z').by}`
        : `${PLUNGE_SHARE} of the sideways feed`,
    stepDownBoundBy: step.boundBy,
    source: tool.chipLoad === null ? table.source : 'given for this tool in the shop file',
    bend: step.bend,
    finish: finishRingOf(operations, tool, feed, router),
    wall: wallFinishOf(operations, tool, feed, router),
  };
}

function drillFeeds(tool: Tool, material: MaterialClass, router: Router): Feeds {
  const { perTurn, source, peck, peckBoundBy } = drillFeedsFor(tool, material);
  const limit = straightLimit(router, 'z');
  const spindle = chooseSpindle(tool, material, router, perTurn, limit);
  const wanted = spindle.rpm * perTurn;
  const feed = whole(Math.min(wanted, limit.feed));
  const boundBy = feedBoundBy(spindle, wanted, limit);
  return {
    rpm: spindle.rpm,
    surfaceSpeed: spindle.surfaceSpeed,
    feed,
    plunge: feed,
    stepDown: peck,
    chipLoad: perTurn / tool.flutes,
    chip: feed / (spindle.rpm * tool.flutes),
    boundBy,
    spindleBoundBy: spindle.boundBy,
    plungeBoundBy: boundBy,
    stepDownBoundBy: peckBoundBy,
    source,
    bend: null,
    finish: null,
    wall: null,
  };
}

/** Programs carry whole mm/min; a feed is never rounded to nothing. */
function whole(feed: number): number {
  return Math.max(1, Math.floor(feed));
}

function feedBoundBy(spindle: Spindle, wanted: number, limit: FeedLimit): string {
  if (wanted > limit.feed) return `limited by ${limit.by}; chips are thinner than aimed at`;
  switch (spindle.bound) {
    case 'feed':
      return `limited by ${limit.by}; the spindle is slowed to keep the chip load`;
    case 'fastest':
      return `limited by spindle speed, ${spindle.rpm} rpm`;
    case 'slowest':
      return `the chip load at the slowest spindle speed, ${spindle.rpm} rpm`;
    case 'edge speed':
      return 'limited by the chip load at the wished speed of the edge';
  }
}
