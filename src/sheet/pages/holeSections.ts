import { BENCH } from '../benchTolerances.ts';
import { placeIn, size } from '../lengthWords.ts';
import { between } from '../slotTable.ts';
import type { Sheet, SheetHole } from '../types.ts';
import { heading, left, lengthCells, lengthColumns, measuredTable, right, text } from './blocks.ts';
import type { PageBlock } from './types.ts';

/** Every round hole from above, and those in the board's edge. */
export function drillSection(sheet: Sheet): PageBlock[] {
  return [...fromAbove(sheet), ...inTheEdge(sheet)];
}

function fromAbove(sheet: Sheet): PageBlock[] {
  if (sheet.holes.length === 0) return [];
  return [
    heading('Holes from above'),
    measuredTable(
      'Holes from above',
      [
        left('hole'),
        right(`diameter, ${sheet.units}`),
        right(`deep, ${sheet.units}`),
        ...lengthColumns(sheet, 'from nut face'),
        ...lengthColumns(sheet, 'off the centreline'),
        left('side'),
      ],
      sheet.holes.map((hole) => holeRow(sheet, hole)),
    ),
    text(
      sheet.anchor.kind === 'tied' || sheet.anchor.kind === 'tailpiece'
        ? 'Holes of index pins go through the board.'
        : `Holes of index pins go through the board; those of ${sheet.anchor.kind === 'pins' ? 'bridge pins' : 'strings'} through bridge and plate, after the bridge is glued.`,
    ),
  ];
}

function holeRow(sheet: Sheet, { id, at: [x, y], diameter, depth }: SheetHole): string[] {
  const nearIsBass = sheet.hand === 'right';
  const side = y === 0 ? 'middle' : y < 0 === nearIsBass ? 'bass' : 'treble';
  return [
    id.replaceAll('-', ' '),
    placeIn(sheet.units, diameter),
    placeIn(sheet.units, depth),
    ...lengthCells(sheet, x - sheet.nutFace),
    ...lengthCells(sheet, Math.abs(y)),
    side,
  ];
}

function inTheEdge(sheet: Sheet): PageBlock[] {
  const [first] = sheet.sideMarkers;
  if (first === undefined) return [];
  return [
    heading('Side markers, in the bass edge'),
    measuredTable(
      'Side markers',
      [
        left('marker'),
        left('between'),
        ...lengthColumns(sheet, 'from nut face'),
        ...lengthColumns(sheet, 'along the edge'),
        ...lengthColumns(sheet, 'above underside'),
      ],
      sheet.sideMarkers.map((m) => [
        m.id.replace('side-marker-', ''),
        between(sheet, m.fret),
        ...lengthCells(sheet, m.fromNutFace),
        ...lengthCells(sheet, m.alongEdge),
        ...lengthCells(sheet, m.aboveUnderside),
      ]),
    ),
    text(
      'Along the edge counts from its corner at the nut end, the rule laid on the edge itself; above the underside is to the middle of the hole.',
    ),
    text(
      `Each ${size(sheet, first.diameter)} in diameter and ${size(sheet, first.depth)} deep, its centre ${size(sheet, first.below)} below the finished edge. Work to +/- ${size(sheet, BENCH.marker)} (common practice).`,
    ),
  ];
}
