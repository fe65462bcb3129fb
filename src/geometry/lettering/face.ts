/*!
 * Letters: the plain single-stroke roman face of A. V. Hershey, Calligraphy for Computers, U.S. Naval Weapons Laboratory Report
 * 2101, 1967. The Hershey Fonts were originally created by Dr. A. V. Hershey while working at the U.S. National Bureau of Standards.
 * The format of the font data in this distribution was originally created by James Hurt, Cognition, Inc., Billerica, Massachusetts.
 * The data comes from the package hersheytext, Copyright (c) 2014 James T, under the MIT License.
 */
import { futural } from 'hersheytext/hersheytext.min.json';
import type { Vec } from '../types.ts';

/** A letter in the face's own units: y up from the line it stands on. */
export interface Glyph {
  readonly strokes: readonly (readonly Vec[])[];
  readonly width: number;
}

/** Height of a capital letter. */
export const CAP_HEIGHT = 21;
/**
 * Widths of the letters from space to ~, as the outline file of the same face beside the data has them: the data itself holds only
 * what lies right of a letter's middle, from which the widths of uneven letters cannot be had.
 */
// biome-ignore format: a table
const WIDTHS = [
  12, 10, 16, 21, 20, 24, 26, 10, 14, 14, 16, 26, 8, 26, 8, 22, 20, 20, 20, 20, 20, 20, 20, 20,
  20, 20, 8, 8, 24, 26, 24, 18, 27, 18, 21, 21, 21, 19, 18, 21, 22, 8, 16, 21, 17, 24, 22, 22,
  21, 22, 21, 20, 16, 22, 18, 24, 20, 18, 20, 14, 14, 14, 16, 18, 8, 19, 19, 18, 19, 18, 12, 19,
  19, 8, 10, 17, 8, 30, 19, 19, 19, 19, 13, 17, 12, 19, 16, 22, 17, 16, 17, 14, 8, 14, 24,
];
/** The data counts y downward from above the capitals; letters stand on this line. */
const STANDS_ON = 22;
/** Character code of the first letter of the data; the space before it has no strokes. */
const FIRST = 33;

/** The letter of an ASCII character; null where the face has none. */
export function glyphOf(character: string): Glyph | null {
  const place = character.charCodeAt(0) - FIRST;
  const width = WIDTHS[place + 1];
  if (width === undefined || character.length !== 1) return null;
  return { strokes: strokesOf(futural.chars[place]?.d ?? ''), width };
}

/** Strokes begin at each M; the pairs that follow are joined by straight lines. */
function strokesOf(path: string): Vec[][] {
  const strokes = path.split('M').slice(1);
  return strokes.map((stroke) =>
    [...stroke.matchAll(/(-?\d+),(-?\d+)/g)].map(([, x, y]): Vec => [Number(x), STANDS_ON - Number(y)]),
  );
}
