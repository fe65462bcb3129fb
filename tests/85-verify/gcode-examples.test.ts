/**
 * Published worked examples. Source of all of them, unless said otherwise: T. R. Kramer, F. M. Proctor, E. Messina,
 * "The NIST RS274NGC Interpreter - Version 3", NISTIR 6556, 17 August 2000 (a work of the US Government); the section
 * or table is named beside each.
 */
import { describe, expect, it } from 'vitest';
import type { Motion } from '../../src/verify/gcode/types.ts';
import { ends, HEAD, movesOf, pathLength, read, TAIL } from './gcode-support.ts';

const DEGREES = 180 / Math.PI;

describe('worked examples of NISTIR 6556', () => {
  it('table 10, lines 4 to 6: a feed, then a helical arc in radius format', () => {
    const [line, arc] = movesOf('g1 x3 y1 f20.0\ng2 x0 r 7.01 z0.5');
    expect(line).toMatchObject({ kind: 'feed', toX: 3, toY: 1, toZ: 0, feed: 20 });
    expect(arc).toMatchObject({ kind: 'arc', toX: 0, toY: 1, toZ: 0.5, plane: 'xy' });
    // ARC_FEED(0.0000, 1.0000, 1.5000, 7.8476, -1, 0.5000); the report's x word is the expression [6-[4*3/2]] = 0.
    expect(arc?.centreX).toBeCloseTo(1.5, 4);
    expect(arc?.centreY).toBeCloseTo(7.8476, 4);
    expect(arc?.sweep).toBeLessThan(0);
    expect(arc?.sweep).toBeGreaterThan(-Math.PI);
  });

  it('table 10, lines 15 to 23: G91 G81 with L2 from (30, 1, -0.5)', () => {
    const moves = movesOf('G0 X30 Y1 Z-0.5\nF20\ng91 g81 x3 y2 z-0.8 r1.5 l2').slice(1);
    expect(ends(moves)).toEqual([
      'rapid 30 1 1',
      'rapid 33 3 1',
      'feed 33 3 0.2',
      'rapid 33 3 1',
      'rapid 36 5 1',
      'feed 36 5 0.2',
      'rapid 36 5 1',
    ]);
    expect(moves.every((move) => move.cycle === 81)).toBe(true);
  });

  it('table 10: `g1 x asim[0.5]` is an error, and expressions are none of our words', () => {
    const refusals = read(`${HEAD}g1 x asim[0.5]${TAIL}`).refusals;
    expect(refusals).toMatchObject([{ line: 3, rule: 'expression' }]);
  });

  it('3.5.16.2, example 1: G90 G81 G98 from (1, 2, 3)', () => {
    const moves = movesOf('G0 X1 Y2 Z3\nF20\nG90 G81 G98 X4 Y5 Z1.5 R2.8').slice(1);
    expect(ends(moves)).toEqual(['rapid 4 5 3', 'rapid 4 5 2.8', 'feed 4 5 1.5', 'rapid 4 5 3']);
  });

  it('3.5.16.2, example 2: G91 G81 G98 with L3 from (1, 2, 3)', () => {
    const moves = movesOf('G0 X1 Y2 Z3\nF20\nG91 G81 G98 X4 Y5 Z-0.6 R1.8 L3').slice(1);
    expect(ends(moves)).toEqual([
      'rapid 1 2 4.8',
      'rapid 5 7 4.8',
      'feed 5 7 4.2',
      'rapid 5 7 4.8',
      'rapid 9 12 4.8',
      'feed 9 12 4.2',
      'rapid 9 12 4.8',
      'rapid 13 17 4.8',
      'feed 13 17 4.2',
      'rapid 13 17 4.8',
    ]);
  });

  it('3.5.3.2: a clockwise helical arc in centre format from (7, 7), centre (10, 11), radius 5', () => {
    const [, arc] = movesOf('G0 X7 Y7\nF20\nG17 G2 x 10 y 16 i 3 j 4 z 9');
    expect(arc).toMatchObject({ centreX: 10, centreY: 11, radius: 5, toX: 10, toY: 16, toZ: 9 });
    // Clockwise from the direction (-3, -4) to (0, 5): 180 degrees less the angle of atan(3/4).
    expect((arc?.sweep ?? 0) * DEGREES).toBeCloseTo(-(180 - Math.atan2(3, 4) * DEGREES), 9);
  });

  it('3.3: blanks inside numbers, `g0x +0. 12 34y 7` is g0 x+0.1234 y7', () => {
    expect(movesOf('g0x +0. 12 34y 7')).toMatchObject([{ kind: 'rapid', toX: 0.1234, toY: 7 }]);
  });

  it('table 12: the five arcs of the contour, all of radius 1', () => {
    const moves = movesOf(
      [
        'G0 X1 Y4',
        'F20',
        'N0030 G3 X2 Y3 I1',
        'N0040 G2 X3 Y2 J-1',
        'N0050 G1 Y-1',
        'N0060 G2 X2 Y-2 I-1',
        'N0070 G1 X-2',
        'N0080 G2 X-2.6 Y-0.2 J1',
        'N0090 G1 X1.4 Y2.8',
        'N0100 G2 X2 Y3 I0.6 J-0.8',
      ].join('\n'),
    );
    const arcs = moves.filter((move) => move.kind === 'arc');
    expect(
      arcs.map((arc) => [arc.centreX, arc.centreY, arc.radius].map((v) => Number(v.toFixed(9)))),
    ).toEqual([
      [2, 4, 1],
      [2, 2, 1],
      [2, -1, 1],
      [-2, -1, 1],
      [2, 2, 1],
    ]);
    // The contour closes: the last arc ends where the second began.
    expect(ends(arcs).at(-1)).toBe('arc 2 3 0');
  });

  it('3.5.19: F2 in inverse time is half a minute', () => {
    const [move] = movesOf('G93 G1 X30 Y40 F2');
    expect(move).toMatchObject({ kind: 'feed', feed: 100 });
  });
});

