import { describe, expect, it } from 'vitest';
import { bodyOf, coreStress, massPerMetre, WRAP_PACKING } from '../../src/physics/construction.ts';
import { bendAtMiddle } from '../../src/physics/feel.ts';
import { NYLON, NYLON_FLOSS, PHOSPHOR_BRONZE, SILVERED_COPPER, STEEL } from '../../src/physics/materials.ts';
import { stiffnessNumber } from '../../src/physics/stiffString.ts';
import { downBearing, mersenneHertz, mersenneTension, tensionPerCent } from '../../src/physics/tension.ts';
import type { Construction } from '../../src/physics/types.ts';
import { musicWireStrength } from '../../src/physics/wireStrength.ts';
import { parsePitch } from '../../src/units/pitch.ts';
import { PUBLISHED } from './published.ts';

const IN = 25.4;

const plainSteel = (diameter: number, modulus = STEEL.modulus(diameter)): Construction => ({
  diameter,
  core: diameter,
  coreDensity: 7850,
  wrapDensity: null,
  modulus,
  massPerMetre: null,
});

// Worked for E4 = 329.6276 Hz, 647.7 mm, 7850 kg/m3, E 203.4 GPa (Shigley Table 10-5 for wire under 0.032 in).
describe('plain steel at E4 over 647.7 mm', () => {
  it.each([
    [0.009, 0.32219, 58.744, 1.052e-3],
    [0.01, 0.39777, 72.524, 1.169e-3],
    [0.011, 0.4813, 87.754, 1.286e-3],
    [0.012, 0.57278, 104.435, 1.402e-3],
    [0.013, 0.67222, 122.566, 1.519e-3],
  ])('%d in', (inches, mass, tension, b) => {
    const made = plainSteel(inches * IN, 203_400);
    const body = bodyOf(made);
    const pull = mersenneTension(body.massPerMetre, 647.7, 329.6276);
    expect(body.massPerMetre).toBeCloseTo(mass, 5);
    expect(pull).toBeCloseTo(tension, 2);
    // Stress and kappa are the same for every gauge.
    expect(coreStress(pull, made.core)).toBeCloseTo(1431.3, 1);
    expect(body.axial / pull).toBeCloseTo(142.11, 2);
    expect(Math.abs(stiffnessNumber(body.bending, pull, 647.7) - b)).toBeLessThan(6e-7);
  });

  it('takes the modulus of Shigley Table 10-5 by diameter', () => {
    expect(STEEL.modulus(0.012 * IN) / 203_400).toBeCloseTo(1, 3);
    expect(STEEL.modulus(0.04 * IN) / 200_000).toBeCloseTo(1, 3);
    expect(STEEL.modulus(0.1 * IN) / 196_500).toBeCloseTo(1, 3);
    expect(STEEL.modulus(0.2 * IN) / 193_000).toBeCloseTo(1, 3);
  });
});

describe('strength of music wire, ASTM A228 minimum', () => {
  // inches, MPa: the table as converted in another place.
  it.each([
    [0.004, 3027],
    [0.008, 2751],
    [0.01, 2668],
    [0.012, 2599],
    [0.013, 2572],
    [0.016, 2496],
    [0.02, 2413],
    [0.032, 2255],
    [0.063, 2020],
  ])('%d in bears %d MPa', (inches, mpa) => {
    expect(Math.abs(musicWireStrength(inches * IN) - mpa)).toBeLessThan(1);
  });

  it('lies within 0.9 % of the published fit 2153.5 d^-0.1625 from 0.010 to 0.020 in, also between entries', () => {
    for (let thou = 10; thou <= 20; thou += 0.25) {
      const d = (thou / 1000) * IN;
      expect(Math.abs((2153.5 * d ** -0.1625) / musicWireStrength(d) - 1)).toBeLessThan(0.009);
    }
  });

  it('falls with diameter, all the way and beyond the table', () => {
    let before = Number.POSITIVE_INFINITY;
    for (let thou = 2; thou < 90; thou += 0.5) {
      const now = musicWireStrength((thou / 1000) * IN);
      expect(now).toBeLessThan(before);
      before = now;
    }
    expect(() => musicWireStrength(0)).toThrow();
  });
});

