/** Columns of a page of text, so that it prints on one sheet of paper without breaking its lines. */
export const PAGE_WIDTH = 100;

/**
 * A sentence on lines of at most `width` columns, each after the first set in by two. A word longer than a line is cut.
 * @example wrapText('one two three', 8) // ['one two', '  three']
 */
export function wrapText(text: string, width: number = PAGE_WIDTH): string[] {
  const words = text.split(BREAK).flatMap((word) => pieces(word, width - INDENT.length));
  const lines: string[] = [];
  let line = '';
  for (const word of words) {
    const longer = line === '' ? word : `${line} ${word}`;
    if (longer.length <= width) {
      line = longer;
    } else {
      lines.push(line);
      line = `${INDENT}${word}`;
    }
  }
  return [...lines, line];
}

const INDENT = '  ';
/** A space, but not the one between a number and its unit. */
const BREAK = /(?<!\d(?= (?:mm|in|deg|cents)\b)) /;

function pieces(word: string, most: number): string[] {
  const count = Math.max(1, Math.ceil(word.length / most));
  return Array.from({ length: count }, (_, i) => word.slice(i * most, (i + 1) * most));
}
