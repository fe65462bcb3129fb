import { escapeXml } from '../../svg/xml.ts';
import { short } from './thinned.ts';

/** A letter's width as a share of the font's size, counted generously: few lines of text are wider. */
const WIDE = 0.58;

/** Text in lines that fit a width, in pixels; a word too long for a line is broken. */
export function wrapped(text: string, width: number, size: number): string[] {
  const room = Math.max(4, Math.floor(width / (WIDE * size)));
  const lines: string[] = [];
  let line = '';
  for (const word of text.split(/\s+/).flatMap((w) => pieces(w, room))) {
    if (line !== '' && line.length + 1 + word.length > room) {
      lines.push(line);
      line = word;
    } else {
      line = line === '' ? word : `${line} ${word}`;
    }
  }
  return line === '' ? lines : [...lines, line];
}

/** By whole characters: half of a pair of code units would be no character at all. */
function pieces(word: string, room: number): string[] {
  const characters = [...word];
  const count = Math.max(1, Math.ceil(characters.length / room));
  return Array.from({ length: count }, (_, i) => characters.slice(i * room, (i + 1) * room).join(''));
}

/** One line of text as an SVG element, set from its left on a base line. */
export function words(
  x: number,
  y: number,
  text: string,
  size: number,
  look: 'plain' | 'faint' | 'bold' = 'plain',
): string {
  const weight = look === 'bold' ? ' font-weight="bold"' : '';
  const fill = look === 'faint' ? ' fill-opacity="0.75"' : '';
  return `<text x="${short(x)}" y="${short(y)}" font-size="${size}"${weight}${fill}>${escapeXml(text)}</text>`;
}
