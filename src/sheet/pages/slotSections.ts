import { positiveSide } from '../benchSheet.ts';
import { BENCH } from '../benchTolerances.ts';
import { both, placeIn, size } from '../lengthWords.ts';
import { between, nameOf } from '../slotTable.ts';
import type { Sheet, SheetFret, SheetMarker } from '../types.ts';
import { heading, left, lengthCells, lengthColumns, measuredTable, right, text } from './blocks.ts';
import type { PageBlock } from './types.ts';

/** Slots as a caliper meets them: their middles, their two walls, and the span from one slot to the next. */
export function slotSection(sheet: Sheet): PageBlock[] {
  const machined = placeIn(sheet.units, BENCH.slotMachined);
  const sawn = placeIn(sheet.units, BENCH.slotSawn);
  return [
    heading('Fret slots, from the nut face'),
    text(
      'Near wall: from the nut face to the wall on the nut’s side, where a jaw in the slot stops when the caliper is closed. Far wall: to the wall on the bridge’s side, where a depth rod or a spread jaw stops. Spread: the inner jaws in this slot and the one before, opened until both touch; it is the distance of the middles and one slot’s width, and is for checking only.',
    ),
    measuredTable(
      'Fret slots by caliper',
      [
        left('slot'),
        left('where'),
        ...lengthColumns(sheet, 'middle'),
        ...lengthColumns(sheet, 'near wall'),
        ...lengthColumns(sheet, 'far wall'),
        ...lengthColumns(sheet, 'spread'),
      ],
      sheet.frets.map((fret, i) => slotRow(sheet, fret, i)),
    ),
    text(
      `Work to +/- ${sawn} ${sheet.units} sawn, +/- ${machined} ${sheet.units} machined (common practice); slots are ${size(sheet, sheet.slotWidth, [3, 4])} wide, +/- ${size(sheet, BENCH.slotWidth, [2, 4])}.`,
    ),
    ...sumChecks(sheet),
  ];
}

function slotRow(sheet: Sheet, fret: SheetFret, i: number): string[] {
  const { nutFace } = sheet;
  const before = sheet.frets.findLast(({ n }, k) => k < i && n < fret.n);
  const after = sheet.frets.find(({ n }) => n > fret.n);
  const lean = (fret.edges[1] - fret.edges[0]) / sheet.slotWidth;
  const strings = fret.strings === undefined ? '' : `, strings ${fret.strings.join(' to ')}`;
  return [
    fret.n === 0 ? 'zero fret' : nameOf(fret.n),
    `${before === undefined ? 'after the nut' : `after ${nameOf(before.n)}`}, ${after === undefined ? 'the last' : `before ${nameOf(after.n)}`}${strings}`,
    ...lengthCells(sheet, fret.fromNutFace),
    ...lengthCells(sheet, fret.edges[0] - nutFace),
    ...lengthCells(sheet, fret.edges[1] - nutFace),
    ...(before === undefined ? ['', ''] : lengthCells(sheet, fret.fromPrevious + sheet.slotWidth * lean)),
  ];
}

/** What catches a miscount: the octave, and the differences added up. */
function sumChecks(sheet: Sheet): PageBlock[] {
  const { octave, sum } = sheet.checks;
  const items = [
    ...(octave === null
      ? []
      : [
          `Slot ${nameOf(octave.fret)}, the octave, lies ${both(sheet, octave.fromScaleZero)} from scale zero, half the scale.`,
        ]),
    `The differences of all slots add up to ${both(sheet, sum.ofDifferences)}; the last slot lies ${both(sheet, sum.lastSlot)} from scale zero.`,
    `There are ${new Set(sheet.frets.filter(({ n }) => n > 0).map(({ n }) => n)).size} frets: count the slots aloud, from the nut and then from the end.`,
  ];
  return [{ kind: 'ticks', items }];
}

/** Face markers in their order from the nut, each with its neighbours, so that one left out or set twice shows. */
export function markerSection(sheet: Sheet): PageBlock[] {
  if (sheet.markers.length === 0) return [heading('Face markers'), text('None.')];
  const places = placesOf(sheet.markers);
  const rows = sheet.markers.map((marker) => {
    const place = places.findIndex((x) => Math.abs(x - marker.at[0]) < SAME);
    const next = places[place + 1];
    const before = places[place - 1] ?? sheet.nutFace;
    return [
      `${place + 1} of ${places.length}`,
      nameOf(marker.fret),
      `${between(sheet, marker.fret)}${sideOf(sheet, marker)}`,
      sizeOf(sheet, marker),
      ...lengthCells(sheet, marker.at[0] - sheet.nutFace),
      placeIn(sheet.units, marker.at[0] - before),
      next === undefined ? 'the last' : placeIn(sheet.units, next - marker.at[0]),
      marker.at[1] === 0 ? 'middle' : placeIn(sheet.units, Math.abs(marker.at[1])),
    ];
  });
  const steps = places.map((x, i) => x - (places[i - 1] ?? sheet.nutFace));
  const printed = steps.reduce((total, step) => total + Number(placeIn(sheet.units, step)), 0);
  const last = (places.at(-1) ?? 0) - sheet.nutFace;
  return [
    heading('Face markers, in order from the nut'),
    measuredTable(
      'Face markers in order',
      [
        left('place'),
        left('fret'),
        left('between'),
        left('shape and size'),
        ...lengthColumns(sheet, 'from nut face'),
        right(`from the one before, ${sheet.units}`),
        right(`to the next, ${sheet.units}`),
        right(`off the centreline, ${sheet.units}`),
      ],
      rows,
    ),
    {
      kind: 'ticks',
      items: [
        `${sheet.markers.length} markers at ${places.length} places. Frets, in order: ${sheet.markers.map((m) => nameOf(m.fret)).join(', ')}.`,
        `Sum check: the column "from the one before", each place once, adds up to ${printed.toFixed(sheet.units === 'mm' ? 2 : 3)} ${sheet.units}; the last marker lies ${both(sheet, last)} from the nut face.`,
      ],
    },
    text(
      `Work to +/- ${size(sheet, BENCH.marker)} (common practice). Each lies halfway between the two slots named, seen along the centreline.`,
    ),
  ];
}

/** Closer than this along the board is the same place: a pair. */
const SAME = 1e-6;

function placesOf(markers: readonly SheetMarker[]): number[] {
  const sorted = markers.map((m) => m.at[0]).sort((a, b) => a - b);
  return sorted.filter((x, i) => i === 0 || x - (sorted[i - 1] ?? 0) >= SAME);
}

function sideOf(sheet: Sheet, { at: [, y] }: SheetMarker): string {
  if (y === 0) return '';
  const positive = positiveSide(sheet);
  return `, ${y > 0 ? positive : positive === 'treble' ? 'bass' : 'treble'} side`;
}

function sizeOf(sheet: Sheet, { shape, size: along, across }: SheetMarker): string {
  const one = placeIn(sheet.units, along);
  return `${shape} ${across === undefined ? one : `${one} x ${placeIn(sheet.units, across)}`} ${sheet.units}`;
}
