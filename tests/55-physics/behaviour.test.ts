import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { setUpOf } from '../../src/physics/board.ts';
import { bodyOf, massPerMetre } from '../../src/physics/construction.ts';
import { centsParts, openString } from '../../src/physics/intonation.ts';
import { PHOSPHOR_BRONZE, STEEL } from '../../src/physics/materials.ts';
import { idealSetBack } from '../../src/physics/solve/fit.ts';
import type { Construction } from '../../src/physics/types.ts';
import { bench, centsOf, construction, firstTwelve, SET, type SetString } from './steelSet.ts';

const setBackOf = (string: SetString, made: Construction, over = bench()): number =>
  idealSetBack({ y: 0, weight: 1, fretWeights: firstTwelve, errors: centsOf(string, over, made) });

const string = fc.constantFrom(...SET);
const woundString = fc.constantFrom(...SET.filter((s) => s.core !== null));

describe('what a builder knows of set-backs', () => {
  it('rise with the action', () => {
    const actions = fc.record({
      string,
      action: fc.double({ min: 1.2, max: 3, noNaN: true }),
      more: fc.double({ min: 0.01, max: 1, noNaN: true }),
    });
    fc.assert(
      fc.property(actions, ({ string: s, action, more }) => {
        const at = (height: number): number => setBackOf(s, construction(s), bench({ action: height }));
        expect(at(action + more)).toBeGreaterThan(at(action));
      }),
      { seed: 5, numRuns: 60 },
    );
  });

  it('rise with the core at the same mass', () => {
    const cores = fc.record({
      string: woundString,
      core: fc.double({ min: 0.25, max: 0.4, noNaN: true }),
      more: fc.double({ min: 0.005, max: 0.1, noNaN: true }),
    });
    fc.assert(
      fc.property(cores, ({ string: s, core, more }) => {
        const mass = massPerMetre(construction(s));
        const at = (diameter: number): number =>
          setBackOf(s, {
            ...construction(s),
            core: diameter,
            modulus: 203_400,
            massPerMetre: mass,
          });
        expect(at(core + more)).toBeGreaterThan(at(core));
      }),
      { seed: 5, numRuns: 60 },
    );
  });

  it('fall with the wrap over the same core', () => {
    const wraps = fc.record({
      string: woundString,
      gauge: fc.double({ min: 0.6, max: 1.2, noNaN: true }),
      more: fc.double({ min: 0.01, max: 0.4, noNaN: true }),
    });
    fc.assert(
      fc.property(wraps, ({ string: s, gauge, more }) => {
        const at = (diameter: number): number => setBackOf(s, { ...construction(s), diameter });
        expect(at(gauge + more)).toBeLessThan(at(gauge));
      }),
      { seed: 5, numRuns: 60 },
    );
  });

  it('a plain string’s stretch part does not depend on its gauge; its stiffness part does', () => {
    const gauges = fc.record({
      hertz: fc.double({ min: 180, max: 400, noNaN: true }),
      one: fc.double({ min: 0.2, max: 0.5, noNaN: true }),
      other: fc.double({ min: 0.2, max: 0.5, noNaN: true }),
      fret: fc.integer({ min: 0, max: 18 }),
    });
    const parts = (diameter: number, hertz: number, fret: number) => {
      const made: Construction = {
        diameter,
        core: diameter,
        coreDensity: STEEL.density,
        wrapDensity: null,
        modulus: 203_400,
        massPerMetre: null,
      };
      const setUp = setUpOf(bench());
      return centsParts(setUp, openString(setUp, { kind: 'built', body: bodyOf(made), hertz }, 2), fret, 2);
    };
    fc.assert(
      fc.property(gauges, ({ hertz, one, other, fret }) => {
        const [a, b] = [parts(one, hertz, fret), parts(other, hertz, fret)];
        expect(a.tension).toBeCloseTo(b.tension, 9);
        expect(a.mass).toBeCloseTo(b.mass, 12);
        expect(a.length).toBeCloseTo(b.length, 12);
        if (Math.abs(one - other) > 0.01)
          expect(Math.sign(a.stiffness - b.stiffness)).toBe(Math.sign(one - other));
      }),
      { seed: 5, numRuns: 100 },
    );
  });

  it('rise with a deeper press, a finger farther back and more relief at the same action', () => {
    const s = SET[0] as SetString;
    const made = construction(s);
    expect(setBackOf(s, made, bench({ press: 0.1 }))).toBeGreaterThan(
      setBackOf(s, made, bench({ press: 0 })),
    );
    expect(setBackOf(s, made, bench({ fingerBehind: 10 }))).toBeGreaterThan(
      setBackOf(s, made, bench({ fingerBehind: 2 })),
    );
    expect(setBackOf(s, made, bench({ relief: 0.4 }))).not.toBe(setBackOf(s, made, bench({ relief: 0 })));
  });

  it('fall when the set is tuned up: more tension, less stretch in proportion', () => {
    const s = SET[0] as SetString;
    expect(setBackOf({ ...s, hertz: s.hertz * 1.06 }, construction(s))).toBeLessThan(
      setBackOf(s, construction(s)),
    );
  });

  // Common practice, no source: E 1-2, B 2-3.5, wound G 1.5-2.5, D 2-3, A 2.5-4, low E 3.5-5.5 mm on a steel-string guitar.
  it('come out where guitars have them, within 0.3 mm of the usual ranges', () => {
    const usual = [
      [3.5, 5.5],
      [2.5, 4],
      [2, 3],
      [1.5, 2.5],
      [2, 3.5],
      [1, 2],
    ] as const;
    SET.forEach((s, i) => {
      const at = setBackOf(s, construction(s), bench({ action: 2.4 - 0.12 * i, firstFret: 0.5 - 0.03 * i }));
      const [low, high] = usual[i] ?? [0, 0];
      expect(at).toBeGreaterThan(low - 0.3);
      expect(at).toBeLessThan(high + 0.3);
    });
  });

  it('a denser wrap does what a thicker one does', () => {
    const s = SET[1] as SetString;
    const made = construction(s);
    expect(setBackOf(s, { ...made, wrapDensity: PHOSPHOR_BRONZE.density * 1.1 })).toBeLessThan(
      setBackOf(s, made),
    );
  });
});
