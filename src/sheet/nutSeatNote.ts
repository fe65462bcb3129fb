import { both, size } from './lengthWords.ts';
import type { Sheet } from './types.ts';

/** What the nut stands in, where its face is touched there, and what a rule hooked over the board's own end reads. */
export function nutSeatNote(sheet: Sheet): string[] {
  const { nutSeat, binding } = sheet.board;
  if (nutSeat === null) return [];
  const { kind, length, depth, toBoardEnd } = nutSeat;
  const what =
    kind === 'slot'
      ? `in a slot across the board, ${size(sheet, length)} long, the board going on behind it`
      : `on a ledge at the board's nut end, ${size(sheet, length)} long`;
  const strips = binding === null ? '' : ' Binding is sawn out to the same floor by hand.';
  return [
    `Nut: it stands ${what}; the floor is flat, ${size(sheet, depth)} below the crest. The nut face is the ${kind}'s wall toward the frets: measure from there once it is cut. The board itself ends ${both(sheet, toBoardEnd)} behind the nut face: a rule hooked over that end reads so much more than the column from the nut face.${strips}`,
  ];
}
