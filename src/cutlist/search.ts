import type { StockItem } from '../profile/types.ts';
import type { Unit } from './guillotine.ts';
import { type Attempt, type Batch, type Bin, countOf, type Packing, pack } from './pack.ts';
import { ordersOf, RULES } from './rules.ts';
import { isBetter, type Score, scoreOf, volumeOf } from './score.ts';

/** Exchanges of two units that are tried at most: enough for a bench's list, bounded for a long one. */
const MOST_EXCHANGES = 2000;
/** Units placed in all those exchanges together, at most. */
const MOST_PLACED = 100_000;

interface Found {
  readonly attempt: Attempt;
  readonly packing: Packing;
  readonly score: Score;
}

/**
 * The best packing found: every order with every rule and every way of taking stock down, then exchanges of two units in
 * the best order, then each piece of stock exchanged for a lesser one that holds the same pieces.
 */
export function search(batch: Batch): Packing {
  const first = bestOf(batch, attemptsAt(batch));
  const better = exchangeUnits(batch, first);
  return exchangeStock(batch, better).packing;
}

function attemptsAt(batch: Batch): Attempt[] {
  const racks = racksOf(batch.stock);
  return ordersOf(batch.units).flatMap((order) =>
    RULES.flatMap((rules) => racks.map((stock): Attempt => ({ order, rules, stock }))),
  );
}

function bestOf(batch: Batch, attempts: readonly Attempt[]): Found {
  const [first, ...others] = attempts;
  if (first === undefined) throw new Error('nothing to try: no units');
  return others.reduce((best, attempt) => betterOf(best, evaluate(batch, attempt)), evaluate(batch, first));
}

function evaluate(batch: Batch, attempt: Attempt): Found {
  const packing = pack(batch, attempt);
  return { attempt, packing, score: scoreOf(packing, batch) };
}

function betterOf(a: Found, b: Found): Found {
  return isBetter(b.score, a.score) ? b : a;
}

/** Stock in the orders in which it may be taken down: cheapest, smallest and largest first. */
function racksOf(stock: readonly StockItem[]): StockItem[][] {
  const price = (s: StockItem): number => s.price ?? Number.POSITIVE_INFINITY;
  const byVolume = (a: StockItem, b: StockItem): number => volumeOf(a) - volumeOf(b);
  const byPrice = (a: StockItem, b: StockItem): number =>
    price(a) === price(b) ? byVolume(a, b) : price(a) - price(b);
  const racks = [byPrice, byVolume, (a: StockItem, b: StockItem) => byVolume(b, a)].map((compare) =>
    [...stock].sort(compare),
  );
  return [...new Map(racks.map((rack) => [rack.map((s) => s.id).join('\n'), rack])).values()];
}

/** Exchanges two units in the order as long as that helps. One full piece of stock cannot be bettered this way. */
function exchangeUnits(batch: Batch, start: Found): Found {
  const count = batch.units.length;
  let budget = Math.min(MOST_EXCHANGES, Math.floor(MOST_PLACED / count));
  let best = start;
  for (let found = isWorthIt(best); found && budget > 0; ) {
    found = false;
    for (let i = 0; i < count - 1 && budget > 0; i += 1) {
      for (let j = i + 1; j < count && budget > 0; j += 1) {
        if (areAlike(best.attempt.order[i], best.attempt.order[j])) continue;
        budget -= 1;
        const next = evaluate(batch, { ...best.attempt, order: exchanged(best.attempt.order, i, j) });
        if (!isBetter(next.score, best.score)) continue;
        best = next;
        found = true;
      }
    }
  }
  return best;
}

function isWorthIt({ packing }: Found): boolean {
  return packing.bins.length > 0 && packing.bins.length + packing.left.length > 1;
}

function areAlike(a: Unit | undefined, b: Unit | undefined): boolean {
  return a !== undefined && b !== undefined && a.piece === b.piece;
}

function exchanged(order: readonly Unit[], i: number, j: number): Unit[] {
  return order.map((unit, k) => (k === i ? order[j] : k === j ? order[i] : unit) ?? unit);
}

/** Tries every lesser piece of stock in the place of each one in use. */
function exchangeStock(batch: Batch, start: Found): Found {
  return start.packing.bins.reduce((best, _, i) => {
    const bin = best.packing.bins[i];
    if (bin === undefined) return best;
    const others = batch.stock.filter((s) => s !== bin.stock && countOf(best.packing.bins, s) < s.count);
    return others
      .flatMap((stock) => repack(batch, bin, stock))
      .map((lesser) => replaceBin(batch, best, i, lesser))
      .reduce(betterOf, best);
  }, start);
}

/** The same units on one other piece of stock: a list of one, or of none when they do not all fit. */
function repack(batch: Batch, bin: Bin, stock: StockItem): Bin[] {
  const units = bin.placements.map((p) => p.unit);
  if (units.some((u) => !batch.suits.get(u.piece)?.has(stock))) return [];
  const alone: Batch = { ...batch, units, stock: [{ ...stock, count: 1 }] };
  const only = alone.stock[0] as StockItem;
  const suits = new Map(units.map((u) => [u.piece, new Set([only])] as const));
  const { packing } = bestOf({ ...alone, suits }, attemptsAt(alone));
  const [packed] = packing.bins;
  return packed === undefined || packing.left.length > 0 ? [] : [{ ...packed, stock }];
}

function replaceBin(batch: Batch, found: Found, index: number, bin: Bin): Found {
  const bins = found.packing.bins.map((b, i) => (i === index ? bin : b));
  const packing = { bins, left: found.packing.left };
  return { attempt: found.attempt, packing, score: scoreOf(packing, batch) };
}
