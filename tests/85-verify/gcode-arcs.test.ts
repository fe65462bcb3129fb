/** Arcs in the three planes, both formats. Rules: NISTIR 6556 (Kramer, Proctor, Messina, 2000), section 3.5.3. */
import { describe, expect, it } from 'vitest';
import type { Motion } from '../../src/verify/gcode/types.ts';
import { movesOf, pathLength, rulesOf } from './gcode-support.ts';

const QUARTER = Math.PI / 2;

/** The one arc of a body; its start is set by a G0 before it. */
function arcOf(start: string, arc: string): Motion {
  const found = movesOf(`G0 ${start}\nF100\n${arc}`).filter((move) => move.kind === 'arc');
  if (found.length !== 1) throw new Error(`${found.length} arcs`);
  return found[0] as Motion;
}

/** A point of the arc at a share of its sweep, walked from the fields of the record alone. */
function pointAt(arc: Motion, share: number): [number, number, number] {
  const from = [arc.fromX, arc.fromY, arc.fromZ];
  const to = [arc.toX, arc.toY, arc.toZ];
  const centre = [arc.centreX, arc.centreY, arc.centreZ];
  // Right-handed axes: the first two turn about the third.
  const [a, b, n] = { xy: [0, 1, 2], yz: [1, 2, 0], xz: [2, 0, 1] }[arc.plane] as [number, number, number];
  const at = (list: number[], i: number): number => list[i] as number;
  const angle = Math.atan2(at(from, b) - at(centre, b), at(from, a) - at(centre, a)) + share * arc.sweep;
  const point: [number, number, number] = [0, 0, 0];
  point[a] = at(centre, a) + arc.radius * Math.cos(angle);
  point[b] = at(centre, b) + arc.radius * Math.sin(angle);
  point[n] = at(from, n) + share * (at(to, n) - at(from, n));
  return point;
}

function expectPoint(found: readonly number[], wanted: readonly number[]): void {
  for (const [i, value] of wanted.entries()) expect(found[i]).toBeCloseTo(value, 9);
}

const R = Math.SQRT1_2;

describe('quarter turns about the origin, seen from the positive end of the third axis', () => {
  it.each([
    // plane, start, words of the arc, middle, sweep: by hand, with the right-hand rule.
    ['G17', 'X1 Y0', 'G3 X0 Y1 I-1 J0', [R, R, 0], QUARTER],
    ['G17', 'X0 Y1', 'G2 X1 Y0 I0 J-1', [R, R, 0], -QUARTER],
    ['G18', 'X0 Z1', 'G3 X1 Z0 I0 K-1', [R, 0, R], QUARTER],
    ['G18', 'X1 Z0', 'G2 X0 Z1 I-1 K0', [R, 0, R], -QUARTER],
    ['G19', 'Y1 Z0', 'G3 Y0 Z1 J-1 K0', [0, R, R], QUARTER],
    ['G19', 'Y0 Z1', 'G2 Y1 Z0 J0 K-1', [0, R, R], -QUARTER],
    // The long way round.
    ['G17', 'X1 Y0', 'G2 X0 Y1 I-1 J0', [-R, -R, 0], -3 * QUARTER],
    ['G18', 'X0 Z1', 'G2 X1 Z0 I0 K-1', [-R, 0, -R], -3 * QUARTER],
    ['G19', 'Y1 Z0', 'G2 Y0 Z1 J-1 K0', [0, -R, -R], -3 * QUARTER],
  ])('%s from %s: %s', (plane, start, words, middle, sweep) => {
    const arc = arcOf(start, `${plane} ${words}`);
    expect(arc.sweep).toBeCloseTo(sweep, 12);
    expect(arc.radius).toBe(1);
    expectPoint([arc.centreX, arc.centreY, arc.centreZ], [0, 0, 0]);
    expectPoint(pointAt(arc, 0.5), middle);
    expectPoint(pointAt(arc, 1), [arc.toX, arc.toY, arc.toZ]);
  });
});

