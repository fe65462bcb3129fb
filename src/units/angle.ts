/** Angles and tapers as a builder writes them, to radians. */
import { radiansFromDegrees } from './convert.ts';
import { exactOf, type Parsed, quote, readMeasure, refuse } from './exact.ts';

/** How an angle may be written, for error messages. */
export const ANGLE_FORMS = 'degrees, or a taper as a ratio: 3, 3 deg, 2.5°, 0.05 rad, 1:20';

const TAPER = /^(\d{1,6}(?:\.\d{1,9})?) ?: ?(\d{1,6}(?:\.\d{1,9})?)$/;
const DEGREES = new Set(['', 'deg', 'degree', 'degrees', '°']);
const RADIANS = new Set(['rad', 'radian', 'radians']);

/**
 * Radians of a written angle; a bare number is in degrees. A taper `1:20` (diameter over length) gives the cone's
 * included angle, 2 atan(1/40).
 * @example parseAngle('1:20') // { ok: true, value: 0.04998959... }, which is 2.864192 deg
 */
export function parseAngle(written: string | number): Parsed<number> {
  if (typeof written === 'number') return parseBare(written);
  const taper = TAPER.exec(written.trim());
  if (taper !== null) return taperAngle(Number(taper[1]), Number(taper[2]), written);
  const measure = readMeasure(written);
  if (!measure.ok) return measure;
  const { amount, unit } = measure.value;
  const name = unit.toLowerCase();
  if (DEGREES.has(name)) return checkTurn(radiansFromDegrees(amount.valueOf()), written);
  if (RADIANS.has(name)) return checkTurn(amount.valueOf(), written);
  return refuse(`${quote(unit)} is not a unit of angle.`);
}

function parseBare(degrees: number): Parsed<number> {
  if (exactOf(degrees) === null) return refuse(`${quote(String(degrees))} is not an angle that can be used.`);
  return checkTurn(radiansFromDegrees(degrees), String(degrees));
}

function taperAngle(across: number, along: number, written: string): Parsed<number> {
  if (along === 0) return refuse(`${quote(written)} divides by zero.`);
  return { ok: true, value: 2 * Math.atan(across / (2 * along)) };
}

function checkTurn(value: number, written: string): Parsed<number> {
  if (Math.abs(value) > 2 * Math.PI) return refuse(`${quote(written)} is more than a full turn.`);
  return { ok: true, value };
}
