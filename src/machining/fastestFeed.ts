import type { Router, Tool } from '../profile/types.ts';
import type { RouterOperation } from './types.ts';

/** The fastest feed a machine can really give, mm/min, and what holds it to that, as words that follow "limited by". */
export interface FeedLimit {
  readonly feed: number;
  readonly by: string;
}

/** What the machine can feed sideways, or up and down, on a long straight way. */
export function straightLimit(router: Router, way: 'xy' | 'z'): FeedLimit {
  const feed = router.maxFeed[way];
  return { feed, by: `the machine's feed${way === 'z' ? ' up and down' : ''}, ${feed} mm/min` };
}

/**
 * What the machine can feed round the wall of the smallest bore: on a circle of radius r a speed v needs the acceleration
 * v^2 / r (uniform circular motion). Null when nothing is bored.
 */
export function ringLimit(
  operations: readonly RouterOperation[],
  tool: Tool,
  router: Router,
): FeedLimit | null {
  const bores = operations.flatMap((o) => (o.kind === 'bore' ? [o.diameter] : []));
  if (bores.length === 0) return null;
  const radius = (Math.min(...bores) - tool.diameter) / 2;
  const feed = Math.max(1, Math.floor(60 * Math.sqrt(router.acceleration.xy * radius)));
  const straight = straightLimit(router, 'xy');
  return feed < straight.feed
    ? { feed, by: `the machine's acceleration round the smallest bore, ${feed} mm/min` }
    : straight;
}

/** What holds a whole job: its rings, when it does nothing but bore. */
export function jobLimit(operations: readonly RouterOperation[], tool: Tool, router: Router): FeedLimit {
  const rings = operations.every((o) => o.kind === 'bore') ? ringLimit(operations, tool, router) : null;
  return rings ?? straightLimit(router, 'xy');
}
