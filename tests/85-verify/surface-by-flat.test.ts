/** A board's radius finished by a flat cutter: level passes whose inner edges lie on the surface, proven by the height field. */
import { describe, expect, it } from 'vitest';
import type { Instrument, Shop } from '../../src/profile/types.ts';
import { type Proof, prove } from '../../src/verify/prove.ts';
import { boardWith, cone } from '../support/boards.ts';
import { numbers } from '../support/damage.ts';
import { bytesOf } from '../support/proofSamples.ts';
import { nutSlot, seated } from '../support/seats.ts';
import { ball, boardPrograms, named, surfacingShop, type Written } from '../support/surfaced.ts';

/** No ball cutter at all. */
const shop: Shop = {
  ...surfacingShop,
  tools: surfacingShop.tools.filter((tool) => tool.kind !== 'ball'),
  surfacing: { ...surfacingShop.surfacing, finish: 'flat' },
};
const withCusp = (cusp: number): Shop => ({ ...shop, surfacing: { ...shop.surfacing, cusp } });

const proofOf = ({ text, intent }: Written): Proof => prove(bytesOf(text), intent);
const figure = (proof: Proof, name: string): number =>
  Math.max(...proof.checks.filter((c) => c.name === name).map((c) => c.value));
const finishOf = (instrument: Instrument, of: Shop = shop): Written =>
  named(boardPrograms(instrument, of), 'fingerboard-surface-finish.nc');

const BOARDS: readonly (readonly [string, Instrument])[] = [
  ['a cylinder', boardWith({})],
  ['a widening cone', boardWith(cone(254, 406.4))],
  ['a steep cone', boardWith(cone(184, 406.4))],
  [
    'a board that goes on behind its nut, slotted radiused',
    seated(nutSlot, {}, boardWith({ surfaceWhenSlotted: 'radiused' })),
  ],
];

describe.each(BOARDS)('%s finished by a flat cutter', (_name, instrument) => {
  it('has every program of its surface proven, with ridges as stated', () => {
    const programs = boardPrograms(instrument, shop).filter((p) => p.name.includes('surface'));
    expect(programs.map((p) => p.job.tool.kind)).toEqual(['flat', 'flat']);
    for (const program of programs) {
      const proof = proofOf(program);
      expect(
        proof.checks.filter((c) => !c.passed),
        program.name,
      ).toEqual([]);
      expect(proof.passed, program.name).toBe(true);
    }
    const proof = proofOf(named(programs, 'fingerboard-surface-finish.nc'));
    expect(figure(proof, 'ridges left')).toBeGreaterThan(0.015);
    expect(figure(proof, 'ridges left')).toBeLessThanOrEqual(0.02);
  });
});

describe('ridges of a flat cutter', () => {
  it('are as high everywhere as the step from one pass to the next', () => {
    const { text, intent } = finishOf(boardWith({}));
    const levels = [...new Set([...text.matchAll(/Z(-[\d.]+)/g)].map((m) => Number(m[1])))].sort(
      (a, b) => a - b,
    );
    const steps = levels.slice(1).map((z, i) => z - (levels[i] ?? z));
    expect(Math.max(...steps)).toBeLessThan(0.019);
    expect(Math.max(...steps) - Math.min(...steps)).toBeLessThan(0.00021);
    // The lowest pass has its inner edge within one step of where the surface meets the blank's edge: R - sqrt(R^2 - y^2).
    const edge = Math.max(...(intent.cuts[0]?.region?.[0] ?? []).map(([, y]) => y));
    const lowest = Math.sqrt(406.4 ** 2 - edge ** 2) - 406.4;
    expect(levels[0] ?? 0).toBeGreaterThan(lowest);
    expect(levels[0] ?? 0).toBeLessThan(lowest + 0.019);
  });

  it('may be asked to be lower or higher, and take as many passes more or fewer', () => {
    const passes = (cusp: number): number => {
      const program = finishOf(boardWith({}), withCusp(cusp));
      const proof = proofOf(program);
      expect(proof.passed).toBe(true);
      expect(figure(proof, 'ridges left')).toBeLessThanOrEqual(cusp);
      return program.text.split('\n').length;
    };
    expect(passes(0.01) / passes(0.02)).toBeGreaterThan(1.7);
    expect(passes(0.02) / passes(0.05)).toBeGreaterThan(2);
  });
});

describe('a damaged program', () => {
  const good = finishOf(boardWith({}));
  const refused = (text: string): string[] => {
    const proof = prove(bytesOf(text), good.intent);
    expect(proof.passed).toBe(false);
    return proof.checks.filter((c) => !c.passed).map((c) => c.name);
  };

  it('is refused too deep, too high, with a pass missing, moved aside, or for another surface', () => {
    expect(refused(numbers('Z', (z) => (z < 0 ? z - 0.02 : z))(good.text))).toContain('floor deep');
    expect(refused(numbers('Z', (z) => (z < 0 ? z + 0.03 : z))(good.text))).toContain('ridges left');
    expect(refused(numbers('Y', (y) => y + 0.3)(good.text)).length).toBeGreaterThan(0);
    // One pass on both sides as high as the next: the step below it is twice as high.
    const levels = [...new Set([...good.text.matchAll(/Z(-[\d.]+)/g)].map((m) => Number(m[1])))].sort(
      (a, b) => a - b,
    );
    const [at = 0, next = 0] = levels.slice(40);
    expect(refused(numbers('Z', (z) => (z === at ? next : z))(good.text))).toContain('ridges left');
    const [cut] = good.intent.cuts;
    if (cut?.floor.kind !== 'cone') throw new Error('no cone');
    const cylinder = [{ ...cut, floor: { ...cut.floor, R: [300, 300] as const } }];
    expect(prove(bytesOf(good.text), { ...good.intent, cuts: cylinder }).passed).toBe(false);
  });
});

describe('the shop', () => {
  it('with a ball cutter takes it unless it says flat', () => {
    const both: Shop = { ...shop, tools: [...shop.tools, ball] };
    expect(finishOf(boardWith({}), both).job.tool.kind).toBe('flat');
    expect(finishOf(boardWith({}), surfacingShop).job.tool.kind).toBe('ball');
  });
});
