import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { layOut } from '../../src/layout/layOut.ts';
import type { Layout } from '../../src/layout/types.ts';
import { checkInstrument } from '../../src/profile/checkInstrument.ts';
import { loadInstrument } from '../../src/profile/loadInstrument.ts';
import type { Instrument } from '../../src/profile/types.ts';
import { stringCases } from '../../src/stringing/cases.ts';
import { parlourWith, soundValue } from '../30-profile/bundled.ts';
import { parlour } from '../support/instrument.ts';
import { equalFrets, oneScale, singles, twoScales } from '../support/scales.ts';

type Point = readonly [number, number];
/** A line or a point of the plane in homogeneous numbers: another algebra than the code's leaning lines. */
type Triple = readonly [number, number, number];

const cross = (a: Triple, b: Triple): Triple => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
];
const lineThrough = ([ax, ay]: Point, [bx, by]: Point): Triple => cross([ax, ay, 1], [bx, by, 1]);
const meetOf = (a: Triple, b: Triple): Point => {
  const [x, y, w] = cross(a, b);
  return [x / w, y / w];
};
const lerp = ([ax, ay]: Point, [bx, by]: Point, t: number): Point => [ax + (bx - ax) * t, ay + (by - ay) * t];

function laidOut(instrument: Instrument): Layout {
  const result = layOut(instrument);
  if (!result.ok) throw new Error(JSON.stringify(result.findings));
  return result.value;
}

/** Scale lengths 686 and 648 along lines half apart 18 to 28, fret 7 square (common practice, no source). */
const fan: Instrument = {
  ...parlour,
  scale: twoScales(686, 648, { squareCents: 700, nut: 18, saddle: 28 }),
  fingerboard: { ...parlour.fingerboard, overhang: 25 },
  trussRod: null,
};

/** The reference points at scale zero and at the end of the scale, by angles instead of roots of squares. */
function referencePoints(bass: number, treble: number, square: number, [nut, end]: Point) {
  const along = (length: number): number => length * Math.cos(Math.asin((end - nut) / length));
  const shift = (square * (along(bass) - along(treble))) / 2;
  return {
    bass: [[-shift, -nut] as Point, [along(bass) - shift, -end] as Point],
    treble: [[shift, nut] as Point, [along(treble) + shift, end] as Point],
  } as const;
}

