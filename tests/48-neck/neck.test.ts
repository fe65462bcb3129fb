import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { layOut } from '../../src/layout/layOut.ts';
import { domeRise, neckSlope } from '../../src/neck/angle.ts';
import { heelRemoval, pointMoves } from '../../src/neck/heel.ts';
import { planNeckSet } from '../../src/neck/plan.ts';
import type { Measured, NeckSet } from '../../src/neck/types.ts';
import type { Instrument, NeckJoint } from '../../src/profile/types.ts';
import { parlour } from '../support/instrument.ts';

// Worked values: common practice, no source; recomputed by hand.
const LENGTH = 316.5;
const DOME = { radius: 8534, apex: 240 };
const HEEL = { depth: 85, widthAtTop: 56, widthAtCap: 20 };
const degrees = (radians: number): number => (radians * 180) / Math.PI;

const joint: NeckJoint = {
  fret: 12,
  boardAboveRim: 1,
  heelDepth: 85,
  heelWidthAtTop: 56,
  heelWidthAtCap: 20,
  domeRadius: 8534,
  domeApex: 240,
  fallAway: 0,
  tenon: null,
};

const withJoint = (
  changes: Partial<NeckJoint> = {},
  bridge: Partial<Instrument['bridge']> = {},
): Instrument => ({
  ...parlour,
  neckJoint: { ...joint, ...changes },
  bridge: { ...parlour.bridge, height: 9, straightedge: 0.5, ...bridge },
});

function setOf(instrument: Instrument, measured: Measured | null = null): { set: NeckSet; codes: string[] } {
  const layout = layOut(instrument);
  if (!layout.ok) throw new Error('the sample does not lay out');
  const planned = planNeckSet(instrument, layout.value, [2.6, 4.1], measured);
  if (!planned.ok) throw new Error('the sample has no neck set');
  return { set: planned.value, codes: planned.findings.map((f) => f.code) };
}

describe('the neck’s angle', () => {
  it('is 1.0737 deg over a top that rises 3.032 (worked by hand)', () => {
    const rise = domeRise(DOME, LENGTH);
    expect(rise).toBeCloseTo(3.032, 3);
    const slope = neckSlope({ length: LENGTH, fretsAboveRim: 7.1, straightedge: 9 + 1, rise });
    expect(degrees(Math.atan(slope))).toBeCloseTo(1.0737, 4);
  });

  it('keeps to the sphere itself within 0.001 mm', () => {
    for (const along of [20, 100, 240, 316.5, 330]) {
      const sphere =
        Math.sqrt(DOME.radius ** 2 - (DOME.apex - along) ** 2) - Math.sqrt(DOME.radius ** 2 - DOME.apex ** 2);
      expect(Math.abs(domeRise(DOME, along) - sphere)).toBeLessThan(0.001);
    }
  });

  it('moves the straightedge by 0.552 and the action by 0.275 for a tenth of a degree (worked by hand)', () => {
    const scaled = withJoint();
    const { set } = setOf({ ...scaled, strings: scaled.strings.map((s) => ({ ...s, setBack: 2.5 })) });
    expect(set.length).toBeCloseTo(LENGTH, 6);
    expect(set.tenth.straightedge).toBeCloseTo(0.552, 3);
    expect(set.tenth.action).toBeCloseTo(0.275, 3);
  });

  it('says the same as the height of the straightedge: a straight line from the joint meets it', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 5, max: 14, noNaN: true }),
        fc.double({ min: -1, max: 3, noNaN: true }),
        fc.double({ min: 0, max: 3, noNaN: true }),
        fc.double({ min: 3000, max: 30_000, noNaN: true }),
        (height, straightedge, boardAboveRim, domeRadius) => {
          const { set } = setOf(withJoint({ boardAboveRim, domeRadius }, { height, straightedge }));
          const over = set.fretsAboveRim + set.length * Math.tan(set.angle) - set.domeRise;
          expect(over).toBeCloseTo(height + straightedge, 9);
          expect(set.straightedge).toBeCloseTo(height + straightedge, 12);
        },
      ),
    );
  });
});

