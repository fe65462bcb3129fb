import type { LengthUnit } from '../profile/types.ts';
import { formatNumber } from '../units/format.ts';
import { anchorWords } from './anchorWords.ts';
import { BENCH } from './benchTolerances.ts';
import { centsOf } from './cents.ts';
import { oneLine } from './headLines.ts';
import { otherUnit, placeIn, size, unitName } from './lengthWords.ts';
import { type Column, textTable } from './textTable.ts';
import type { Sheet } from './types.ts';
import { wrapText } from './wrapText.ts';

/** Saddle points and the strings’ ends behind them, in one unit; gauges in both, as strings are sold. */
export function stringTable(sheet: Sheet, unit: LengthUnit): string[] {
  const other = otherUnit(unit);
  const { column } = anchorWords(sheet.anchor.kind);
  const heads: Column[] = [
    { head: ['string'], align: 'left' },
    { head: ['gauge', unit], align: 'right' },
    { head: ['gauge', other], align: 'right' },
    { head: ['saddle', 'behind', 'scale length', unit], align: 'right' },
    { head: ['saddle', 'from', 'nut face', unit], align: 'right' },
    { head: ['off the', 'straight', 'saddle', unit], align: 'right' },
    { head: [`${column} from`, 'nut face', unit], align: 'right' },
    { head: [`${column} from`, 'centreline', unit], align: 'right' },
    { head: ['side'], align: 'left' },
  ];
  const rows = sheet.pins.map((p, i) => [
    `${p.position} ${oneLine(p.pitch)}`,
    placeIn(unit, p.gauge),
    placeIn(other, p.gauge),
    placeIn(unit, p.setBack),
    placeIn(unit, p.saddleFromNutFace),
    placeIn(unit, sheet.offSaddle[i] ?? 0),
    placeIn(unit, p.fromNutFace),
    placeIn(unit, Math.abs(p.fromCentreline)),
    p.side,
  ]);
  return [
    `Saddle and ${anchorWords(sheet.anchor.kind).many}, in ${unitName(unit)}; string 1 is the bass-most:`,
    ...textTable(heads, rows),
  ];
}

/** What holds for all strings. */
export function stringNotes(sheet: Sheet): string[] {
  const cents = formatNumber(centsOf(1, sheet.scaleLength), 2);
  return [
    `Set-backs (saddle behind scale length) are those of the profile. ${sheet.anchor.kind === 'pins' ? 'Pins' : 'All places'} are measured along and square to the centreline.`,
    ...(sheet.pins.length < 3 ? [] : [saddleNote(sheet, cents)]),
    `Work to: lengthwise +/- ${size(sheet, BENCH.bridgeLengthwise)}, skew ${size(sheet, BENCH.bridgeSkew)} over the outer ${sheet.anchor.kind === 'pins' ? 'pins' : 'strings'}, ` +
      `centring +/- ${size(sheet, BENCH.bridgeCentring)} (common practice).`,
  ].flatMap((note) => wrapText(note));
}

function saddleNote(sheet: Sheet, cents: string): string {
  return (
    'A straight saddle runs through the saddle points of the two outer strings. Off it means: this string’s point lies that far ' +
    'behind that line, or with a minus in front of it, along the centreline. Shape the saddle’s top to bring the string there; ' +
    `${size(sheet, 1)} left uncorrected is ${cents} cents of the open string and twice that at its octave.`
  );
}
