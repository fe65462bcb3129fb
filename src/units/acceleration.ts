/** How fast a machine gains speed, as a builder writes it, to millimetres per second squared. */
import type { Parsed } from './exact.ts';
import { quote, readMeasure, refuse } from './exact.ts';
import { parseLength } from './length.ts';

/** How an acceleration may be written, for error messages. */
export const ACCELERATION_FORMS =
  "a number in the file's own unit per second squared, or with its unit: 250, 250 mm/s^2, 10 in/s^2, 0.25 m/s2";

const PER_SECOND_SQUARED = /^(.*?)\s*\/\s*s(?:ec)?(?:\^?2|²)$/iu;

/**
 * Millimetres per second squared of a written acceleration; a bare number counts in `bare` per second squared.
 * @example parseAcceleration('10 in/s^2', 'mm') // { ok: true, value: 254 }
 */
export function parseAcceleration(written: string | number, bare: 'mm' | 'in'): Parsed<number> {
  if (typeof written === 'number') return renamed(parseLength(written, bare), String(written));
  // The unit's own 2 would be taken for a second number, so the unit is parted off first.
  const parts = PER_SECOND_SQUARED.exec(written.trim());
  if (parts !== null) return renamed(parseLength(parts[1] ?? '', bare), written);
  const measure = readMeasure(written);
  if (!measure.ok) return measure;
  if (measure.value.unit !== '') return refuse(`${quote(measure.value.unit)} is not a unit of acceleration.`);
  return renamed(parseLength(written, bare), written);
}

function renamed(parsed: Parsed<number>, written: string): Parsed<number> {
  return parsed.ok ? parsed : refuse(`${quote(written)} is not an acceleration that can be used.`);
}
