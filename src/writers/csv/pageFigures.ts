import type { Page, PageColumn, PageTable } from '../../sheet/pages/types.ts';
import { type CsvColumn, writeTable } from './table.ts';

const COLUMNS: readonly CsvColumn[] = [
  { head: 'table' },
  { head: 'item' },
  { head: 'figure' },
  { head: 'mm' },
  { head: 'in' },
  { head: 'measured' },
];

type Unit = 'mm' | 'in';

interface FigureColumn {
  readonly at: number;
  readonly figure: string;
  readonly unit: Unit;
}

/**
 * Every length that is measured on a page, one a row, in millimetres and inches as printed there, with an empty cell for what
 * was measured. A length that the page has in one unit only leaves the other empty.
 */
export function writePageFigures(page: Page): string {
  const tables = page.blocks.filter((block): block is PageTable => block.kind === 'table');
  return writeTable(COLUMNS, tables.flatMap(rowsOf));
}

function rowsOf(table: PageTable): string[][] {
  const figures = figureColumns(table.columns);
  const words = table.columns.flatMap((c, i) => (c.align === 'left' ? [i] : []));
  return table.rows.flatMap((row) => {
    const item = words
      .map((i) => row[i])
      .filter((cell) => typeof cell === 'string' && cell !== '')
      .join(', ');
    return figures.flatMap(([first, second]) => {
      const cells: Record<Unit, string> = { mm: '', in: '' };
      for (const column of [first, second]) {
        const cell = column === undefined ? undefined : row[column.at];
        if (column !== undefined && typeof cell === 'string') cells[column.unit] = cell;
      }
      const found = isNumber(cells.mm) || isNumber(cells.in);
      return found ? [[table.name, item, first.figure, cells.mm, cells.in, '']] : [];
    });
  });
}

const isNumber = (cell: string): boolean => cell !== '' && Number.isFinite(Number(cell));

/** Columns of lengths by their heads, `middle, mm`, each with the column of the other unit where that follows. */
function figureColumns(columns: readonly PageColumn[]): [FigureColumn, FigureColumn?][] {
  return columns.flatMap(({ head }, at): [FigureColumn, FigureColumn?][] => {
    const [, figure, unit] = /^(.*), (mm|in)$/.exec(head) ?? [];
    if (figure === undefined) return [];
    const first: FigureColumn = { at, figure, unit: unit === 'in' ? 'in' : 'mm' };
    const other: Unit = first.unit === 'mm' ? 'in' : 'mm';
    return columns[at + 1]?.head === other ? [[first, { at: at + 1, figure, unit: other }]] : [[first]];
  });
}
