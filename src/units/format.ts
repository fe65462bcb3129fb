/** Numbers as digits: fixed decimals, never an exponent, never a minus before nothing. */
import { inchesFromMm } from './convert.ts';

/**
 * Digits of `value` with exactly `decimals` of them after the point.
 * @example formatNumber(-0.0001, 3) // '0.000'
 */
export function formatNumber(value: number, decimals: number): string {
  // toFixed itself turns to an exponent at 1e21, and above 1e15 its last digits say nothing.
  if (!Number.isFinite(value) || Math.abs(value) >= 1e15) throw new Error(`number not writable: ${value}`);
  const digits = value.toFixed(decimals);
  return /^-[0.]*$/.test(digits) ? digits.slice(1) : digits;
}

/**
 * Digits of a length in millimetres, no unit.
 * @example formatMm(42.8625, 3) // '42.863'
 */
export const formatMm = (mm: number, decimals: number): string => formatNumber(mm, decimals);

/**
 * Digits in decimal inches of a length in millimetres, no unit.
 * @example formatInches(42.8625, 4) // '1.6875'
 */
export const formatInches = (mm: number, decimals: number): string =>
  formatNumber(inchesFromMm(mm), decimals);

/**
 * Digits with at most `decimals` after the point and no zeros at the end, for sentences and cells.
 * @example formatShort(16.500, 3) // '16.5'
 */
export function formatShort(value: number, decimals: number): string {
  const digits = formatNumber(value, decimals);
  return digits.includes('.') ? digits.replace(/\.?0+$/, '') : digits;
}
