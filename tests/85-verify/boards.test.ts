/** Whole fingerboards of every surface, end and edge: every program proven on what the ones before left, damaged ones refused. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Instrument } from '../../src/profile/types.ts';
import { type Proof, prove } from '../../src/verify/prove.ts';
import { boardWith, cone } from '../support/boards.ts';
import { numbers, without } from '../support/damage.ts';
import { workshop } from '../support/instrument.ts';
import { bytesOf } from '../support/proofSamples.ts';
import { boardPrograms, named, surfacingShop, type Written } from '../support/surfaced.ts';

function proofOf({ text, intent }: Written): Proof {
  return prove(bytesOf(text), intent);
}

function figure(proof: Proof, name: string): number {
  return Math.max(...proof.checks.filter((c) => c.name === name).map((c) => c.value));
}

function expectAllProven(programs: readonly Written[]): void {
  for (const program of programs) {
    const proof = proofOf(program);
    expect(
      proof.checks.filter((c) => !c.passed),
      program.name,
    ).toEqual([]);
    expect(proof.refusals, program.name).toEqual([]);
    expect(proof.passed).toBe(true);
  }
}

const binding = {
  material: 'maple',
  width: 1.5,
  around: 'sides and end',
  trim: 20,
  channelDepth: null,
} as const;
const handShop = {
  ...workshop,
  tools: workshop.tools.map((tool) => (tool.id === 1 ? { ...tool, cuttingLength: 5.5, stickOut: 15 } : tool)),
};

const BOARDS: readonly (readonly [string, Instrument])[] = [
  ['flat', boardWith({ radius: Number.POSITIVE_INFINITY })],
  ['cone', boardWith(cone(254, 406.4))],
  [
    'matched cone, radiused before it is slotted',
    boardWith({ radius: 254, radiusAlong: { kind: 'matched' }, surfaceWhenSlotted: 'radiused' }),
  ],
  ['flat slot floors', boardWith({ slotFloor: 'flat' })],
  ['binding, hollow end', boardWith({ binding, endArc: -60, endRounding: 0 })],
  [
    'slots that stop short, leaning end',
    boardWith({ slotsStopShort: 1.5, endAngle: 0.2, overhang: 20, ...cone(254, 406.4) }),
  ],
  [
    'left-handed, leaning end',
    { ...boardWith({ endAngle: 0.2, overhang: 20, ...cone(400, 254) }), hand: 'left' },
  ],
];

describe.each(BOARDS)('a board worked to its surface by hand: %s', (_name, instrument) => {
  it('has every program proven', () => expectAllProven(boardPrograms(instrument, handShop)));
});

describe.each([
  ['widening', 254, 406.4],
  ['narrowing', 406.4, 300],
  ['steep', 184, 406.4],
])('a %s cone worked by the router', (_name, nut, end) => {
  it.each(['flat', 'radiused'] as const)('is proven when slotted %s', (surfaceWhenSlotted) => {
    const programs = boardPrograms(boardWith({ ...cone(nut, end), surfaceWhenSlotted }), surfacingShop);
    expect(programs.map((p) => p.name)).toContain('fingerboard-surface-rough.nc');
    expectAllProven(programs);
    const finish = proofOf(named(programs, 'fingerboard-surface-finish.nc'));
    expect(figure(finish, 'gouge')).toBeLessThan(0.002);
    expect(figure(finish, 'ridges left')).toBeGreaterThan(0.018);
    // The level passes follow the cone: the ball finds no more than the allowance and a step, not the whole fall between both ends.
    expect(figure(finish, 'bite')).toBeLessThan(1.3);
  });
});

describe('a finishing program of a cone', () => {
  const programs = boardPrograms(boardWith(cone(254, 406.4)), surfacingShop);
  const good = named(programs, 'fingerboard-surface-finish.nc');
  const refused = (text: string): string[] => {
    const proof = prove(bytesOf(text), good.intent);
    expect(proof.passed).toBe(false);
    return proof.checks.filter((c) => !c.passed).map((c) => c.name);
  };

  it('never leaves the air beside the blank by more than a cutter’s width', () => {
    const ys = [...good.text.matchAll(/Y(-?[\d.]+)/g)].map((m) => Math.abs(Number(m[1])));
    expect(Math.max(...ys)).toBeLessThan(
      good.job.setup.stock.region.outer.reduce((w, v) => Math.max(w, v.y), 0) + 6,
    );
  });

  it('is refused too deep, too high, with a pass missing, or for the cylinder of either end', () => {
    expect(refused(numbers('Z', (z) => (z < 0 ? z - 0.02 : z))(good.text))).toContain('gouge');
    expect(refused(numbers('Z', (z) => (z < 0 ? z + 0.03 : z))(good.text))).toContain('ridges left');
    const lines = good.text.split('\n');
    const passes = lines.flatMap((l, i) => (/^X-?[\d.]+ Y/.test(l) ? [i] : []));
    const quarter = passes[Math.floor(passes.length / 4)] ?? 0;
    expect(refused(without(quarter, quarter + 2)(good.text))).toContain('ridges left');
    for (const R of [254, 406.4]) {
      const [cut] = good.intent.cuts;
      if (cut?.floor.kind !== 'cone') throw new Error('no cone');
      const cuts = [{ ...cut, floor: { ...cut.floor, R: [R, R] as const } }];
      expect(prove(bytesOf(good.text), { ...good.intent, cuts }).passed).toBe(false);
    }
  });
});

describe('random boards', () => {
  it('are proven: cones of any two radii, ends, bindings, margins, floors and hands', () => {
    const radius = fc.double({ min: 200, max: 1200, noNaN: true });
    const board = fc.record({
      nut: radius,
      end: radius,
      hand: fc.constantFrom('right' as const, 'left' as const),
      slotFloor: fc.constantFrom('follows' as const, 'flat' as const),
      surfaceWhenSlotted: fc.constantFrom('flat' as const, 'radiused' as const),
      endAngle: fc.double({ min: -0.2, max: 0.2, noNaN: true }),
      edge: fc.constantFrom('open' as const, 'bound' as const, 'short' as const),
    });
    fc.assert(
      fc.property(board, ({ nut, end, hand, edge, ...fields }) => {
        const edges = edge === 'bound' ? { binding } : { slotsStopShort: edge === 'short' ? 2 : 0 };
        const instrument = { ...boardWith({ ...cone(nut, end), ...fields, ...edges, overhang: 18 }), hand };
        const programs = boardPrograms(instrument, handShop).filter((p) => /slots|outline/.test(p.name));
        expect(programs).toHaveLength(2);
        expectAllProven(programs);
      }),
      { seed: 12, numRuns: 8 },
    );
  });
});
