import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { formReach } from '../../src/geometry/form.ts';
import { segments } from '../../src/geometry/ring.ts';
import { layOut } from '../../src/layout/layOut.ts';
import { fretDistance } from '../../src/layout/scale.ts';

import type { Layout } from '../../src/layout/types.ts';
import type { Instrument } from '../../src/profile/types.ts';
import { singleStrings, spaceStrings } from '../../src/spacing/strings.ts';
import { loadFrequencyOf } from '../10-units/noteLibrary.ts';
import { parlour } from '../support/instrument.ts';
import { equalFrets } from '../support/scales.ts';

function laidOut(instrument: Instrument = parlour): Layout {
  const result = layOut(instrument);
  if (!result.ok) throw new Error(JSON.stringify(result.findings));
  return result.value;
}

describe('fret slots', () => {
  it('puts the 12th slot at half the scale', () => {
    const slot = laidOut().slots[11];
    expect(Math.abs((slot?.x ?? 0) - 314)).toBeLessThan(1e-9);
  });

  // Exact arithmetic, 4 digits: scale 650 and 647.7 mm.
  it.each([
    [
      650,
      [1, 2, 3, 5, 7, 9, 12, 15, 19, 20, 24],
      [36.4817, 70.9158, 103.4173, 163.0502, 216.177, 263.5077, 325, 376.7087, 433.0885, 445.2628, 487.5],
    ],
    [
      647.7,
      [1, 2, 3, 5, 7, 9, 12, 15, 19, 20, 24],
      [
        36.3526, 70.6649, 103.0514, 162.4733, 215.4121, 262.5753, 323.85, 375.3757, 431.5561, 443.6873,
        485.775,
      ],
    ],
    [628, [1, 7, 12, 19], [35.2469, 208.8603, 314, 418.4301]],
  ])('agrees with tables worked out for a scale of %d mm', (scale, frets, expected) => {
    frets.forEach((fret, i) => {
      expect(fretDistance(scale, fret * 100)).toBeCloseTo(expected[i] ?? Number.NaN, 4);
    });
  });

  it('agrees with the old divisor 17.817: each slot a fixed share of what is left', () => {
    // 1 / (1 - 2^(-1/12)), another algebra than the code's powers.
    const divisor = 17.817153745105777;
    let left = 628;
    for (const slot of laidOut().slots) {
      left -= left / divisor;
      expect(slot.x).toBeCloseTo(628 - left, 9);
    }
  });

  it('sounds the notes of an independent library at every slot', async () => {
    // @tonaljs/note gives frequencies of equal temperament at A4 = 440 Hz.
    const frequencyOf = await loadFrequencyOf();
    const names = ['C', 'C#', 'D', 'D#', 'E', 'F', 'F#', 'G', 'G#', 'A', 'A#', 'B'];
    const open = frequencyOf('E2') ?? Number.NaN;
    for (const slot of laidOut().slots) {
      const step = 4 + slot.fret;
      const sounded = frequencyOf(`${names[step % 12]}${2 + Math.floor(step / 12)}`) ?? Number.NaN;
      expect(Math.abs(628 / (628 - slot.x) / (sounded / open) - 1)).toBeLessThan(1e-6);
    }
  });

  it('lays 19 equal steps of the octave as well', () => {
    const layout = laidOut({
      ...parlour,
      frets: { ...parlour.frets, ...equalFrets(19, 19) },
      fingerboard: { ...parlour.fingerboard, widthAt: { fret: 19, width: 57 } },
    });
    expect(layout.slots[18]?.x).toBeCloseTo(314, 9);
    expect(layout.slots[0]?.cents).toBeCloseTo(1200 / 19, 12);
  });

  it('runs from edge to edge', () => {
    const layout = laidOut();
    const twelfth = layout.slots[11];
    expect(twelfth?.line[1][1]).toBeCloseTo(57 / 2, 9);
    expect(twelfth?.line[0][1]).toBeCloseTo(-57 / 2, 9);
  });
});

describe('the board', () => {
  it('turns its corners without a kink: neighbouring sides share their direction where an arc joins', () => {
    const sides = segments(laidOut().board.outline);
    const directions = sides.map((side) => {
      if (side.kind === 'line') {
        const angle = Math.atan2(side.to[1] - side.from[1], side.to[0] - side.from[0]);
        return { start: angle, end: angle, arc: false };
      }
      const at = (p: readonly [number, number]): number =>
        Math.atan2(p[1] - side.centre[1], p[0] - side.centre[0]) + (Math.sign(side.sweep) * Math.PI) / 2;
      return { start: at(side.from), end: at(side.to), arc: true };
    });
    const joints = directions.map((d, i) => ({
      before: d,
      after: directions[(i + 1) % directions.length] ?? d,
    }));
    const tangent = joints.filter((j) => j.before.arc !== j.after.arc);
    expect(tangent).toHaveLength(4);
    for (const { before, after } of tangent) expect(Math.sin(before.end - after.start)).toBeCloseTo(0, 9);
  });

  it('has the asked widths at the nut and at the fret named for it', () => {
    const { at0, slope } = laidOut().board.halfWidth;
    expect(2 * at0).toBeCloseTo(46, 9);
    expect(2 * (at0 + 314 * slope)).toBeCloseTo(57, 9);
  });
});

