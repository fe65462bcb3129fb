/** What the reader refuses by name. Grammar: NISTIR 6556 (Kramer, Proctor, Messina, 2000), sections 3.1 to 3.7. */
import { describe, expect, it } from 'vitest';
import { readProgram } from '../../src/verify/gcode/readProgram.ts';
import { UNDERSTANDS_EVERYTHING } from '../../src/verify/gcode/understands.ts';
import { HEAD, movesOf, PLAIN_START, read, rulesOf, TAIL } from './gcode-support.ts';

describe('words', () => {
  it.each([
    ['two words of a modal group', 'G0 G1 X1', ['group-repeated']],
    ['two planes', 'G17 G18', ['group-repeated']],
    ['two M words of a modal group', 'M5 M3', ['group-repeated']],
    ['the same code twice', 'G17 G17', ['group-repeated']],
    ['five M words', 'M5 M9 M6 M48 M60 T1', ['override', 'too-many-m', 'stop']],
    ['a letter twice', 'G0 X1 X2', ['word-repeated']],
    ['a letter nothing uses', 'G0 X1 I2', ['word-unused']],
    ['P without G4', 'P2', ['word-unused']],
    ['R without an arc or cycle', 'F100\nG1 X1 R2', ['word-unused']],
    ['no number', 'G0 X', ['number-missing']],
    ['a sign alone', 'G0 X-', ['number-missing']],
    ['a point alone', 'G0 X.', ['number-missing']],
    ['two points', 'G0 X1.2.3', ['character']],
    ['two signs', 'G0 X--3', ['number-missing']],
    ['an exponent', 'G0 X1E2', ['letter-unknown']],
    ['NaN', 'G0 XNaN', ['expression']],
    ['Infinity', 'G0 XInfinity', ['expression']],
    ['a hexadecimal', 'G0 X0x10', ['word-repeated']],
    ['a number no machine reaches', 'G0 X10000000000', ['number-range']],
    ['a thousand-fold long number', `G0 X${'9'.repeat(200)}`, ['number-range']],
    ['a comma', 'G0 X1,5', ['character']],
    ['an equals sign', 'G0 X=1', ['number-missing']],
    ['a parameter', 'G0 X#1', ['parameter']],
    ['a parameter setting', '#1=2', ['parameter']],
    ['an expression', 'G0 X[1+2]', ['expression']],
    ['an expression as a code', 'G[2*5]', ['expression']],
    ['a function', 'G0 Xsin[30]', ['expression']],
    ['a bracket alone', '[1]', ['expression']],
    ['a rotary axis', 'G0 A10', ['rotary-axis']],
    ['a length offset number', 'H1', ['tool-table']],
    ['a radius number', 'D1', ['tool-table']],
    ['a letter that is not in the language', 'G0 U1', ['letter-unknown']],
    ['a subroutine', 'O100 sub', ['subroutine']],
    ['a block delete', '/G0 X1', ['block-delete']],
    ['a slash inside', 'G0 X1 /2', ['block-delete']],
    ['a line number with a sign', 'N-1 G0 X1', ['line-number']],
    ['a line number with a point', 'N1.5 G0 X1', ['character']],
    ['a line number of six digits', 'N000009 G0 X1', ['line-number']],
    ['a line number that is not first', 'G0 N10 X1', ['line-number']],
    ['two line numbers', 'N10 N20 G0 X1', ['line-number']],
  ])('%s: %s', (_, body, rules) => {
    expect(rulesOf(body)).toEqual(rules);
  });

  it.each([
    ['G10 L2 P1 X0', 'origin-moved'],
    ['G28', 'stored-place'],
    ['G28 Z0', 'stored-place'],
    ['G30', 'stored-place'],
    ['G38.2 Z-5', 'probe'],
    ['G41', 'tool-table'],
    ['G42', 'tool-table'],
    ['G43', 'tool-table'],
    ['G53 G0 Z0', 'machine-coordinates'],
    ['G55', 'other-offset'],
    ['G59.3', 'other-offset'],
    ['G61.1', 'exact-stop'],
    ['G84 X1 Z-1 R1', 'cycle-unproven'],
    ['G89 X1 Z-1 R1', 'cycle-unproven'],
    ['G92 X0', 'origin-moved'],
    ['G92.1', 'origin-moved'],
    ['G5 X1', 'code-unknown'],
    ['G1.5 X1', 'code-unknown'],
    ['G17.05', 'code-unknown'],
    ['G100', 'code-unknown'],
    ['G-1', 'code-unknown'],
    ['M0', 'stop'],
    ['M1', 'stop'],
    ['M60', 'stop'],
    ['M48', 'override'],
    ['M49', 'override'],
    ['M98', 'code-unknown'],
    ['M100', 'code-unknown'],
    ['M3.5', 'code-unknown'],
  ])('%s: %s', (body, rule) => {
    const { refusals } = read(HEAD + body + TAIL);
    expect(refusals.map((refusal) => refusal.rule)).toEqual([rule]);
    expect(refusals[0]?.line).toBe(3);
    expect(refusals[0]?.allowed.length).toBeGreaterThan(20);
    // The name of the code stands in the message, and in the list of words met.
    const name = refusals[0]?.found ?? '';
    expect(body).toContain(name);
    expect(read(HEAD + body + TAIL).words).toContain(name);
  });

  it('a refused code keeps the axis words of its line from being read as a move', () => {
    const moves = read(`${HEAD}G0 X1\nG92 X5\nG0 Y3${TAIL}`).moves;
    expect(moves.map((move) => [move.toX, move.toY])).toEqual([[1, 0]]);
  });

  it('lines under a refused motion word are no moves either, until the next motion word', () => {
    const moves = read(`${HEAD}F100\nG1 X1\nG84 X2 Z-1 R1\nX3 Y4 Z5\nX9\nG0 X5 Y5 Z5\nX6${TAIL}`).moves;
    expect(moves.map((move) => move.toX)).toEqual([1, 6]);
  });

  it('after a line that cannot be read nothing moves from the lost place, until absolute words name one', () => {
    const lost = `${HEAD}F100\nG0 X#1\n`;
    const found = (body: string): string[] => {
      const { moves, refusals } = read(lost + body + TAIL);
      expect(refusals.map((refusal) => refusal.rule)).toEqual(['parameter']);
      return moves.map((move) => `${move.line} ${move.kind} ${move.toX}`);
    };
    expect(found('G91 X1\nX1\nG90 X5 Y5 Z5\nX6')).toEqual(['8 rapid 6']);
    expect(found('G99 G81 X1 Y1 Z-1 R1\nG80\nG0 X5 Y5 Z5\nX6')).toEqual(['8 rapid 6']);
    const named = read(`${HEAD}G92 X1\nG91 G0 X1\nX1\nG90 X5\nX6${TAIL}`);
    expect(named.moves.map((move) => move.toX)).toEqual([6]);
    expect(rulesOf('F100\nG0 Z1\nG99 G81 X1 Z2 R1\nG2 X9 Y9 I1')).toEqual(['cycle-level']);
    expect(found('G2 X1 I7\nG1 X5 Y5 Z5\nX6')).toEqual(['7 feed 6']);
  });

  it('codes close to a whole number are taken (3.3.2.1: within 0.0001)', () => {
    expect(rulesOf('G0.00001 X1')).toEqual([]);
    expect(rulesOf('G00 X1\nG01 X2 F100\nM05\nM5.00005')).toEqual([]);
  });
});

