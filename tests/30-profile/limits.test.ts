import { describe, expect, it } from 'vitest';
import { checkInstrument } from '../../src/profile/checkInstrument.ts';
import type { Instrument, StringBuild } from '../../src/profile/types.ts';
import { radiansFromDegrees } from '../../src/units/convert.ts';
import {
  block,
  board,
  bridge,
  equalCentres,
  face,
  frets,
  nut,
  parlour,
  pins,
  rod,
  setBacks,
  side,
  template,
} from './variations.ts';

const codes = (instrument: Instrument): string[] =>
  checkInstrument(instrument).map((finding) => finding.code);

/** A change to the parlour that is just allowed, one that is just not, and what the second is called. */
interface Limit {
  readonly name: string;
  readonly make: (value: number) => Instrument;
  readonly good: number;
  readonly bad: number;
  readonly code: string;
}

const pair = (fret: number, diameter: number): Instrument['faceMarkers']['at'] => [
  { fret: 9, count: 1, shape: 'round', diameter: 5 },
  { fret, count: 2, shape: 'round', diameter },
];

const firstString = (change: Partial<StringBuild>): Instrument => ({
  ...parlour,
  strings: parlour.strings.map((string, i) =>
    i === 0 ? { ...string, build: { ...string.build, ...change } } : string,
  ),
});

const tuned = (change: Partial<Instrument['intonation']>): Instrument => ({
  ...parlour,
  intonation: { ...parlour.intonation, ...change },
});