describe('strings', () => {
  it('has equal gaps at the nut, as worked out by hand', () => {
    // Outer centres 38.0; gauges .053 .042 .032 .024 .016 .012 in: common practice, no source; recomputed by script.
    const gauges = [0.053, 0.042, 0.032, 0.024, 0.016, 0.012].map((g) => g * 25.4);
    const expected = [0, 8.0623, 15.8579, 23.4248, 30.7886, 38];
    spaceStrings(singleStrings(gauges), 38, 'equal gaps').forEach((y, i) => {
      expect(y).toBeCloseTo(expected[i] ?? Number.NaN, 4);
    });
  });

  it('puts every saddle point behind the scale length by its own set-back', () => {
    laidOut().strings.forEach((s, i) => {
      expect(s.saddle[0]).toBeCloseTo(628 + (parlour.strings[i]?.setBack ?? Number.NaN), 9);
    });
  });

  it('lays the pins square, or along the saddle when asked', () => {
    const square = laidOut().strings.map((s) => s.pin[0]);
    expect(Math.max(...square) - Math.min(...square)).toBeLessThan(1e-9);
    const slanted = laidOut({
      ...parlour,
      bridge: { ...parlour.bridge, anchor: { ...parlour.bridge.anchor, row: 'saddle' } },
    });
    const [bass, treble] = slanted.saddleLine;
    const slope = (treble[0] - bass[0]) / (treble[1] - bass[1]);
    const pins = slanted.strings.map((s) => s.pin);
    const first = pins[0] ?? [0, 0];
    for (const pin of pins) expect(pin[0] - first[0]).toBeCloseTo(slope * (pin[1] - first[1]), 9);
    for (const pin of pins) expect(pin[0]).toBeGreaterThan(Math.max(bass[0], treble[0]));
  });
});

describe('index pins', () => {
  it('stands clear of slots, markers, rod and edges when asked to', () => {
    const instrument: Instrument = { ...parlour, indexPins: { ...parlour.indexPins, place: 'clear' } };
    const layout = laidOut(instrument);
    expect(layout.indexPins).toHaveLength(2);
    for (const pin of layout.indexPins) {
      const [x, y] = pin.at;
      const room = pin.diameter / 2 + instrument.indexPins.leastWall - 1e-9;
      for (const slot of layout.slots) expect(Math.abs(slot.x - x) - 0.3).toBeGreaterThanOrEqual(room);
      for (const m of layout.faceMarkers)
        expect(Math.hypot(m.at[0] - x, m.at[1] - y) - formReach(m.form) / 2).toBeGreaterThanOrEqual(room);
      expect(Math.abs(y) - 3).toBeGreaterThanOrEqual(room);
      expect(
        layout.board.halfWidth.at0 + layout.board.halfWidth.slope * x - Math.abs(y),
      ).toBeGreaterThanOrEqual(room);
    }
  });

  it('hides in the slots asked for', () => {
    const layout = laidOut();
    expect(layout.indexPins.map((p) => p.under)).toEqual(['fret-slot-02', 'fret-slot-11']);
    expect(layout.indexPins[0]?.at[0]).toBeCloseTo(layout.slots[1]?.x ?? Number.NaN, 9);
  });

  it('says so when there is no marker to hide under, or the rod is below it', () => {
    const none = layOut({ ...parlour, indexPins: { ...parlour.indexPins, place: 'marker', frets: [2, 5] } });
    expect(none.ok).toBe(false);
    expect(none.findings.map((f) => f.where?.path)).toEqual(['indexPins.frets[0]', 'indexPins.frets[1]']);
    expect(none.findings[0]?.text).toContain('there is no marker at that fret');
    expect(none.findings[1]?.text).toContain('over the truss rod');
  });
});

