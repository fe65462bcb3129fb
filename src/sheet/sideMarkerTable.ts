import type { LengthUnit } from '../profile/types.ts';
import { BENCH } from './benchTolerances.ts';
import { placeIn, unitName } from './lengthWords.ts';
import { between } from './slotTable.ts';
import { type Column, textTable } from './textTable.ts';
import type { Sheet } from './types.ts';

/** Holes in the bass edge, in one unit. */
export function sideMarkerTable(sheet: Sheet, unit: LengthUnit): string[] {
  if (sheet.sideMarkers.length === 0) return ['Side markers: none.'];
  const heads: Column[] = [
    { head: ['side marker'], align: 'left' },
    { head: ['where'], align: 'left' },
    { head: ['from', 'scale zero', unit], align: 'right' },
    { head: ['from', 'nut face', unit], align: 'right' },
    { head: ['centre below', 'the finished', 'edge', unit], align: 'right' },
    { head: ['diameter', unit], align: 'right' },
    { head: ['depth', unit], align: 'right' },
    { head: ['work to', '+/-', unit], align: 'right' },
  ];
  const rows = sheet.sideMarkers.map((m) => [
    m.id.replace('side-marker-', ''),
    `between ${between(sheet, m.fret)}`,
    ...[m.fromScaleZero, m.fromNutFace, m.below, m.diameter, m.depth, BENCH.marker].map((mm) =>
      placeIn(unit, mm),
    ),
  ]);
  return [
    `Side markers, in the bass edge, drilled square to it, in ${unitName(unit)}:`,
    ...textTable(heads, rows),
  ];
}
