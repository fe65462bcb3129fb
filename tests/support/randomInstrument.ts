/** Random instruments as a builder would write them: texts of profiles whose numbers fit together, kinds mixed at will. */
import fc from 'fast-check';
import { type ShopByLot, type ShopLot, shopLot, shopOf } from './shopByLot.ts';

/** Even over its range; doubles of fast-check are even over the bits, most of them near 0. */
const share = fc.integer({ min: 0, max: 10_000 }).map((n) => n / 10_000);
/** True about once in `n`. */
const oneIn = (n: number) => fc.integer({ min: 1, max: n }).map((k) => k === n);

const DIVISIONS = [
  { words: { perOctave: 12 }, octave: 12 },
  { words: { perOctave: 17 }, octave: 17 },
  { words: { perOctave: 19 }, octave: 19 },
  { words: { perOctave: 7 }, octave: 7 },
  { words: { perOctave: 31 }, octave: 31 },
  {
    words: {
      ratios: ['16/15', '9/8', '6/5', '5/4', '4/3', '7/5', '3/2', '8/5', '5/3', '9/5', '15/8', '2/1'],
    },
    octave: 12,
  },
  { words: { cents: [182.4, 386.3, 498, 702, 884.4, 1088.3, 1200] }, octave: 7 },
  { words: { perOctave: 12, fretted: [2, 4, 5, 7, 9, 10, 12] }, octave: 7 },
] as const;

const SHAPES = ['round', 'square', 'diamond', 'ring', 'block', 'notched block'] as const;

/** Mistakes, by what must be found of them: slots that end beside the edge, a board to the bridge, a square fret beyond the last. */
const FLAWS = ['slot-stops-too-near', 'bad-length-size', 'no-such-fret'] as const;

/** What is drawn by lot; everything else follows, so that the numbers fit. */
const lot = fc.record({
  scale: share,
  shorter: fc.option(share, { freq: 2 }),
  square: share,
  strings: fc.integer({ min: 3, max: 12 }),
  apart: share,
  margin: share,
  spread: share,
  /** Strings in a course. */
  together: fc.constantFrom(1, 1, 1, 1, 2, 3),
  division: fc.constantFrom(...DIVISIONS, DIVISIONS[0], DIVISIONS[0]),
  frets: share,
  odd: fc.record({ half: oneIn(4), leftOut: oneIn(5), partial: oneIn(5), own: oneIn(6), zero: oneIn(5) }),
  surface: fc.constantFrom('flat', 'cylinder', 'cylinder', 'cone', 'matched'),
  radius: share,
  second: share,
  thickness: share,
  worked: fc.constantFrom('flat', 'radiused'),
  floor: fc.constantFrom('follows', 'follows', 'flat'),
  bound: fc.option(
    fc.record({ width: share, blind: fc.boolean(), around: fc.constantFrom('sides', 'sides and end') }),
    {
      freq: 2,
    },
  ),
  blind: oneIn(4),
  end: fc.constantFrom('square', 'rounded', 'leaning', 'arc'),
  hand: fc.constantFrom('right', 'left'),
  shape: fc.constantFrom(...SHAPES),
  markers: fc.array(share, { maxLength: 5 }),
  pins: fc.constantFrom('none', 'slot', 'clear'),
  // One in twelve; from the middle of the range, because its ends are drawn more often.
  flaw: fc.integer({ min: 0, max: 35 }).map((n) => FLAWS[n - 15] ?? null),
});

type Lot = typeof lot extends fc.Arbitrary<infer T> ? T : never;

const between = (low: number, high: number, at: number): number => low + (high - low) * at;
const rounded = (value: number, step = 0.01): number => Math.round(value / step) * step;
/** As a person would write it. */
const tidy = (value: number): number => Number(rounded(value).toFixed(2));

const CROWN = 1.6;
const SLOT_DEPTH = 2;

/** Cents of the last of `count` frets, by the division's octave: close enough to see how much room there is. */
const lastShare = (count: number, octave: number): number => 1 - 2 ** (-count / octave);

/** As many frets as leave room for their crowns and end well before the saddle. */
function fretCount({ frets, shorter, division: { octave } }: Lot, length: number): number {
  const leaning = shorter === null ? 0 : length * 0.035;
  const fits = (n: number): boolean => {
    const step = length * (lastShare(n, octave) - lastShare(n - 1, octave));
    // Steps of a division that is not even may be half as large as its mean.
    const uneven = octave === 12 || octave === 7 ? 0.45 : 1;
    return step * uneven > CROWN + 1.6 && length * (1 - lastShare(n, octave)) > 75 + leaning;
  };
  let most = 4;
  while (most < 36 && fits(most + 1)) most += 1;
  return Math.max(4, Math.round(between(5, most, frets)));
}

