/** Drill cycles. Rules: NISTIR 6556 (Kramer, Proctor, Messina, 2000), section 3.5.16. */
import { describe, expect, it } from 'vitest';
import { ends, HEAD, movesOf, read, rulesOf, TAIL } from './gcode-support.ts';

/** Moves of a cycle that starts at (0, 0, z). */
const drilled = (z: number, body: string): string[] => ends(movesOf(`G0 Z${z}\nF100\n${body}`)).slice(1);

describe('G81, G82, G83', () => {
  it('G99 goes back to R only, and numbers stick for the next line of the same cycle', () => {
    expect(drilled(5, 'G99 G81 X1 Z-2 R1\nX2\nY3 Z-4')).toEqual([
      'rapid 1 0 5',
      'rapid 1 0 1',
      'feed 1 0 -2',
      'rapid 1 0 1',
      'rapid 2 0 1',
      'feed 2 0 -2',
      'rapid 2 0 1',
      'rapid 2 3 1',
      'feed 2 3 -4',
      'rapid 2 3 1',
    ]);
  });

  it('from below R the axis of the hole goes to R first', () => {
    expect(drilled(2, 'G81 X1 Z-2 R3')).toEqual(['rapid 0 0 3', 'rapid 1 0 3', 'feed 1 0 -2', 'rapid 1 0 3']);
  });

  it('L in absolute mode does the same hole again', () => {
    expect(drilled(3, 'G98 G81 X1 Z-1 R1 L2')).toEqual([
      'rapid 1 0 3',
      'rapid 1 0 1',
      'feed 1 0 -1',
      'rapid 1 0 3',
      'rapid 1 0 1',
      'feed 1 0 -1',
      'rapid 1 0 3',
    ]);
  });

  it('G82 stands P seconds at the bottom, and P sticks (appendix C.3, line n0070)', () => {
    const moves = movesOf('G0 Z3\nF100\nG99 G82 X1 Z-1 R2 P0.6\nX2');
    expect(ends(moves).slice(1)).toEqual([
      'rapid 1 0 3',
      'rapid 1 0 2',
      'feed 1 0 -1',
      'dwell 1 0 -1',
      'rapid 1 0 2',
      'rapid 2 0 2',
      'feed 2 0 -1',
      'dwell 2 0 -1',
      'rapid 2 0 2',
    ]);
    expect(moves.filter((move) => move.kind === 'dwell').map((move) => move.seconds)).toEqual([0.6, 0.6]);
    expect(moves.filter((move) => move.kind !== 'dwell').every((move) => move.seconds === 0)).toBe(true);
  });

  it('G83 goes down by Q, out to clear, and back to 0.254 mm above the last bottom', () => {
    // 3.5.16.4; 0.010 inch is the constant of the interpreter NIST published.
    expect(drilled(3, 'G98 G83 X1 Z-1 R1.5 Q1')).toEqual([
      'rapid 1 0 3',
      'rapid 1 0 1.5',
      'feed 1 0 0.5',
      'rapid 1 0 3',
      'rapid 1 0 0.754',
      'feed 1 0 -0.5',
      'rapid 1 0 3',
      'rapid 1 0 -0.246',
      'feed 1 0 -1',
      'rapid 1 0 3',
    ]);
  });

  it('a depth that is a whole number of pecks has no empty last one', () => {
    const feeds = drilled(1, 'G99 G83 Z-0.3 R0 Q0.1 X1').filter((move) => move.startsWith('feed'));
    expect(feeds).toEqual(['feed 1 0 -0.1', 'feed 1 0 -0.2', 'feed 1 0 -0.3']);
    // 0.8 - 2 x 0.1 comes out a little above 0.6 in doubles.
    const noisy = drilled(1, 'G99 G83 Z0.6 R0.8 Q0.1 X1').filter((move) => move.startsWith('feed'));
    expect(noisy).toEqual(['feed 1 0 0.7', 'feed 1 0 0.6']);
  });

  it('in inches all of it is scaled, and the back-off stays 0.010 inch', () => {
    const moves = movesOf('G20\nG0 X0 Y0 Z0.1\nF4\nG99 G83 X1 Z-0.2 R0.1 Q0.2').slice(1);
    expect(ends(moves)).toEqual([
      'rapid 25.4 0 2.54',
      'feed 25.4 0 -2.54',
      'rapid 25.4 0 2.54',
      'rapid 25.4 0 -2.286',
      'feed 25.4 0 -5.08',
      'rapid 25.4 0 2.54',
    ]);
    expect(moves[1]?.feed).toBeCloseTo(101.6, 12);
  });

  it('works along Y in G18 and along X in G19', () => {
    expect(ends(movesOf('F100\nG18 G99 G81 X1 Z7 Y-1 R1')).slice(-3)).toEqual([
      'rapid 1 1 7',
      'feed 1 -1 7',
      'rapid 1 1 7',
    ]);
    expect(ends(movesOf('F100\nG19 G99 G81 Y1 Z7 X-1 R1')).slice(-3)).toEqual([
      'rapid 1 1 7',
      'feed -1 1 7',
      'rapid 1 1 7',
    ]);
  });

  it('marks the moves of a cycle, and only those', () => {
    const moves = movesOf('G0 Z3\nF100\nG99 G81 X1 Z-1 R1\nG80\nG0 Z9');
    expect(moves.map((move) => move.cycle)).toEqual([0, 81, 81, 81, 81, 0]);
  });
});

