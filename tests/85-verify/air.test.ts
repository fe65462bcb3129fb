import { describe, expect, it } from 'vitest';
import { measureAir, type Written } from '../../src/verify/air.ts';
import { writtenOf } from '../support/pocketFigures.ts';
import { MEASURED, planPocketPart } from '../support/pocketShapes.ts';

const [job] = planPocketPart([MEASURED['rounded square']], { cutters: [3.175] }).jobs;
if (job === undefined) throw new Error('no job');
const { intent } = writtenOf(job);

const HEAD = ['G21 G17 G90 G94 G54 G49 G40 G80', 'M3 S10000', 'G0 Z5', 'G0 X20 Y30', 'G0 Z0.5'];

/** A hand-written program within the same intent. */
const program = (lines: readonly string[]): Written => ({
  bytes: new TextEncoder().encode(`${[...HEAD, ...lines, 'G0 Z5', 'M5', 'M2'].join('\n')}\n`),
  intent,
});

describe('cutting air', () => {
  it('is the way down above the wood, and a way that was cut before', () => {
    // Down 0.5 mm through air and 1 mm through wood; 20 mm of slot; the same 20 mm back with nothing left to cut.
    const { feed, air } = measureAir(program(['G1 Z-1 F100', 'G1 X40 F800', 'G1 X20 F800']));
    expect(feed).toBeCloseTo(1.5 + 40, 6);
    expect(air).toBeGreaterThan(20);
    expect(air).toBeLessThan(20.5 + 0.4);
  });

  it('is none where each pass goes deeper or beside the last', () => {
    const { feed, air } = measureAir(
      program(['G1 Z0 F100', 'G1 Z-0.5 F100', 'G1 X40 F800', 'G1 Z-1', 'G1 X20', 'G1 Y31', 'G1 X40']),
    );
    expect(feed).toBeGreaterThan(60);
    expect(air / feed).toBeLessThan(0.015);
  });

  it('is all of a program that ran before', () => {
    const once = program(['G1 Z-1 F100', 'G1 X40 F800']);
    const again = measureAir(once, [once]);
    expect(again.air).toBeCloseTo(again.feed, 9);
    expect(measureAir(once).air).toBeLessThan(0.1 * again.feed);
  });

  it('is asked of flat cutters only', () => {
    const ball = { ...intent, tool: { ...intent.tool, kind: 'ball' as const } };
    expect(() => measureAir({ ...program(['G1 Z-1 F100']), intent: ball })).toThrow('flat cutters');
  });
});
