/** The back of a neck on a router: proven as written, refused when damaged; what is left of it, by other reckoning. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { sectionsOn } from '../../src/carving/along.ts';
import { backHeight } from '../../src/carving/section.ts';
import { heightOfBack, sectionsOfBack } from '../../src/carving/shaftBack.ts';
import type { ShaftBack } from '../../src/intent/types.ts';
import { planJobs } from '../../src/machining/planJobs.ts';
import { type Proof, prove } from '../../src/verify/prove.ts';
import { ballInShaft, highestOfShaft, shaftHeight } from '../../src/verify/removal/shaftBack.ts';
import { carve } from '../support/carve.ts';
import { backPrograms, carvingShop, longBall, STATIONS, shaped, station } from '../support/carvedNeck.ts';
import { backAt } from '../support/harm/shaftBack.ts';
import { partsOf } from '../support/job.ts';
import { layoutOf } from '../support/neck.ts';
import { bytesOf } from '../support/proofSamples.ts';
import type { Written } from '../support/surfaced.ts';

const programs = backPrograms();

function proofOf({ text, intent }: Pick<Written, 'text' | 'intent'>): Proof {
  return prove(bytesOf(text), intent);
}

function backOf({ intent }: Written): ShaftBack {
  const floor = intent.cuts[0]?.floor;
  if (floor?.kind !== 'shaft') throw new Error('no back is carved');
  return floor;
}

const back = backOf(programs.finish);
const [from, to] = back.ramps.x;

/** Names of the failed checks of a damaged program. */
function failed(good: Written, damage: (text: string) => string): string[] {
  const text = damage(good.text);
  expect(text).not.toBe(good.text);
  const proof = prove(bytesOf(text), good.intent);
  expect(proof.passed).toBe(false);
  return [...new Set(proof.checks.filter((c) => !c.passed).map((c) => c.name))];
}

describe('the surface', () => {
  const place = fc.record({
    x: fc.double({ min: from - 20, max: to + 20, noNaN: true }),
    y: fc.double({ min: -40, max: 40, noNaN: true }),
  });

  it('is one and the same for planner, prover and a third writing of its formula', () => {
    const sectionAt = sectionsOfBack(back);
    fc.assert(
      fc.property(place, ({ x, y }) => {
        const meant = shaftHeight(back, x, y);
        expect(heightOfBack(back, sectionAt, x, y)).toBeCloseTo(meant, 8);
        expect(backAt(back, x, y)).toBeCloseTo(meant, 8);
      }),
      { seed: 6, numRuns: 400 },
    );
  });

  it('is that of the shaft in the layout, turned end for end', () => {
    const { shaft } = layoutOf(shaped());
    if (shaft === null) throw new Error('no shaft');
    const sectionAt = sectionsOn(shaft);
    const end = programs.finish.intent.toPart.matrix[0]?.[3] ?? Number.NaN;
    for (const x of [from + 40, (from + to) / 2, to - 40]) {
      for (const y of [0, 8, -15, 20]) {
        const below = -backHeight(sectionAt(end - x), y);
        expect(shaftHeight(back, x, y)).toBeCloseTo(back.base + Math.max(2, below), 9);
      }
    }
  });

  it('has its highest place under a disc where a close look over the disc finds it', () => {
    fc.assert(
      fc.property(place, ({ x, y }) => {
        const radius = 3;
        const found = highestOfShaft(back, x, y, radius);
        let highest = Number.NEGATIVE_INFINITY;
        for (let ring = 0; ring <= 8; ring += 1) {
          for (let k = 0; k < 180; k += 1) {
            const [r, a] = [(radius * ring) / 8, (k * Math.PI) / 90];
            highest = Math.max(highest, shaftHeight(back, x + r * Math.cos(a), y + r * Math.sin(a)));
          }
        }
        expect(found).toBeGreaterThanOrEqual(highest - 1e-6);
        expect(found).toBeLessThan(highest + 0.05);
      }),
      { seed: 7, numRuns: 150 },
    );
  });

  it('is entered by a ball as deep as its nearest points say', () => {
    const radius = 3;
    for (const [x, y, above] of [
      [from + 60, 5, 0],
      [from + 90, 17, 0.4],
      [(from + to) / 2, -21, 0.1],
      [to - 60, 22.5, 0.8],
    ] as const) {
      const z = shaftHeight(back, x, y) + above - 0.3;
      let nearest = Number.POSITIVE_INFINITY;
      for (let i = -200; i <= 200; i += 1) {
        for (let j = -200; j <= 200; j += 1) {
          const [px, py] = [x + i * 0.005, y + j * 0.02];
          const dz = z + radius - shaftHeight(back, px, py);
          nearest = Math.min(nearest, Math.hypot(px - x, py - y, dz));
        }
      }
      expect(ballInShaft(back, x, y, z, radius)).toBeCloseTo(radius - nearest, 3);
    }
  });
});

