import type { Sheet } from './types.ts';

/** The sheet as JSON: full doubles, millimetres, nothing rounded, one line feed at the end. */
export function sheetJson(sheet: Sheet): string {
  const { instrument, frets, markers, holes, ...rest } = sheet;
  return `${JSON.stringify({ instrument, unit: 'mm', frets, markers, holes, ...rest }, null, 2)}\n`;
}
