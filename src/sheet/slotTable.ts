import type { LengthUnit } from '../profile/types.ts';
import { formatNumber } from '../units/format.ts';
import { positiveSide } from './benchSheet.ts';
import { BENCH } from './benchTolerances.ts';
import { centsOf, slip } from './cents.ts';
import { otherUnit, placeIn, size, unitName } from './lengthWords.ts';
import { markerNotes } from './markerNotes.ts';
import { type Column, textTable } from './textTable.ts';
import type { Sheet, SheetFret, SheetMarker } from './types.ts';
import { wrapText } from './wrapText.ts';

/** Slots and face markers in the order in which a rule meets them, in one unit. Heads are kept narrow for the page. */
export function slotTable(sheet: Sheet, unit: LengthUnit): string[] {
  const hasPairs = sheet.markers.some((marker) => marker.at[1] !== 0);
  const heads: Column[] = [
    { head: ['what'], align: 'left' },
    { head: ['where'], align: 'left' },
    { head: ['from', 'scale', 'zero', unit], align: 'right' },
    { head: ['from', 'nut face', unit], align: 'right' },
    { head: ['from', 'slot', 'before', unit], align: 'right' },
    ...(hasPairs ? [{ head: ['from the', 'centreline', unit], align: 'right' } as const] : []),
    { head: ['work to', '+/-', unit], align: 'right' },
    { head: [...slip(unit).words.split(' '), 'off is', 'cents'], align: 'right' },
  ];
  const aside = (cell: string): string[] => (hasPairs ? [cell] : []);
  const slots = sheet.frets.map((fret, i) => ({
    x: fret.fromScaleZero,
    row: slotRow(sheet, unit, fret, i, aside('')),
  }));
  const markers = sheet.markers.map((marker) => ({
    x: marker.at[0],
    row: markerRow(
      sheet,
      unit,
      marker,
      aside(marker.at[1] === 0 ? '' : placeIn(unit, Math.abs(marker.at[1]))),
    ),
  }));
  const rows = [...slots, ...markers].sort((a, b) => a.x - b.x).map((r) => r.row);
  return [`Slots and face markers, in ${unitName(unit)}:`, ...textTable(heads, rows)];
}

/** A fret's name from its number: 6.5 is the half fret `6+`. */
export const nameOf = (n: number): string => (Number.isInteger(n) ? String(n) : `${Math.floor(n)}+`);

/** Between which slots a marker lies. */
export function between({ frets }: Sheet, fret: number): string {
  const before = frets.findLast(({ n }) => n < fret && n > 0);
  return before === undefined
    ? `${frets[0]?.n === 0 ? 'zero fret' : 'nut'} and slot ${nameOf(fret)}`
    : `slots ${nameOf(before.n)} and ${nameOf(fret)}`;
}

function slotRow(sheet: Sheet, unit: LengthUnit, fret: SheetFret, i: number, aside: string[]): string[] {
  const before = sheet.frets.findLast(({ n }, k) => k < i && n < fret.n);
  const after = sheet.frets.find(({ n }) => n > fret.n);
  const left = before === undefined ? 'after the nut' : `after ${nameOf(before.n)}`;
  const right = after === undefined ? 'the last' : `before ${nameOf(after.n)}`;
  const under = fret.strings === undefined ? '' : `, strings ${fret.strings.join(' to ')}`;
  return [
    fret.n === 0 ? 'zero fret' : `slot ${nameOf(fret.n)}`,
    `${left}, ${right}${under}`,
    placeIn(unit, fret.fromScaleZero),
    placeIn(unit, fret.fromNutFace),
    placeIn(unit, fret.fromPrevious),
    ...aside,
    `${placeIn(unit, BENCH.slotSawn)} / ${placeIn(unit, BENCH.slotMachined)}`,
    formatNumber(centsOf(slip(unit).mm, sheet.scaleLength - fret.fromScaleZero), 2),
  ];
}

function markerRow(sheet: Sheet, unit: LengthUnit, marker: SheetMarker, aside: string[]): string[] {
  const x = marker.at[0];
  return [
    `  marker ${nameOf(marker.fret)}`,
    whereOf(sheet, marker),
    placeIn(unit, x),
    placeIn(unit, x - sheet.nutFace),
    '',
    ...aside,
    placeIn(unit, BENCH.marker),
    '',
  ];
}

function whereOf(sheet: Sheet, { fret, at: [, y] }: SheetMarker): string {
  if (y === 0) return `between ${between(sheet, fret)}`;
  const positive = positiveSide(sheet);
  const side = y > 0 ? positive : positive === 'treble' ? 'bass' : 'treble';
  return `${between(sheet, fret)}, ${side}`;
}

/** What holds for all slots and all markers. */
export function slotNotes(sheet: Sheet): string[] {
  const width = `${size(sheet, sheet.slotWidth, [3, 4])} wide, +/- ${size(sheet, BENCH.slotWidth, [2, 4])}`;
  const depth = `${size(sheet, sheet.slotDepth)} deep at the edge of the finished board, +${size(sheet, BENCH.slotDepthOver)} -0`;
  return [
    `Slots: ${width}; ${depth}.`,
    'A slot’s place is its middle. Tolerance of slots: the first figure when sawn, the second when machined; both from the nut face.',
    'These are bench tolerances (common practice). Programs are proven to finer ones, stated with each program.',
    errorNote(sheet.units),
    ...markerNotes(sheet),
  ].flatMap((note) => wrapText(note));
}

/** In each unit's own numbers: cents = factor / (scale length - place). */
function errorNote(own: LengthUnit): string {
  const factor = (unit: LengthUnit): string =>
    formatNumber(centsOf(slip(unit).amount, 1), unit === 'mm' ? 1 : 2);
  const other = otherUnit(own);
  return (
    `The last column: an error of ${slip(own).words} in a slot’s place changes its note by ${factor(own)} / (scale length - ` +
    `place from scale zero) cents, both in ${unitName(own)}; one of ${slip(other).words} by ${factor(other)} / (the same in ${unitName(other)}).`
  );
}
