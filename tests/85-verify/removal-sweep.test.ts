/** Pieces of the path as read from text: upright arcs in both planes, leaning arcs, whole turns. */
import { describe, expect, it } from 'vitest';
import { readProgram } from '../../src/verify/gcode/readProgram.ts';
import { UNDERSTANDS_EVERYTHING } from '../../src/verify/gcode/understands.ts';
import { type Piece, spaceLength, steepness, xAt, yAt, zAt } from '../../src/verify/removal/piece.ts';
import { copyPiece, sweepOf } from '../../src/verify/removal/sweep.ts';
import { firstDifference, recordTape, STARTS } from '../../src/verify/removal/tape.ts';
import { bytesOf } from '../support/proofSamples.ts';

const HEAD = 'G21 G90 G94 G17 G40 G49 G54 G61\nG0 Z5\nG0 X0 Y0\nG1 Z0 F300\n';

function tapeOf(lines: string, start = 0): ReturnType<typeof recordTape> {
  const state = STARTS[start];
  if (state === undefined) throw new Error(`no start ${start}`);
  return recordTape(readProgram, bytesOf(`${HEAD}${lines}\nM2\n`), state, UNDERSTANDS_EVERYTHING);
}

/** Pieces of the motions after the head. */
function piecesOf(lines: string): Piece[] {
  const sweep = sweepOf(tapeOf(lines), false);
  expect(tapeOf(lines).result.refusals).toEqual([]);
  return Array.from({ length: sweep.count }, (_, i) => copyPiece(sweep, i)).slice(1);
}

describe('an upright arc', () => {
  it('in the YZ plane runs over the hill: G2 from -y to +y', () => {
    // From (0, 0) over a circle of 10 about y 6, z -8 to (12, 0): highest at y 6, z 2.
    const [first, second] = piecesOf('G19 G2 Y12 Z0 J6 K-8');
    expect([first?.upright, first?.alongX, first?.side]).toEqual([true, false, 1]);
    expect([first?.y1, first?.z1]).toEqual([expect.closeTo(6, 9), expect.closeTo(2, 9)]);
    expect(second?.y1).toBeCloseTo(12, 9);
    if (first === undefined) throw new Error('no piece');
    expect(zAt(first, 0.5)).toBeCloseTo(-8 + Math.sqrt(100 - 9), 9);
    expect(steepness(first)).toBeCloseTo(0.6, 9);
    expect(spaceLength(first)).toBeCloseTo(10 * Math.asin(0.6), 9);
  });

  it('in the XZ plane runs over the hill by G3 as x grows: seen from +Y, counter-clockwise goes from +Z to +X', () => {
    const over = piecesOf('G18 G3 X12 Z0 I6 K-8');
    expect(Math.max(...over.map((p) => p.z1))).toBeCloseTo(2, 9);
    expect(over.every((p) => p.upright && p.alongX && p.side === 1)).toBe(true);
    const under = piecesOf('G18 G2 X12 Z0 I6 K-8');
    expect(Math.min(...under.map((p) => p.z1))).toBeCloseTo(-18, 9);
  });

  it('that leans is cut into chords that stay within 0.0001 mm of it', () => {
    const pieces = piecesOf('G19 G2 X3 Y12 Z0 J6 K-8');
    expect(pieces.length).toBeGreaterThan(50);
    for (const p of pieces) {
      expect(p.upright).toBe(false);
      const middle = Math.hypot(yAt(p, 0.5) - 6, zAt(p, 0.5) + 8);
      expect(middle).toBeLessThanOrEqual(10 + 1e-9);
      expect(middle).toBeGreaterThan(10 - 0.0001 - 1e-9);
    }
    expect(pieces.at(-1)?.x1).toBe(3);
  });
});

describe('a plan arc', () => {
  it('of a whole turn becomes two halves that fall evenly', () => {
    const pieces = piecesOf('G3 X0 Y0 Z-1 I-4 J0');
    expect(pieces).toHaveLength(2);
    const [first] = pieces;
    if (first === undefined) throw new Error('no piece');
    expect([xAt(first, 0.5), yAt(first, 0.5), zAt(first, 0.5)]).toEqual([
      expect.closeTo(-4, 9),
      expect.closeTo(4, 9),
      expect.closeTo(-0.25, 9),
    ]);
    expect(pieces.reduce((sum, p) => sum + spaceLength(p), 0)).toBeCloseTo(Math.hypot(8 * Math.PI, 1), 9);
  });
});

describe('the same text read from two starts', () => {
  it('gives the same tape, though the machine stood elsewhere', () => {
    const text = 'G1 X5 Y5\nG2 X10 Y0 I0 J-5';
    expect(firstDifference(tapeOf(text, 0), tapeOf(text, 1))).toBe(-1);
  });

  it('differs in the first motion that rests on the state before', () => {
    const raw = (start: number): ReturnType<typeof recordTape> => {
      const state = STARTS[start];
      if (state === undefined) throw new Error(`no start ${start}`);
      return recordTape(
        readProgram,
        bytesOf('G90 G94 G17 G40 G49 G54\nG0 Z5\nG0 X1\nM2\n'),
        state,
        UNDERSTANDS_EVERYTHING,
      );
    };
    expect(firstDifference(raw(0), raw(1))).toBe(0);
  });
});
