import { formatNumber } from '../units/format.ts';
import { both, otherUnit, placeIn } from './lengthWords.ts';
import { nameOf } from './slotTable.ts';
import type { Sheet } from './types.ts';
import { wrapText } from './wrapText.ts';

/** The checks first, then what the instrument is and how to measure it. */
export function headLines(sheet: Sheet): string[] {
  return [
    octaveLine(sheet),
    ...wrapText(sumCheck(sheet)),
    ...octaveFromNut(sheet),
    ...wrapText(`The differences as printed below, rounded, add up to ${printedSums(sheet)}.`),
    '',
    ...wrapText(`Instrument: ${oneLine(sheet.instrument)}`),
    ...wrapText(scaleLine(sheet)),
    ...wrapText(nutLine(sheet)),
    handLine(sheet),
    '',
    'Measure every slot and every marker from the nut line, each time, with one rule laid once.',
    ...wrapText(
      'Never add differences up along the board: errors would add up with them. They are here for checking.',
    ),
  ];
}

/** The scale lengths and what they lie along, the frets and the division of the octave. */
function scaleLine(sheet: Sheet): string {
  const { scale, division, perOctave } = sheet;
  const { length: count } = fretsOf(sheet);
  const every = perOctave === null ? division.words : `${perOctave} to the octave`;
  // With frets left out, added or in pieces, the steps of the octave are not the frets on it.
  const steps =
    perOctave !== null && sheet.checks.ratio === null ? `on steps of ${perOctave} to the octave` : every;
  const source = division.source === null ? '' : ` (${division.source})`;
  const frets = `Frets: ${count}, ${steps}${source}.`;
  const along = scale.along === 'centreline' ? 'along the centreline' : 'along the reference lines';
  const lines = scale.along === 'centreline' && scale.squareAt === null ? '' : linesWords(sheet);
  if (scale.squareAt === null) {
    return `Scale length: ${both(sheet, scale.bass)}, ${along}.${lines} ${frets}`;
  }
  return (
    `Scale lengths: ${both(sheet, scale.bass)} on the bass side and ${both(sheet, scale.treble)} on the treble side, both ${along}; ` +
    `${both(sheet, sheet.scaleLength)} on the centreline.${lines} Slots are square at ${scale.squareAt} and slant from there. ${frets}`
  );
}

function linesWords(sheet: Sheet): string {
  const { lines } = sheet.scale;
  if (lines === null) return '';
  return ` The reference lines lie ${both(sheet, lines.nut)} from the centreline at scale zero and ${both(sheet, lines.saddle)} where the scale ends.`;
}

/** Frets, without a zero fret, each once. */
function fretsOf({ frets }: Sheet): Sheet['frets'] {
  return frets.filter((fret, i) => fret.n > 0 && frets[i - 1]?.n !== fret.n);
}

/** A name from a profile on one line. */
export function oneLine(text: string): string {
  return text.replace(/[\p{Cc}\p{Zl}\p{Zp}]+/gu, ' ').trim();
}

/** One line whatever the numbers: it is the first thing looked at. */
function octaveLine(sheet: Sheet): string {
  const { units, scaleLength } = sheet;
  const { octave } = sheet.checks;
  if (octave === null) {
    const { length: count } = fretsOf(sheet);
    const last = Math.max(...sheet.frets.map((f) => f.cents));
    const half = both(sheet, scaleLength / 2);
    if (last > 1200) return `No slot is at the octave, half the scale, ${half} from scale zero.`;
    const ends = count === 1 ? 'The only slot comes' : `The ${count} slots end`;
    const name = sheet.perOctave === null ? 'the octave' : `slot ${sheet.perOctave}`;
    return `${ends} before the octave; ${name}, half the scale, would lie at ${half}.`;
  }
  return (
    `Slot ${nameOf(octave.fret)} is half the scale: it lies ${both(sheet, octave.fromScaleZero)} from scale zero; ` +
    `${placeIn(units, scaleLength)} / 2 = ${placeIn(units, octave.halfScale)} ${units}.`
  );
}

function octaveFromNut(sheet: Sheet): string[] {
  const { octave } = sheet.checks;
  if (octave === null || sheet.nutFace === 0) return [];
  const from = both(sheet, octave.fromScaleZero - sheet.nutFace);
  return wrapText(
    `From the nut face slot ${nameOf(octave.fret)} lies ${from}: that is not half the scale, which counts from scale zero.`,
  );
}

function sumCheck(sheet: Sheet): string {
  const { sum, ratio } = sheet.checks;
  const frets = fretsOf(sheet);
  const count = frets.length;
  const last = nameOf(frets[count - 1]?.n ?? 0);
  const subject = count === 1 ? 'the only difference is' : `the ${count} differences add up to`;
  const ratios =
    count === 1 || ratio === null
      ? ''
      : ` Each difference is ${formatNumber(ratio.least, 6)} to ${formatNumber(ratio.most, 6)} of the one before it (it must be ${formatNumber(ratio.expected, 6)}).`;
  return (
    `Sum check: ${subject} ${both(sheet, sum.ofDifferences)}; slot ${last} lies ${both(sheet, sum.lastSlot)} ` +
    `from scale zero.${firstDifference(sheet)}${ratios}`
  );
}

function firstDifference({ nutFace }: Sheet): string {
  return nutFace === 0 ? '' : ' The first difference starts at scale zero, not at the nut face.';
}

/** What a person gets who adds up the printed differences of either table. */
function printedSums(sheet: Sheet): string {
  return [sheet.units, otherUnit(sheet.units)]
    .map((unit) => {
      const sum = fretsOf(sheet).reduce((total, f) => total + Number(placeIn(unit, f.fromPrevious)), 0);
      return `${formatNumber(sum, unit === 'mm' ? 2 : 3)} ${unit}`;
    })
    .join(', or to ');
}

function nutLine(sheet: Sheet): string {
  if (sheet.nutFace === 0) {
    return 'Nut line: the nut face is scale zero; the columns from the two are the same.';
  }
  if (sheet.zeroFret) {
    return `Nut line: the nut face lies ${both(sheet, -sheet.nutFace)} behind the zero fret, which is scale zero and carries the open strings. The rule touches the nut face: use the column from the nut face.`;
  }
  const side = sheet.nutFace > 0 ? 'forward of scale zero, toward the bridge' : 'behind scale zero';
  return `Nut line: the nut face lies ${both(sheet, Math.abs(sheet.nutFace))} ${side}. The rule touches the nut face: use the column from the nut face.`;
}

function handLine(sheet: Sheet): string {
  return sheet.hand === 'left'
    ? 'LEFT-HANDED instrument: face up with the nut on your left, the bass edge is the far one.'
    : 'Right-handed instrument: face up with the nut on your left, the bass edge is the near one.';
}