describe.each([
  ['round, then full', STATIONS],
  ['pointed', [station(1, 22, { shoulder: 0.3, back: 0.3 }), station(9, 24, { shoulder: 0.3, back: 0.35 })]],
  ['full', [station(1, 21, { shoulder: 0.8, back: 0.8 }), station(9, 22, { shoulder: 0.75, back: 0.85 })]],
  ['of one depth', [station(1, 21.5)]],
  [
    'pointed to flat within a hand',
    [station(3, 21, { shoulder: 0.3, back: 0.4 }), station(7, 24, { shoulder: 0.8, back: 0.7 })],
  ],
])('a back that is %s', (_name, stations) => {
  it('is cleared and carved, both proven', { timeout: 60_000 }, () => {
    const { rough, finish } = backPrograms(shaped(stations));
    for (const program of [rough, finish]) {
      const proof = proofOf(program);
      expect(
        proof.checks.filter((c) => !c.passed),
        program.name,
      ).toEqual([]);
      expect(proof.refusals, program.name).toEqual([]);
      expect(proof.passed).toBe(true);
    }
  });
});

describe('what the last passes leave', () => {
  // A strip of 3 mm about the place of a gauge, on a grid of its own.
  const strip = (x: number) => {
    const diameter = longBall.diameter;
    const ballEnd = (away: number): number =>
      diameter / 2 - Math.sqrt(Math.max(0, (diameter / 2) ** 2 - away * away));
    return carve(
      programs.finish.text,
      diameter,
      { x: [x - 0.1, x + 0.1], y: [-26, 26], step: 0.05, top: () => 0 },
      ballEnd,
    );
  };
  const stations = back.stations.map((s) => s.x).filter((x) => x > from + 30 && x < to - 30);

  it('lets no gauge stand off by more than 0.05 mm, and never cuts into the section', {
    timeout: 60_000,
  }, () => {
    expect(stations.length).toBeGreaterThan(0);
    for (const x of stations) {
      const carved = strip(x);
      let seen = 0;
      for (let j = 0; j < carved.ny; j += 1) {
        const y = carved.y(j);
        const meant = shaftHeight(back, carved.x(2), y);
        // The ball does not come nearer to the level that is left than its radius.
        if (meant < back.least + 3.2) continue;
        const slope = (shaftHeight(back, carved.x(2), Math.abs(y) - 0.01) - meant) / 0.01;
        const square = (carved.heightAt(2, j) - meant) / Math.hypot(1, slope);
        seen += 1;
        // The grid itself adds its half step on a slope.
        expect(square).toBeLessThan(0.05 + 0.004);
        expect(square).toBeGreaterThan(-0.006);
      }
      expect(seen).toBeGreaterThan(600);
    }
  });
});

