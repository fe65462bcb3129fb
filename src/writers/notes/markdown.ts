import { markdownTable } from 'markdown-table';
import { formatInches, formatMm } from '../../units/format.ts';

/**
 * Text from a profile or shop file, made safe inside a line of Markdown: kept on one line, with everything escaped that
 * Markdown or HTML would take for a mark, a link or a tag.
 * @example plain('*A* <b>') // '\\*A\\* &lt;b&gt;'
 */
export function plain(text: string): string {
  return text
    .replace(/[\p{Cc}\p{Cf}\p{Zl}\p{Zp}]+/gu, ' ')
    .trim()
    .replace(/[\\`*_[\]|~#$@]/g, '\\$&')
    .replace(/:\/\//g, '\\://')
    .replace(/&/g, '&amp;')
    .replace(/</g, '&lt;')
    .replace(/>/g, '&gt;')
    .replace(/^[-+=]/, '\\$&')
    .replace(/^(\d+)([.)])(?=\s|$)/, '$1\\$2')
    .replace(/\bwww\./gi, (www) => `${www.slice(0, -1)}\\.`);
}

/** A file or feature name of ours as code. A backtick in it would end the code, so it throws. */
export function code(name: string): string {
  if (/[`\r\n|]/.test(name)) throw new Error(`name not fit for code: ${JSON.stringify(name)}`);
  return `\`${name}\``;
}

/** A table; the cells are Markdown already. `right` lists the columns of numbers. */
export function table(
  heads: readonly string[],
  rows: readonly (readonly string[])[],
  right: readonly number[] = [],
): string {
  return markdownTable([heads, ...rows], {
    align: heads.map((_, i) => (right.includes(i) ? 'r' : 'l')),
  });
}

/** Lines of a list. */
export function bullets(items: readonly string[]): string {
  return items.map((item) => `- ${item}`).join('\n');
}

/** Lines of a numbered list. */
export function numbered(items: readonly string[]): string {
  return items.map((item, i) => `${i + 1}. ${item}`).join('\n');
}

/** A whole page from its blocks, one empty line between them. */
export function page(blocks: readonly string[]): string {
  return `${blocks.filter((b) => b !== '').join('\n\n')}\n`;
}

/** A length in both units: `3.00 mm (0.118 in)`. */
export function bothUnits(mm: number, decimals = 2): string {
  return `${formatMm(mm, decimals)} mm (${formatInches(mm, decimals + 1)} in)`;
}
