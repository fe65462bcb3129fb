import type { BridgeWork } from '../../bridge/types.ts';
import type { NeckSet } from '../../neck/types.ts';
import { both, size } from '../lengthWords.ts';
import type { Sheet } from '../types.ts';
import { heading, left, lengthCells, lengthColumns, measuredTable, text } from './blocks.ts';
import { carvingSection } from './carvingSection.ts';
import { drillSection } from './holeSections.ts';
import { neckSection } from './neckSection.ts';
import { markerSection, slotSection } from './slotSections.ts';
import { stringSections } from './stringSections.ts';
import type { Page, PageBlock } from './types.ts';

export interface BenchFacts {
  readonly sheet: Sheet;
  /** Null where the action is measured at a fret from which heights do not follow. */
  readonly bridge: BridgeWork | null;
  /** Null where the profile says nothing of the joint. */
  readonly neck: NeckSet | null;
  /** Of the profile, in hex. */
  readonly profileHash: string;
}

/** The sheets to work down with a caliper: every figure with room for the one that was measured, and a box. */
export function benchPage({ sheet, bridge, neck, profileHash }: BenchFacts): Page {
  return {
    title: `Bench sheets: ${sheet.instrument}`,
    head: [
      `${sheet.hand === 'left' ? 'LEFT-HANDED' : 'Right-handed'} instrument, face up with the nut on your left: the bass edge is the ${sheet.hand === 'left' ? 'far' : 'near'} one.`,
      `Scale ${both(sheet, sheet.scaleLength)} along the centreline. ${nutWords(sheet)}`,
      'Measure every place from the nut face, each time, with one rule laid once; differences are for checking only. Tick a row when what you measured lies within what to work to.',
      'Worked on: ______________________   by: ______________________   caliper zeroed, and tried on a gauge: [  ]',
    ],
    foot: `${sheet.instrument}, profile ${profileHash.slice(0, 12)}`,
    blocks: [
      ...boardSection(sheet),
      ...slotSection(sheet),
      ...markerSection(sheet),
      ...drillSection(sheet),
      ...wireSection(sheet),
      ...carvingSection(sheet),
      ...(neck === null ? [] : neckSection(neck)),
      ...(bridge === null ? [] : stringSections(bridge)),
    ],
  };
}

function nutWords(sheet: Sheet): string {
  if (sheet.nutFace === 0) return 'The nut face is scale zero.';
  const way = sheet.nutFace > 0 ? 'forward of' : 'behind';
  return `The nut face lies ${both(sheet, Math.abs(sheet.nutFace))} ${way} scale zero.`;
}

/** What is measured of the board as a whole. */
function boardSection(sheet: Sheet): PageBlock[] {
  const { board } = sheet;
  const radii =
    board.radii === null
      ? []
      : [
          ['radius of the surface at the nut face', ...lengthCells(sheet, board.radii[0])],
          ['the same at the body end', ...lengthCells(sheet, board.radii[1])],
        ];
  const wood =
    board.binding === null
      ? []
      : [
          ['wood without its binding, at the nut face', ...lengthCells(sheet, board.binding.wood[0])],
          ['the same at the body end', ...lengthCells(sheet, board.binding.wood[1])],
        ];
  return [
    heading('Board'),
    measuredTable(
      'Board',
      [left('what'), ...lengthColumns(sheet, 'is to be')],
      [
        ...radii,
        ...wood,
        ['slot depth at the edge of the finished board', ...lengthCells(sheet, sheet.slotDepth)],
        ['slot depth in the middle', ...lengthCells(sheet, board.deepestSlot)],
        ['slot width, by feeler gauge', ...lengthCells(sheet, sheet.slotWidth, 'fine')],
      ],
    ),
  ];
}

function wireSection(sheet: Sheet): PageBlock[] {
  const { wire } = sheet;
  if (wire.pieces.length === 0) return [];
  return [
    heading('Fret wire, in the order in which the frets go in'),
    measuredTable(
      'Fret wire',
      [
        left('fret'),
        ...lengthColumns(sheet, 'to nip off'),
        ...lengthColumns(sheet, 'crown'),
        ...lengthColumns(sheet, 'tang'),
      ],
      wire.pieces.map((piece) => [
        piece.label,
        ...lengthCells(sheet, piece.cut),
        ...lengthCells(sheet, piece.crown),
        ...lengthCells(sheet, piece.tang),
      ]),
    ),
    text(`Altogether ${size(sheet, wire.total, [0, 1])} in ${wire.pieces.length} pieces.`),
  ];
}
