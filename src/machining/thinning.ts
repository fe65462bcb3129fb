/**
 * By how much the feed may rise when less than half of the cutter's diameter is engaged, so that the thickest chip keeps
 * its thickness: 1 / (2 sqrt(x - x^2)), x = width of cut over diameter; 1 from a half on (chip thinning by the circle's geometry).
 * @example thinningFactor(0.1) // 1.6667
 */
export function thinningFactor(engagementShare: number): number {
  if (!(engagementShare > 0 && engagementShare <= 1)) throw new Error(`engagement of ${engagementShare}`);
  if (engagementShare >= 0.5) return 1;
  return 1 / (2 * Math.sqrt(engagementShare - engagementShare ** 2));
}