describe('the heel', () => {
  it('loses 0.537 at the cap for 2 mm of pitch (worked by hand)', () => {
    const removal = heelRemoval(HEEL, LENGTH, 2, 0);
    expect(removal.capBass).toBeCloseTo(0.537, 3);
    expect(removal.topBass).toBe(0);
    expect(removal.topTreble).toBe(0);
  });

  it('takes pitch and aim as one plane: 0, 0.177, 0.594, 0.657 (worked by hand)', () => {
    const removal = heelRemoval(HEEL, LENGTH, 2, 1);
    expect(removal.topBass).toBeCloseTo(0, 12);
    expect(removal.topTreble).toBeCloseTo(0.177, 3);
    expect(removal.capBass).toBeCloseTo(0.594, 3);
    expect(removal.capTreble).toBeCloseTo(0.657, 3);
  });

  it('moves the nut 0.07 toward the bridge then (worked by hand)', () => {
    const removal = heelRemoval(HEEL, LENGTH, 2, 1);
    const shift = (removal.topBass + removal.topTreble) / 2;
    const now = neckSlope({
      length: LENGTH,
      fretsAboveRim: 7.1,
      straightedge: 8,
      rise: domeRise(DOME, LENGTH),
    });
    const turn = Math.atan(now + 2 / LENGTH) - Math.atan(now);
    expect(pointMoves([-314, 7.1 - 314 * now], shift, turn)).toBeCloseTo(0.07, 2);
  });

  it('brings a neck that is set so to the wanted height and aim: the plane is built as a solid turn in the test', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -3, max: 3, noNaN: true }),
        fc.double({ min: -4, max: 4, noNaN: true }),
        (raise, aim) => {
          const removal = heelRemoval(HEEL, LENGTH, raise, aim);
          expect(Math.min(...Object.values(removal))).toBeCloseTo(0, 12);
          // Normal of the plane through three corners, by a cross product; the fourth must lie in it.
          const corner = (y: number, s: number, off: number): readonly [number, number, number] => [
            off,
            y,
            -s,
          ];
          const a = corner(-28, 0, removal.topBass);
          const b = corner(28, 0, removal.topTreble);
          const c = corner(-10, 85, removal.capBass);
          const d = corner(10, 85, removal.capTreble);
          const minus = (p: typeof a, q: typeof a) => [p[0] - q[0], p[1] - q[1], p[2] - q[2]] as const;
          const [u, v] = [minus(b, a), minus(c, a)];
          const normal = [
            u[1] * v[2] - u[2] * v[1],
            u[2] * v[0] - u[0] * v[2],
            u[0] * v[1] - u[1] * v[0],
          ] as const;
          const w = minus(d, a);
          expect(normal[0] * w[0] + normal[1] * w[1] + normal[2] * w[2]).toBeCloseTo(0, 6);
          // The neck turns until that plane lies against the body: a straight run of LENGTH rises and swings by so much.
          expect((normal[2] / normal[0]) * LENGTH).toBeCloseTo(raise, 9);
          expect((-normal[1] / normal[0]) * LENGTH).toBeCloseTo(aim, 9);
        },
      ),
    );
  });

  it('names the side and the cheek', () => {
    const { set } = setOf(withJoint());
    const at = (low: number, aim: number) =>
      setOf(withJoint(), { straightedge: set.straightedge - low, aim }).set.work;
    expect(at(1, 0.5)).toMatchObject({ side: 'cap', cheek: 'treble' });
    expect(at(-1, -0.5)).toMatchObject({ side: 'top', cheek: 'bass' });
    expect(at(0.01, 0.01)).toMatchObject({ side: 'neither', cheek: 'neither', nutMoves: 0 });
  });

  it('raises the action by what the straightedge is low, in the share of the fret', () => {
    const { set } = setOf(withJoint());
    const work = setOf(withJoint(), { straightedge: set.straightedge - 1, aim: 0 }).set.work;
    expect(work?.actionOff).toBeCloseTo(set.tenth.action / set.tenth.straightedge, 9);
    expect(work?.saddleIfLeft[0]).toBeCloseTo(1.6, 9);
  });
});

describe('the board over the body', () => {
  it('stands off by the slope less the dome, and fouls where that is negative', () => {
    const { set, codes } = setOf(withJoint({ boardAboveRim: 0 }));
    const fouls = set.extension.map((place) => place.gap);
    set.extension.forEach((place) => {
      const byHand = place.along * Math.tan(set.angle) - (240 ** 2 - (240 - place.along) ** 2) / (2 * 8534);
      expect(place.gap).toBeCloseTo(byHand, 9);
    });
    expect(Math.min(...fouls)).toBeLessThan(-0.1);
    expect(codes).toContain('board-fouls-top');
    expect(setOf(withJoint({ boardAboveRim: 1.2 })).codes).not.toContain('board-fouls-top');
  });

  it('falls away evenly to the end', () => {
    const { set } = setOf(withJoint({ fallAway: 0.4 }));
    expect(set.extension[0]?.fallAway).toBe(0);
    expect(set.extension.at(-1)?.fallAway).toBeCloseTo(0.4, 12);
  });
});

describe('doubts', () => {
  it('are named: an unusual angle, and much wood off the heel, with what else would do', () => {
    expect(setOf(withJoint({}, { height: 20 })).codes).toContain('neck-angle-unusual');
    expect(setOf(withJoint({}, { height: 4 })).codes).toContain('neck-angle-unusual');
    const { set } = setOf(withJoint());
    expect(setOf(withJoint(), { straightedge: set.straightedge - 7, aim: 0 }).codes).toContain(
      'much-off-heel',
    );
  });

  it('ask for what is missing', () => {
    const layout = layOut(parlour);
    if (!layout.ok) throw new Error('the sample does not lay out');
    const without = planNeckSet({ ...parlour, neckJoint: null }, layout.value, [3], null);
    expect(without.ok).toBe(false);
    expect(without.findings.map((f) => f.where?.path)).toEqual(['neckJoint', 'bridge']);
  });
});
