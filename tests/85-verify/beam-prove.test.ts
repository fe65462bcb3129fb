/** Laser programs with every way to begin and end an outline: all prove, and no slip in one gets through. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { jobsByProgram, makeProgram } from '../../src/app/programs.ts';
import type { ProvenProgram } from '../../src/app/types.ts';
import type { BeamSetting, Controller, Shop } from '../../src/profile/types.ts';
import { prove } from '../../src/verify/prove.ts';
import { workshop } from '../support/instrument.ts';
import { planOf } from '../support/job.ts';
import { bytesOf } from '../support/proofSamples.ts';

function shopWith(setting: BeamSetting, control: Partial<Controller>): Shop {
  const machines = workshop.machines.map((m) =>
    m.kind === 'laser' ? { ...m, settings: [setting], controller: { ...m.controller, ...control } } : m,
  );
  return { ...workshop, machines };
}

function programsOf(setting: BeamSetting, control: Partial<Controller> = {}): ProvenProgram[] {
  return jobsByProgram(planOf(undefined, shopWith(setting, control)).jobs)
    .filter(([job]) => job?.kind === 'laser')
    .map((jobs) => makeProgram(jobs, 'Test'));
}

const cut = fc.record({
  power: fc.double({ min: 0.2, max: 1, noNaN: true }),
  speed: fc.integer({ min: 50, max: 3000 }),
  passes: fc.integer({ min: 1, max: 3 }),
  pierce: fc.constantFrom(0, 0.05, 0.35, 1.5),
  leadIn: fc.constantFrom(0, 0.4, 1, 2, 3.3),
  overCut: fc.constantFrom(0, 0.3, 0.5, 2.25),
});
const settings = fc.record({
  materialClass: fc.constant<'plywood'>('plywood'),
  thickness: fc.constant(3),
  kerf: fc.constantFrom(0.08, 0.16, 0.25),
  cut,
  mark: fc.constant({ power: 0.1, speed: 2400 }),
  air: fc.constant(null),
});
const controls = fc.record({
  arcPlanes: fc.constantFrom<Controller['arcPlanes']>([], ['xy']),
  units: fc.constantFrom<Controller['units']>('mm', 'in'),
  decimals: fc.constantFrom(4, 5),
  dwellUnit: fc.constantFrom<Controller['dwellUnit']>('seconds', 'milliseconds'),
  beamWord: fc.constantFrom<Controller['beamWord']>('M3', 'M4'),
});

describe('laser programs', () => {
  it('prove whatever the kerf, passes, pause, way in and stretch past the start, on any control', () => {
    fc.assert(
      fc.property(settings, controls, (setting, control) => {
        for (const { path, proof } of programsOf(setting, control)) {
          expect(proof.refusals, path).toEqual([]);
          expect(
            proof.checks.filter((c) => !c.passed),
            path,
          ).toEqual([]);
          expect(proof.passed).toBe(true);
        }
      }),
      { seed: 21, numRuns: 12 },
    );
  });
});

const setting: BeamSetting = {
  materialClass: 'plywood',
  thickness: 3,
  kerf: 0.16,
  cut: { power: 0.7, speed: 600, passes: 2, pierce: 0.3, leadIn: 2, overCut: 0.5 },
  mark: { power: 0.1, speed: 2400 },
  air: null,
};
const made = programsOf(setting).find((p) => p.job.program === 'radius-block-plates.nc');
if (made === undefined) throw new Error('no plates');
const lines = made.text.split('\n');
/** Where each outline begins: the rapid to its way in, beam, pause, way in. */
const begins = lines.flatMap((line, i) => (line === 'M3 S700' ? [i - 1] : []));

function passes(changed: readonly string[]): boolean {
  if (made === undefined) throw new Error('no plates');
  return prove(bytesOf(changed.join('\n')), made.intent, { stopAtFirst: true }).passed;
}

function withLines(at: number, count: number, ...instead: readonly string[]): string[] {
  return [...lines.slice(0, at), ...instead, ...lines.slice(at + count)];
}

function place(line: string | undefined): [number, number] {
  const [, x, y] = /X(-?[\d.]+) Y(-?[\d.]+)/.exec(line ?? '') ?? [];
  if (x === undefined || y === undefined) throw new Error(`no place in ${line}`);
  return [Number(x), Number(y)];
}

describe('slips in one outline of many', () => {
  it('there are outlines, each begun by a rapid, the beam, a pause and a way in', () => {
    expect(begins.length).toBe(18);
    expect(passes(lines)).toBe(true);
    for (const i of begins) {
      expect(lines[i]).toMatch(/^G0 X\S+ Y\S+$/);
      expect(lines[i + 2]).toBe('G4 P0.3');
      expect(lines[i + 3]).toMatch(/^G1 X/);
    }
  });

  it('a way in from the kept side', () => {
    for (const i of begins) {
      const [x, y] = place(lines[i]);
      const [ex, ey] = place(lines[i + 3]);
      // Straight across the path to the other side.
      const other = `G0 X${(2 * ex - x).toFixed(4)} Y${(2 * ey - y).toFixed(4)}`;
      expect(passes(withLines(i, 1, other)), `line ${i + 1}`).toBe(false);
    }
  });

  it('no pause, a longer one, or the beam left on after it', () => {
    for (const i of begins) {
      expect(passes(withLines(i + 2, 1))).toBe(false);
      expect(passes(withLines(i + 2, 1, 'G4 P0.6'))).toBe(false);
      expect(passes(withLines(i + 2, 1, 'G4 P0.3', 'G4 P0.3'))).toBe(false);
    }
    const offs = lines.flatMap((line, i) => (line === 'M5 S0' ? [i] : []));
    for (const i of offs.slice(1)) {
      expect(passes(withLines(i, 1)), `line ${i + 1}`).toBe(false);
      expect(passes(withLines(i, 1, 'G4 P1', 'M5 S0')), `line ${i + 1}`).toBe(false);
    }
  });

  it('another power or feed in one outline', () => {
    for (const i of begins) {
      expect(passes(withLines(i + 1, 1, 'M3 S770'))).toBe(false);
      expect(passes(withLines(i + 1, 1, 'M3 S680'))).toBe(false);
      expect(passes(withLines(i + 1, 1, 'M4 S700'))).toBe(false);
      const faster = `${lines[i + 3]?.replace(/ F\d+/, '')} F700`;
      expect(passes(withLines(i + 3, 1, faster)), faster).toBe(false);
    }
  });

  it('any motion of an outline left out', () => {
    const [from, to] = [begins[2] ?? 0, begins[4] ?? 0];
    for (let i = from; i < to; i += 1) {
      if (/^M5|^G0|^\(/.test(lines[i] ?? '')) continue;
      expect(passes(withLines(i, 1)), `line ${i + 1}: ${lines[i]}`).toBe(false);
    }
  });
});