describe('errors in cycles', () => {
  it.each([
    ['R below the bottom', 'G99 G81 X1 Z2 R1', ['cycle-level']],
    ['no Z in the first line', 'G99 G81 X1 R1', ['cycle-words']],
    ['no R in the first line', 'G99 G81 X1 Z-1', ['cycle-words']],
    ['no axis word', 'G99 G81 R1', ['axis-missing', 'word-unused']],
    ['G82 without P', 'G99 G82 X1 Z-1 R1', ['cycle-words']],
    ['G82 with a negative P', 'G99 G82 X1 Z-1 R1 P-1', ['cycle-words']],
    ['G83 without Q', 'G99 G83 X1 Z-1 R1', ['cycle-words']],
    ['G83 with Q 0', 'G99 G83 X1 Z-1 R1 Q0', ['cycle-words']],
    ['G83 with a negative Q', 'G99 G83 X1 Z-1 R1 Q-1', ['cycle-words']],
    ['more pecks than can be meant', 'G99 G83 X1 Z-1 R1 Q0.00001', ['cycle-repeat']],
    ['more holes than can be meant', 'G99 G83 X1 Z-1 R1 Q0.001 L20', ['cycle-repeat']],
    ['L 0', 'G99 G81 X1 Z-1 R1 L0', ['cycle-repeat']],
    ['L 1.5', 'G99 G81 X1 Z-1 R1 L1.5', ['cycle-repeat']],
    ['inverse time', 'G93 G99 G81 X1 Z-1 R1 F2', ['cycle-feed']],
    ['Q with G81', 'G99 G81 X1 Z-1 R1 Q1', ['word-unused']],
    ['P with G83', 'G99 G83 X1 Z-1 R1 Q1 P1', ['word-unused']],
    ['G4 on the line of a G82', 'G99 G82 G4 X1 Z-1 R1 P1', ['dwell']],
    ['numbers of another cycle do not stick', 'G99 G81 X1 Z-1 R1\nG82 X2 P1', ['cycle-words']],
    ['numbers do not outlive G80', 'G99 G81 X1 Z-1 R1\nG80\nG81 X2', ['cycle-words']],
    ['numbers do not outlive a change of plane', 'G99 G81 X1 Z-1 R1\nG18 X2', ['cycle-words']],
    ['numbers do not outlive a change of units', 'G99 G81 X1 Z-1 R1\nG20\nF5\nX2', ['cycle-words']],
    ['a row goes on in another plane', 'G99 G81 X1 Z-1 R0\nG18 G98 G81 X2 Z1 Y-1 R-0.5', []],
    ['axis words after G80', 'G99 G81 X1 Z-1 R1\nG80\nX2', ['motion-not-set']],
    ['axis words with G80', 'G80 X2', ['motion-not-set']],
  ])('%s', (_, body, rules) => {
    expect(rulesOf(`G0 Z1\nF100\n${body}`)).toEqual(rules);
  });

  it('a return level that nobody set, where it matters', () => {
    const head = HEAD.replace(' G98', '');
    const rules = (body: string): string[] =>
      read(head + body + TAIL).refusals.map((refusal) => refusal.found);
    expect(rules('F100\nG0 Z5\nG81 X1 Z-1 R1')).toEqual(['a drill cycle before the return level is set']);
    expect(rules('F100\nG0 Z1\nG81 X1 Z-1 R1')).toEqual([]);
  });

  it('a row of cycles whose levels interpreters read differently', () => {
    // The report returns to where Z stood before this line (5), others to where it stood before the row (3).
    expect(rulesOf('G0 Z3\nF100\nG98 G81 X1 Z-1 R5\nX2 R2')).toEqual(['cycle-unclear']);
    expect(rulesOf('G0 Z3\nF100\nG99 G81 X1 Z-1 R2\nG98 X2')).toEqual(['cycle-unclear']);
    expect(rulesOf('G0 Z3\nF100\nG98 G91 G81 X1 Z-1 R1.5\nX2')).toEqual(['cycle-unclear']);
    expect(rulesOf('G0 Z3\nF100\nG98 G81 X1 Z-1 R5\nX2 R2'.replace('X2', 'G80\nG0 Z5\nG81 X2 Z-1'))).toEqual(
      [],
    );
  });
});
