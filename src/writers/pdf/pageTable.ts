/** A table's widths, before anything is drawn. Millimetres. */
import type { PageTable } from '../../sheet/pages/types.ts';

/** Widest line of a text in the table's type, at its size. */
export type Measure = (text: string, font: 'regular' | 'bold') => number;

const PAD = 1.5;
const ROOM = { tick: 10, value: 26 } as const;
/** A column of words is not made narrower than this. */
const NARROWEST = 24;

/**
 * Each column as wide as its widest cell and a head of two lines; where that is wider than the page, heads take more lines and
 * columns of words give way, the widest first, their text wrapped.
 */
export function columnWidths(table: PageTable, page: number, measure: Measure): number[] {
  const roomy = naturalWidths(table, measure, (head) => measure(head, 'bold') * 0.55);
  if (total(roomy) <= page) return roomy;
  return squeezed(
    table,
    naturalWidths(table, measure, () => 0),
    page,
  );
}

function naturalWidths(
  { columns, rows }: PageTable,
  measure: Measure,
  leastHead: (head: string) => number,
): number[] {
  return columns.map(({ head }, i) => {
    const words = head.split(' ').map((word) => measure(word, 'bold'));
    const cells = rows.map((row) => {
      const cell = row[i] ?? '';
      return typeof cell === 'string' ? measure(cell, 'regular') + 2 * PAD : ROOM[cell.leave];
    });
    return Math.max(Math.max(leastHead(head), ...words) + 2 * PAD, ...cells);
  });
}

function squeezed({ columns, rows }: PageTable, natural: readonly number[], page: number): number[] {
  const widths = [...natural];
  const soft = columns.flatMap((c, i) => (c.align === 'left' && isWords(rows, i) ? [i] : []));
  for (let over = total(widths) - page; over > 1e-9; over = total(widths) - page) {
    const widest = Math.max(...soft.map((i) => widths[i] ?? 0));
    if (!(widest > NARROWEST)) break;
    const most = soft.filter((i) => widths[i] === widest);
    const next = Math.max(NARROWEST, ...soft.map((i) => widths[i] ?? 0).filter((w) => w < widest));
    const step = Math.min(widest - next, over / most.length);
    for (const i of most) widths[i] = widest - step;
  }
  return widths;
}

const total = (widths: readonly number[]): number => widths.reduce((sum, w) => sum + w, 0);

function isWords(rows: PageTable['rows'], column: number): boolean {
  return rows.every((row) => typeof (row[column] ?? '') === 'string');
}
