import type { Vec } from '../geometry/types.ts';
import { formatShort } from '../units/format.ts';
import type { Drawing, Layer, Shape } from './types.ts';

/** Lettering height, millimetres (a preferred size of ISO 3098). */
const LETTERS = 3.5;
const LINE_STEP = 6;
const LINE_LENGTH = 90;

/** What the lines of a drawing are, in words for its notes. */
export function kerfWords(kerf: Drawing['kerf']): string {
  return kerf === 'finished edges'
    ? 'Lines are finished edges: no allowance for kerf or cutter is in them.'
    : 'Lines are corrected for the kerf: cut on the line.';
}

/** The layer of notes, one line of lettering under the other, from a place downward. */
export function notesLayer(at: Vec, paragraphs: readonly string[]): Layer {
  const lines = paragraphs.flatMap(wrap);
  return {
    name: 'NOTES',
    shapes: lines.map((text, i) => lettering([at[0], at[1] - i * LINE_STEP], text, LETTERS)),
  };
}

/** One line of upright lettering, millimetres. */
export function lettering(at: Vec, text: string, height: number): Shape {
  return { kind: 'text', at, height, angle: 0, text };
}

/** A length in a note: millimetres, three decimals at most. */
export function millimetres(value: number): string {
  return `${formatShort(value, 3)} mm`;
}

/** Words are kept whole where they fit; a word longer than a line is divided. */
function wrap(paragraph: string): string[] {
  const lines: string[] = [];
  let rest = [...paragraph];
  while (rest.length > LINE_LENGTH) {
    const space = rest.lastIndexOf(' ', LINE_LENGTH);
    const end = space > 0 ? space : LINE_LENGTH;
    lines.push(rest.slice(0, end).join(''));
    rest = rest.slice(space > 0 ? end + 1 : end);
  }
  return [...lines, rest.join('')].filter((text) => text.trim() !== '');
}
