/** What a person at a bench would not see in the shape: how the spindle, the drill, the plunges and the rapids come to it. */
import { describe, expect, it } from 'vitest';
import type { Intent } from '../../src/intent/types.ts';
import { prove } from '../../src/verify/prove.ts';
import { all, type Damage, line } from '../support/damage.ts';
import { goodOf, harmOf } from '../support/harm/judge.ts';
import { bytesOf, holesCycle, holesExpanded, outline, pocket, type Sample } from '../support/proofSamples.ts';

function failed({ text, intent }: Sample, damage: Damage, over: Partial<Intent> = {}): string[] {
  const proof = prove(bytesOf(damage(text)), { ...intent, ...over });
  const names = proof.checks.filter((check) => !check.passed).map((check) => check.name);
  expect(proof.passed).toBe(names.length === 0);
  return [...new Set(names)];
}

const followed = (text: string, ...more: readonly string[]): Damage => line(text, [text, ...more].join('\n'));

describe('the spindle comes up to speed before it cuts', () => {
  const pause = (seconds: number): Damage => line('G4 P3', `G4 P${seconds}`);
  it.each<[string, Damage, readonly string[]]>([
    ['the pause as it is', (text) => text, []],
    ['the pause in two', line('G4 P3', 'G4 P1\nG4 P2'), []],
    ['M3 said again while it turns', followed('G4 P3', 'M3'), []],
    ['the same speed said again', followed('G4 P3', 'S18000'), []],
    ['a pause too short', pause(2.9), ['up to speed']],
    ['a pause in the wrong unit', pause(0.003), ['up to speed']],
    [
      'the pause before the spindle',
      all(line('G4 P3', null), line('M3 S18000', 'G4 P3\nM3 S18000')),
      ['up to speed'],
    ],
    ['stopped and started again after the pause', followed('G4 P3', 'M5', 'M3'), ['up to speed']],
    ['stopped and started on the way', followed('G0 X41.5875 Y10', 'M5', 'M3 S18000'), ['up to speed']],
    ['no speed and then speed again', followed('G4 P3', 'S0', 'S18000'), ['up to speed']],
    ['another speed and back', followed('G4 P3', 'S9000', 'S18000'), ['up to speed']],
    ['another speed, never back', followed('G4 P3', 'S17500'), ['up to speed']],
    // How long a rapid takes depends on the machine and on the switches at it.
    ['a long way to go instead', line('G4 P3', 'G0 X70 Y50\nX5 Y5'), ['up to speed']],
  ])('%s', (_, damage, checks) => {
    expect(failed(pocket(), damage)).toEqual(checks);
  });

  it('a control that counts milliseconds', () => {
    const { intent } = pocket();
    const understands = { ...intent.machine.understands, dwellUnit: 'milliseconds' } as const;
    const over = { machine: { ...intent.machine, understands } };
    expect(failed(pocket(), pause(3000), over)).toEqual([]);
    expect(failed(pocket(), pause(3), over)).toEqual(['up to speed']);
  });

  it('a change of tools stops the spindle, whatever it is told after', () => {
    const { intent } = pocket();
    const understands = { ...intent.machine.understands, toolChange: true };
    const over = { machine: { ...intent.machine, understands } };
    expect(failed(pocket(), line('M3 S18000', 'T2 M6\nM3 S18000'), over)).toEqual([]);
    expect(failed(pocket(), followed('G4 P3', 'T2 M6', 'M3'), over)).toEqual(['up to speed']);
    expect(failed(pocket(), followed('G4 P3', 'T2 M6'), over)).toContain('spindle on');
  });
});

describe('a peck ends when the drill leaves its hole', () => {
  const { text, intent } = holesExpanded();
  const good = goodOf(text, intent);

  it.each<[string, Damage]>([
    ['up and down within the hole', line('G0 Z0.5', 'G0 Z-1.2', 2)],
    ['the retract lost', line('G0 Z0.5', null, 2)],
    ['no retract and no way back', all(line('G0 Z0.5', null, 2), line('G0 Z-1.25', null))],
    ['up a little way at feed', all(line('G0 Z0.5', 'G1 Z-0.5', 2), line('G0 Z-1.25', 'G1 Z-1.25'))],
    ['one hole in many small bites', line('G1 Z-3.5', 'G1 Z-1.8\nZ-2.1\nZ-2.4\nZ-2.9\nZ-3.5')],
  ])('refused: %s', (name, damage) => {
    const checks = failed(holesExpanded(), damage);
    // In many bites the peck is as deep as the plan allows: nothing is wrong with it.
    expect(checks).toEqual(name === 'one hole in many small bites' ? [] : ['bite']);
    const harm = harmOf(good, damage(text));
    expect(harm?.kind ?? null).toBe(checks.length === 0 ? null : 'process');
  });

  it('says how deep the whole peck went', () => {
    const proof = prove(bytesOf(line('G0 Z0.5', null, 2)(text)), intent);
    const bite = proof.checks.find((check) => check.name === 'bite');
    expect(bite?.value).toBeCloseTo(3.5, 6);
    expect(bite?.line).toBe(text.split('\n').indexOf('G1 Z-3.5'));
  });

  it('a cycle that drills the hole at once, or in pecks too deep', () => {
    const cycle = 'G98 G83 X20 Y20 Z-4.9013 R0.5 Q1.9 F200';
    expect(failed(holesCycle(), line(cycle, cycle.replace('G83', 'G81').replace('Q1.9 ', '')))).toEqual([
      'bite',
    ]);
    expect(failed(holesCycle(), line(cycle, cycle.replace('Q1.9', 'Q2.6')))).toEqual(['bite']);
  });
});