function scaleOf(given: Lot, length: number, count: number): object {
  if (given.shorter === null) return { length };
  return {
    bass: length,
    treble: tidy(length * between(0.94, 1, given.shorter)),
    squareAt:
      given.square < 0.5
        ? { fret: squareFret(given, count) }
        : { distance: tidy(length * given.square * 0.6) },
    ...(given.square > 0.8 ? { along: 'centreline' } : {}),
  };
}

/** Never the first fret, which may be left out; beyond the last where that is to be found. */
function squareFret({ square, flaw }: Lot, count: number): number {
  if (flaw === 'no-such-fret') return count + 1;
  const fret = Math.min(count, Math.round(square * 28));
  return fret === 1 ? 0 : fret;
}

function fretsOf(given: Lot, count: number): object {
  const { division, odd, strings } = given;
  const plain = division.octave === 12 && !('ratios' in division.words);
  const last = Math.ceil(strings / 2);
  return {
    count,
    ...division.words,
    slotWidth: 0.6,
    slotDepth: SLOT_DEPTH,
    leastWoodBelow: 1.5,
    ...(odd.half && division.octave === 7 ? { halfFrets: ['3+'] } : {}),
    ...(odd.leftOut ? { leaveOut: [1] } : {}),
    ...(odd.partial ? { partial: [{ fret: count, strings: [1, last] }] } : {}),
    ...(odd.own && plain ? { ownPlaces: [{ fret: 2, strings: [1, last], cents: 212 }] } : {}),
  };
}

function boardOf(given: Lot, length: number, widths: readonly [nut: number, end: number]): object {
  const { bound, end, surface } = given;
  const half = widths[1] / 2;
  const least = (half * half) / (2 * (given.floor === 'flat' ? 2.2 : 3));
  const radius = tidy(Math.max(60, between(least, 3 * least + 150, given.radius)));
  const isFlat = surface === 'flat';
  const fall = isFlat ? 0 : radius - Math.sqrt(radius * radius - half * half);
  const leaning = given.shorter === null ? 0 : length * 0.035;
  const overhang = given.flaw === 'bad-length-size' ? length : tidy(between(6, 14, given.square) + leaning);
  const thick = tidy(fall + SLOT_DEPTH + 1.5 + between(0.2, 2.5, given.thickness));
  return {
    wood: 'ebony',
    materialClass: 'tropical hardwood',
    thickness: thick,
    blankThickness: given.worked === 'flat' ? tidy(thick + (given.second > 0.7 ? 0.4 : 0)) : thick,
    widthAtNut: widths[0],
    widthAt: { width: widths[1] },
    overhang,
    radius: isFlat ? 'flat' : radius,
    ...(surface === 'cone' ? { radiusAt: { radius: tidy(radius * between(1, 1.8, given.second)) } } : {}),
    ...(surface === 'matched' ? { radiusAlong: 'matched' } : {}),
    surfaceWhenSlotted: isFlat ? 'flat' : given.worked,
    slotFloor: given.floor,
    ...(end === 'rounded' ? { endRounding: 3 } : {}),
    ...(end === 'leaning' ? { endAngle: `${tidy(between(-3, 3, given.second))} deg` } : {}),
    ...(end === 'arc' ? { endArc: tidy(half * 12) } : {}),
    ...slotEnds(given),
    ...(bound === null
      ? {}
      : { binding: { material: 'maple', width: tidy(between(1, 2.2, bound.width)), around: bound.around } }),
  };
}

/** How far slots stop short: clear of the binding with 1 mm of wall, measured along slots that may lean. */
function slotEnds({ bound, blind, flaw }: Lot): object {
  if (flaw === 'slot-stops-too-near') return { slotsStopShort: 0.6 };
  const width = bound === null ? 0 : between(1, 2.2, bound.width);
  return (bound?.blind ?? blind) ? { slotsStopShort: tidy(1.3 * width + 1.5) } : {};
}

function markerOf(shape: Lot['shape'], fret: number): object {
  switch (shape) {
    case 'round':
      return { fret, diameter: 3.4 };
    case 'square':
      return { fret, shape, side: 3.2 };
    case 'diamond':
      return { fret, shape, length: 3.6, width: 5 };
    case 'ring':
      return { fret, shape, diameter: 5, inner: 2 };
    case 'block':
      return { fret, shape, length: 3.6, width: 9 };
    case 'notched block':
      return { fret, shape, length: 5, width: 9, notchDepth: 1.6, notchWidth: 3 };
  }
}

