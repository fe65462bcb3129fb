import type { LengthUnit } from '../profile/types.ts';
import { placeIn, unitName } from './lengthWords.ts';
import { nameOf } from './slotTable.ts';
import { type Column, textTable } from './textTable.ts';
import type { Sheet } from './types.ts';

/** Where slanted slots meet the board's edges, measured along each edge; nothing for square slots. A block of lines, or none. */
export function edgeTable(sheet: Sheet, unit: LengthUnit): string[][] {
  const rows = sheet.frets.flatMap(({ n, alongEdges, strings }) => {
    if (alongEdges === undefined) return [];
    const under = strings === undefined ? '' : `, strings ${strings.join(' to ')}`;
    const name = n === 0 ? 'zero fret' : `slot ${nameOf(n)}${under}`;
    return [[name, ...alongEdges.map((mm) => placeIn(unit, mm))]];
  });
  if (rows.length === 0) return [];
  const heads: Column[] = [
    { head: ['what'], align: 'left' },
    { head: ['along', 'bass edge', unit], align: 'right' },
    { head: ['along', 'treble edge', unit], align: 'right' },
  ];
  return [
    [
      `Slanted slots at the finished edges, from the corner at the nut face along each edge, in ${unitName(unit)}:`,
      ...textTable(heads, rows),
    ],
  ];
}
