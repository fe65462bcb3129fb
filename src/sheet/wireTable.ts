import type { LengthUnit } from '../profile/types.ts';
import type { WirePiece, WireStick } from '../wire/types.ts';
import { otherUnit, placeIn, size } from './lengthWords.ts';
import { type Column, textTable } from './textTable.ts';
import type { Sheet } from './types.ts';
import { wrapText } from './wrapText.ts';

/** A label for each piece of fret wire in the order in which frets go in, in both units, and what to nip from which stick. */
export function wireLines(sheet: Sheet): string[] {
  const { wire } = sheet;
  if (wire.pieces.length === 0) return ['Fret wire: none.'];
  return [
    'Fret wire, in the order in which the frets go in:',
    ...textTable(
      columns(sheet.units),
      wire.pieces.map((piece) => row(piece, sheet.units)),
    ),
    '',
    ...wireNotes(sheet).flatMap((note) => wrapText(note)),
    ...stickLines(sheet),
  ];
}

function columns(unit: LengthUnit): Column[] {
  return [
    { head: ['fret'], align: 'left' },
    ...[unit, otherUnit(unit)].flatMap((u): Column[] => [
      { head: ['to nip off', u], align: 'right' },
      { head: ['crown', u], align: 'right' },
      { head: ['tang', u], align: 'right' },
    ]),
  ];
}

function row({ label, cut, crown, tang }: WirePiece, unit: LengthUnit): string[] {
  return [
    label,
    ...[unit, otherUnit(unit)].flatMap((u) => [cut, crown, tang].map((length) => placeIn(u, length))),
  ];
}

function wireNotes(sheet: Sheet): string[] {
  const { pieces, trim, total } = sheet.wire;
  const longer = Math.max(...pieces.map((piece) => piece.crown - piece.straight));
  return [
    `To nip off: the crown and ${size(sheet, trim)} to trim, both ends together. Altogether ${size(sheet, total, [0, 1])} in ${pieces.length} pieces.`,
    `Lengths are those along the board's surface: over its curve, and along the slot where that is slanted. A rule laid straight across shows up to ${size(sheet, longer, [2, 4])} less.`,
    ...(pieces.some((piece) => piece.crown - piece.tang > 1e-6)
      ? [
          'Where the tang is shorter than the crown, nip it back at the ends that stop in the wood or under the binding, half the difference at each such end when both are alike.',
        ]
      : []),
  ];
}

function stickLines(sheet: Sheet): string[] {
  const { sticks } = sheet.wire;
  if (sticks === null) return [];
  const least = sticks.isLeast ? 'fewer would not do' : 'fewer were not found';
  return [
    '',
    ...wrapText(`Sticks of ${size(sheet, sticks.length)}: ${sticks.sticks.length} (${least}).`),
    ...sticks.sticks.flatMap((stick, i) => wrapText(stickWords(sheet, stick, i))),
  ];
}

function stickWords(sheet: Sheet, { pieces, left }: WireStick, i: number): string {
  return `Stick ${i + 1}: frets ${pieces.map((piece) => piece.label).join(', ')}; ${size(sheet, left, [1, 2])} left.`;
}
