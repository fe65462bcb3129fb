import { cost, type Ground } from './ground.ts';
import { after, before, exchange, isBetween, type Loop } from './loop.ts';

/** Neighbours looked at from a node. */
export const REACH = 8;
/** Less than this is no gain, mm. */
const LEAST = 1e-6;

/** A round being shortened. */
export interface Search {
  readonly ground: Ground;
  readonly near: Int32Array;
  readonly loop: Loop;
  /** Nodes still to be looked at, and whether a node is among them. */
  readonly queue: number[];
  readonly isQueued: Uint8Array;
  readonly cut: Cut;
}

/** The move being tried; one record, filled in again and again. */
interface Cut {
  /** The step taken out, and whether it runs forward. */
  first: number;
  last: number;
  forward: boolean;
  /** What `last` is joined to. */
  joined: number;
  /** Length taken out less length put in. */
  open: number;
}

/** A search on a round, with nothing to be looked at yet. */
export function newSearch(ground: Ground, near: Int32Array, loop: Loop): Search {
  const cut = { first: 0, last: 0, forward: true, joined: 0, open: 0 };
  return { ground, near, loop, queue: [], isQueued: new Uint8Array(ground.count), cut };
}

/** Asks for a node to be looked at. */
export function look(search: Search, node: number): void {
  if (search.isQueued[node] === 1) return;
  search.isQueued[node] = 1;
  search.queue.push(node);
}

/**
 * Shortens the round about the nodes asked for and those touched on the way, until none helps. Gives the
 * length gained. The moves take out two or three steps, each near the last (S. Lin, B. W. Kernighan,
 * Operations Research 21 (1973) 498-516); those that move a stretch of the way elsewhere are among them.
 */
export function improve(search: Search): number {
  const { queue, isQueued, loop } = search;
  let gained = 0;
  for (let k = 0; k < queue.length; k += 1) {
    const node = queue[k] as number;
    isQueued[node] = 0;
    const mark = loop.log.length;
    const gain = improveAt(search, node);
    if (gain === 0) continue;
    gained += gain;
    for (let i = mark; i < loop.log.length; i += 1) look(search, loop.log[i] as number);
  }
  queue.length = 0;
  return gained;
}

function improveAt(search: Search, first: number): number {
  const { loop } = search;
  return (
    improveStep(search, first, after(loop, first), true) ||
    improveStep(search, first, before(loop, first), false)
  );
}

/** Takes the step first-last out and joins last to each node near it in turn. */
function improveStep(search: Search, first: number, last: number, forward: boolean): number {
  const { ground, near, loop, cut } = search;
  const removed = cost(ground, first, last);
  cut.first = first;
  cut.last = last;
  cut.forward = forward;
  for (let k = last * REACH; k < (last + 1) * REACH; k += 1) {
    const joined = near[k] as number;
    if (joined < 0) return 0;
    cut.open = removed - cost(ground, last, joined);
    if (cut.open <= LEAST) return 0;
    if (joined === first) continue;
    cut.joined = joined;
    const inner = forward ? before(loop, joined) : after(loop, joined);
    const outer = forward ? after(loop, joined) : before(loop, joined);
    const gain =
      (inner === last ? 0 : turnStretch(search, inner)) || (outer === first ? 0 : moveStretch(search, outer));
    if (gain > 0) return gain;
  }
  return 0;
}

/** Turns last..freed round, alone or with a second stretch after it. */
function turnStretch(search: Search, freed: number): number {
  const { ground, near, loop } = search;
  const { first, last, joined, forward, open } = search.cut;
  const rest = open + cost(ground, joined, freed);
  const closed = rest - cost(ground, freed, first);
  if (closed > LEAST) {
    exchange(loop, first, last, freed, joined);
    return closed;
  }
  for (let k = freed * REACH; k < (freed + 1) * REACH; k += 1) {
    const second = near[k] as number;
    if (second < 0) return 0;
    const wide = rest - cost(ground, freed, second);
    if (wide <= LEAST) return 0;
    if (second === joined || second === first) continue;
    const isInside = forward ? isBetween(loop, last, second, freed) : isBetween(loop, freed, second, last);
    const other = isInside === forward ? after(loop, second) : before(loop, second);
    const gain = wide + cost(ground, second, other) - cost(ground, other, first);
    if (gain <= LEAST) continue;
    exchange(loop, first, last, freed, joined);
    exchange(loop, first, freed, other, second);
    return gain;
  }
  return 0;
}

/**
 * Joined this way the round falls in two; it is made one again by opening the part last..joined near `freed`.
 * This moves a stretch of the way elsewhere, with or without turning it.
 */
function moveStretch(search: Search, freed: number): number {
  const { ground, near, loop } = search;
  const { last, joined, forward, open } = search.cut;
  const rest = open + cost(ground, joined, freed);
  for (let k = freed * REACH; k < (freed + 1) * REACH; k += 1) {
    const inside = near[k] as number;
    if (inside < 0) return 0;
    const wide = rest - cost(ground, freed, inside);
    if (wide <= LEAST) return 0;
    const isInside = forward ? isBetween(loop, last, inside, joined) : isBetween(loop, joined, inside, last);
    const gain = isInside ? swapped(search, freed, inside, wide) || turned(search, freed, inside, wide) : 0;
    if (gain > 0) return gain;
  }
  return 0;
}

/** last..inside and the rest up to joined change places. */
function swapped(search: Search, freed: number, inside: number, wide: number): number {
  const { ground, loop } = search;
  const { first, last, joined, forward } = search.cut;
  if (inside === joined) return 0;
  const onward = forward ? after(loop, inside) : before(loop, inside);
  const gain = wide + cost(ground, inside, onward) - cost(ground, onward, first);
  if (gain <= LEAST) return 0;
  exchange(loop, first, last, joined, freed);
  exchange(loop, first, joined, onward, inside);
  exchange(loop, joined, inside, last, freed);
  return gain;
}

/** Both parts stay where they are and are turned round. */
function turned(search: Search, freed: number, inside: number, wide: number): number {
  const { ground, loop } = search;
  const { first, last, joined, forward } = search.cut;
  if (inside === last) return 0;
  const back = forward ? before(loop, inside) : after(loop, inside);
  const gain = wide + cost(ground, inside, back) - cost(ground, back, first);
  if (gain <= LEAST) return 0;
  exchange(loop, first, last, back, inside);
  exchange(loop, last, inside, joined, freed);
  return gain;
}
