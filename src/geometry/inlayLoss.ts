import { surfaceHeight } from './surface.ts';

/**
 * How much lower a board of a radius lies at one distance from its crest line than at a nearer one, mm: by so much one edge of a
 * flat marker stands above the board when the other is flush. For a marker of half width a about y that is 2 y a / R, nearly.
 * @example fallBetween(304.8, 7, 13) // 0.197
 */
export function fallBetween(radius: number, near: number, far: number): number {
  return surfaceHeight(radius, near) - surfaceHeight(radius, far);
}

/**
 * What a marker set flush with a flat blank loses at a distance from the centreline when the board is radiused:
 * (blank thickness - crest thickness) + R - sqrt(R^2 - y^2). Millimetres.
 * @example lossOfFlush(304.8, 13, 0) // 0.277
 */
export function lossOfFlush(radius: number, y: number, planed: number): number {
  return planed - surfaceHeight(radius, y);
}