describe('a damaged program of the back', () => {
  const xyz = /X(-?[\d.]+) Y(-?[\d.]+) Z(-?[\d.]+)/;
  const lines = programs.finish.text.split('\n');
  const deep = lines.findIndex((line, i) => i > lines.length / 2 && xyz.test(line));

  it('is refused with one place 0.05 mm lower', () => {
    const damage = (text: string): string =>
      text
        .split('\n')
        .map((line, i) =>
          i === deep
            ? line.replace(/Z(-?[\d.]+)/, (_, z: string) => `Z${(Number(z) - 0.05).toFixed(4)}`)
            : line,
        )
        .join('\n');
    expect(failed(programs.finish, damage)).toContain('floor deep');
  });

  it('is refused with a pass left out', () => {
    // A pass ends where the ball has come up over the blank.
    const tops = lines.flatMap((line, i) => (/Z0\.5\b/.test(line) ? [i] : []));
    const [first, next] = [tops[20] ?? 0, tops[22] ?? 0];
    const damage = (text: string): string =>
      text
        .split('\n')
        .filter((_, i) => i <= first || i > next)
        .join('\n');
    expect(failed(programs.finish, damage)).toContain('ridges left');
  });

  it('is refused scaled, moved and mirrored end for end', () => {
    const by = (axis: string, change: (value: number) => number) => (text: string) =>
      text.replaceAll(
        new RegExp(`${axis}(-?[\\d.]+)`, 'g'),
        (_, v: string) => `${axis}${change(Number(v)).toFixed(4)}`,
      );
    expect(
      failed(
        programs.finish,
        by('Z', (z) => z * 1.01),
      ),
    ).not.toEqual([]);
    expect(
      failed(
        programs.finish,
        by('Y', (y) => y + 0.2),
      ),
    ).not.toEqual([]);
    expect(
      failed(
        programs.finish,
        by('X', (x) => 2 * ((from + to) / 2) - x),
      ),
    ).not.toEqual([]);
    expect(
      failed(
        programs.rough,
        by('X', (x) => x + 3),
      ),
    ).not.toEqual([]);
    expect(
      failed(
        programs.rough,
        by('Z', (z) => z - 0.3),
      ),
    ).not.toEqual([]);
  });

  it('is refused where the level passes have not run', () => {
    const { intent, text } = programs.finish;
    const uncut = { ...intent, stock: { ...intent.stock, top: { kind: 'plane', z: 0 } as const } };
    const proof = prove(bytesOf(text), uncut);
    expect(proof.checks.filter((c) => !c.passed).map((c) => c.name)).toContain('bite');
  });
});

describe('a back that cannot be carved', () => {
  const codes = (shop: typeof carvingShop, instrument = shaped()): string[] => {
    const plan = planJobs(partsOf(instrument, shop), shop);
    return plan.findings.filter((f) => f.severity === 'error').map((f) => f.code);
  };

  it('is named: no cutter long enough, no room over the head, given to a laser, clamps without wood', () => {
    const short = carvingShop.tools.map((t) => (t.id >= 20 ? { ...t, cuttingLength: 12 } : t));
    expect(codes({ ...carvingShop, tools: short })).toEqual(['no-tool-fits', 'no-tool-fits']);
    const low = carvingShop.machines.map((m) =>
      m.kind === 'router' ? { ...m, travel: { ...m.travel, z: 45 } } : m,
    );
    expect(codes({ ...carvingShop, machines: low })).toContain('blank-too-large-for-machine');
    const laser = carvingShop.machines.find((m) => m.kind === 'laser');
    expect(codes({ ...carvingShop, work: { ...carvingShop.work, neckBack: laser?.id ?? '' } })).toEqual([
      'not-for-a-laser',
    ]);
    const { neckShape } = shaped();
    if (neckShape === null) throw new Error('no shape');
    const toTheEnd = { ...shaped(), neckShape: { ...neckShape, from: -4, to: 380 } };
    expect(codes(carvingShop, toTheEnd)).toEqual(['no-land-at-ends']);
  });

  it('is left to the hand unless a router is asked', () => {
    const plan = planJobs(partsOf(shaped(), carvingShop), {
      ...carvingShop,
      work: { ...carvingShop.work, neckBack: 'hand' },
    });
    if (!plan.ok) throw new Error(JSON.stringify(plan.findings));
    expect(plan.value.handSteps.map((s) => s.step)).toContain('carve-neck-back');
    expect(plan.value.jobs.filter((j) => j.program.includes('back'))).toEqual([]);
  });
});
