/** Feeds as a builder writes them, to millimetres per minute. */
import { exactOf, type Parsed, quote, readMeasure, refuse } from './exact.ts';
import { parseLength } from './length.ts';

/** How a speed may be written, for error messages. */
export const SPEED_FORMS =
  "a number in the file's own unit per minute, or with its unit: 400, 400 mm/min, 60 in/min, 10 mm/s";

const PER_MINUTE: Readonly<Record<string, number>> = { min: 1, minute: 1, s: 60, sec: 60, second: 60 };

/**
 * Millimetres per minute of a written speed; a bare number counts in `bare` per minute.
 * @example parseSpeed('60 in/min', 'mm') // { ok: true, value: 1524 }
 */
export function parseSpeed(written: string | number, bare: 'mm' | 'in'): Parsed<number> {
  if (typeof written === 'number') return parseBare(written, bare);
  const measure = readMeasure(written);
  if (!measure.ok) return measure;
  const { amount, unit } = measure.value;
  if (unit === '') return parseBare(amount.valueOf(), bare);
  const [length = '', time = '', ...rest] = unit.split('/').map((word) => word.trim());
  const perMinute = PER_MINUTE[time.toLowerCase()];
  const one = parseLength(`1 ${length}`, bare);
  if (length === '' || perMinute === undefined || rest.length > 0 || !one.ok) {
    return refuse(`${quote(unit)} is not a unit of speed.`);
  }
  const scaled = parseLength(`${amount.mul(perMinute).toFraction()} ${length}`, bare);
  return scaled.ok ? scaled : refuse(`${quote(written)} is not a speed that can be used.`);
}

function parseBare(value: number, bare: 'mm' | 'in'): Parsed<number> {
  if (exactOf(value) === null) return refuse(`${quote(String(value))} is not a speed that can be used.`);
  return parseLength(value, bare);
}