describe('what the control does not understand', () => {
  it.each([
    ['arcs in XZ', { arcPlanes: ['xy'] }, 'F100\nG18 G2 X1 Z0 I0.5', ['not-understood', 'not-understood']],
    ['the word G19', { arcPlanes: ['xy', 'xz'] }, 'G19', ['not-understood']],
    ['arcs at all', { arcPlanes: [] }, 'F100\nG2 X1 Y0 I0.5', ['not-understood']],
    ['drill cycles', { drillCycles: false }, 'F100\nG99 G81 X1 Z-1 R0', ['not-understood']],
    ['G61', { exactPath: false }, '', ['not-understood']],
    ['M6', { toolChange: false }, 'T1 M6', ['not-understood']],
    ['T alone', { toolChange: false }, 'T1', ['tool-alone']],
    ['T alone where M6 changes tools', {}, 'T1', []],
  ] as const)('%s', (_, less, body, rules) => {
    expect(rulesOf(body, { ...UNDERSTANDS_EVERYTHING, ...less })).toEqual(rules);
  });
});

describe('characters and lines', () => {
  it.each([
    ['a letter with an accent', 'G0 X1 é', ['not-ascii']],
    ['one in a comment', '(é)', ['not-ascii']],
    ['one after a semicolon', '; µ', ['not-ascii']],
    ['a control character', 'G0 X1\u0007', ['not-ascii']],
    ['a nul', 'G0 X1\u0000', ['not-ascii']],
    ['a delete', 'G0 X1\u007f', ['not-ascii']],
    ['a comment inside a comment', '(a (b) c)', ['comment']],
    ['a comment that does not close', 'G0 X1 (a', ['comment']],
    ['a comment that closes twice', '(a) X)', ['number-missing']],
    ['a closing bracket alone', ')', ['character']],
    ['a carriage return alone', 'G0 X1\rG0 X2', ['line-end']],
    ['two carriage returns', 'G0 X1\r\r\nG0 X2', ['line-end']],
    ['a comment inside a number', 'G0 X1(a)2', ['character']],
    ['a comment inside a word', 'G0 X(a)2', ['number-missing']],
  ])('%s', (_, body, rules) => {
    expect(rulesOf(body)).toEqual(rules);
  });

  it('a byte order mark', () => {
    expect(read(`\ufeff${HEAD}${TAIL}`).refusals[0]).toMatchObject({ line: 1, rule: 'not-ascii' });
  });

  it('comments of both kinds are passed over, messages too', () => {
    expect(
      movesOf('(all of it, # [ ] % / too) G0 (x) X1 ; G0 X2 (\n(MSG, look)\n;\n()\n\t \nN5 (n)\nN7'),
    ).toHaveLength(1);
  });

  it('lines hold up to 256 characters, not more', () => {
    const line = `G0 X1 (${'a'.repeat(248)})`;
    expect(line).toHaveLength(256);
    expect(rulesOf(line)).toEqual([]);
    expect(rulesOf(`${line}\r`)).toEqual([]);
    expect(rulesOf(`${line} `)).toEqual(['line-length']);
  });

  it('CR LF ends a line, and the last line needs no end', () => {
    const text = `${HEAD}F100\nG1 X1\nM2`;
    const other = read(text.replaceAll('\n', '\r\n'));
    expect(other.refusals).toEqual([]);
    expect(other.moves).toEqual(read(text).moves);
    expect(other.lines).toBe(5);
  });
});

