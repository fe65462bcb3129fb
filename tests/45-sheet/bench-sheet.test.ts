import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { coneDepth, coneDiameter } from '../../src/geometry/cone.ts';
import { layOut } from '../../src/layout/layOut.ts';
import type { Instrument } from '../../src/profile/types.ts';
import { benchSheet } from '../../src/sheet/benchSheet.ts';
import { sheetJson } from '../../src/sheet/sheetJson.ts';
import { thingsToBuy } from '../../src/sheet/thingsToBuy.ts';
import type { Sheet } from '../../src/sheet/types.ts';
import { loadFrequencyOf } from '../10-units/noteLibrary.ts';
import { parlour } from '../support/instrument.ts';
import { equalFrets, oneScale } from '../support/scales.ts';

function sheetOf(instrument: Instrument): Sheet {
  const layout = layOut(instrument);
  if (!layout.ok) throw new Error(layout.findings.map((f) => f.text).join('; '));
  return benchSheet(layout.value, instrument);
}

const withNutForward = (setForward: number): Instrument => ({
  ...parlour,
  nut: { ...parlour.nut, setForward },
});

describe('the bench sheet', () => {
  const sheet = sheetOf(parlour);

  // Worked by hand for a scale of 628 mm: x = S (1 - 2^(-n/12)).
  it.each([
    [1, 35.2469],
    [7, 208.8603],
    [12, 314],
    [19, 418.4301],
  ])('puts slot %i at %f mm', (n, x) => {
    expect(sheet.frets.find((f) => f.n === n)?.fromScaleZero).toBeCloseTo(x, 4);
  });

  it('has the octave at half the scale within 1e-9', () => {
    expect(sheet.checks.octave?.fret).toBe(12);
    expect(Math.abs((sheet.checks.octave?.fromScaleZero ?? 0) - 314)).toBeLessThan(1e-9);
    expect(sheet.checks.octave?.halfScale).toBe(314);
  });

  it('sounds the notes of an independent note library within 1e-6', async () => {
    const frequencyOf = await loadFrequencyOf();
    const names = ['E', 'F', 'F#', 'G', 'G#', 'A', 'A#', 'B', 'C', 'C#', 'D', 'D#'];
    const noteAt = (n: number): number =>
      frequencyOf(`${names[n % 12]}${n % 12 < 8 ? 2 + Math.floor(n / 12) : 3 + Math.floor(n / 12)}`) ??
      Number.NaN;
    for (const fret of sheet.frets) {
      const ratio = sheet.scaleLength / (sheet.scaleLength - fret.fromScaleZero);
      expect(Math.abs(ratio / (noteAt(fret.n) / noteAt(0)) - 1)).toBeLessThan(1e-6);
    }
  });

  it('adds its differences up to the last slot, each the same share of the one before', () => {
    const { sum, ratio } = sheet.checks;
    expect(sum.ofDifferences).toBeCloseTo(sum.lastSlot, 10);
    if (ratio === null) throw new Error('no ratio of equal steps');
    expect(ratio.expected).toBeCloseTo(2 ** (-1 / 12), 14);
    expect(ratio.most - ratio.least).toBeLessThan(1e-10);
  });

  it('shows in its checks when a slot is out of place', () => {
    const layout = layOut(parlour);
    if (!layout.ok) throw new Error('no layout');
    const slots = layout.value.slots.map((s) => (s.fret === 7 ? { ...s, x: s.x + 0.1 } : s));
    const { ratio } = benchSheet({ ...layout.value, slots }, parlour).checks;
    if (ratio === null) throw new Error('no ratio of equal steps');
    expect(ratio.most - ratio.least).toBeGreaterThan(0.005);
  });

  it('measures from the nut face as well, and the first difference from scale zero', () => {
    const forward = sheetOf(withNutForward(0.6));
    for (const fret of forward.frets) {
      expect(fret.fromNutFace).toBeCloseTo(fret.fromScaleZero - 0.6, 12);
    }
    expect(forward.frets[0]?.fromPrevious).toBe(forward.frets[0]?.fromScaleZero);
    expect(forward.datum.fromNutFace).toContain('forward of');
    expect(forward.pins[0]?.fromNutFace).toBeCloseTo((sheet.pins[0]?.fromNutFace ?? 0) - 0.6, 12);
  });

  it('lists index pins and bridge pins as holes, each id once', () => {
    expect(sheet.holes.map((h) => h.id)).toEqual([
      'index-pin-1',
      'index-pin-2',
      ...[1, 2, 3, 4, 5, 6].map((n) => `bridge-pin-${n}`),
    ]);
    expect(sheet.holes[0]).toMatchObject({ diameter: 1.6, depth: 6.5 });
    expect(sheet.holes[7]).toMatchObject({ diameter: parlour.bridge.anchor.drill, depth: 14.3 });
  });

  it('names the side of each pin, also on a left-handed instrument', () => {
    const left = sheetOf({ ...parlour, hand: 'left' });
    expect(sheet.pins.map((p) => p.side)).toEqual(['bass', 'bass', 'bass', 'treble', 'treble', 'treble']);
    expect(left.pins.map((p) => p.side)).toEqual(sheet.pins.map((p) => p.side));
    expect(left.pins.map((p) => p.fromCentreline)).toEqual(sheet.pins.map((p) => -p.fromCentreline));
    expect(left.datum.fromCentreline).toContain('positive toward the bass side');
    expect(sheet.datum.fromCentreline).toContain('positive toward the treble side');
  });
});

