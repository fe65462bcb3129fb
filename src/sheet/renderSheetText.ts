import { degreesFromRadians } from '../units/convert.ts';
import { formatInches, formatMm, formatNumber, formatShort } from '../units/format.ts';
import { positiveSide } from './benchSheet.ts';
import { BENCH } from './benchTolerances.ts';
import { type Column, textTable } from './textTable.ts';
import type { Sheet, SheetFret, SheetMarker } from './types.ts';

/** Cents of a frequency ratio, per natural logarithm: 1200 / ln 2. */
const CENTS = 1200 / Math.LN2;

/**
 * The sheet as a page of text: slots and markers in the order in which a rule meets them, each beside its neighbours, so
 * that a miscount shows. Millimetres with two decimals and decimal inches with three, the profile's own unit first.
 */
export function renderSheetText(sheet: Sheet): string {
  return `${[
    ...headOf(sheet),
    '',
    ...slotTable(sheet),
    '',
    ...slotNotes(sheet),
    ...sideMarkerTable(sheet),
    '',
    ...pinTable(sheet),
    '',
    ...reamingLines(sheet),
  ].join('\n')}\n`;
}

/** A length with both units: `314.00 mm (12.362 in)`, the sheet's own first. */
function both(sheet: Sheet, mm: number): string {
  const metric = `${formatMm(mm, 2)} mm`;
  const inch = `${formatInches(mm, 3)} in`;
  return sheet.units === 'mm' ? `${metric} (${inch})` : `${inch} (${metric})`;
}

/** The two cells of a length, the sheet's own unit first. */
function cells(sheet: Sheet, mm: number): [string, string] {
  const pair: [string, string] = [formatMm(mm, 2), formatInches(mm, 3)];
  return sheet.units === 'mm' ? pair : [pair[1], pair[0]];
}

/** The two columns under one heading, which says the datum over each. */
function columns(sheet: Sheet, ...head: string[]): [Column, Column] {
  const [first, second] = sheet.units === 'mm' ? ['mm', 'in'] : ['in', 'mm'];
  return [
    { head: [...head, first], align: 'right' },
    { head: [...head, second], align: 'right' },
  ];
}

function headOf(sheet: Sheet): string[] {
  const { sum, ratio } = sheet.checks;
  const last = sheet.frets[sheet.frets.length - 1];
  return [
    octaveLine(sheet),
    `Sum check: the ${sheet.frets.length} differences add up to ${both(sheet, sum.ofDifferences)}; slot ${last?.n ?? 0} lies ` +
      `${both(sheet, sum.lastSlot)} from scale zero. Each difference is ${formatNumber(ratio.least, 6)} to ` +
      `${formatNumber(ratio.most, 6)} of the one before it (it must be ${formatNumber(ratio.expected, 6)}).`,
    `The differences as printed below, rounded, add up to ${printedSum(sheet)}.`,
    '',
    `Instrument: ${oneLine(sheet.instrument)}`,
    `Scale length: ${both(sheet, sheet.scaleLength)}. Frets: ${sheet.frets.length}, ${sheet.perOctave} to the octave.`,
    nutLine(sheet),
    handLine(sheet),
    '',
    'Measure every slot and every marker from the nut line, each time, with one rule laid once.',
    'Never add differences up along the board: errors would add up with them. They are here for checking.',
  ];
}

/** What a person gets who adds up the printed differences in the sheet's own unit. */
function printedSum(sheet: Sheet): string {
  const [decimals, unit] = sheet.units === 'mm' ? [2, 'mm'] : [3, 'in'];
  const sum = sheet.frets.reduce((total, f) => total + Number(cells(sheet, f.fromPrevious)[0]), 0);
  return `${formatNumber(sum, decimals)} ${unit}`;
}

function octaveLine(sheet: Sheet): string {
  const { octave } = sheet.checks;
  if (octave === null) {
    return `This board ends before the octave: it has ${sheet.frets.length} slots and the octave would be slot ${sheet.perOctave}, at half the scale, ${both(sheet, sheet.scaleLength / 2)}.`;
  }
  return (
    `Slot ${octave.fret} is half the scale: it lies ${both(sheet, octave.fromScaleZero)} from scale zero; ` +
    `half of ${both(sheet, sheet.scaleLength)} is ${both(sheet, octave.halfScale)}.`
  );
}

function nutLine(sheet: Sheet): string {
  if (sheet.nutFace === 0) {
    return 'Nut line: the nut face is scale zero; the columns from the two are the same.';
  }
  const side = sheet.nutFace > 0 ? 'forward of scale zero, toward the bridge' : 'behind scale zero';
  return `Nut line: the nut face lies ${both(sheet, Math.abs(sheet.nutFace))} ${side}. The rule touches the nut face: use the column from the nut face.`;
}

