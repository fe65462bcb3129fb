import type { CutCheck, Measured } from './types.ts';

/** Lengths that differ by less are the same to any saw, and far more than the noise of doubles. Millimetres. */
export const SAME = 1e-3;

/**
 * A check of the worst of what was measured. It fails when a number is not finite, and when it saw another number of
 * things than there were to see: a check that looked at nothing proves nothing.
 */
export function checkWorst(
  name: string,
  measured: readonly Measured[],
  expected: number,
  limit: number,
): CutCheck {
  const bad = measured.find((m) => !Number.isFinite(m.value));
  const worst = measured.reduce<Measured>((a, b) => (b.value > a.value ? b : a), {
    value: 0,
    place: '',
  });
  const value = bad?.value ?? worst.value;
  const counted = measured.length === expected;
  const passed = counted && bad === undefined && worst.value <= limit;
  const place = counted ? (bad ?? worst).place : `looked at ${measured.length} of ${expected}`;
  return { name, passed, value, limit, seen: measured.length, place: passed ? '' : place };
}

/** A check of things that are either right (null) or wrong in the words given; the value is the number of wrong ones. */
export function checkFaults(name: string, faults: readonly (string | null)[], expected: number): CutCheck {
  const wrong = faults.filter((f) => f !== null);
  const counted = faults.length === expected;
  const passed = counted && wrong.length === 0;
  const place = counted ? (wrong[0] ?? '') : `looked at ${faults.length} of ${expected}`;
  return { name, passed, value: wrong.length, limit: 0, seen: faults.length, place };
}
