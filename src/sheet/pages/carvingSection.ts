import { size } from '../lengthWords.ts';
import type { Sheet, SheetCarving } from '../types.ts';
import { heading, left, lengthCells, lengthColumns, measuredTable, text } from './blocks.ts';
import type { PageBlock } from './types.ts';

/** Lines to draw on the neck's blank, and the depths that gauges prove. */
export function carvingSection(sheet: Sheet): PageBlock[] {
  const { carving } = sheet;
  if (carving === null) return [];
  return [
    heading('Carving the back of the neck'),
    text(
      'Before the first line the sides are flush with the board and the back is planed to the depth. All figures are for one side; the other is the same. On the side: below the underside of the board. On the back: from the centreline. Join the marks with a flexible straightedge, and rasp to the lines: each flat touches the finished back and never cuts into it.',
    ),
    firstStage(sheet, carving),
    secondStage(sheet, carving),
    text(
      'Then round the ridges off, with the gauges, until each gauge’s tips stand level with the underside of the board and no light shows.',
    ),
    gaugeTable(sheet, carving),
  ];
}

function firstStage(sheet: Sheet, { places }: SheetCarving): PageBlock {
  return measuredTable(
    'First flat, 45 degrees',
    [
      left('at'),
      ...lengthColumns(sheet, 'from nut face'),
      ...lengthColumns(sheet, 'half width'),
      ...lengthColumns(sheet, 'depth'),
      ...lengthColumns(sheet, 'line on the side'),
      ...lengthColumns(sheet, 'line on the back'),
    ],
    places.map(({ what, fromNutFace, edges }) => [
      what,
      ...[fromNutFace, edges.halfWidth, edges.depth, edges.first.onSide, edges.first.onBack].flatMap((mm) =>
        lengthCells(sheet, mm),
      ),
    ]),
  );
}

function secondStage(sheet: Sheet, { places }: SheetCarving): PageBlock {
  return measuredTable(
    'Second flats, 22.5 and 67.5 degrees',
    [
      left('at'),
      ...lengthColumns(sheet, 'line on the side'),
      ...lengthColumns(sheet, 'on the first flat, from its edge on the side'),
      ...lengthColumns(sheet, 'on the first flat, from its edge on the back'),
      ...lengthColumns(sheet, 'line on the back'),
    ],
    places.map(({ what, edges: { second } }) => [
      what,
      ...[second.onSide, second.fromSideEdge, second.fromBackEdge, second.onBack].flatMap((mm) =>
        lengthCells(sheet, mm),
      ),
    ]),
  );
}

function gaugeTable(sheet: Sheet, { gauges }: SheetCarving): PageBlock {
  return measuredTable(
    'Depth of the neck below the board',
    [left('gauge'), ...lengthColumns(sheet, 'from nut face'), ...lengthColumns(sheet, 'depth'), left('from')],
    gauges.map(({ label, fromNutFace, depth, fitted }) => [
      `fret ${label}`,
      ...lengthCells(sheet, fromNutFace),
      ...lengthCells(sheet, depth),
      fitted === null ? 'the profile' : `measured points, within ${size(sheet, fitted)}`,
    ]),
  );
}
