/** Tables of text for a page or a terminal: columns under heads of several lines, numbers on the right. */

export interface Column {
  /** Lines of its head, top to bottom. */
  readonly head: readonly string[];
  readonly align: 'left' | 'right';
}

/**
 * Lines of a table, cells two spaces apart, a rule under the head, no spaces at line ends.
 * @example textTable([{ head: ['slot'], align: 'left' }], [['1']]) // ['slot', '----', '1']
 */
export function textTable(columns: readonly Column[], rows: readonly (readonly string[])[]): string[] {
  const tall = Math.max(...columns.map((c) => c.head.length));
  const heads = Array.from({ length: tall }, (_, line) =>
    columns.map((c) => c.head[line - (tall - c.head.length)] ?? ''),
  );
  const widths = columns.map((_, i) => Math.max(...[...heads, ...rows].map((row) => (row[i] ?? '').length)));
  const lineOf = (cells: readonly string[]): string =>
    columns
      .map((c, i) => pad(cells[i] ?? '', widths[i] ?? 0, c.align))
      .join('  ')
      .trimEnd();
  const rule = widths.map((w) => '-'.repeat(w));
  return [...heads, rule, ...rows].map(lineOf);
}

function pad(text: string, width: number, align: Column['align']): string {
  return align === 'left' ? text.padEnd(width) : text.padStart(width);
}
