import { stringify } from 'csv-stringify/sync';
import { formatNumber } from '../../units/format.ts';

/** One column; `decimals` for its numbers. */
export interface CsvColumn {
  readonly head: string;
  readonly decimals?: number;
}

/** Text, a number to be rounded by its column, or nothing. */
export type CsvCell = string | number | null;

/**
 * A table as comma-separated values (RFC 4180: CRLF, text in double quotes). Numbers are written bare with fixed decimals.
 * Text is kept on one line, and text that a spreadsheet would take for a formula gets an apostrophe in front; a number
 * never does.
 * @example writeTable([{ head: 'x' , decimals: 2 }], [[-1.005]]) // '"x"\r\n-1.00\r\n'
 */
export function writeTable(columns: readonly CsvColumn[], rows: readonly (readonly CsvCell[])[]): string {
  const body = rows.map((row) => {
    if (row.length !== columns.length) throw new Error(`${row.length} cells for ${columns.length} columns`);
    return row.map((cell) => (typeof cell === 'string' ? oneLine(cell) : cell));
  });
  return stringify([columns.map((c) => c.head), ...body], {
    record_delimiter: 'windows',
    quoted_string: true,
    escape_formulas: true,
    cast: {
      number: (value, { index }) => formatNumber(value, columns[index]?.decimals ?? 0),
    },
  });
}

/** Line breaks and control characters end rows or fields for some readers; spaces in front hide a formula from the guard. */
function oneLine(text: string): string {
  return text.replace(/[\p{Cc}\p{Cf}\p{Zl}\p{Zp}]+/gu, ' ').trim();
}