function handLine(sheet: Sheet): string {
  return sheet.hand === 'left'
    ? 'LEFT-HANDED instrument: face up with the nut on your left, the bass edge is the far one.'
    : 'Right-handed instrument: face up with the nut on your left, the bass edge is the near one.';
}

function slotTable(sheet: Sheet): string[] {
  const heads: Column[] = [
    { head: ['what'], align: 'left' },
    { head: ['where'], align: 'left' },
    ...columns(sheet, 'from', 'scale zero'),
    ...columns(sheet, 'from', 'nut face'),
    ...columns(sheet, 'from the', 'slot before'),
    { head: ['work to +/-', 'from nut face', 'mm'], align: 'right' },
    { head: ['0.1 mm off', 'at this slot', 'cents'], align: 'right' },
  ];
  const slots = sheet.frets.map((fret, i) => ({ x: fret.fromScaleZero, row: slotRow(sheet, fret, i) }));
  const markers = sheet.markers.map((marker) => ({ x: marker.at[0], row: markerRow(sheet, marker) }));
  const rows = [...slots, ...markers].sort((a, b) => a.x - b.x).map((r) => r.row);
  return textTable(heads, rows);
}

function slotRow(sheet: Sheet, fret: SheetFret, i: number): string[] {
  const before = sheet.frets[i - 1];
  const after = sheet.frets[i + 1];
  const left = before === undefined ? 'after the nut' : `after slot ${before.n}`;
  const right = after === undefined ? 'the last' : `before slot ${after.n}`;
  return [
    `slot ${fret.n}`,
    `${left}, ${right}`,
    ...cells(sheet, fret.fromScaleZero),
    ...cells(sheet, fret.fromNutFace),
    ...cells(sheet, fret.fromPrevious),
    `${formatMm(BENCH.slotSawn, 2)} / ${formatMm(BENCH.slotMachined, 2)}`,
    formatNumber((CENTS * 0.1) / (sheet.scaleLength - fret.fromScaleZero), 2),
  ];
}

function markerRow(sheet: Sheet, marker: SheetMarker): string[] {
  const [x, y] = marker.at;
  return [
    `  marker ${marker.fret}`,
    `between ${between(marker.fret)}${aside(sheet, y)}`,
    ...cells(sheet, x),
    ...cells(sheet, x - sheet.nutFace),
    '',
    '',
    formatMm(BENCH.marker, 2),
    '',
  ];
}

function between(fret: number): string {
  return fret === 1 ? 'scale zero and slot 1' : `slots ${fret - 1} and ${fret}`;
}

function aside(sheet: Sheet, y: number): string {
  if (y === 0) return '';
  const positive = positiveSide(sheet);
  const side = y > 0 ? positive : positive === 'treble' ? 'bass' : 'treble';
  return `, ${sheet.units === 'mm' ? `${formatMm(Math.abs(y), 2)} mm` : `${formatInches(Math.abs(y), 3)} in`} to the ${side} side`;
}

function slotNotes(sheet: Sheet): string[] {
  return [
    `Slots: ${formatShort(sheet.slotWidth, 3)} mm wide (+/- ${BENCH.slotWidth}), ${formatShort(sheet.slotDepth, 2)} mm deep at the edge of the finished board (+${BENCH.slotDepthOver} -0).`,
    'A slot’s place is its middle. Tolerance of slots: the first figure when sawn, the second when machined; both from the nut face.',
    'These are bench tolerances (common practice). Programs are proven to finer ones, stated with each program.',
    'An error of 0.1 mm in a slot’s place changes its note by 173.1 / (scale length - place) cents: the last column.',
    ...markerLines(sheet),
    '',
  ];
}

/** One line for each shape there is, and how round the corners are. */
function markerLines(sheet: Sheet): string[] {
  const shapes = (['round', 'square', 'diamond'] as const).flatMap((shape) => {
    const markers = sheet.markers.filter((m) => m.shape === shape);
    const sizes = markers.sort((a, b) => b.size - a.size || acrossOf(b) - acrossOf(a)).map(sizeWords);
    const counts = [...new Set(sizes)].map((size) => `${sizes.filter((s) => s === size).length} of ${size}`);
    return counts.length === 0 ? [] : [`Face markers, ${shape}: ${counts.join(', ')}.`];
  });
  return [...shapes, ...cornerLines(sheet)];
}

function acrossOf({ size, across }: SheetMarker): number {
  return across ?? size;
}

function sizeWords(marker: SheetMarker): string {
  const along = `${formatShort(marker.size, 2)} mm`;
  if (marker.shape !== 'diamond') return along;
  return `${along} along x ${formatShort(acrossOf(marker), 2)} mm across`;
}