describe('a flat cutter does not plunge', () => {
  const steps = (count: number, by: number): string =>
    Array.from({ length: count }, (_, k) => `G1 Z${(0.1 - (k + 1) * by).toFixed(3)}`).join('\n');

  it.each<[string, Damage]>([
    ['straight down', followed('G1 Z0.1 F150', 'G1 Z-0.5')],
    ['in steps, each of which would be let pass', followed('G1 Z0.1 F150', steps(14, 0.04))],
    [
      'in steps, up again between them',
      followed(
        'G1 Z0.1 F150',
        'G1 Z-0.04',
        'G0 Z0.5',
        'G1 Z-0.08',
        'G0 Z0.5',
        'G1 Z-0.12',
        'G0 Z0.5',
        'G1 Z-0.16',
      ),
    ],
    [
      'in steps, a hair to the side between them',
      followed(
        'G1 Z0.1 F150',
        'G1 Z-0.04',
        'X41.58',
        'Z-0.08',
        'X41.5875',
        'Z-0.12',
        'X41.58',
        'Z-0.16',
        'X41.5875',
      ),
    ],
  ])('refused: %s', (_, damage) => {
    const { text, intent } = pocket();
    expect(failed(pocket(), damage)).toContain('ramped entry');
    expect(harmOf(goodOf(text, intent), damage(text))?.kind).toBe('process');
  });

  it('a little way down, and a ramp, are let pass', () => {
    expect(failed(pocket(), followed('G1 Z0.1 F150', 'G1 Z-0.04'))).toEqual([]);
  });
});

describe('rapids keep the heights that the shop promises', () => {
  const base = outline().intent;
  const over = { limits: { ...base.limits, travelHeight: 1.5 } };
  const start = 'G0 X7 Y15';

  it.each<[string, string, readonly string[]]>([
    ['over the stock at the travel height', 'G0 Z1.5\nX70 Y50\nX7 Y15', []],
    ['over the stock lower than that', 'G0 Z1.4\nX70 Y50\nX7 Y15\nZ1.5', ['rapids']],
    ['close beside the stock at the travel height', 'G0 Z1.5\nX-9\nX7 Y15', []],
    ['away from the stock at the travel height', 'G0 Z1.5\nX-11\nX7 Y15', ['rapids']],
    ['away from the stock at the clear height', 'G0 Z5\nX-40\nX7 Y15', []],
  ])('%s', (_, more, checks) => {
    expect(failed(outline(), line(start, `${start}\n${more}`), over)).toEqual(checks);
  });

  it('inside a pocket the rapid floor holds, elsewhere the travel height', () => {
    const limits = { ...pocket().intent.limits, travelHeight: 1.5 };
    const inside = followed('G0 Z0.5', 'X40.5', 'X41.5875');
    const outside = followed('G0 Z0.5', 'X50', 'X41.5875');
    expect(failed(pocket(), inside, { limits })).toEqual([]);
    expect(failed(pocket(), outside, { limits })).toEqual(['rapids']);
    expect(failed(pocket(), outside)).toEqual([]);
  });
});

describe('words alone on a line', () => {
  const at = 'G1 X41.4';
  it.each<[string, string, readonly string[]]>([
    ['the same F', 'F500', []],
    ['an F out of range', 'F5000', ['feed', 'machine feed']],
    ['the same S', 'S18000', []],
    ['another S', 'S18500', ['up to speed']],
    ['an S out of range', 'S24000', ['spindle speed', 'up to speed']],
    ['the tool in the spindle', 'T2', ['program reads']],
    ['another tool', 'T3', ['program reads', 'tool']],
    ['P', 'P1', ['program reads', 'same from any start']],
    ['R', 'R1', ['program reads', 'same from any start']],
    ['H', 'H2', ['program reads', 'same from any start']],
    ['M6', 'M6', ['program reads']],
    ['a motion word', 'G1', ['program reads']],
  ])('%s', (name, word, checks) => {
    const found = failed(pocket(), line(at, `${word}\n${at}`));
    if (checks.includes('program reads')) expect(found).toContain('program reads');
    else expect([name, found]).toEqual([name, checks]);
  });
});

describe('the end of a program', () => {
  it('is M2 or M30, even where a second % line could end it', () => {
    const framed: Damage = (text) => `%\n${text}%\n`;
    expect(failed(pocket(), framed)).toEqual([]);
    expect(failed(pocket(), (text) => framed(text.replace('M2\n', 'M30\n')))).toEqual([]);
    expect(failed(pocket(), (text) => framed(text.replace('M2\n', '(M2)\n')))).toEqual(['program ends']);
  });
});