describe('slots of two scales', () => {
  it('lie where they were worked out by hand and by script', () => {
    const points = referencePoints(686, 648, 1 - 2 ** (-7 / 12), [18, 28]);
    // nut x -6.3197 / +6.3197; fret 7 both 221.8060; fret 12 336.6438 / 330.2811; saddle 679.6074 / 654.2426.
    expect(points.bass[0][0]).toBeCloseTo(-6.3197, 4);
    expect(points.bass[1][0]).toBeCloseTo(679.6074, 4);
    expect(points.treble[1][0]).toBeCloseTo(654.2426, 4);
    const layout = laidOut(fan);
    const at = (place: number, y: number): number => {
      const slot = layout.slots.find((s) => s.fret === place);
      if (slot === undefined) throw new Error(`no fret ${place}`);
      return meetOf(lineThrough(...slot.carrier), [0, 1, -y])[0];
    };
    const halfAt = (cents: number): number => 18 + 10 * (1 - 2 ** (-cents / 1200));
    expect(at(7, -halfAt(700))).toBeCloseTo(221.806, 4);
    expect(at(7, halfAt(700))).toBeCloseTo(221.806, 4);
    expect(at(12, -halfAt(1200))).toBeCloseTo(336.6438, 4);
    expect(at(12, halfAt(1200))).toBeCloseTo(330.2811, 4);
    expect(meetOf(lineThrough(...layout.nutLine), [0, 1, 18])[0]).toBeCloseTo(-6.3197, 4);
    expect(meetOf(lineThrough(...layout.scaleLines.full), [0, 1, -28])[0]).toBeCloseTo(654.2426, 4);
  });

  it('are the lines through points at the same share of both reference lines, extended to the edges', () => {
    const layout = laidOut(fan);
    const { bass, treble } = referencePoints(686, 648, 1 - 2 ** (-7 / 12), [18, 28]);
    const x12 = layout.scaleLength / 2;
    const edges = [-1, 1].map((side) => lineThrough([0, side * 23], [x12, side * 28.5]));
    for (const slot of layout.slots) {
      const share = 1 - 0.5 ** (slot.fret / 12);
      const line = lineThrough(lerp(...bass, share), lerp(...treble, share));
      slot.carrier.forEach((end, i) => {
        const expected = meetOf(line, edges[i] ?? [0, 0, 0]);
        expect(end[0]).toBeCloseTo(expected[0], 9);
        expect(end[1]).toBeCloseTo(expected[1], 9);
      });
      expect(slot.x).toBeCloseTo(meetOf(line, [0, 1, 0])[0], 9);
    }
  });

  it('carry nut, board, saddle, pins and markers with them', () => {
    const layout = laidOut(fan);
    const ends = [layout.board.outline[0], layout.board.outline.at(-1)];
    expect(ends.map((v) => [v?.x, v?.y])).toEqual(layout.nutLine.map((p) => [...p]));
    const nut = lineThrough(...layout.nutLine);
    for (const s of layout.strings) expect(nut[0] * s.nut[0] + nut[1] * s.nut[1] + nut[2]).toBeCloseTo(0, 7);
    layout.strings.forEach((s, i) => {
      const end = meetOf(lineThrough(...layout.scaleLines.full), [0, 1, -s.saddle[1]]);
      expect(s.saddle[0] - end[0]).toBeCloseTo(fan.strings[i]?.setBack ?? Number.NaN, 9);
    });
    for (const marker of layout.faceMarkers.filter((m) => m.at[1] !== 0)) {
      const [before, own] = [11, 12].map((n) => {
        const slot = layout.slots.find((s) => s.fret === n);
        if (slot === undefined) throw new Error(`no fret ${n}`);
        return meetOf(lineThrough(...slot.carrier), [0, 1, -marker.at[1]])[0];
      });
      expect(marker.at[0]).toBeCloseTo(((before ?? 0) + (own ?? 0)) / 2, 9);
    }
    for (const marker of layout.sideMarkers.filter((m) => m.fret === 5)) {
      const [before, own] = [4, 5].map((n) => layout.slots.find((s) => s.fret === n)?.carrier[0][0] ?? 0);
      expect(marker.x).toBeCloseTo(((before ?? 0) + (own ?? 0)) / 2, 9);
    }
    const covered = layout.indexPins.map((pin) => layout.slots.find((s) => s.id === pin.under));
    layout.indexPins.forEach((pin, i) => {
      const slot = covered[i];
      if (slot === undefined) throw new Error('a pin without its slot');
      const [a, b, c] = lineThrough(...slot.line);
      expect((a * pin.at[0] + b * pin.at[1] + c) / Math.hypot(a, b)).toBeCloseTo(0, 9);
    });
  });

  it('give each string its own scale, that of its side for a string on a reference line', () => {
    // Evenly spaced between the reference lines at both ends, a string divides the slots as the lines do.
    const nut = { ...fan.nut, stringSpread: 36, spacing: 'equal centres' as const };
    const strings = fan.strings.map((string) => ({ ...string, setBack: 0 }));
    const even: Instrument = { ...fan, strings, nut };
    const layout = laidOut(even);
    const first = layout.strings[0];
    const last = layout.strings.at(-1);
    const along = (length: number): number => length * Math.cos(Math.asin(10 / length));
    expect(first?.scale.length).toBeCloseTo(along(686), 9);
    expect(last?.scale.length).toBeCloseTo(along(648), 9);
    stringCases(even, layout).forEach(({ bench }) => {
      expect(Math.max(...Array.from(bench.slotErrors, Math.abs))).toBeLessThan(1e-9);
    });
    // What the model of the strings is told: its fret places are those where string and slot cross.
    const uneven = laidOut(fan);
    stringCases(fan, uneven).forEach(({ bench }, i) => {
      const string = uneven.strings[i];
      const ratio = bench.ratios[11] ?? Number.NaN;
      const told = bench.scale * (1 - 1 / ratio) + (bench.slotErrors[11] ?? Number.NaN);
      expect(told).toBeCloseTo((string?.fretX[11] ?? 0) - (string?.scale.from ?? 0), 9);
    });
  });
});

