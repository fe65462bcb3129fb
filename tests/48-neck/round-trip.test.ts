/**
 * A neck set wrongly, corrected by what the plan says, as a solid body: the heel's new face is a plane through its four corners, the neck is
 * turned until that plane lies on the body, and the straightedge is a line that turns with it. Nothing here uses the plan's formulas.
 */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { layOut } from '../../src/layout/layOut.ts';
import { planNeckSet } from '../../src/neck/plan.ts';
import type { HeelRemoval, Measured, NeckSet } from '../../src/neck/types.ts';
import type { Instrument } from '../../src/profile/types.ts';
import { necked } from '../support/neck.ts';

type V = readonly [number, number, number];
const add = (a: V, b: V): V => [a[0] + b[0], a[1] + b[1], a[2] + b[2]];
const minus = (a: V, b: V): V => [a[0] - b[0], a[1] - b[1], a[2] - b[2]];
const times = (a: V, by: number): V => [a[0] * by, a[1] * by, a[2] * by];
const dot = (a: V, b: V): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
const cross = (a: V, b: V): V => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
];
const unit = (a: V): V => times(a, 1 / Math.sqrt(dot(a, a)));

/** Turns `v` by the least turn that brings direction `from` to direction `to` (Rodrigues). */
function turned(v: V, from: V, to: V): V {
  const axis = cross(from, to);
  const sine = Math.sqrt(dot(axis, axis));
  if (sine < 1e-15) return v;
  const k = times(axis, 1 / sine);
  const cosine = dot(from, to);
  return add(add(times(v, cosine), times(cross(k, v), sine)), times(k, dot(k, v) * (1 - cosine)));
}

const joint = necked.neckJoint;
if (joint === null) throw new Error('no joint');
// Body frame: x from the joint toward the bridge, y toward the treble side, z up from the rim's plane.
const instrument: Instrument = {
  ...necked,
  bridge: { ...necked.bridge, height: 9, straightedge: 0.5 },
};

function planned(measured: Measured | null): NeckSet {
  const layout = layOut(instrument);
  if (!layout.ok) throw new Error('no layout');
  const set = planNeckSet(instrument, layout.value, [2.6, 4.1], measured);
  if (!set.ok) throw new Error('no set');
  return set.value;
}

/** Top at the saddle line over the rim's plane: the sphere itself. */
function topAt(along: number): number {
  const { domeRadius: r, domeApex: apex } = joint ?? { domeRadius: null, domeApex: 0 };
  if (r === null) return 0;
  return Math.sqrt(r ** 2 - (apex - along) ** 2) - Math.sqrt(r ** 2 - apex ** 2);
}

const H = (joint?.boardAboveRim ?? 0) + instrument.fingerboard.thickness + instrument.fretWire.crownHeight;

/** What a straightedge in direction `d` from over the joint says at the saddle line. */
function read(d: V, length: number): Measured {
  const t = length / d[0];
  return { straightedge: H + t * d[2] - topAt(length), aim: t * d[1] };
}

/** The straightedge's direction once the heel has lost what was said, and the neck seats again. */
function seated(d: V, off: HeelRemoval): V {
  const top = (joint?.heelWidthAtTop ?? 0) / 2;
  const cap = (joint?.heelWidthAtCap ?? 0) / 2;
  const depth = joint?.heelDepth ?? 0;
  const a: V = [-off.topBass, -top, 0];
  const b: V = [-off.topTreble, top, 0];
  const c: V = [-off.capBass, -cap, -depth];
  const fourth: V = [-off.capTreble, cap, -depth];
  const normal = unit(cross(minus(b, a), minus(a, c)));
  const facing = normal[0] < 0 ? times(normal, -1) : normal;
  // All four corners lie in one plane.
  expect(Math.abs(dot(facing, minus(fourth, a)))).toBeLessThan(1e-6);
  return turned(d, facing, [1, 0, 0]);
}

describe('a neck set with an error and corrected by what the plan says', () => {
  it('grazes the bridge within 0.05 mm, and aims within 0.05 mm, as a solid body', () => {
    const { length } = planned(null);
    const wanted = 9 + 0.5;
    fc.assert(
      fc.property(
        fc.double({ min: -0.6, max: 0.6, noNaN: true }),
        fc.double({ min: -0.7, max: 0.7, noNaN: true }),
        (pitch, yaw) => {
          // The neck stands wrong by so many degrees, up and sideways, from the direction that the plan wants.
          const right = (wanted + topAt(length) - H) / length;
          const [p, w] = [Math.atan(right) + (pitch * Math.PI) / 180, (yaw * Math.PI) / 180];
          const before: V = [Math.cos(p) * Math.cos(w), Math.cos(p) * Math.sin(w), Math.sin(p)];
          const measured = read(before, length);
          const { work } = planned(measured);
          if (work === null) throw new Error('no work');
          const after = read(seated(before, work.removal), length);
          expect(Math.abs(after.straightedge - wanted)).toBeLessThan(0.05);
          expect(Math.abs(after.aim)).toBeLessThan(0.05);
        },
      ),
      { numRuns: 200, seed: 11 },
    );
  });

  it('does not when half of it is taken off: the computation can tell', () => {
    const { length, straightedge } = planned(null);
    const before: V = unit([1, 0.004, (straightedge - 2 + topAt(length) - H) / length]);
    const measured = read(before, length);
    const removal = planned(measured).work?.removal;
    if (removal === undefined) throw new Error('no work');
    const half: HeelRemoval = {
      topBass: removal.topBass / 2,
      topTreble: removal.topTreble / 2,
      capBass: removal.capBass / 2,
      capTreble: removal.capTreble / 2,
    };
    const after = read(seated(before, half), length);
    expect(after.straightedge - straightedge).toBeCloseTo(-1, 1);
    expect(after.aim).toBeCloseTo(measured.aim / 2, 1);
  });
});
