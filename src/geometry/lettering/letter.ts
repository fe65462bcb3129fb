import type { Vec } from '../types.ts';
import { CAP_HEIGHT, glyphOf } from './face.ts';

/** Lines of a text about the left end of the line it stands on, and its width. Millimetres. */
export interface Lettering {
  readonly strokes: readonly (readonly Vec[])[];
  readonly width: number;
}

/**
 * An ASCII text in single strokes, capitals `height` mm high. Characters that the face has not are refused.
 * @example letter('0', 21).width // 20
 */
export function letter(text: string, height: number): Lettering {
  const size = height / CAP_HEIGHT;
  const strokes: Vec[][] = [];
  let along = 0;
  for (const character of text) {
    const glyph = glyphOf(character);
    if (glyph === null) throw new Error(`no letter for ${JSON.stringify(character)}`);
    const from = along;
    strokes.push(
      ...glyph.strokes.map((stroke) => stroke.map(([x, y]): Vec => [(from + x) * size, y * size])),
    );
    along += glyph.width;
  }
  return { strokes, width: along * size };
}