describe('saddle points off the straight saddle', () => {
  it('are measured along the centreline from the line through the outer ones', () => {
    // By hand with equal centres: the line falls from 4.4 to 1.6, 0.56 from string to string.
    const equal = sheetOf({ ...parlour, nut: { ...parlour.nut, spacing: 'equal centres' } });
    const expected = [0, 3.4 - 3.84, 2.6 - 3.28, 2.0 - 2.72, 2.8 - 2.16, 0];
    equal.offSaddle.forEach((off, i) => {
      expect(off).toBeCloseTo(expected[i] ?? Number.NaN, 9);
    });
  });

  it('are the same in the mirror, and nothing for one string', () => {
    const left = sheetOf({ ...parlour, hand: 'left' }).offSaddle;
    sheetOf(parlour).offSaddle.forEach((off, i) => {
      expect(left[i]).toBeCloseTo(off, 12);
    });
    expect(sheetOf({ ...parlour, strings: parlour.strings.slice(0, 1) }).offSaddle).toEqual([0]);
  });

  it('stay out of the JSON, whose fields are agreed', () => {
    const read = JSON.parse(sheetJson(sheetOf(parlour)));
    expect(Object.keys(read)).toEqual([
      'instrument',
      'unit',
      'frets',
      'markers',
      'holes',
      'family',
      'hand',
      'units',
      'scaleLength',
      'scale',
      'division',
      'perOctave',
      'zeroFret',
      'nutFace',
      'slotWidth',
      'slotDepth',
      'datum',
      'markerCorners',
      'sideMarkers',
      'pins',
      'reaming',
      'board',
      'carving',
      'checks',
      'fretWire',
    ]);
  });
});

describe('the sheet as JSON', () => {
  it('keeps full doubles and exactly the agreed fields of each list', () => {
    const sheet = sheetOf(parlour);
    const read = JSON.parse(sheetJson(sheet));
    expect(read.frets).toEqual(JSON.parse(JSON.stringify(sheet.frets)));
    expect(Object.keys(read.frets[0])).toEqual([
      'n',
      'cents',
      'fromScaleZero',
      'fromNutFace',
      'fromPrevious',
      'line',
      'edges',
    ]);
    expect(Object.keys(read.markers[0])).toEqual(['fret', 'at', 'shape', 'size']);
    expect(Object.keys(read.holes[0])).toEqual(['id', 'at', 'diameter', 'depth']);
    expect(read.frets[11].fromScaleZero).toBe(sheet.frets[11]?.fromScaleZero);
  });

  it('puts the walls of a slot half its width on both sides of its middle', () => {
    for (const { edges, fromScaleZero } of sheetOf(parlour).frets) {
      expect((edges[0] + edges[1]) / 2).toBeCloseTo(fromScaleZero, 12);
      expect(edges[1] - edges[0]).toBeCloseTo(0.6, 12);
    }
  });

  it('holds for any scale, division and nut', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 300, max: 900, noNaN: true }),
        fc.integer({ min: 5, max: 31 }),
        fc.integer({ min: 3, max: 24 }),
        fc.double({ min: -1, max: 1, noNaN: true }),
        (length, perOctave, count, setForward) => {
          const sheet = sheetOf({
            ...parlour,
            scale: oneScale(length),
            frets: { ...parlour.frets, ...equalFrets(count, perOctave) },
            faceMarkers: { ...parlour.faceMarkers, at: [{ fret: 2, count: 2, shape: 'round', diameter: 5 }] },
            sideMarkers: { ...parlour.sideMarkers, at: [] },
            nut: { ...parlour.nut, setForward },
            trussRod: null,
            indexPins: { ...parlour.indexPins, place: 'slot', frets: [2, 3] },
            fingerboard: { ...parlour.fingerboard, widthAt: { fret: 3, width: 50 } },
          });
          const { octave, sum, ratio } = sheet.checks;
          expect(octave === null).toBe(count < perOctave);
          if (octave !== null) expect(Math.abs(octave.fromScaleZero - length / 2)).toBeLessThan(1e-9);
          expect(Math.abs(sum.ofDifferences - sum.lastSlot)).toBeLessThan(1e-9);
          if (ratio === null) throw new Error('no ratio of equal steps');
          expect(ratio.most - ratio.least).toBeLessThan(1e-9);
        },
      ),
      { seed: 11, numRuns: 200 },
    );
  });
});

