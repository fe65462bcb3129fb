import { clearanceBetween } from '../clearance.ts';
import type { Vec } from '../types.ts';

/**
 * A stroke as chains of which none touches itself: a beam that crosses its own line would burn the place twice. Together they are
 * the stroke, in its order.
 */
export function simpleChains(stroke: readonly Vec[]): Vec[][] {
  const chains: Vec[][] = [];
  let chain: Vec[] = [];
  for (const point of stroke) {
    const last = chain.at(-1);
    if (last !== undefined && touches(chain, last, point)) {
      chains.push(chain);
      chain = [last];
    }
    chain.push(point);
  }
  return [...chains, chain].filter((c) => c.length > 1);
}

/** Whether a side from the end of a chain to a point meets the chain again. */
function touches(chain: readonly Vec[], last: Vec, point: Vec): boolean {
  const before = chain.slice(0, -1);
  return before.some((from, i) => {
    const to = before[i + 1];
    // The side before is met at the shared point always; it is met elsewhere only when the stroke turns right back.
    if (to === undefined) return turnsBack(from, last, point);
    return clearanceBetween([from, to], [last, point]).distance < 1e-9;
  });
}

function turnsBack(from: Vec, last: Vec, point: Vec): boolean {
  const [ax, ay] = [last[0] - from[0], last[1] - from[1]];
  const [bx, by] = [point[0] - last[0], point[1] - last[1]];
  return Math.abs(ax * by - ay * bx) < 1e-12 && ax * bx + ay * by < 0;
}