function markersOf(given: Lot, length: number, count: number): object {
  const { octave } = given.division;
  // Only where a space is wide enough; leaving frets out makes spaces wider, halving them narrower.
  const wide = (n: number): boolean => length * (lastShare(n, octave) - lastShare(n - 1, octave)) * 0.4 > 8;
  const at = [...new Set(given.markers.map((s) => 2 + Math.floor(s * (count - 2))))]
    .filter((n) => n < count && n !== 4 && wide(n))
    .sort((a, b) => a - b);
  return {
    markersAsDrawn: true,
    ...(at.length === 0
      ? {}
      : {
          faceMarkers: {
            thickness: 1.5,
            cornerRadius: 0.5,
            at: at.map((fret) => markerOf(given.shape, fret)),
          },
        }),
  };
}

/** A profile's text; YAML holds JSON. */
function profileOf(given: Lot): string {
  const length = tidy(between(300, 1100, given.scale));
  const count = fretCount(given, length);
  const { strings, odd } = given;
  const gauge = 0.5;
  const size = given.together;
  const courses = Math.ceil(strings / size);
  const gap = 1.5;
  const spread = tidy(
    // Reference lines on the outer strings must lie 5 mm and more from the centreline.
    Math.max(
      10.2,
      (courses - 1) * between(5.5, 8.5, given.apart) +
        (strings - courses) * (gap + gauge) +
        (courses === 1 ? 6 : 0),
    ),
  );
  const wider = between(1.05, 1.45, given.spread);
  const margin = between(2.4, 4.5, given.margin);
  // At the saddle the board's edges, carried on, would lie as far beside the strings.
  const endShare = Math.min(1, lastShare(count, given.division.octave) + 0.06);
  // Index pins and their walls find room beside the centreline, inside the binding.
  const nut = Math.max(given.bound === null ? 18 : 23, tidy(spread + gauge + 2 * margin));
  const end = Math.max(nut, tidy(spread * (1 + (wider - 1) * endShare) + gauge + 2 * margin));
  return JSON.stringify({
    name: 'By lot',
    family: 'other',
    hand: given.hand,
    strings: Array.from({ length: strings }, (_, i) => ({
      pitch: `${110 + 7 * i} Hz`,
      gauge,
      make: 'plain',
      setBack: tidy(2 + ((i * 7) % 5) / 10),
      ...(size > 1 ? { course: Math.floor(i / size) + 1 } : {}),
    })),
    scale: scaleOf(given, length, count),
    frets: fretsOf(given, count),
    fretWire: { tangDepth: 1.6, tangWidth: 0.51, barbWidth: 0.75, crownHeight: 0.9, crownWidth: CROWN },
    fingerboard: boardOf(given, length, [nut, end]),
    ...markersOf(given, length, count),
    indexPins:
      given.pins === 'none' ? 'none' : { place: given.pins, frets: [2, 4], offset: 5, diameter: 1.6 },
    nut: { stringSpread: spread, courseGap: gap, ...(odd.zero ? { zeroFret: { setBack: 4 } } : {}) },
    bridge: {
      // The saddle stands out under every string, on the roundest board too.
      straightedge: 2.5,
      stringSpread: tidy(spread * wider),
      courseGap: gap,
      pins: {
        spread: tidy(Math.max(spread * wider, 8 * strings)),
        behindSaddle: 15,
        seat: 5,
        pinTaper: '3 deg',
        through: 14,
      },
    },
    targets: { actionFret: Math.min(count, 12), bowFret: Math.min(count, 12) },
  });
}

/** An instrument and a shop as texts. */
export interface JobByLot {
  readonly profile: string;
  readonly shop: ShopByLot;
  readonly kind: ShopLot['kind'];
  /** What of it must be found and is why it is not made; null: it must be made. */
  readonly flaw: string | null;
}

/** Any instrument with a scale of 300 to 1100 mm and 3 to 12 strings, in any shop. */
export const anyJob: fc.Arbitrary<JobByLot> = fc
  .record({ lot, shop: shopLot })
  .map(({ lot: given, shop }) => {
    // A flaw of slanted frets needs frets that are slanted.
    const flaw = given.flaw === 'no-such-fret' && given.shorter === null ? null : given.flaw;
    const own = flaw === 'no-such-fret' ? { ...given, square: 0 } : given;
    return { profile: profileOf({ ...own, flaw }), shop: shopOf(shop), kind: shop.kind, flaw };
  });
