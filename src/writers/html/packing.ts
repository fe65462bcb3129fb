/**
 * Whole numbers as short text: base 64 digits of five bits each, lowest first, sign in the lowest bit, a set sixth bit
 * where more digits follow (the variable-length quantity of the source map standard, ECMA-426).
 */
const DIGITS = 'ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/';

/** @example packInteger(-16) // 'hB' */
export function packInteger(value: number): string {
  if (!Number.isSafeInteger(value) || Math.abs(value) > 2 ** 40) throw new Error(`${value} cannot be packed`);
  let rest = Math.abs(value) * 2 + (value < 0 ? 1 : 0);
  let text = '';
  do {
    const five = rest % 32;
    rest = (rest - five) / 32;
    text += DIGITS.charAt(rest > 0 ? five + 32 : five);
  } while (rest > 0);
  return text;
}
