/** A coordinate as it stands in a program: at most `decimals` digits, no exponent, no minus zero. */
export function coordinate(value: number, decimals: number): string {
  if (!Number.isFinite(value)) throw new Error(`coordinate ${value}`);
  const fixed = value.toFixed(decimals);
  const text = fixed.includes('.') ? fixed.replace(/\.?0+$/, '') : fixed;
  return text === '-0' ? '0' : text;
}

/** The number a machine will read where we write `value`. */
export function rounded(value: number, decimals: number): number {
  return Number(value.toFixed(decimals)) || 0;
}

/** Far below the last digit written, far above the noise of doubles, as a share of that digit. */
const NOISE = 1e-5;

/** The least number with `decimals` digits that is not below `value`. */
export function roundedUp(value: number, decimals: number): number {
  const steps = 10 ** decimals;
  return rounded(Math.ceil(value * steps - NOISE) / steps, decimals);
}

/** The greatest number with `decimals` digits that is not above `value`. */
export function roundedDown(value: number, decimals: number): number {
  return -roundedUp(-value, decimals) || 0;
}