function cornerLines({ markerCorners }: Sheet): string[] {
  if (markerCorners === null) return [];
  return markerCorners === 0
    ? [
        'Their pockets are meant with sharp corners. A cutter leaves them as round as itself: the feed notes say how round; clean them out with a chisel, or round the markers to match.',
      ]
    : [
        `The corners of their pockets are round, ${formatShort(markerCorners, 2)} mm in radius: round the markers’ corners to the same or a little more.`,
      ];
}

function sideMarkerTable(sheet: Sheet): string[] {
  if (sheet.sideMarkers.length === 0) return ['Side markers: none.'];
  const heads: Column[] = [
    { head: ['side marker'], align: 'left' },
    { head: ['where'], align: 'left' },
    ...columns(sheet, 'from', 'scale zero'),
    ...columns(sheet, 'from', 'nut face'),
    ...columns(sheet, 'centre below', 'the finished edge'),
    { head: ['diameter', 'mm'], align: 'right' },
    { head: ['depth', 'mm'], align: 'right' },
    { head: ['work to +/-', 'mm'], align: 'right' },
  ];
  const rows = sheet.sideMarkers.map((m) => [
    m.id.replace('side-marker-', ''),
    `between ${between(m.fret)}`,
    ...cells(sheet, m.fromScaleZero),
    ...cells(sheet, m.fromNutFace),
    ...cells(sheet, m.below),
    formatMm(m.diameter, 2),
    formatMm(m.depth, 2),
    formatMm(BENCH.marker, 2),
  ]);
  return ['Side markers, in the bass edge, drilled square to it:', ...textTable(heads, rows)];
}

function pinTable(sheet: Sheet): string[] {
  const heads: Column[] = [
    { head: ['string'], align: 'left' },
    { head: ['gauge', 'in'], align: 'right' },
    ...columns(sheet, 'saddle behind', 'scale length'),
    ...columns(sheet, 'saddle from', 'nut face'),
    ...columns(sheet, 'pin from', 'nut face'),
    ...columns(sheet, 'pin from', 'centreline'),
    { head: ['side'], align: 'left' },
  ];
  const rows = sheet.pins.map((p) => [
    `${p.position} ${oneLine(p.pitch)}`,
    formatInches(p.gauge, 3),
    ...cells(sheet, p.setBack),
    ...cells(sheet, p.saddleFromNutFace),
    ...cells(sheet, p.fromNutFace),
    ...cells(sheet, Math.abs(p.fromCentreline)),
    p.side,
  ]);
  return [
    'Saddle and bridge pins; string 1 is the bass-most. Set-backs are those of the profile. Pins are measured along and square to the centreline.',
    ...textTable(heads, rows),
    `Work to: lengthwise +/- ${BENCH.bridgeLengthwise} mm, skew ${BENCH.bridgeSkew} mm over the outer pins, centring +/- ${BENCH.bridgeCentring} mm (common practice).`,
  ];
}

function reamingLines(sheet: Sheet): string[] {
  const r = sheet.reaming;
  const drill = formatShort(r.drill, 3);
  const cone = r.coneAllThrough
    ? `The cone goes all through ${formatShort(r.through, 2)} mm of wood.`
    : `The cone reaches ${formatMm(r.advance, 2)} mm deep; below that the hole stays straight.`;
  return [
    `Reaming the pin holes: drilled ${drill} mm, ${formatShort(r.seat, 2)} mm at the bridge’s face, reamer of ${degrees(r.reamerTaper)} included.`,
    `After the reamer first touches the hole all round it goes ${formatMm(r.advance, 2)} mm further.`,
    `A cone all through ${formatShort(r.through, 2)} mm of wood needs a drill of at most ${formatMm(r.largestDrillForFullCone, 3)} mm: ${drill} mm is ${r.coneAllThrough ? 'small enough' : 'larger'}. ${cone}`,
    taperLine(sheet),
    'Measure each pin. Ream the last 2 mm by trying the pin in its own hole.',
  ];
}

function taperLine(sheet: Sheet): string {
  const { pinTaper, reamerTaper } = sheet.reaming;
  if (Math.abs(pinTaper - reamerTaper) < 1e-6) {
    const height = 0.05 / (2 * Math.tan(pinTaper / 2));
    return `Pin and reamer have the same taper: the pin goes down as far as the reamer does, and 0.05 mm of diameter is ${formatMm(height, 2)} mm of height.`;
  }
  return `WARNING: the pin’s taper (${degrees(pinTaper)}) is not the reamer’s (${degrees(reamerTaper)}): the pin will hold at one end only. Match them, or fit every pin by trying it.`;
}

function degrees(radians: number): string {
  return `${formatShort(degreesFromRadians(radians), 3)} deg`;
}

/** A name from a profile on one line. */
function oneLine(text: string): string {
  return text.replace(/[\p{Cc}\p{Zl}\p{Zp}]+/gu, ' ').trim();
}