describe('scale lengths in a profile', () => {
  const scaleWith = (words: string, ...changes: readonly (readonly [string, string])[]) =>
    soundValue(
      loadInstrument(
        parlourWith(['  length: 628\n', words], ['  overhang: 9', '  overhang: 16'], ...changes),
        'test.yaml',
      ),
    ).value.scale;
  const two = '  bass: 640\n  treble: 620\n  squareAt: { fret: 7 }\n';

  it('lie along the outer strings’ lines where no reference lines are given', () => {
    const scale = scaleWith(two);
    expect(scale.lines).toEqual({ nut: 19, saddle: 28 });
    expect(scale.length).toBeCloseTo((Math.sqrt(640 ** 2 - 81) + Math.sqrt(620 ** 2 - 81)) / 2, 9);
    expect(scale.slant?.squareWords).toBe('fret 7');
  });

  it('keep their reference lines a fixed distance from the board’s edges, whatever the strings', () => {
    const lines = `${two}  referenceLines: { fromEdgeAtNut: 4, fromEdgeAtSaddle: 7 }\n`;
    const scale = scaleWith(lines);
    // Edges: 46 wide at the nut, 57 at the 12th fret, so 68 at the end of the scale.
    expect(scale.lines?.nut).toBeCloseTo(23 - 4, 9);
    expect(scale.lines?.saddle).toBeCloseTo(34 - 7, 9);
    const thicker = scaleWith(
      lines,
      ['gauge: 53 thou', 'gauge: 59 thou'],
      ['stringSpread: 38', 'stringSpread: 37'],
    );
    expect(thicker).toEqual(scale);
  });

  it('are those on the centreline where the profile says so', () => {
    expect(scaleWith(`${two}  along: centreline\n`).slant?.difference).toBe(20);
    expect(scaleWith(`${two}  along: centreline\n`).length).toBe(630);
    const slanted = scaleWith('  length: 628\n  along: reference lines\n');
    expect(slanted.slant).toBeNull();
    expect(slanted.length).toBeCloseTo(628 * Math.cos(Math.asin(9 / 628)), 9);
  });

  it('may be square at a distance from scale zero', () => {
    const scale = scaleWith(
      '  bass: 640\n  treble: 620\n  squareAt: { distance: 210 }\n  along: centreline\n',
    );
    expect(scale.slant?.squareShare).toBeCloseTo(210 / 630, 12);
    expect(scale.slant?.squareWords).toBe('210 mm from scale zero');
  });
});

/** A random board: one scale or two, 3 to 12 strings, either hand. Lengths in mm. */
interface Wish {
  readonly length: number;
  readonly differs: number;
  readonly strings: number;
  readonly count: number;
  readonly square: number;
  readonly hand: 'left' | 'right';
  readonly radius: number;
  readonly nut: number;
}

function boardOf({ length, differs, strings, count, square, hand, radius, nut }: Wish): Instrument {
  const spread = 6 * (strings - 1);
  const saddle = 1.4 * spread;
  const first = parlour.strings[0];
  if (first === undefined) throw new Error('the parlour has no strings');
  const isFan = differs > 1;
  return {
    ...parlour,
    hand,
    strings: Array.from({ length: strings }, () => ({ ...first, gauge: 1, setBack: 2 })),
    courses: singles(strings),
    scale: isFan
      ? twoScales(length + differs / 2, length - differs / 2, {
          squareCents: square * 100,
          nut: spread / 2,
          saddle: saddle / 2,
        })
      : oneScale(length),
    frets: { ...parlour.frets, ...equalFrets(count) },
    fretWire: { ...parlour.fretWire, crownWidth: 1.5 },
    fingerboard: {
      ...parlour.fingerboard,
      thickness: 11,
      blankThickness: 11,
      widthAtNut: spread + 8,
      widthAt: { fret: null, width: spread + 0.4 * spread * 0.7 + 12 },
      overhang: 8 + differs / 2,
      endRounding: 0,
      radius,
    },
    faceMarkers: { ...parlour.faceMarkers, at: [] },
    sideMarkers: { ...parlour.sideMarkers, at: [] },
    indexPins: { ...parlour.indexPins, diameter: 1.2, place: 'slot', frets: [1, count], offset: 2 },
    nut: { ...parlour.nut, stringSpread: spread, setForward: nut },
    bridge: {
      ...parlour.bridge,
      stringSpread: saddle,
      anchor: { ...parlour.bridge.anchor, spread: Math.max(saddle, 9 * strings), row: 'saddle' },
    },
    trussRod: null,
  };
}

