import { formatNumber } from '../units/format.ts';
import { size } from './lengthWords.ts';
import { nutSeatNote } from './nutSeatNote.ts';
import type { Sheet } from './types.ts';
import { wrapText } from './wrapText.ts';

/** The playing surface in words, how true it lies under the strings, and what of the board a bench must know besides. */
export function boardNotes(sheet: Sheet): string[] {
  return [
    surfaceNote(sheet),
    ...errorNote(sheet),
    ...floorNote(sheet),
    ...nutSeatNote(sheet),
    ...stopNote(sheet),
    ...bindingNote(sheet),
  ].flatMap((note) => wrapText(note));
}

function surfaceNote(sheet: Sheet): string {
  const { surface, radii } = sheet.board;
  if (radii === null) return 'Board: flat.';
  const [nut, end] = radii.map((radius) => size(sheet, radius));
  if (surface === 'cylinder') return `Board: radius ${nut}, the same all along.`;
  const why =
    surface === 'matched cone'
      ? 'a cone that spreads as the strings do'
      : 'a cone, its radius changing evenly';
  return `Board: radius ${nut} at the nut face, ${end} at the body end: ${why}.`;
}

/** Less than this is no error: it is far below what sanding or levelling can do. Millimetres. */
const NONE = 0.001;

function errorNote(sheet: Sheet): string[] {
  const { radii, offStrings } = sheet.board;
  if (radii === null) return [];
  const worst = offStrings.reduce((a, b) => (Math.abs(b) > Math.abs(a) ? b : a), 0);
  if (Math.abs(worst) < NONE)
    return [`Under every string it lies straight from the nut face to the body end, within ${NONE} mm.`];
  const number = offStrings.indexOf(worst) + 1;
  const side = worst > 0 ? 'higher' : 'lower';
  return [
    `Under the strings it is not quite straight: from the nut face to the body end it stands up to ${formatNumber(Math.abs(worst), 3)} mm ${side} than a straight line (string ${number}). Level the frets along the strings.`,
  ];
}

function floorNote(sheet: Sheet): string[] {
  const { slotFloor, deepestSlot } = sheet.board;
  if (slotFloor === 'follows') return [];
  return [
    `Slot floors are straight from edge to edge: ${size(sheet, sheet.slotDepth)} below the surface at the ends of a slot, up to ${size(sheet, deepestSlot)} at the crest.`,
  ];
}

function stopNote(sheet: Sheet): string[] {
  const { slotsStopShort } = sheet.board;
  if (slotsStopShort === 0) return [];
  return [
    `Slots stop ${size(sheet, slotsStopShort)} before the finished edge, measured along the slot, and end round where a cutter makes them: nip the tang back to that and a little more, and leave the crown full length.`,
  ];
}

function bindingNote(sheet: Sheet): string[] {
  const { binding } = sheet.board;
  if (binding === null) return [];
  const [nut, end] = binding.wood.map((width) => size(sheet, width));
  const where = binding.around === 'sides' ? 'both sides' : 'both sides and the body end';
  return [
    `Binding of ${size(sheet, binding.width)} goes on ${where}; the widths of the board are those over it. ${woodWords(sheet, nut, end)} The tang ends at the binding: nip it back there, so that only the crown lies over it.`,
  ];
}

/** Strips as high as the board make its wood narrower; those in a channel only its top. */
function woodWords(sheet: Sheet, nut: string | undefined, end: string | undefined): string {
  const depth = sheet.board.binding?.channelDepth ?? null;
  if (depth === null) return `The wood itself is ${nut} wide at the nut face and ${end} at the body end.`;
  return `It is let into a channel along the edges, its floor level and ${size(sheet, depth)} below the finished edge where that is lowest; between the channel's walls the top is ${nut} wide at the nut face and ${end} at the body end.`;
}