describe('mass per length', () => {
  it('adds up a close wrap turn by turn', () => {
    const made: Construction = {
      diameter: 0.053 * IN,
      core: 0.018 * IN,
      coreDensity: STEEL.density,
      wrapDensity: PHOSPHOR_BRONZE.density,
      modulus: 200_000,
      massPerMetre: null,
    };
    // One metre: turns of round wire w thick, w apart, each pi (d + w) long.
    const w = (made.diameter - made.core) / 2;
    const turns = 1000 / w;
    const wire = turns * Math.PI * (made.core + w);
    const wrap = wire * ((Math.PI * w ** 2) / 4) * 1e-9 * PHOSPHOR_BRONZE.density * 1000;
    const core = ((Math.PI * made.core ** 2) / 4) * 1000 * 1e-9 * STEEL.density * 1000;
    expect(massPerMetre(made)).toBeCloseTo(core + wrap, 10);
    expect(WRAP_PACKING).toBe(Math.PI / 4);
    // The slant of the helix would add this much at most, which the tolerance of 3 % covers.
    expect(Math.hypot(Math.PI * (made.core + w), w) / (Math.PI * (made.core + w)) - 1).toBeLessThan(0.035);
  });

  it('takes a weighed string at its word', () => {
    expect(massPerMetre({ ...plainSteel(0.4), massPerMetre: 1.234 })).toBe(1.234);
  });

  // The figures for multifilament nylon were worked back from these strings; this shows the way back.
  it('gives the wound strings of the published normal-tension set with a core of 0.48 mm', () => {
    for (const s of PUBLISHED.filter((p) => p.set === 'nylon-normal' && /[23]$/.test(p.note) && p.mass > 1)) {
      const made: Construction = {
        diameter: 2 * s.radius,
        core: 0.48,
        coreDensity: NYLON_FLOSS.density,
        wrapDensity: SILVERED_COPPER.density,
        modulus: NYLON_FLOSS.modulus(0.48),
        massPerMetre: null,
      };
      expect(Math.abs(massPerMetre(made) / s.mass - 1)).toBeLessThan(0.02);
      expect(Math.abs(bodyOf(made).axial / (s.kappa * s.tension) - 1)).toBeLessThan(0.1);
    }
  });

  it('holds the nylon modulus of two sets that did not choose it inside its own tolerance, or says by how much not', () => {
    const moduli = PUBLISHED.filter((p) => p.set === 'nylon-light' && p.mass < 1).map((p) => p.modulus);
    // The light set was measured stiffer: 7.3 to 13.3 GPa. The default is for normal tension; a profile can give its own.
    expect(Math.min(...moduli)).toBeLessThan((NYLON.modulus(0.7) / 1000) * (1 + NYLON.modulusTolerance));
    expect(Math.max(...moduli)).toBeGreaterThan((NYLON.modulus(0.7) / 1000) * (1 + NYLON.modulusTolerance));
  });
});

describe('pitch, tension and bearing', () => {
  it('is Mersenne: pitch goes with the root of tension, against length and the root of mass', () => {
    const t = mersenneTension(1, 650, 100);
    expect(t).toBeCloseTo(4 * 0.001 * (0.65 * 100) ** 2, 12);
    expect(mersenneTension(2, 650, 100)).toBeCloseTo(2 * t, 12);
    expect(mersenneTension(1, 1300, 100)).toBeCloseTo(4 * t, 12);
    expect(mersenneHertz(1, 650, 4 * t)).toBeCloseTo(200, 10);
  });

  // ISO 16:1975: A4 = 440 Hz; the others by the CRC Handbook's table of equal temperament.
  it.each([
    ['A4', 440],
    ['E2', 82.407],
    ['C4', 261.63],
    ['E4', 329.63],
    ['D6', 1174.66],
  ])('%s is %d Hz', (note, hertz) => {
    const parsed = parsePitch(note);
    expect(parsed.ok && Math.abs(parsed.value - hertz)).toBeLessThan(0.005);
  });

  it('changes by what one cent asks', () => {
    const t = mersenneTension(1, 650, 100);
    const sharper = mersenneTension(1, 650, 100 * 2 ** (1 / 1200));
    expect(tensionPerCent(t)).toBeCloseTo(sharper - t, 4);
  });

  it('bears down by the sum of both sides, and lifts when the string rises behind', () => {
    expect(downBearing(100, { front: 0, back: Math.PI / 6 })).toBeCloseTo(50, 12);
    expect(downBearing(100, { front: 0.01, back: -0.02 })).toBeLessThan(0);
  });

  // A full-step bend on a published nylon string: df/f = 0.116 to 0.122, R near 25 (their text); here the length is exact.
  it('bends a whole tone: pitch from the stretched half-length agrees', () => {
    const string = { length: 628, tension: 99, stretch: 150 };
    const { sideways, force } = bendAtMiddle(string, 200);
    const whole = 2 * Math.hypot(314, sideways);
    const q = whole / 628 - 1;
    const tension = 99 * (1 + 150 * q);
    // f = sqrt(T/mu) / (2 l): mass per length falls as 1/(1+q), the sounding half grows by (1+q).
    const ratio = Math.sqrt((tension / 99) * (1 + q)) / (1 + q);
    expect(1200 * Math.log2(ratio)).toBeCloseTo(200, 6);
    expect(force).toBeCloseTo((2 * tension * sideways) / Math.hypot(314, sideways), 4);
  });
});