const wishes = fc.record<Wish>({
  length: fc.double({ min: 300, max: 1100, noNaN: true }),
  differs: fc.oneof(fc.constant(0), fc.double({ min: 2, max: 50, noNaN: true })),
  strings: fc.integer({ min: 3, max: 12 }),
  count: fc.integer({ min: 12, max: 22 }),
  square: fc.integer({ min: 0, max: 14 }),
  hand: fc.constantFrom('left', 'right'),
  radius: fc.double({ min: 150, max: 3000, noNaN: true }),
  nut: fc.constantFrom(0, 0.3, -4),
});

/** Twice the signed area of a triangle: which side of a line a point lies on. */
const turn = (a: Point, b: Point, c: Point): number =>
  (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0]);

const meet = ([a, b]: readonly [Point, Point], [c, d]: readonly [Point, Point]): boolean =>
  turn(a, b, c) * turn(a, b, d) <= 0 && turn(c, d, a) * turn(c, d, b) <= 0;

describe('any valid instrument', () => {
  it('has slots that do not meet inside the board, ends on its edges, its octave in the middle, and an exact mirror', () => {
    let [valid, fans] = [0, 0];
    fc.assert(
      fc.property(wishes, (wish) => {
        const instrument = boardOf(wish);
        if (checkInstrument(instrument, true).some((finding) => finding.severity === 'error')) return;
        valid += 1;
        if (instrument.scale.slant !== null) fans += 1;
        const layout = laidOut(instrument);
        const { at0, slope } = layout.board.halfWidth;
        layout.slots.forEach((slot, i) => {
          const next = layout.slots[i + 1];
          if (next !== undefined) expect(meet(slot.carrier, next.carrier)).toBe(false);
          expect(meet(slot.carrier, layout.nutLine)).toBe(false);
          for (const [x, y] of slot.line) expect(Math.abs(y)).toBeCloseTo(at0 + slope * x, 9);
        });
        expect(layout.slots[11]?.x).toBeCloseTo(layout.scaleLength / 2, 9);
        const other = laidOut({ ...instrument, hand: wish.hand === 'left' ? 'right' : 'left' });
        expect(other.slots.map((s) => s.line.flat())).toEqual(
          layout.slots.map((s) => s.line.flatMap(([x, y]) => [x, -y])),
        );
        expect(other.strings.map((s) => [s.nut, s.saddle, s.pin].flat())).toEqual(
          layout.strings.map((s) => [s.nut, s.saddle, s.pin].flatMap(([x, y]) => [x, -y || 0])),
        );
      }),
      { seed: 686, numRuns: 400 },
    );
    // The check above must have seen boards of both kinds.
    expect(fans).toBeGreaterThan(60);
    expect(valid - fans).toBeGreaterThan(60);
  });

  it('is refused where two scales would let slots cross inside the board', () => {
    const wild: Instrument = {
      ...fan,
      scale: twoScales(860, 460, { squareCents: 700, nut: 6, saddle: 7 }),
      fingerboard: { ...fan.fingerboard, overhang: 60 },
    };
    const codes = checkInstrument(wild, true).map((finding) => finding.code);
    expect(codes).toContain('frets-too-close');
  });
});