describe('index pins that cannot stand clear where they were wanted', () => {
  const clear = (change: Partial<Instrument['indexPins']>, rest: Partial<Instrument> = {}) => {
    const instrument: Instrument = {
      ...parlour,
      ...rest,
      indexPins: { ...parlour.indexPins, place: 'clear', ...change },
    };
    const result = layOut(instrument);
    if (!result.ok) throw new Error(JSON.stringify(result.findings));
    return { pins: result.value.indexPins, findings: result.findings };
  };

  it('are warned of with both places and the reason', () => {
    // The double marker at fret 12 stands 13 from the centreline, in the way of a pin at 12.
    const { pins, findings } = clear({ frets: [2, 12], offset: 12 });
    expect(pins[0]?.at[1]).toBe(-12);
    const y = Math.abs(pins[1]?.at[1] ?? Number.NaN);
    expect(12 - y).toBeGreaterThan(1);
    expect(findings).toHaveLength(1);
    expect(findings[0]).toMatchObject({
      code: 'index-pin-moved',
      severity: 'warning',
      where: { source: 'instrument', path: 'indexPins.frets[1]' },
    });
    expect(findings[0]?.text).toBe(
      `The index pin wanted in the space of fret 12, 12 mm toward the treble side stands in the space of fret 12, ${y} mm toward the treble side, ${12 - y} mm away: where it was wanted it would be in a marker.`,
    );
  });

  it('keep an offset between the steps of the search exactly, without a word', () => {
    const { pins, findings } = clear({ frets: [2, 11], offset: 11.938 });
    expect(pins.map((pin) => pin.at[1])).toEqual([-11.938, 11.938]);
    expect(findings).toEqual([]);
  });

  it('are only noted when they move by a millimetre or less', () => {
    // Rod 3, pin 0.8 and wall 1.5 leave 5.3 as the least offset; the next step of the search is 5.5.
    const { pins, findings } = clear({ frets: [2, 11], offset: 5 });
    expect(pins.map((pin) => pin.at[1])).toEqual([-5.5, 5.5]);
    expect(findings.map((f) => f.severity)).toEqual(['note', 'note']);
    expect(findings[0]?.text).toContain('0.5 mm away: where it was wanted it would be over the truss rod.');
  });

  it('are warned of when they land in the space of another fret', () => {
    // A marker nearly as wide as the board leaves no place in its own space.
    const tight = clear(
      { frets: [2, 15], offset: 1 },
      {
        faceMarkers: { ...parlour.faceMarkers, at: [{ fret: 15, count: 1, shape: 'round', diameter: 12 }] },
        fingerboard: { ...parlour.fingerboard, widthAtNut: 20, widthAt: { fret: 12, width: 20 } },
        trussRod: null,
      },
    );
    expect(tight.findings.map((f) => [f.severity, f.where?.path])).toEqual([
      ['warning', 'indexPins.frets[1]'],
    ]);
    expect(tight.findings[0]?.text).toMatch(
      /wanted in the space of fret 15.* stands in the space of fret 1[46],/,
    );
  });

  it('say bass and treble as the profile does on a left-handed instrument too', () => {
    const right = clear({ frets: [12, 2], offset: 12 });
    const left = clear({ frets: [12, 2], offset: 12 }, { hand: 'left' });
    expect(left.findings).toEqual(right.findings);
    expect(left.findings[0]?.text).toContain('12 mm toward the bass side');
  });

  it('are not remarked on in slots and under markers, where they stand as asked', () => {
    expect(layOut(parlour).findings).toEqual([]);
  });
});

describe('a left-handed instrument', () => {
  it('is the exact mirror of the right-handed one', () => {
    const right = laidOut();
    const left = laidOut({ ...parlour, hand: 'left' });
    expect(left.strings.map((s) => [s.pitch, ...s.pin])).toEqual(
      right.strings.map((s) => [s.pitch, s.pin[0], -s.pin[1]]),
    );
    expect(left.slots.map((s) => s.line)).toEqual(right.slots.map((s) => s.line.map(([x, y]) => [x, -y])));
    expect(left.sideMarkers.map((m) => m.y)).toEqual(right.sideMarkers.map((m) => -m.y));
    expect(left.indexPins.map((p) => p.at[1])).toEqual(right.indexPins.map((p) => -p.at[1]));
  });
});

describe('any sensible instrument', () => {
  it('keeps slots rising, inside the scale, and each step smaller than the one before', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 300, max: 1100, noNaN: true }),
        fc.integer({ min: 5, max: 53 }),
        (scale, perOctave) => {
          const xs = Array.from({ length: 2 * perOctave }, (_, i) =>
            fretDistance(scale, (1200 * (i + 1)) / perOctave),
          );
          const steps = xs.map((x, i) => x - (xs[i - 1] ?? 0));
          expect(steps.every((s, i) => s > 0 && (i === 0 || s < (steps[i - 1] ?? 0)))).toBe(true);
          expect(xs[perOctave - 1]).toBeCloseTo(scale / 2, 9);
          expect(xs.at(-1)).toBeCloseTo((scale * 3) / 4, 9);
        },
      ),
      { seed: 628, numRuns: 200 },
    );
  });
});
