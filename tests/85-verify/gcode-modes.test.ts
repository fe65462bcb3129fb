/** Start states, modes and the order in which a line is carried out (NISTIR 6556, table 8). */
import { describe, expect, it } from 'vitest';
import type { StartState } from '../../src/verify/gcode/types.ts';
import { HEAD, movesOf, PLAIN_START, read, rulesOf, TAIL } from './gcode-support.ts';

const HOSTILE: readonly StartState[] = [
  { ...PLAIN_START, units: 'in' },
  { ...PLAIN_START, distance: 'incremental' },
  { ...PLAIN_START, plane: 'xz' },
  { ...PLAIN_START, plane: 'yz' },
  { ...PLAIN_START, feedMode: 'inverse time' },
  { units: 'in', distance: 'incremental', plane: 'yz', feedMode: 'inverse time', position: [0, 0, 0] },
];

const FULL = `G21 G17 G90 G94 G40 G49 G54 G61 G80
G0 Z5
G0 X10 Y20
S12000 M3
G4 P2
G1 Z-1 F120
G2 X14 Y20 I2 J0
G18 G3 X10 Z-1 I-2 K0
G17 G1 X0
G0 Z5
G98 G83 X3 Y3 Z-2 R2 Q1
G80
M5
M2
`;

describe('hostile start states', () => {
  it('a program with a full head gives the same motions from every one', () => {
    const plain = read(FULL);
    expect(plain.refusals).toEqual([]);
    // Eight before the cycle; across, down to R, three pecks of three moves, the last feed and the way out.
    expect(plain.moves.length).toBe(8 + 2 + 3 * 3 + 2);
    for (const start of HOSTILE) {
      const other = read(FULL, start);
      expect(other.refusals).toEqual([]);
      // The plane of the first rapid is that of the head, so even the records are the same.
      expect(other.moves).toEqual(plain.moves);
    }
  });

  it('from another place only the way to the first stated place differs', () => {
    const plain = read(FULL).moves;
    const other = read(FULL, { ...PLAIN_START, position: [300, -40, 12] }).moves;
    expect(other.slice(2)).toEqual(plain.slice(2));
  });

  it.each([
    ['G21', 'the units are set'],
    ['G17', 'the plane is set'],
    ['G90', 'the distance mode is set'],
    ['G94', 'the feed mode is set'],
    ['G40', 'cutter compensation is off'],
    ['G49', 'the tool length offset is off'],
    ['G54', 'the work offset is set'],
    [' F120', 'a feed is set'],
    ['S12000', 'a speed is set'],
    ['G98', 'the return level is set'],
  ])('without %s it is refused from every one', (word, why) => {
    const text = FULL.replace(word, '');
    for (const start of [PLAIN_START, ...HOSTILE]) {
      const { refusals } = read(text, start);
      expect(refusals.map((refusal) => refusal.rule)).toContain('mode-not-set');
      expect(refusals.some((refusal) => refusal.found.endsWith(why))).toBe(true);
    }
  });

  it('names a missing mode once, with the line where it is first needed', () => {
    const { refusals } = read(FULL.replace('G90 ', ''));
    expect(refusals).toEqual([
      {
        line: 2,
        rule: 'mode-not-set',
        found: 'G0 before the distance mode is set',
        allowed: 'Write G90 (absolute) or G91 (incremental) before the first move.',
      },
    ]);
  });

  it('a cut or a step from wherever the machine stands is refused', () => {
    const head = 'G21 G17 G90 G94 G40 G49 G54\n';
    const rules = (body: string): string[] =>
      read(`${head}${body}${TAIL}`).refusals.map((refusal) => `${refusal.line} ${refusal.rule}`);
    expect(rules('G0 Z5\nG0 X1 Y1\nF100\nG1 Z-1 X4')).toEqual([]);
    expect(rules('G0 Z5\nF100\nG1 Z-1')).toEqual(['4 position-not-set', '4 position-not-set']);
    expect(rules('G0 X1 Y1\nF100\nG1 Z-1')).toEqual(['4 position-not-set']);
    expect(rules('G91 G0 Z5')).toEqual(['2 position-not-set']);
    expect(rules('G0 X0 Z0\nF100\nG2 X2 I1')).toEqual(['4 position-not-set']);
    expect(rules('G0 Z5\nF100\nG99 G81 X1 Z-1 R1')).toEqual(['4 position-not-set']);
    // A beam's program never names Z.
    expect(rules('G0 X1 Y1\nF100\nG1 X2\nG3 X3 I0.5')).toEqual([]);
  });
});

