import type { Sheet } from './types.ts';

/** The sheet as JSON: full doubles, millimetres, nothing rounded, one line feed at the end. */
export function sheetJson(sheet: Sheet): string {
  // What follows from the rest is for the text alone.
  const { instrument, frets, markers, holes, offSaddle: _, ...rest } = sheet;
  return `${JSON.stringify({ instrument, unit: 'mm', frets, markers, holes, ...rest }, null, 2)}\n`;
}
