import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { createReader } from '../../src/verify/gcode/readProgram.ts';
import type { Motion } from '../../src/verify/gcode/types.ts';
import { UNDERSTANDS_EVERYTHING } from '../../src/verify/gcode/understands.ts';
import { HEAD, movesOf, PLAIN_START, read, rulesOf, TAIL } from './gcode-support.ts';

function readInPieces(text: string, cuts: readonly number[]): ReturnType<typeof read> {
  const moves: Motion[] = [];
  const reader = createReader(PLAIN_START, UNDERSTANDS_EVERYTHING, (motion) => moves.push({ ...motion }));
  const bytes = new TextEncoder().encode(text);
  const ordered = [0, ...[...cuts].sort((a, b) => a - b), bytes.length];
  for (let i = 1; i < ordered.length; i++) {
    // A fresh copy, spoilt after the call: the reader must not keep what it was given.
    const piece = bytes.slice(ordered[i - 1], ordered[i]);
    reader.push(piece);
    piece.fill(0);
  }
  return { ...reader.finish(), moves };
}

const SAMPLE = `%
(${'long remark '.repeat(20)})
${HEAD.replaceAll('\n', '\r\n')}F100
N10 G1 X1.25 Y-3 (there) Z-0.5

G2 X3.25 Y-3 I1 J0
(${'x'.repeat(300)})
G0 Z5 Q7
G98 G83 X3 Y3 Z-2 R2 Q1
G80
M5
M2
%
trailing
`;

describe('a program that arrives in pieces', () => {
  it('reads the same wherever it is cut', () => {
    const whole = read(SAMPLE);
    expect(whole.refusals.map((refusal) => refusal.rule)).toEqual([
      'line-length',
      'word-unused',
      'after-end',
    ]);
    const places = fc.array(fc.nat(SAMPLE.length), { maxLength: 30 });
    fc.assert(
      fc.property(places, (cuts) => {
        expect(readInPieces(SAMPLE, cuts)).toEqual(whole);
      }),
      { seed: 20_260_417, numRuns: 200 },
    );
    expect(
      readInPieces(
        SAMPLE,
        [...SAMPLE].map((_, i) => i),
      ),
    ).toEqual(whole);
  });

  it('uses one record for all motions and keeps nothing of a long program', () => {
    const records = new Set<Motion>();
    let count = 0;
    const reader = createReader(PLAIN_START, UNDERSTANDS_EVERYTHING, (motion) => {
      records.add(motion);
      count++;
    });
    const encoder = new TextEncoder();
    reader.push(encoder.encode(`${HEAD}F100\nG91\n`));
    const block = encoder.encode('G1 X1 Y2\nG3 X2 I1\nG0 X-3 Y-2\n'.repeat(1000));
    for (let i = 0; i < 50; i++) reader.push(block);
    reader.push(encoder.encode('M2\n'));
    const result = reader.finish();
    expect(result).toMatchObject({ refusals: [], lines: 150_005, motions: 150_000 });
    expect(count).toBe(150_000);
    expect(records.size).toBe(1);
    expect(result.end).toMatchObject({ x: 0, y: 0, z: 0 });
  });
});

describe('numbers', () => {
  it('are the doubles nearest to what is written, as JavaScript reads them', () => {
    const digits = fc.stringMatching(/^[0-9]{1,9}$/);
    const fraction = fc.stringMatching(/^[0-9]{0,18}$/);
    fc.assert(
      fc.property(fc.constantFrom('', '-', '+'), digits, fraction, (sign, whole, part) => {
        const text = `${sign}${whole}.${part}`;
        const wanted = Number(text) + 0;
        const [move] = movesOf(`G0 Y1 X${text}`);
        expect(Object.is(move?.toX, wanted)).toBe(true);
      }),
      { seed: 4_101_955, numRuns: 500 },
    );
  });

  it.each([
    ['.5', 0.5],
    ['5.', 5],
    ['-.5', -0.5],
    ['+00012.500', 12.5],
    ['- 1 2 . 5', -12.5],
    ['1 2.5', 12.5],
    ['1 .5', 1.5],
    ['1. 5', 1.5],
    ['-0', 0],
    ['0.1234567890123456789', Number('0.1234567890123456789')],
  ])('%s', (text, value) => {
    const [move] = movesOf(`G0 Y1 X${text}`);
    expect(Object.is(move?.toX, value)).toBe(true);
  });

  it('up to a thousand million', () => {
    expect(rulesOf('G0 X999999999')).toEqual([]);
    expect(rulesOf('G0 X1000000000.1')).toEqual(['number-range']);
  });
});

describe('the words met', () => {
  it('are listed once each, sorted, and none after the end', () => {
    const result = read(`${HEAD}M3 S1\nM5\nG0 X1\nG00 X2\nM5${TAIL}G1 M4`);
    expect(result.words).toEqual('G0 G17 G21 G40 G49 G54 G61 G90 G94 G98 M2 M3 M5'.split(' '));
  });
});
