import type { LengthUnit } from '../profile/types.ts';
import { boardNotes } from './boardNotes.ts';
import { edgeTable } from './edgeTable.ts';
import { headLines } from './headLines.ts';
import { otherUnit, unitName } from './lengthWords.ts';
import { reamingLines } from './reamingLines.ts';
import { sideMarkerTable } from './sideMarkerTable.ts';
import { slotNotes, slotTable } from './slotTable.ts';
import { stringNotes, stringTable } from './stringTable.ts';
import type { Sheet } from './types.ts';
import { wireLines } from './wireTable.ts';

/**
 * The sheet as a page of text, at most 100 columns wide: slots and markers in the order in which a rule meets them, each
 * beside its neighbours, so that a miscount shows. All tables in the profile's own unit, then all in the other one:
 * millimetres with two decimals, decimal inches with three.
 */
export function renderSheetText(sheet: Sheet): string {
  const other = otherUnit(sheet.units);
  const blocks = [
    headLines(sheet),
    slotTable(sheet, sheet.units),
    slotNotes(sheet),
    boardNotes(sheet),
    ...edgeTable(sheet, sheet.units),
    sideMarkerTable(sheet, sheet.units),
    stringTable(sheet, sheet.units),
    stringNotes(sheet),
    reamingLines(sheet),
    wireLines(sheet),
    [`The same places in ${unitName(other)}`],
    ...otherTables(sheet, other),
  ];
  return `${blocks.map((lines) => lines.join('\n')).join('\n\n')}\n`;
}

function otherTables(sheet: Sheet, unit: LengthUnit): string[][] {
  const sides = sheet.sideMarkers.length === 0 ? [] : [sideMarkerTable(sheet, unit)];
  return [slotTable(sheet, unit), ...edgeTable(sheet, unit), ...sides, stringTable(sheet, unit)];
}