const limits: readonly Limit[] = [
  {
    name: 'width at a fret',
    make: (width) => board({ widthAt: { fret: 12, width } }),
    good: 54,
    bad: 45,
    code: 'board-narrows',
  },
  {
    name: 'fret of the second width',
    make: (fret) => board({ widthAt: { fret, width: 60 } }),
    good: 19,
    bad: 20,
    code: 'no-such-fret',
  },
  // 628 - 418.4301 - 40 = 169.57, and no schema limit here.
  {
    name: 'overhang',
    make: (overhang) => board({ overhang }),
    good: 169.5,
    bad: 169.6,
    code: 'board-too-long',
  },
  {
    name: 'end rounding',
    make: (endRounding) => board({ endRounding }),
    good: 9,
    bad: 9.01,
    code: 'rounding-too-large',
  },
  // (46 - spread - 1.3462) / 2 = 1.
  {
    name: 'string spread at the nut',
    make: (stringSpread) => nut({ stringSpread }),
    good: 40.6,
    bad: 42.7,
    code: 'strings-off-board',
  },
  {
    name: 'string margin at the nut',
    make: (stringSpread) => nut({ stringSpread }),
    good: 40.65,
    bad: 40.66,
    code: 'strings-near-edge',
  },
  {
    name: 'slot over tang',
    make: (slotWidth) => frets({ slotWidth }),
    good: 0.511,
    bad: 0.51,
    code: 'slot-too-narrow',
  },
  {
    name: 'slot under barbs',
    make: (slotWidth) => frets({ slotWidth }),
    good: 0.749,
    bad: 0.75,
    code: 'slot-too-wide',
  },
  {
    name: 'slot depth over tang',
    make: (slotDepth) => frets({ slotDepth }),
    good: 1.61,
    bad: 1.6,
    code: 'slot-too-shallow',
  },
  {
    name: 'air under the tang',
    make: (slotDepth) => frets({ slotDepth }),
    good: 2.4,
    bad: 2.41,
    code: 'slot-very-deep',
  },
  {
    name: 'blank',
    make: (blankThickness) => board({ blankThickness }),
    good: 6,
    bad: 5.99,
    code: 'blank-too-thin',
  },
  {
    name: 'radius',
    make: (radius) => board({ radius, thickness: 10, blankThickness: 10 }),
    good: 70,
    bad: 45,
    code: 'radius-too-small',
  },
  { name: 'channel width', make: (width) => rod({ width }), good: 20, bad: 30.1, code: 'rod-too-wide' },
  { name: 'channel length', make: (length) => rod({ length }), good: 427, bad: 428, code: 'rod-too-long' },
  {
    name: 'nut face',
    make: (setForward) => nut({ setForward }),
    good: 2,
    bad: 30.3,
    code: 'nut-too-far-forward',
  },
  {
    name: 'marker spread',
    make: (spread) => face({ spread }),
    good: 50,
    bad: 51.2,
    code: 'marker-off-board',
  },
  { name: 'markers apart', make: (spread) => face({ spread }), good: 5.6, bad: 5.5, code: 'markers-overlap' },
  // Space at fret 19: 12.44 less the slot and two walls and the clearance.
  {
    name: 'marker between slots',
    make: (diameter) => face({ at: [...pair(12, 5), { fret: 19, count: 1, shape: 'round', diameter }] }),
    good: 10,
    bad: 10.9,
    code: 'marker-too-wide',
  },
  {
    name: 'side marker up',
    make: (below) => side({ below }),
    good: 1.3,
    bad: 1.29,
    code: 'side-marker-too-high',
  },
  {
    name: 'side marker down',
    make: (below) => side({ below }),
    good: 3.5,
    bad: 3.6,
    code: 'side-marker-too-low',
  },
  {
    name: 'side marker depth',
    make: (depth) => side({ depth }),
    good: 11.5,
    bad: 11.6,
    code: 'side-marker-too-deep',
  },
  {
    name: 'pin under a crown',
    make: (diameter) => pins({ diameter }),
    good: 2,
    bad: 2.01,
    code: 'pin-not-covered',
  },
  {
    name: 'pin under a marker',
    make: (diameter) => pins({ diameter, place: 'marker', frets: [12, 15] }),
    good: 5,
    bad: 5.01,
    code: 'pin-not-covered',
  },
  // Rod half width 3.175, pin 0.8, wall 1.5.
  {
    name: 'pin beside the rod',
    make: (offset) => pins({ offset }),
    good: 5.475,
    bad: 5.47,
    code: 'pin-over-rod',
  },
  {
    name: 'pin inside the edge',
    make: (offset) => pins({ offset }),
    good: 21.89,
    bad: 21.91,
    code: 'pin-off-board',
  },
  {
    name: 'clear pin between slots',
    make: (leastWall) => pins({ leastWall, place: 'clear', frets: [2, 19] }),
    good: 4,
    bad: 5.3,
    code: 'pin-in-slot',
  },
  // The published cone: d <= D - 2 t tan(alpha/2) = 5.6 - 0.749 = 4.851.
  {
    name: 'drill for a full cone',
    make: (drill) => bridge({ drill }),
    good: 4.851,
    bad: 4.852,
    code: 'cone-not-full',
  },
  {
    name: 'drill under the seat',
    make: (drill) => bridge({ drill }),
    good: 4.8,
    bad: 5.6,
    code: 'drill-too-large',
  },
  {
    name: 'tapers',
    make: (degrees) => bridge({ pinTaper: radiansFromDegrees(degrees) }),
    good: 3.09,
    bad: 3.11,
    code: 'tapers-differ',
  },
  // Five gaps of at least 5.6 + 2.
  { name: 'pin spread', make: (spread) => bridge({ spread }), good: 38, bad: 37.9, code: 'pins-too-close' },
  {
    name: 'pins behind the saddle',
    make: (behindSaddle) => bridge({ behindSaddle }),
    good: 5.8,
    bad: 5.79,
    code: 'pins-in-saddle',
  },
  // Equal centres, line 0.58 from string to string: 4.5 ... 1.6, so string 5 belongs at 2.18.
  {
    name: 'saddle point behind the straight saddle',
    make: (setBack) => equalCentres(setBacks([4.5, 3.2, 2.5, 2.0, setBack, 1.6])),
    good: 3.18,
    bad: 3.19,
    code: 'off-straight-saddle',
  },
  {
    name: 'saddle point in front of it',
    make: (setBack) => equalCentres(setBacks([4.5, 3.2, 2.5, 2.0, setBack, 1.6])),
    good: 1.18,
    bad: 1.17,
    code: 'off-straight-saddle',
  },
  {
    name: 'set-back beside its neighbour',
    make: (setBack) => setBacks([setBack, 3.2, 2.5, 2.0, 2.8, 1.6]),
    good: 7.2,
    bad: 7.21,
    code: 'set-backs-differ',
  },
  {
    name: 'margin around pilot holes',
    make: (margin) => template({ margin, pilot: 2 }),
    good: 2,
    bad: 1.99,
    code: 'pilot-at-edge',
  },
  // Pins 57 / 5 = 11.4 apart.
  {
    name: 'pilot holes beside each other',
    make: (pilot) => template({ pilot, margin: 20 }),
    good: 10.4,
    bad: 10.41,
    code: 'pilots-too-close',
  },
  // Plates 64 x 40: the top is nearest, 40 * 0.4 = 16 from the dowel, until the plate is narrower than it is high.
  {
    name: 'dowel below the top',
    make: (dowelDiameter) => block({ dowelDiameter, width: 90, height: 30 }),
    good: 18,
    bad: 18.01,
    code: 'dowel-too-thick',
  },
  {
    name: 'dowel inside the side',
    make: (dowelDiameter) => block({ dowelDiameter, width: 20 }),
    good: 4,
    bad: 4.01,
    code: 'dowel-too-thick',
  },
  // A hollow of radius 60 rises 60 - sqrt(60^2 - 32^2) = 9.25 over a width of 64.
  {
    name: 'hollow below the top',
    make: (height) => ({
      ...block({ height, width: 64, padding: 0, dowelDiameter: 3 }),
      fingerboard: { ...parlour.fingerboard, radius: 60 },
    }),
    good: 12.26,
    bad: 12.24,
    code: 'block-too-wide',
  },
  {
    name: 'hollow as wide as its circle',
    make: (width) => ({
      ...block({ width, height: 120, padding: 0, dowelDiameter: 3 }),
      fingerboard: { ...parlour.fingerboard, radius: 60 },
    }),
    good: 119.9,
    bad: 120,
    code: 'block-too-wide',
  },
  {
    name: 'plates in a block',
    make: (plates) => block({ plates, plateThickness: 6, length: 60 }),
    good: 10,
    bad: 11,
    code: 'plates-too-many',
  },
  {
    name: 'fret of the action',
    make: (actionFret) => ({ ...parlour, targets: { ...parlour.targets, actionFret } }),
    good: 19,
    bad: 20,
    code: 'no-such-fret',
  },
  {
    name: 'fret where the bow ends',
    make: (bowFret) => ({ ...parlour, targets: { ...parlour.targets, bowFret } }),
    good: 19,
    bad: 20,
    code: 'no-such-fret',
  },
  // A wrap needs room over its core: 0.053 in is 1.3462 mm.
  { name: 'core', make: (core) => firstString({ core }), good: 1.34, bad: 1.3462, code: 'core-too-thick' },
  {
    name: 'edges of the saddle',
    make: (edge) => ({
      ...parlour,
      bridge: { ...parlour.bridge, saddle: { ...parlour.bridge.saddle, edge } },
    }),
    good: 1.58,
    bad: 1.5875,
    code: 'saddle-all-edge',
  },
  {
    name: 'importance of the strings',
    make: (importance) => ({
      ...parlour,
      strings: parlour.strings.map((string, i) => ({ ...string, importance: i === 0 ? importance : 0 })),
    }),
    good: 0.1,
    bad: 0,
    code: 'nothing-counts',
  },
  {
    name: 'weights of the frets',
    make: (weight) => tuned({ fretWeights: [0, 0, weight] }),
    good: 0.1,
    bad: 0,
    code: 'nothing-counts',
  },
  {
    name: 'frets for a nut',
    make: (weight) => tuned({ nut: 'free', fretWeights: [0, weight, 1] }),
    good: 0.1,
    bad: 0,
    code: 'nut-needs-two-frets',
  },
];

describe('limits between fields', () => {
  it.each(limits)('$name: $good is allowed, $bad is $code', ({ make, good, bad, code }) => {
    expect(codes(make(good))).not.toContain(code);
    expect(codes(make(bad))).toContain(code);
  });
});
