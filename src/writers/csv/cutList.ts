import type { BuyRow, CutPlan, Offcut, PlacedPiece, StockLayout } from '../../cutlist/types.ts';
import { inchesFromMm } from '../../units/convert.ts';
import { type CsvCell, type CsvColumn, writeTable } from './table.ts';

const LENGTHS = [
  'x of its corner from the end of the untrimmed stock',
  'y of its corner from the edge of the untrimmed stock',
  'length as it lies',
  'width as it lies',
  'thickness',
];

const COLUMNS: readonly CsvColumn[] = [
  { head: 'row' },
  { head: 'stock' },
  { head: 'stock no.' },
  { head: 'material' },
  { head: 'piece' },
  { head: 'piece no.' },
  { head: 'title' },
  ...LENGTHS.map((head) => ({ head: `${head} (mm)`, decimals: 2 })),
  ...LENGTHS.map((head) => ({ head: `${head} (in)`, decimals: 3 })),
  { head: 'turned' },
  { head: 'price', decimals: 2 },
  { head: 'note' },
];

/**
 * A cut plan as a table: one row for each piece of stock, each piece on it, each offcut worth keeping, each piece that has no
 * stock, and each thing to buy besides. Lengths in millimetres (2 decimals) and inches (3 decimals).
 */
export function writeCutListCsv(plan: CutPlan, toBuy: readonly BuyRow[] = []): string {
  const rows = [
    ...plan.layouts.flatMap((layout) => [
      stockRow(layout, plan),
      ...layout.placed.map((placed) => pieceRow(placed, layout)),
      ...layout.offcuts.map((offcut) => offcutRow(offcut, layout)),
    ]),
    ...plan.unplaced.map((p) =>
      rowOf('no stock', { piece: p.piece, pieceNumber: p.number, title: p.title, note: `buy ${p.buy}` }),
    ),
    ...toBuy.map((row) => rowOf('to buy', { title: row.what, note: `${row.amount}; ${row.note}` })),
  ];
  return writeTable(COLUMNS, rows);
}

interface Cells {
  readonly stock?: string;
  readonly stockNumber?: number;
  readonly material?: string;
  readonly piece?: string;
  readonly pieceNumber?: number;
  readonly title?: string;
  readonly lengths?: readonly number[];
  readonly turned?: boolean;
  readonly price?: number | null;
  readonly note?: string;
}

function rowOf(row: string, cells: Cells): CsvCell[] {
  const lengths: readonly (number | null)[] = cells.lengths ?? LENGTHS.map(() => null);
  return [
    row,
    cells.stock ?? null,
    cells.stockNumber ?? null,
    cells.material ?? null,
    cells.piece ?? null,
    cells.pieceNumber ?? null,
    cells.title ?? null,
    ...lengths,
    ...lengths.map((mm) => (mm === null ? null : inchesFromMm(mm))),
    cells.turned === undefined ? null : cells.turned ? 'yes' : 'no',
    cells.price ?? null,
    cells.note ?? null,
  ];
}

function stockRow(layout: StockLayout, plan: CutPlan): CsvCell[] {
  return rowOf('stock', {
    ...stockCells(layout),
    title: layout.kind,
    lengths: [0, 0, layout.length, layout.width, layout.thickness],
    price: layout.price,
    note: layout.price === null ? 'price not known' : plan.currency,
  });
}

function pieceRow(placed: PlacedPiece, layout: StockLayout): CsvCell[] {
  return rowOf('piece', {
    ...stockCells(layout),
    piece: placed.piece,
    pieceNumber: placed.number,
    title: placed.title,
    lengths: [placed.x, placed.y, placed.length, placed.width, placed.thickness],
    turned: placed.turned,
  });
}

function offcutRow(offcut: Offcut, layout: StockLayout): CsvCell[] {
  return rowOf('offcut', {
    ...stockCells(layout),
    lengths: [offcut.x, offcut.y, offcut.length, offcut.width, layout.thickness],
  });
}

function stockCells(layout: StockLayout): Cells {
  return { stock: layout.stock, stockNumber: layout.number, material: layout.material };
}