describe('full circles and helices', () => {
  it.each([
    ['G17', 'G3 X0 Y0 I2 J0', 2 * Math.PI],
    ['G17', 'G2 X0 I2', -2 * Math.PI],
    ['G18', 'G3 X0 Z0 I0 K-3', 2 * Math.PI],
    ['G19', 'G2 Z0 J4', -2 * Math.PI],
  ])('%s %s ends where it starts after one turn', (plane, words, sweep) => {
    const arc = arcOf('X0 Y0 Z0', `${plane} ${words}`);
    expect(arc.sweep).toBe(sweep);
    expectPoint([arc.toX, arc.toY, arc.toZ], [0, 0, 0]);
  });

  it('a circle reached by adding up increments is still a full one', () => {
    const body = `G0 X0.1\nF100\nG91\n${'G1 X0.1\n'.repeat(2)}G90 G3 X0.3 Y0 I1 J0`;
    // 0.1 + 0.1 + 0.1 is not 0.3 in doubles.
    expect(movesOf(body).at(-1)?.sweep).toBe(2 * Math.PI);
  });

  it('an arc shorter than a thousandth is an arc, not a circle', () => {
    expect(arcOf('X0 Y0', 'G3 X0 Y0.0008 I-5 J0').sweep).toBeCloseTo(0.0008 / 5, 9);
  });

  it('a helix turns once and moves along its axis', () => {
    const arc = arcOf('X5 Y0 Z1', 'G3 X5 Y0 I-5 J0 Z-1');
    expect(pathLength(arc)).toBeCloseTo(Math.hypot(10 * Math.PI, 2), 12);
    expectPoint(pointAt(arc, 0.25), [0, 5, 0.5]);
    expectPoint(pointAt(arc, 0.75), [0, -5, -0.5]);
  });

  it('in incremental mode the end is a step and the centre stays an offset from the start', () => {
    const arc = arcOf('X10 Y10', 'G91 G3 X-2 Y2 Z1 I-2 J0');
    expect(arc).toMatchObject({ toX: 8, toY: 12, toZ: 1, centreX: 8, centreY: 10, radius: 2 });
    expect(arc.sweep).toBeCloseTo(QUARTER, 12);
  });

  it('inches count for the end and the centre', () => {
    const arc = arcOf('X0 Y0', 'G20\nF5\nG2 X1 Y1 I1 J0');
    expect(arc).toMatchObject({ toX: 25.4, toY: 25.4, centreX: 25.4, radius: 25.4, feed: 127 });
  });

  it('inverse time gives the feed along the helix', () => {
    const arc = arcOf('X5 Y0', 'G93 G3 X5 Y0 I-5 J0 Z2 F4');
    expect(arc.feed).toBeCloseTo(4 * Math.hypot(10 * Math.PI, 2), 9);
  });
});

describe('radius format', () => {
  it.each([
    ['G2', 5, [5, 0], -QUARTER],
    ['G3', 5, [0, 5], QUARTER],
    ['G2', -5, [0, 5], -3 * QUARTER],
    ['G3', -5, [5, 0], 3 * QUARTER],
  ])('%s R%d from (0, 0) to (5, 5)', (word, radius, centre, sweep) => {
    const arc = arcOf('X0 Y0', `${word} X5 Y5 R${radius}`);
    expectPoint([arc.centreX, arc.centreY], centre);
    expect(arc.sweep).toBeCloseTo(sweep, 9);
    expectPoint(pointAt(arc, 1), [5, 5, 0]);
  });

  it.each(['G18 G3 X4 Z3 R10', 'G19 G2 Y4 Z3 R-10'])('%s reaches its end', (words) => {
    const arc = arcOf('X0 Y0 Z0', words);
    expect(arc.radius).toBe(10);
    expectPoint(pointAt(arc, 1), [arc.toX, arc.toY, arc.toZ]);
  });

  it('a radius short of half the chord by no more than the rule of 0.002 mm makes a half turn', () => {
    const arc = arcOf('X0 Y0', 'G2 X10 R4.9990');
    expect(arc).toMatchObject({ centreX: 5, radius: 5 });
    expect(arc.sweep).toBeCloseTo(-Math.PI, 12);
    expect(rulesOf('F100\nG2 X10 R4.9970')).toEqual(['arc-radius']);
  });

  it('an end at the start is an error', () => {
    expect(rulesOf('F100\nG2 X0 Y0 R5')).toEqual(['arc-radius']);
  });
});

describe('the radius rule of 3.5.3.2', () => {
  it.each([
    ['0.002 mm apart is allowed', 'F100\nG2 X10.002 Y0 I5 J0', []],
    ['more than 0.002 mm is not', 'F100\nG2 X10.0021 Y0 I5 J0', ['arc-radius']],
    ['0.0002 inch apart is allowed', 'G20\nF5\nG2 X1.0002 Y0 I0.5 J0', []],
    ['more than 0.0002 inch is not', 'G20\nF5\nG2 X1.00021 Y0 I0.5 J0', ['arc-radius']],
  ])('%s', (_, body, rules) => {
    expect(rulesOf(body)).toEqual(rules);
  });

  it('a radius of nothing is no arc', () => {
    expect(rulesOf('F100\nG2 X1 Y0 I0 J0')).toEqual(['arc-radius']);
  });

  it('an end in line with the start, but not on it, could be no turn or a full one', () => {
    expect(rulesOf('F100\nG2 X0.001 Y0 I5 J0')).toEqual(['arc-unclear']);
  });
});

describe('words of an arc', () => {
  it.each([
    ['no axis of the plane', 'G2 Z1 I1', 'arc without X, Y'],
    ['no centre and no radius', 'G2 X1 Y1', 'without a centre'],
    ['both formats', 'G2 X1 Y1 I1 R1', 'R with I'],
    ['an offset of another plane', 'G2 X1 Y1 I1 K1', 'K for an arc in another plane'],
    ['an offset of another plane alone', 'G18 G2 X1 Z1 J1', 'J for an arc in another plane'],
  ])('%s is refused', (_, words, found) => {
    expect(rulesOf(`F100\n${words}`)).toEqual(['arc-words']);
    expect(foundIn(`F100\n${words}`)).toContain(found);
  });
});

function foundIn(body: string): string {
  try {
    movesOf(body);
    return '';
  } catch (error) {
    return String(error);
  }
}