/** Appendix C.1, "Hello world" milled between X=0 and X=81 mm, without its comments. */
const HELLO = `n0010 g21 g0 x0 y0 z50
n0020 t1 m6 m3 f20 s4000
n0030 g0 x0 y0 z2
n0040 g1 z-0.5
n0050 y10
n0060 g0 z2
n0070 y5
n0080 g1 z-0.5
n0090 x 7
n0100 g0 z2
n0110 y0
n0120 g1 z-0.5
n0130 y10
n0140 g0 z2
n0150 x11 y2.5
n0160 g1 z-0.5
n0170 x16
n0190 g3 x13.5 y0 i-2.5
n0200 g1 x16
n0210 g0 z2
n0220 x20 y0
n0230 g1 z-0.5
n0240 y9
n0250 g0 z2
n0260 x26
n0270 g1 z-0.5
n0280 y0
n0290 g0 z2
n0300 x32.5
n0310 g1 z-0.5
n0320 g2 x32.5 j2.5
n0330 g0 z2
n0340 x45 y5
n0350 g1 z-0.5
n0360 x47 y0
n0370 x48.5 y3
n0380 x50 y0
n0390 x52 y5
n0400 g0 z2
n0410 x57.5 y0
n0420 g1 z-0.5
n0430 g2 x57.5 j2.5
n0440 g0 z2
n0450 x64
n0460 g1 z-0.5
n0470 y5
n0480 y4
n0490 g2 x69 r4
n0500 g0 z2
n0510 x73 y0
n0520 g1 z-0.5
n0530 y9
n0540 g0 z2
n0550 x81
n0560 g1 z-0.5
n0570 y0
n0580 x79.5
n0590 g2 j2.5 y5
n0600 g1 x81
n0610 g0 z50
n0620 m2
`;

/** Derived, not printed in the report: 3-D lengths of the program above from (0, 0, 0), computed apart from this reader. */
const HELLO_FIGURES = {
  sweeps: [270, 360, 360, 77.364, 180],
  arc: 56.4519,
  line: 126.9785,
  rapid: 252.0528,
  minutes: 9.1715,
};

const total = (moves: readonly Motion[], kind: Motion['kind']): number =>
  moves.filter((move) => move.kind === kind).reduce((sum, move) => sum + pathLength(move), 0);

describe('appendix C.1 of NISTIR 6556', () => {
  const result = read(`g17 g90 g94 g40 g49 g54\n${HELLO}`);

  it('reads with nothing to refuse once the head states every mode', () => {
    expect(result.refusals).toEqual([]);
    expect(result.end).toEqual({ x: 81, y: 5, z: 50, spindleOn: true, ended: true });
    expect(result.words).toEqual('G0 G1 G17 G2 G21 G3 G40 G49 G54 G90 G94 M2 M3 M6'.split(' '));
  });

  it('gives the sweeps, lengths and time computed from it elsewhere', () => {
    const arcs = result.moves.filter((move) => move.kind === 'arc');
    const sweeps = arcs.map((arc) => Number((Math.abs(arc.sweep) * DEGREES).toFixed(3)));
    expect(sweeps).toEqual(HELLO_FIGURES.sweeps);
    expect(total(result.moves, 'arc')).toBeCloseTo(HELLO_FIGURES.arc, 4);
    expect(total(result.moves, 'feed')).toBeCloseTo(HELLO_FIGURES.line, 4);
    expect(total(result.moves, 'rapid')).toBeCloseTo(HELLO_FIGURES.rapid, 4);
    const minutes = result.moves
      .filter((move) => move.kind !== 'rapid')
      .reduce((sum, move) => sum + pathLength(move) / move.feed, 0);
    expect(minutes).toBeCloseTo(HELLO_FIGURES.minutes, 4);
  });

  it('tells each motion its tool, speed and line', () => {
    expect(result.moves[0]).toMatchObject({ line: 2, tool: -1, spindleOn: false, spindle: 0 });
    expect(result.moves[1]).toMatchObject({ line: 4, tool: 1, spindleOn: true, spindle: 4000 });
  });

  it('as printed, depends on how the machine happens to stand, and is refused for that alone', () => {
    const bare = read(HELLO);
    expect(new Set(bare.refusals.map((refusal) => refusal.rule))).toEqual(new Set(['mode-not-set']));
    expect(bare.refusals.map((refusal) => [refusal.line, refusal.found])).toEqual([
      [1, 'G0 before the distance mode is set'],
      [1, 'G0 before the work offset is set'],
      [1, 'G0 before cutter compensation is off'],
      [1, 'G0 before the tool length offset is off'],
      [4, 'G1 before the feed mode is set'],
      [18, 'G3 before the plane is set'],
    ]);
    // From the start state that the report names as the default, the motions are the same all the same.
    expect(ends(bare.moves)).toEqual(ends(result.moves));
  });
});
