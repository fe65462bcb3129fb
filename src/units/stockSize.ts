/** Nearest sixty-fourths, for buying stock. Never for a slot: a sixty-fourth is 0.4 mm. */
import { inchesFromMm, mmFromInches } from './convert.ts';

export interface StockSize {
  /** As `1 11/16 in`. */
  readonly text: string;
  /** What the true length has beyond `text`, in millimetres; negative when it is shorter. */
  readonly remainder: number;
}

/**
 * The nearest sixty-fourth of an inch to a length in millimetres, in lowest terms.
 * @example nearest64(42.9) // { text: '1 11/16 in', remainder: 0.0375 }
 */
export function nearest64(mm: number): StockSize {
  if (!Number.isFinite(mm)) throw new Error(`length not finite: ${mm}`);
  const count = Math.round(Math.abs(inchesFromMm(mm)) * 64);
  const sign = mm < 0 && count > 0 ? '-' : '';
  const signed = sign === '' ? count : -count;
  return { text: `${sign}${mixed(count)} in`, remainder: mm - mmFromInches(signed / 64) };
}

function mixed(sixtyFourths: number): string {
  const whole = Math.floor(sixtyFourths / 64);
  let over = sixtyFourths % 64;
  let under = 64;
  while (over > 0 && over % 2 === 0) {
    over /= 2;
    under /= 2;
  }
  if (over === 0) return String(whole);
  return whole === 0 ? `${over}/${under}` : `${whole} ${over}/${under}`;
}
