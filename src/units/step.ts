import { MM_PER_INCH } from './convert.ts';

/** Far below a step, far above the noise of doubles, as a share of a step. */
const NOISE = 1e-5;

/**
 * The least length not below `mm` that can be written with so many decimals in a unit, in millimetres.
 * @example upToStep(5, 'in', 4) // 5.00126 (0.1969 in)
 */
export function upToStep(mm: number, unit: 'mm' | 'in', decimals: number): number {
  const steps = 10 ** decimals / (unit === 'mm' ? 1 : MM_PER_INCH);
  return Math.ceil(mm * steps - NOISE) / steps;
}

/**
 * The greatest length not above `mm` that can be written so, in millimetres.
 * @example downToStep(-7.5, 'in', 4) // -7.50062 (-0.2953 in)
 */
export function downToStep(mm: number, unit: 'mm' | 'in', decimals: number): number {
  return -upToStep(-mm, unit, decimals);
}

/**
 * What one unit of the last decimal is, in millimetres.
 * @example stepOf('in', 4) // 0.00254
 */
export function stepOf(unit: 'mm' | 'in', decimals: number): number {
  return (unit === 'mm' ? 1 : MM_PER_INCH) / 10 ** decimals;
}
