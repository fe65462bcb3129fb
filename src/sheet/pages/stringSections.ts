import type { BridgeWork } from '../../bridge/types.ts';
import { degreesFromRadians } from '../../units/convert.ts';
import { formatMm, formatShort } from '../../units/format.ts';
import { anchorLines } from '../anchorLines.ts';
import { anchorWords } from '../anchorWords.ts';
import { BENCH } from '../benchTolerances.ts';
import { both, size } from '../lengthWords.ts';
import { heading, left, lengthCells, lengthColumns, measuredTable, right, text } from './blocks.ts';
import type { PageBlock } from './types.ts';

/** Nut slots, the bridge's place, the saddle's heights and the pins' holes. */
export function stringSections(work: BridgeWork): PageBlock[] {
  return [...placeSection(work), ...saddleSection(work), ...pinSection(work), ...nutSection(work)];
}

function placeSection(work: BridgeWork): PageBlock[] {
  const { slot, skew, centring } = work.place;
  const { checkedAt: one } = anchorWords(work.anchor.kind);
  const rows: [string, number, number][] = [
    ['nut face to the saddle slot’s middle, on the centreline', slot.atCentre, BENCH.bridgeLengthwise],
    ['the same under the bass-most string', slot.bass, BENCH.bridgeLengthwise],
    ['the same under the treble-most string', slot.treble, BENCH.bridgeLengthwise],
    [`skew: bass corner at the nut to the bass-most ${one}`, skew.bass, BENCH.bridgeSkew],
    [`skew: treble corner to the treble-most ${one}`, skew.treble, BENCH.bridgeSkew],
    [`skew: bass corner to the treble-most ${one}`, skew.bassToTreble, BENCH.bridgeSkew],
    [`skew: treble corner to the bass-most ${one}`, skew.trebleToBass, BENCH.bridgeSkew],
    [`sideways: board’s bass edge carried on, to the bass-most ${one}`, centring.bass, BENCH.bridgeCentring],
    [
      `sideways: board’s treble edge carried on, to the treble-most ${one}`,
      centring.treble,
      BENCH.bridgeCentring,
    ],
  ];
  return [
    heading('Where the bridge goes, measured after the neck is set'),
    measuredTable(
      'The bridge’s place',
      [left('what'), ...lengthColumns(work, 'is to be'), right(`work to +/-, ${work.units}`)],
      rows.map(([what, mm, to]) => [what, ...lengthCells(work, mm), lengthCells(work, to)[0] ?? '']),
    ),
    text(
      `The slot leans ${formatShort(degreesFromRadians(slot.angle), 2)} degrees off square, its bass end back where that is positive. Lengthwise distances test the bridge’s skew, sideways ones its centring.`,
    ),
  ];
}

function saddleSection(work: BridgeWork): PageBlock[] {
  const { saddle } = work;
  return [
    heading('Saddle'),
    measuredTable(
      'Saddle',
      [
        left('string'),
        ...lengthColumns(work, 'from the bass end'),
        ...lengthColumns(work, 'above the bridge’s face'),
        right('crown off the middle, mm'),
      ],
      saddle.points.map((p) => [
        `${p.position} ${p.pitch}`,
        ...lengthCells(work, p.along),
        ...lengthCells(work, p.aboveBridge),
        p.lean === 0 ? '0' : `${formatMm(Math.abs(p.lean), 2)} ${p.lean < 0 ? 'forward' : 'back'}`,
      ]),
    ),
    text(
      `Blank: ${size(work, saddle.length)} long, ${size(work, saddle.width, [3, 4])} thick, at least ${size(work, saddle.tallest)} high, of which ${size(work, saddle.slotDepth)} stand in the slot.`,
    ),
  ];
}

function pinSection(work: BridgeWork): PageBlock[] {
  if (work.anchor.kind !== 'pins')
    return [
      heading('How the strings are held'),
      ...anchorLines(work.anchor, (length) => size(work, length)).map((line) => text(line)),
    ];
  return [
    heading('Bridge pins, one at a time'),
    measuredTable(
      'Bridge pins',
      [
        left('string'),
        ...lengthColumns(work, 'pin at the face'),
        ...lengthColumns(work, 'ream on after contact'),
        ...lengthColumns(work, 'begin trying at'),
        ...lengthColumns(work, 'string slot wide'),
      ],
      work.pins.map((p) => [
        `${p.position} ${p.pitch}`,
        ...lengthCells(work, p.seat, 'fine'),
        ...lengthCells(work, p.advance),
        ...lengthCells(work, p.tryFrom),
        ...lengthCells(work, p.stringSlot, 'fine'),
      ]),
    ),
    text(
      'Measure each pin where it will meet the bridge’s face; write that figure down, and ream its hole to it.',
    ),
  ];
}

function nutSection(work: BridgeWork): PageBlock[] {
  const { nut } = work;
  return [
    heading('Nut'),
    measuredTable(
      'Nut slots',
      [
        left('string'),
        ...lengthColumns(work, 'middle from the bass edge'),
        ...lengthColumns(work, 'slot wide'),
        ...lengthColumns(work, 'floor above the board'),
      ],
      nut.slots.map((slot) => [
        `${slot.position} ${slot.pitch}`,
        ...lengthCells(work, slot.fromBassEdge),
        ...lengthCells(work, slot.width, 'fine'),
        ...lengthCells(work, slot.aboveBoard),
      ]),
    ),
    text(
      `Blank: ${size(work, nut.length)} long, ${size(work, nut.thickness)} thick, at least ${both(work, nut.tallest)} high from the neck’s face. Slots are filed last of all, with the strings on.`,
    ),
  ];
}