describe('reaming', () => {
  const three = (3 * Math.PI) / 180;

  // Worked by hand: 3 deg included, seat 5.6, drilled 4.76: 16.04 after first contact; 14.3 of wood: at most 4.851; seat 5.2: 4.451.
  it('gives the worked values', () => {
    expect(coneDepth(5.6, 4.76, three)).toBeCloseTo(16.04, 2);
    expect(coneDiameter(5.6, 14.3, three)).toBeCloseTo(4.851, 3);
    expect(coneDiameter(5.2, 14.3, three)).toBeCloseTo(4.451, 3);
  });

  it('agrees with itself: the largest drill makes a cone as deep as the wood', () => {
    const drill = coneDiameter(5.6, 14.3, three);
    expect(coneDepth(5.6, drill, three)).toBeCloseTo(14.3, 10);
  });
});

describe('things to buy', () => {
  const layout = layOut(parlour);
  if (!layout.ok) throw new Error('no layout');

  it('counts the wire of every slot with its trim', () => {
    const { wire } = benchSheet(layout.value, parlour);
    // The board's width grows evenly, so the mean slot is as wide as the board at the mean of the slots' places.
    const { at0, slope } = layout.value.board.halfWidth;
    const mean = layout.value.slots.reduce((sum, s) => sum + s.x, 0) / 19;
    const straight = wire.pieces.reduce((sum, piece) => sum + piece.straight + 6, 0);
    expect(straight).toBeCloseTo(19 * (2 * (at0 + slope * mean) + 6), 9);
    // Over the curve of a cylinder a chord c becomes the arc 2 R asin(c / 2R).
    const R = 16 * 25.4;
    const arcs = wire.pieces.map((piece) => 2 * R * Math.asin(piece.straight / (2 * R)) + 6);
    expect(wire.total).toBeCloseTo(
      arcs.reduce((sum, arc) => sum + arc, 0),
      5,
    );
    expect(wire.total).toBeGreaterThan(1160);
    expect(wire.total).toBeLessThan(1161);
  });

  it('lists wire, markers by size, rod, strings and pins', () => {
    const rows = thingsToBuy(layout.value, parlour);
    expect(rows.map((r) => r.amount)).toEqual([
      '1161 mm (45.7 in)',
      '1',
      '3',
      '3',
      '18 mm (0.8 in)',
      '1',
      '1',
      '1',
      '1',
      '1',
      '1',
      '6',
    ]);
    expect(rows[0]?.note).toContain('19 pieces, 6 mm (0.236 in) trim each');
  });

  it('says inches first for a profile in inches, and never a length in one unit alone', () => {
    const rows = thingsToBuy(layout.value, { ...parlour, units: 'in' });
    // 1160.4 mm are 45.68 in, and 18 mm 0.709 in; both are rounded up.
    expect(rows[0]?.amount).toBe('45.7 in (1161 mm)');
    expect(rows[4]?.amount).toBe('0.8 in (18 mm)');
    for (const { amount, note } of rows) expect(`${amount}; ${note}`).not.toMatch(/^[^(]*\d mm/);
  });
});