describe('where the program ends', () => {
  const body = `${HEAD}G0 X1\n`;
  const rules = (text: string): string[] =>
    read(text).refusals.map((refusal) => `${refusal.line} ${refusal.rule}`);

  it('with M2, with M30, or between two % lines (3.1)', () => {
    for (const text of [
      `${body}M2\n`,
      `${body}M30`,
      `%\n${body}%\n`,
      `\n \n %\t\n${body}M2\n%\n\n`,
      `${body}M2\n%\n`,
    ]) {
      expect(rules(text)).toEqual([]);
      expect(read(text).end.ended).toBe(true);
    }
  });

  it('a program cut short anywhere is refused', () => {
    const whole = `${body}F100\nG1 X2.5 Y7\nM30\n`;
    const end = whole.indexOf('M30') + 3;
    for (let length = 0; length < end; length++) {
      const cut = read(whole.slice(0, length));
      expect(cut.refusals.length).toBeGreaterThan(0);
      expect(cut.end.ended).toBe(false);
    }
    expect(rules(whole.slice(0, end))).toEqual([]);
  });

  it('a % line at one end only, or in the middle, or with words', () => {
    expect(rules(body)).toEqual(['0 no-end']);
    expect(rules(`%\n${body}`)).toEqual(['0 percent']);
    expect(rules(`%\n${body}M2\n`)).toEqual(['0 percent']);
    expect(rules(`${body}%\nM2\n`)).toEqual(['4 percent']);
    expect(rules(`(a)\n%\n${body}M2\n`)).toEqual(['2 percent']);
    expect(rules(`% (a)\n${body}M2\n`)).toEqual(['1 percent']);
    expect(rules(`${body}G0 X2 %\nM2\n`)).toEqual(['4 character']);
  });

  it('text after the end is refused once, and not read', () => {
    const result = read(`${body}M2\nG0 X9\nG0 X10 Q\n`);
    expect(result.refusals.map((refusal) => [refusal.line, refusal.rule])).toEqual([[5, 'after-end']]);
    expect(result.end.x).toBe(1);
    expect(rules(`%\n${body}%\n(note)\n`)).toEqual(['6 after-end']);
    expect(rules(`${body}M2\n% and more\n`)).toEqual(['5 after-end']);
  });

  it('an empty file is refused', () => {
    expect(rules('')).toEqual(['0 no-end']);
    expect(rules('\n\n')).toEqual(['0 no-end']);
  });
});

