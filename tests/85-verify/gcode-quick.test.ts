/**
 * Lines that hold a plain move are read a shorter way. A text that comes byte by byte never takes that way,
 * so reading it whole and in bytes must give the same: motions, refusals, words, end.
 */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { createReader } from '../../src/verify/gcode/readProgram.ts';
import type { Motion, ReadResult } from '../../src/verify/gcode/types.ts';
import { UNDERSTANDS_EVERYTHING, type Understands } from '../../src/verify/gcode/understands.ts';
import { HEAD, PLAIN_START } from './gcode-support.ts';

interface Read {
  readonly result: ReadResult;
  readonly moves: readonly Motion[];
}

function readIn(pieces: readonly Uint8Array[], understands: Understands): Read {
  const moves: Motion[] = [];
  const reader = createReader(PLAIN_START, understands, (motion) => moves.push({ ...motion }));
  for (const piece of pieces) reader.push(piece);
  return { result: reader.finish(), moves };
}

function bothWays(text: string, understands: Understands = UNDERSTANDS_EVERYTHING): Read {
  const bytes = new TextEncoder().encode(text);
  const whole = readIn([bytes], understands);
  const inBytes = readIn(
    Array.from(bytes, (_, i) => bytes.slice(i, i + 1)),
    understands,
  );
  expect(whole).toEqual(inBytes);
  return whole;
}

const number = fc.oneof(
  fc.stringMatching(/^-?[0-9]{1,3}\.[0-9]{0,4}$/),
  fc.stringMatching(/^[-+]?[0-9]{0,10}\.?[0-9]{0,12}$/),
  fc.constantFrom(
    '',
    '-',
    '.',
    '-.5',
    '5.',
    '1.2.3',
    '--1',
    '1 2',
    '1 .5',
    '- 3',
    '0',
    '-0',
    '999999999',
    '1234567890',
  ),
);
const plainWord = fc.tuple(fc.constantFrom(...'XYZIJKFxyzf'), number).map((parts) => parts.join(''));
const oddWord = fc.oneof(
  fc.constantFrom(
    'G0',
    'G1',
    'G01',
    'G001',
    'G2',
    'G3',
    'G1.0',
    'G4',
    'G80',
    'G90',
    'G91',
    'G20',
    'G21',
    'G 1',
    'g1',
  ),
  fc.constantFrom(
    'N5',
    'N123456',
    'N5.5',
    'n 7',
    'M3',
    'M5',
    'S100',
    'T1',
    'R5',
    'P1',
    'Q2',
    'A1',
    'O1',
    '%',
    '/',
    '#1=2',
  ),
  fc.constantFrom(
    '(remark)',
    '(open',
    ';rest',
    '\t',
    '\r',
    '[1+2]',
    '@',
    '`',
    '{',
    '\u00e9',
    'x'.repeat(250),
  ),
);
const gap = fc.constantFrom('', ' ', '  ', '\t');
const end = fc.constantFrom('\n', '\r\n', ' \n', '\n\n', ' \r\n');
const start = fc.constantFrom('', ' ', 'G1 ', 'G0', 'N10 G1 ', 'N10', ' N3 ', 'G3');
const words = fc.array(
  fc.tuple(fc.oneof({ weight: 6, arbitrary: plainWord }, { weight: 1, arbitrary: oddWord }), gap),
  {
    maxLength: 5,
  },
);
const line = fc.tuple(start, words, end).map(([head, list, tail]) => head + list.flat().join('') + tail);

describe('the short way of plain moves', () => {
  it('reads what the long way reads, whatever stands on the lines', () => {
    fc.assert(
      fc.property(fc.array(line, { minLength: 1, maxLength: 8 }), (lines) => {
        bothWays(`${HEAD}G0 X0 Y0 Z0\nF100\n${lines.join('')}M2\n`);
      }),
      { seed: 23, numRuns: 3000 },
    );
  });

  it('is the same in inches, in steps, in inverse time, before any mode and after the end', () => {
    const plain = 'G1 X1.5 Y-2 F90\nX3 Z1\nG0 Y.25\nG2 X4 Y0.25 I0.5 J0 F80\nF70 X9\n';
    for (const head of ['', 'G20\n', 'G91\n', 'G93\n', 'G18\n', '%\n', 'M2\n']) {
      bothWays(`${head}${plain}M2\n`);
      bothWays(`${HEAD}${head}${plain}M2\n${plain}`);
    }
    bothWays(`%\n${HEAD}${plain}%\n${plain}`);
  });

  it('keeps to the longest line that the control takes', () => {
    const long = `G1 X1${' '.repeat(90)}Y2 F100`;
    const understands = { ...UNDERSTANDS_EVERYTHING, lineLength: long.length };
    for (const [text, rules] of [
      [`${long}\n`, []],
      [`${long}\r\n`, []],
      [`${long} \n`, ['line-length']],
    ] as const) {
      const { result } = bothWays(`${HEAD}G0 X0 Y0 Z0\n${text}M2\n`, understands);
      expect(result.refusals.map((r) => r.rule)).toEqual(rules);
    }
  });
});
