import { MM_PER_INCH } from '../units/convert.ts';
import type { CutPlan, KindTotals, StockKind, StockLayout } from './types.ts';

/** One board foot, 144 cubic inches, in cubic millimetres. */
const BOARD_FOOT = 144 * MM_PER_INCH ** 3;

const KINDS: readonly StockKind[] = ['board', 'sheet', 'stick'];

/** What all layouts use and cost together. */
export function totalsOf(layouts: readonly StockLayout[]): CutPlan['totals'] {
  return {
    kinds: KINDS.map((kind) => layouts.filter((l) => l.kind === kind))
      .filter((list) => list.length > 0)
      .map(kindTotals),
    cost: costOf(layouts),
    unpriced: layouts.filter((l) => l.price === null).length,
  };
}

function kindTotals(layouts: readonly StockLayout[]): KindTotals {
  const kind = layouts[0]?.kind;
  if (kind === undefined) throw new Error('totals of no layouts');
  const size = (r: { length: number; width: number }): number => r.length * (kind === 'stick' ? 1 : r.width);
  const placed = layouts.flatMap((l) => l.placed);
  return {
    kind,
    stockUsed: layouts.length,
    pieces: placed.length,
    yield: sum(placed.map(size)) / sum(layouts.map(size)),
    cost: costOf(layouts),
    boardFeet:
      kind === 'board' ? sum(layouts.map((l) => (l.length * l.width * l.thickness) / BOARD_FOOT)) : null,
  };
}

function costOf(layouts: readonly StockLayout[]): number {
  return sum(layouts.map((l) => l.price ?? 0));
}

function sum(list: readonly number[]): number {
  return list.reduce((a, b) => a + b, 0);
}