describe('all problems at once', () => {
  it('reading goes on after a refusal, and no problem causes another', () => {
    const text = `${HEAD}F100
G1 X#1 Y2
G2 X5 Y5 I1 J0
G0 X0 Y0 Z0
G2 X5 Y5 I1 J0
G92 X0
G91 G1 X1
G90 G84 X1 Z-1 R1
X2 Y3
G1 X4 Y0 Z0
G1 X5 B1${TAIL}`;
    expect(read(text).refusals.map((refusal) => `${refusal.line} ${refusal.rule}`)).toEqual([
      '4 parameter',
      // Line 5 starts nobody knows where, so its radius is not judged.
      '7 arc-radius',
      '8 origin-moved',
      '10 cycle-unproven',
      '13 rotary-axis',
    ]);
  });

  it('lists a hundred at most', () => {
    const result = read(HEAD + 'G0 X\n'.repeat(500) + TAIL);
    expect(result.refusals).toHaveLength(100);
    expect(result.lines).toBe(504);
  });

  it('a broken line never becomes a move', () => {
    expect(read(`${HEAD}G0 X1 Y2 Z#3${TAIL}`).moves).toEqual([]);
  });

  it('no chain of bytes makes the reader fail', () => {
    let seed = 7;
    const next = (): number => {
      seed = (seed * 48271) % 2147483647;
      return seed;
    };
    const likely = 'GMXYZIJKRPQLFSTN0123456789.-+ ()%;/#[]\r\n\n\n';
    for (let run = 0; run < 300; run++) {
      const bytes = Uint8Array.from({ length: 400 }, () =>
        next() % 20 === 0 ? next() % 256 : likely.charCodeAt(next() % likely.length),
      );
      const result = readProgram(bytes, PLAIN_START, UNDERSTANDS_EVERYTHING, (motion) => {
        for (const value of [motion.toX, motion.toY, motion.toZ, motion.sweep, motion.feed, motion.radius]) {
          expect(Number.isFinite(value)).toBe(true);
        }
      });
      expect(result.refusals.length).toBeGreaterThan(0);
    }
  });
});
