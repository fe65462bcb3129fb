import type { LengthUnit } from '../profile/types.ts';
import { BENCH } from './benchTolerances.ts';
import { placeIn, unitName } from './lengthWords.ts';
import { between } from './slotTable.ts';
import { type Column, textTable } from './textTable.ts';
import type { Sheet } from './types.ts';
import { wrapText } from './wrapText.ts';

/** Holes in the bass edge, in one unit. */
export function sideMarkerTable(sheet: Sheet, unit: LengthUnit): string[] {
  if (sheet.sideMarkers.length === 0) return ['Side markers: none.'];
  const heads: Column[] = [
    { head: ['side marker'], align: 'left' },
    { head: ['where'], align: 'left' },
    { head: ['from', 'scale zero', unit], align: 'right' },
    { head: ['from', 'nut face', unit], align: 'right' },
    { head: ['along the', 'edge', unit], align: 'right' },
    { head: ['above', 'underside', unit], align: 'right' },
    { head: ['below', 'surface', unit], align: 'right' },
    { head: ['work', 'to +/-', unit], align: 'right' },
  ];
  const rows = sheet.sideMarkers.map((m) => [
    m.id.replace('side-marker-', ''),
    `between ${between(sheet, m.fret)}`,
    ...[m.fromScaleZero, m.fromNutFace, m.alongEdge, m.aboveUnderside, m.below, BENCH.marker].map((mm) =>
      placeIn(unit, mm),
    ),
  ]);
  return [
    `Side markers, in the bass edge, drilled square to it, in ${unitName(unit)}:`,
    ...wrapText(sizeWords(sheet, unit)),
    ...textTable(heads, rows),
    ...wrapText(
      'Along the edge counts from its corner at the nut end, the rule laid on the edge itself, which leans against the centreline. ' +
        'Above the underside and below the surface: the middle of the hole, the second once the board has its radius.',
    ),
  ];
}

/** All are drilled alike. */
function sizeWords({ sideMarkers }: Sheet, unit: LengthUnit): string {
  const [first] = sideMarkers;
  if (first === undefined) throw new Error('no side markers');
  return `Each ${placeIn(unit, first.diameter)} ${unit} in diameter and ${placeIn(unit, first.depth)} ${unit} deep.`;
}
