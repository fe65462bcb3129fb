import type { Vec } from '../geometry/types.ts';
import { distance } from '../geometry/vec.ts';
import { groundOf } from './tour/ground.ts';
import { shortOrder } from './tour/shorten.ts';

/** One way of making a thing: where the tool comes down, and where it comes up again. */
export interface Way {
  readonly from: Vec;
  readonly to: Vec;
}

/**
 * A thing to be made, with every way it may be made. Ways come in pairs: a way and its reverse, or one that
 * ends where it starts. So a stretch of a tour may be run backward.
 */
export interface Stop<T> {
  readonly thing: T;
  readonly ways: readonly Way[];
}

/** A thing in its turn, and which of its ways is taken. */
export interface Visit<T> {
  readonly thing: T;
  readonly way: number;
}

/** How often the order is looked for again after ways have changed. */
const ROUNDS = 4;

/**
 * All things in an order, and by ways, of short travel. A group is finished before the next is begun (inner
 * before outer); each is led toward the nearest stop of the next, the last toward `home` where there is one.
 * Deterministic.
 */
export function shortTravel<T>(
  groups: readonly (readonly Stop<T>[])[],
  start: Vec,
  home: Vec | null = null,
): Visit<T>[] {
  const filled = groups.filter((group) => group.length > 0);
  const visits: Visit<T>[] = [];
  let here = start;
  filled.forEach((group, i) => {
    const next = filled[i + 1]?.flatMap((stop) => stop.ways.map((way) => way.from));
    const tour = shortTour(group, here, next ?? (home === null ? [] : [home]));
    visits.push(...tour.visits);
    here = tour.end;
  });
  return visits;
}

/** Things in the given order, each by the way that makes the whole travel shortest: exact. */
export function shortWays<T>(
  stops: readonly Stop<T>[],
  start: Vec,
  next: readonly Vec[] = [],
): { readonly visits: Visit<T>[]; readonly length: number; readonly end: Vec } {
  const steps: Step[][] = [];
  let last: Step[] = [{ travel: 0, back: 0, to: start }];
  for (const { ways } of stops) {
    const before = last;
    last = ways.map((way) => bestStep(before, way));
    steps.push(last);
  }
  const ends = last.map(
    ({ travel, to }) => travel + (next.length === 0 ? 0 : Math.min(...next.map((p) => distance(to, p)))),
  );
  const length = Math.min(...ends);
  const final = ends.indexOf(length);
  const end = at(last, final).to;
  let way = final;
  const visits: Visit<T>[] = [];
  for (let i = stops.length - 1; i >= 0; i -= 1) {
    visits.unshift({ thing: at(stops, i).thing, way });
    way = at(at(steps, i), way).back;
  }
  return { visits, length, end };
}

/** Least travel up to the end of one way, and the way before it on that path. */
interface Step {
  readonly travel: number;
  readonly back: number;
  readonly to: Vec;
}

function bestStep(before: readonly Step[], way: Way): Step {
  const travels = before.map((step) => step.travel + distance(step.to, way.from));
  const travel = Math.min(...travels);
  return { travel, back: travels.indexOf(travel), to: way.to };
}

interface Tour<T> {
  readonly visits: Visit<T>[];
  readonly length: number;
  readonly end: Vec;
}

/** Order and ways by turns, as long as it helps. */
function shortTour<T>(stops: readonly Stop<T>[], start: Vec, next: readonly Vec[]): Tour<T> {
  const marked = stops.map((stop, i) => ({ thing: i, ways: stop.ways }));
  let order = marked;
  let best: Tour<number> | null = null;
  let ways = marked.map(() => 0);
  for (let round = 0; round < ROUNDS; round += 1) {
    order = inOrder(marked, ways, start, next);
    const tour = shortWays(order, start, next);
    if (best !== null && tour.length >= best.length - 1e-9) break;
    best = tour;
    const chosen = new Map(tour.visits.map((visit) => [visit.thing, visit.way]));
    const same = marked.every(({ thing }) =>
      isSameWay(at(marked, thing), at(ways, thing), chosen.get(thing)),
    );
    if (same) break;
    ways = marked.map(({ thing }) => chosen.get(thing) ?? 0);
  }
  if (best === null) throw new Error('a tour without stops');
  const visits = best.visits.map(({ thing, way }) => ({ thing: at(stops, thing).thing, way }));
  return { ...best, visits };
}

/** The same way, or the same one backward: the order cannot get better by it. */
function isSameWay(stop: Stop<unknown>, was: number, is = 0): boolean {
  const [a, b] = [at(stop.ways, was), at(stop.ways, is)];
  return was === is || (distance(a.from, b.to) === 0 && distance(a.to, b.from) === 0);
}

function inOrder(
  stops: readonly Stop<number>[],
  ways: readonly number[],
  start: Vec,
  next: readonly Vec[],
): Stop<number>[] {
  const passages = stops.map((stop, i) => {
    const way = at(stop.ways, at(ways, i));
    return { a: way.from, b: way.to };
  });
  const ground = groundOf(start, passages, next);
  const owners = passages.flatMap(({ a, b }, i) => (distance(a, b) === 0 ? [i] : [i, i]));
  const order = shortOrder(ground).map((node) => at(owners, node - 2));
  return [...new Set(order)].map((i) => at(stops, i));
}

function at<T>(list: readonly T[], index: number): T {
  const item = list[index];
  if (item === undefined) throw new Error(`item ${index} of a list of ${list.length}`);
  return item;
}
