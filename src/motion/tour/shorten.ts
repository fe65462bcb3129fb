import { cost, END, type Ground, nearNodes, START } from './ground.ts';
import { improve, look, newSearch, REACH, type Search } from './improve.ts';
import { after, exchange, loopOf, undoTo } from './loop.ts';

/**
 * Kicks: so many, and so many more a node, up to a most, so that the time is bound by the work and not by a
 * clock.
 */
const KICKS = 200;
const KICKS_PER_NODE = 40;
const MOST_KICKS = 60_000;
/** Longest of the two stretches that a kick swaps, nodes. */
const KICK_STRETCH = 30;
const SEED = 20_260_611;

/**
 * A short way from START over all nodes: nearest next, shortened; then kicked in one place, shortened there
 * again, and the kick undone when the way grew, again and again. The same ground gives the same way. Order of
 * the nodes, without START and END.
 */
export function shortOrder(ground: Ground): number[] {
  const search = newSearch(ground, nearNodes(ground, REACH), loopOf(nearestNext(ground)));
  for (let node = 0; node < ground.count; node += 1) look(search, node);
  improve(search);
  if (ground.count > 5) kickAround(search);
  return fromStart(search);
}

function nearestNext(ground: Ground): number[] {
  const left = new Set(Array.from({ length: ground.count - 2 }, (_, i) => i + 2));
  const order = [END, START];
  let here = START;
  while (left.size > 0) {
    let next = ground.tied[here] as number;
    if (!left.has(next)) next = nearestOf(ground, here, left);
    order.push(next);
    left.delete(next);
    here = next;
  }
  return order;
}

function nearestOf(ground: Ground, here: number, left: ReadonlySet<number>): number {
  let best = -1;
  let least = Number.POSITIVE_INFINITY;
  for (const node of left) {
    const gap = cost(ground, here, node);
    if (gap >= least) continue;
    least = gap;
    best = node;
  }
  return best;
}

function kickAround(search: Search): void {
  const { loop, ground } = search;
  const random = randomFrom(SEED);
  const kicks = Math.min(MOST_KICKS, KICKS + KICKS_PER_NODE * ground.count);
  for (let k = 0; k < kicks; k += 1) {
    loop.log.length = 0;
    const lost = kick(search, random);
    if (lost === null) continue;
    const gained = improve(search);
    if (gained < lost - 1e-9) undoTo(loop, 0);
  }
}

/**
 * Swaps two short stretches that follow each other. Gives the length lost, or null when a tie would have been
 * cut.
 */
function kick(search: Search, random: (below: number) => number): number | null {
  const { loop, ground } = search;
  const count = ground.count;
  const stretch = Math.min(KICK_STRETCH, Math.floor((count - 2) / 2));
  const place = random(count);
  const at = (offset: number): number => loop.nodes[(place + offset) % count] as number;
  const one = 1 + random(stretch);
  const two = one + 1 + random(stretch);
  const [a, b, c, d, e, f] = [at(0), at(1), at(one), at(one + 1), at(two), at(two + 1)];
  const cut = [cost(ground, a, b), cost(ground, c, d), cost(ground, e, f)] as const;
  if (cut.some((length) => length < 0)) return null;
  exchange(loop, a, b, e, f);
  exchange(loop, a, e, d, c);
  exchange(loop, e, c, b, f);
  for (const node of [a, b, c, d, e, f]) look(search, node);
  return cost(ground, a, d) + cost(ground, e, b) + cost(ground, c, f) - cut[0] - cut[1] - cut[2];
}

function fromStart({ loop, ground }: Search): number[] {
  const forward = after(loop, END) === START;
  const place = loop.places[START] as number;
  const order = Array.from({ length: ground.count }, (_, i) => {
    const k = forward ? place + i : place - i + ground.count;
    return loop.nodes[k % ground.count] as number;
  });
  return order.slice(1, -1);
}

/**
 * Whole numbers from 0 to below a bound, always the same ones. Xorshift, G. Marsaglia, J. Stat. Softw. 8(14),
 * 2003.
 */
function randomFrom(seed: number): (below: number) => number {
  let state = seed;
  return (below) => {
    state ^= state << 13;
    state ^= state >>> 17;
    state ^= state << 5;
    return (state >>> 0) % below;
  };
}