describe('feeds', () => {
  it('F is in the units of the words: inches per minute in G20', () => {
    expect(movesOf('G20\nG1 X1 F10').at(-1)).toMatchObject({ toX: 25.4, feed: 254 });
  });

  it('inverse time: each cut has its own F; F per minute must be given again after it', () => {
    expect(movesOf('G93 G1 X10 F3\nX15 F4').map((move) => move.feed)).toEqual([30, 20]);
    expect(rulesOf('G93\nG1 X10')).toEqual(['feed-missing']);
    expect(rulesOf('G93 G1 X10 F3\nX15')).toEqual(['feed-missing']);
    expect(rulesOf('G93 G1 X10 F3\nG94 X15')).toEqual(['mode-not-set']);
    expect(rulesOf('G93 G1 X10 F3\nG94 X15 F100\nG0 X0')).toEqual([]);
  });

  it('F is asked for again where controls differ in what they keep', () => {
    expect(rulesOf('G1 X1 F100\nG94 X2')).toEqual(['mode-not-set']);
    expect(rulesOf('G1 X1 F100\nG20\nX2')).toEqual(['mode-not-set']);
    expect(rulesOf('G1 X1 F100\nG21 X2')).toEqual([]);
  });

  it('F on the line that changes the units is read in the old ones by table 8, and refused', () => {
    expect(rulesOf('G20 G1 X1 F10')).toEqual(['feed-unclear']);
    expect(rulesOf('G21 G1 X1 F10')).toEqual([]);
    expect(read(`G21 F100 G17 G90 G94 G40 G49 G54\nG0 X0 Y0 Z0\nG1 X1${TAIL}`).refusals).toMatchObject([
      { line: 1, rule: 'feed-unclear' },
    ]);
  });

  it.each(['F0', 'F-10'])('%s is refused', (word) => {
    expect(rulesOf(`G1 X1 ${word}`)).toEqual(['feed-range']);
  });

  it('a rapid has feed 0 and needs none', () => {
    expect(movesOf('G0 X1')).toMatchObject([{ kind: 'rapid', feed: 0 }]);
  });
});

describe('spindle, tool, path and dwell', () => {
  it('S and M3 act before the motion of their line, M5 too', () => {
    const moves = movesOf('M3 S9000 G0 X1\nS0 G0 X2\nS8000 G0 X3\nM5 G0 X4\nM4 G0 X5');
    expect(moves.map((move) => [move.spindleOn, move.spindle])).toEqual([
      [true, 9000],
      [false, 0],
      [true, 8000],
      [false, 0],
      [true, 8000],
    ]);
  });

  it('M3 before any S would turn at the speed of the last program', () => {
    expect(rulesOf('M3\nS9000')).toEqual(['mode-not-set']);
    expect(rulesOf('M3 S-1')).toEqual(['speed-range']);
  });

  it('M6 puts in the tool that T named last and stops the spindle', () => {
    const moves = movesOf('S9000 M3\nT3\nG0 X1\nT4 M6\nG0 X2\nM3\nG0 X3');
    expect(moves.map((move) => [move.tool, move.spindleOn])).toEqual([
      [-1, true],
      [4, false],
      [4, true],
    ]);
    expect(rulesOf('M6')).toEqual(['mode-not-set']);
    expect(rulesOf('T1.5')).toEqual(['tool-range']);
    expect(rulesOf('T-1')).toEqual(['tool-range']);
  });

  it('G61 is exact path, G64 is not', () => {
    expect(movesOf('G0 X1\nG64 X2\nG61\nX3').map((move) => move.exactPath)).toEqual([true, false, true]);
  });

  it('G4 stands still for P seconds, before the motion of its line', () => {
    const moves = movesOf('G4 P1.5\nG0 G4 P2 X1');
    expect(moves.map((move) => [move.kind, move.seconds, move.toX])).toEqual([
      ['dwell', 1.5, 0],
      ['dwell', 2, 0],
      ['rapid', 0, 1],
    ]);
    expect(rulesOf('G4')).toEqual(['dwell']);
    expect(rulesOf('G4 P-1')).toEqual(['dwell']);
  });

  it('reports where it ended; what M2 itself switches off is not counted', () => {
    expect(read(`${HEAD}S1 M3\nG0 X1 Y2 Z3${TAIL}`).end).toEqual({
      x: 1,
      y: 2,
      z: 3,
      spindleOn: true,
      ended: true,
    });
    expect(read(`${HEAD}S1 M3\nM5${TAIL}`).end.spindleOn).toBe(false);
  });
});

describe('moves', () => {
  it('a motion word holds until the next, in either distance mode', () => {
    const moves = movesOf('F100\nG1 X1\nY2\nG91\nX1\nX1 Y1 Z-1\nG90\nX0 Y0 Z0');
    expect(moves.map((move) => [move.kind, move.fromX, move.toX, move.toY, move.toZ])).toEqual([
      ['feed', 0, 1, 0, 0],
      ['feed', 1, 1, 2, 0],
      ['feed', 1, 2, 2, 0],
      ['feed', 2, 3, 3, -1],
      ['feed', 3, 0, 0, 0],
    ]);
  });

  it('the order of words on a line does not matter (3.3.6)', () => {
    expect(movesOf('X1 F100 (a) G1')).toEqual(movesOf('G1 (a) X1 F100'));
  });

  it('a move to where the machine already is gives no motion', () => {
    const result = read(`${HEAD}F100\nG1 X0 Y0\nG0 Z0\nG91 X0${TAIL}`);
    expect(result.refusals).toEqual([]);
    expect(result.motions).toBe(0);
  });

  it('a changed unit changes the words after it, not the place', () => {
    expect(movesOf('G0 X25.4\nG20\nG0 X1\nG91 X1')).toMatchObject([
      { toX: 25.4 },
      { fromX: 25.4, toX: 50.8 },
    ]);
  });

  it('axis words before any motion word are refused', () => {
    const head = HEAD.split('\n')[0];
    expect(read(`${head}\nX1${TAIL}`).refusals).toMatchObject([{ line: 2, rule: 'motion-not-set' }]);
  });

  it.each(['G0', 'G1', 'G2', 'G81'])('%s with no axis word is refused', (word) => {
    expect(rulesOf(`F100\n${word}`)).toEqual(['axis-missing']);
  });
});
