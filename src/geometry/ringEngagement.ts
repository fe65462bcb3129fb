/**
 * Share of the diameter that would be engaged by as much of the cutter's rim on a straight way, when the cutter widens a
 * round hole by a ring of `width` all round to `bore` (mm, diameter). Hole and cutter curve the same way, so that far more
 * of the rim is in the wood than beside a straight wall. The rim leaves the wood at the angle t from the outward direction
 * where the cutter's circle crosses the old hole's, whose centres are `r` apart: R0^2 = r^2 + q^2 + 2 r q cos t (cosine rule).
 * @example ringEngagement(5.05, 3.175, 0.15) // 0.123, against 0.15 / 3.175 = 0.047 beside a straight wall
 */
export function ringEngagement(bore: number, cutter: number, width: number): number {
  const r = (bore - cutter) / 2;
  const q = cutter / 2;
  if (!(r > 0 && width > 0)) throw new Error(`a ring of ${width} mm by a ${cutter} mm cutter in ${bore} mm`);
  const old = bore / 2 - width;
  const cosine = (old * old - r * r - q * q) / (2 * r * q);
  return Math.min(1, (1 - Math.max(-1, cosine)) / 2);
}
