/** The orders and rules that are tried against each other; no single one is best for every list. */
import type { RankRule, Rules, SplitRule, Unit } from './guillotine.ts';

type Compare = (a: Unit, b: Unit) => number;

const long = (u: Unit): number => Math.max(u.length, u.width);
const short = (u: Unit): number => Math.min(u.length, u.width);

const ORDERS: readonly Compare[] = [
  (a, b) => b.length * b.width - a.length * a.width || long(b) - long(a),
  (a, b) => long(b) - long(a) || short(b) - short(a),
  (a, b) => short(b) - short(a) || long(b) - long(a),
  (a, b) => b.length - a.length || b.width - a.width,
  (a, b) => b.width - a.width || b.length - a.length,
  (a, b) => b.length + b.width - a.length - a.width || long(b) - long(a),
];

const RANKS: readonly RankRule[] = [
  (length, width) => Math.min(length, width),
  (length, width) => Math.max(length, width),
  (_length, _width, space) => space.length * space.width,
  (_length, _width, space) => space.x,
];

const SPLITS: readonly SplitRule[] = [
  (leftLength, leftWidth) => (leftLength <= leftWidth ? 'along' : 'across'),
  (leftLength, leftWidth) => (leftLength <= leftWidth ? 'across' : 'along'),
  // The larger of the two rectangles left is made as large, or as small, as it can be.
  (leftLength, leftWidth, length, width) => (leftLength * width <= leftWidth * length ? 'along' : 'across'),
  (leftLength, leftWidth, length, width) => (leftLength * width <= leftWidth * length ? 'across' : 'along'),
  () => 'across',
  () => 'along',
];

/** Every ranking with every split. */
export const RULES: readonly Rules[] = RANKS.flatMap((rank) => SPLITS.map((split) => ({ rank, split })));

/** The units in each order, the same order listed once. Equal units keep the order they came in. */
export function ordersOf(units: readonly Unit[]): Unit[][] {
  const orders = ORDERS.map((compare) => [...units].sort(compare));
  return [...new Map(orders.map((order) => [nameOf(order), order])).values()];
}

function nameOf(order: readonly Unit[]): string {
  return order.map((u) => `${u.piece}.${u.number}`).join(' ');
}
