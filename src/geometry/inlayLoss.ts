import { type BoardSurface, boardHeight } from './boardSurface.ts';
import { type Form, formSize, plainForm } from './form.ts';
import { flatten } from './ring.ts';
import { surfaceHeight } from './surface.ts';
import type { Vec } from './types.ts';

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

/** Chords of an outline leave it by at most this. Millimetres. */
const SAGITTA = 0.002;

/**
 * Height of the board beneath a form at its highest, from the board's crest: at the form's side nearest the centreline, at that end of
 * it where the board is flatter. A marker's flat top is set by it. Millimetres.
 */
export function highestUnder(surface: BoardSurface, at: Vec, form: Form): number {
  const { along, across } = formSize(form);
  const near = Math.max(0, Math.abs(at[1]) - across / 2);
  return Math.max(...[-along / 2, along / 2].map((dx) => boardHeight(surface, at[0] + dx, near)));
}

/** The point of a form's outline over the lowest place of the board, and the board's height there from its crest. Millimetres. */
export function lowestUnder(
  surface: BoardSurface,
  at: Vec,
  form: Form,
): { readonly at: Vec; readonly height: number } {
  return flatten(plainForm(form, at).outer, SAGITTA)
    .map((point) => ({ at: point, height: boardHeight(surface, ...point) }))
    .reduce((low, other) => (other.height < low.height ? other : low));
}
