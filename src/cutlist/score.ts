import type { StockItem } from '../profile/types.ts';
import type { Batch, Bin, Packing } from './pack.ts';

/** Less is better, the first number that differs decides. */
export type Score = readonly number[];

/**
 * What a packing costs: first the pieces left over, then money, then wood; where any price is unknown, wood comes before
 * money, since an unknown price is not a low one. Last, one big offcut is worth more than many small ones.
 */
export function scoreOf(packing: Packing, batch: Batch): Score {
  const leftArea = packing.left.reduce((sum, u) => sum + u.length * u.width, 0);
  const wood = packing.bins.reduce((sum, bin) => sum + volumeOf(bin.stock), 0);
  const money = packing.bins.reduce((sum, bin) => sum + (bin.stock.price ?? 0), 0);
  const spend = batch.stock.every((s) => s.price !== null) ? [money, wood] : [wood, money];
  const offcuts = packing.bins.reduce((sum, bin) => sum + squaresOf(bin), 0);
  return [packing.left.length, leftArea, ...spend, packing.bins.length, -offcuts];
}

/** Whether one score is better than another by more than the noise of doubles. */
export function isBetter(score: Score, than: Score): boolean {
  for (let i = 0; i < score.length; i += 1) {
    const a = score[i] ?? 0;
    const b = than[i] ?? 0;
    if (Math.abs(a - b) > 1e-9 * Math.max(1, Math.abs(a), Math.abs(b))) return a < b;
  }
  return false;
}

/** Wood in one piece of stock, cubic millimetres (of a stick: of the square it comes from, which only ranks them). */
export function volumeOf(stock: StockItem): number {
  return stock.length * stock.width * stock.thickness;
}

function squaresOf(bin: Bin): number {
  return bin.spaces.reduce((sum, s) => sum + (s.length * s.width) ** 2, 0);
}
