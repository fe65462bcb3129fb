/** Boards worked to their radius and scribed lines: proven as written, refused when damaged. */
import { describe, expect, it } from 'vitest';
import { type Proof, prove } from '../../src/verify/prove.ts';
import { carve } from '../support/carve.ts';
import { every, line, numbers, without } from '../support/damage.ts';
import { router, workshop } from '../support/instrument.ts';
import { planOf } from '../support/job.ts';
import { bytesOf } from '../support/proofSamples.ts';
import { ball, boardOf, boardPrograms, named, vee, type Written, written } from '../support/surfaced.ts';

function proofOf({ text, intent }: Pick<Written, 'text' | 'intent'>): Proof {
  return prove(bytesOf(text), intent);
}

function figure(proof: Proof, name: string): number {
  return Math.max(...proof.checks.filter((c) => c.name === name).map((c) => c.value));
}

/** Names of the failed checks of a damaged program. */
function failed(good: Written, damage: (text: string) => string): string[] {
  const proof = prove(bytesOf(damage(good.text)), good.intent);
  expect(proof.passed).toBe(false);
  return [...new Set(proof.checks.filter((c) => !c.passed).map((c) => c.name))];
}

describe.each([305, 406.4, 184])('a board of radius %d', (radius) => {
  it.each(['flat', 'radiused'] as const)(
    'slotted when %s: every program proves on what the ones before left',
    (when) => {
      const programs = boardPrograms(boardOf(radius, when));
      expect(programs).toHaveLength(6);
      for (const program of programs) {
        const proof = proofOf(program);
        expect(
          proof.checks.filter((c) => !c.passed),
          program.name,
        ).toEqual([]);
        expect(proof.refusals, program.name).toEqual([]);
        expect(proof.passed).toBe(true);
      }
      const finish = proofOf(named(programs, 'fingerboard-surface-finish.nc'));
      // Set for 0.95 of the 0.02 allowed, by the thinnest ball; the text's rounding and the bound of chords come on top.
      expect(figure(finish, 'ridges left')).toBeGreaterThan(0.018);
      expect(figure(finish, 'ridges left')).toBeLessThanOrEqual(0.02);
      expect(figure(finish, 'gouge')).toBeLessThan(0.002);
      expect(figure(finish, 'bite')).toBeLessThan(0.3 + 0.5 + 0.05);
    },
  );
});

describe('a compound radius', () => {
  it('is worked along its rulings: straight passes, ridges highest at the wide end, nothing too deep', () => {
    const [finish] = boardPrograms(boardOf(305, 'flat')).filter((p) => p.name.endsWith('finish.nc'));
    if (finish === undefined) throw new Error('no finishing program');
    const operations = finish.job.operations.map((o) =>
      o.kind === 'finish surface' ? { ...o, floor: { ...o.floor, R: [305, 406.4] as const } } : o,
    );
    const cone = written({ ...finish.job, operations });
    // Only the finishing is looked at: the stock is taken as rough as its bite allows.
    const stock = { ...cone.intent.stock, top: { kind: 'plane', z: 0 } as const };
    const proof = proofOf({ text: cone.text, intent: { ...cone.intent, stock } });
    expect(proof.checks.filter((c) => !c.passed)).toEqual([]);
    expect(figure(proof, 'gouge')).toBeLessThan(0.002);
    const ridges = proof.checks.find((c) => c.name === 'ridges left');
    expect(ridges?.value).toBeGreaterThan(0.018);
    expect(ridges?.place?.[0]).toBeGreaterThan(400);
  });
});

describe('a damaged finishing program', () => {
  const good = named(boardPrograms(boardOf(406.4, 'flat')), 'fingerboard-surface-finish.nc');
  const lines = good.text.split('\n');
  const passes = lines.flatMap((l, i) => (/^Y-?[\d.]+ Z-?[\d.]+$/.test(l) ? [i] : []));
  // In the middle of the board the flat blank is as high as the finished crest: a pass more or less changes nothing there.
  const quarter = passes[Math.floor(passes.length / 4)] ?? 0;
  const start = /G0 X([\d.]+)/.exec(good.text)?.[1] ?? '';

  it('is good to begin with', () => {
    expect(passes.length).toBeGreaterThan(80);
    expect(proofOf(good).passed).toBe(true);
  });

  it('is refused where it goes deeper: one pass, or all of them', () => {
    const one = (text: string): string =>
      text
        .split('\n')
        .map((l, i) =>
          i === quarter
            ? l.replace(/Z(-?[\d.]+)/, (_, z: string) => `Z${(Number(z) - 0.015).toFixed(4)}`)
            : l,
        )
        .join('\n');
    expect(failed(good, one)).toEqual(expect.arrayContaining(['floor deep', 'gouge']));
    expect(
      failed(
        good,
        numbers('Z', (z) => (z < 0 ? z - 0.02 : z)),
      ),
    ).toContain('gouge');
  });

  it('is refused where it stays higher, or where a pass is missing', () => {
    expect(
      failed(
        good,
        numbers('Z', (z) => (z < 0 ? z + 0.03 : z)),
      ),
    ).toContain('ridges left');
    expect(failed(good, without(quarter + 1, quarter + 2))).toContain('ridges left');
  });

  it('is refused when a pass stops short of the board’s end', () => {
    const short = (text: string): string =>
      text
        .split('\n')
        .map((l, i) => (i === quarter + 1 ? l.replace(/X[\d.]+/, 'X300') : l))
        .join('\n');
    expect(failed(good, short)).toContain('ridges left');
  });

  it('is refused when it runs into the wood kept at the ends', () => {
    const proof = prove(
      bytesOf(every(new RegExp(`X${start}\\b`, 'g'), `X${Number(start) - 4}`)(good.text)),
      good.intent,
    );
    expect(proof.passed).toBe(false);
    expect(figure(proof, 'wall overcut')).toBeCloseTo(4 - 0.05, 1);
  });

  it('is refused when shifted sideways, turned into inches, or run before the level passes', () => {
    expect(
      failed(
        good,
        numbers('Y', (y) => y + 0.3),
      ),
    ).toEqual(expect.arrayContaining(['gouge', 'ridges left']));
    expect(proofOf({ text: good.text.replace('G21', 'G20'), intent: good.intent }).passed).toBe(false);
    const untouched = { ...good.intent.stock, top: { kind: 'plane', z: 0 } as const };
    const limits = { ...good.intent.limits, stepDown: 0.8 };
    const early = proofOf({ text: good.text, intent: { ...good.intent, stock: untouched, limits } });
    expect(early.checks.filter((c) => !c.passed).map((c) => c.name)).toEqual(['bite']);
  });

  it('is refused when it plunges into the wood instead of coming in from the side', () => {
    const [air] = lines.flatMap((l) => (/^G0 X[\d.]+ Y[\d.]+$/.test(l) ? [l] : []));
    const inside = line(air ?? '', 'G0 X7 Y30');
    expect(failed(good, inside)).toEqual(expect.arrayContaining(['ramped entry']));
  });

  it('shows the height that a plain carved grid shows', () => {
    const step = 0.25;
    const plot = { x: [100, 104] as const, y: [-34, 34] as const, step, top: () => 0 };
    const r = ball.diameter / 2;
    const carved = carve(good.text, ball.diameter, plot, (d) => r - Math.sqrt(r * r - d * d));
    const R = 406.4;
    let [lowest, highest] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
    for (let j = 0; j < carved.ny; j += 1) {
      const y = carved.y(j);
      const above = carved.heightAt(8, j) - (Math.sqrt(R * R - y * y) - R);
      [lowest, highest] = [Math.min(lowest, above), Math.max(highest, above)];
    }
    const proof = proofOf(good);
    // The proof adds its bounds, so that its figures are never the smaller ones.
    expect(figure(proof, 'gouge')).toBeGreaterThanOrEqual(-lowest - 1e-9);
    expect(figure(proof, 'ridges left')).toBeGreaterThanOrEqual(highest - 1e-3);
    expect(highest).toBeGreaterThan(0.01);
    expect(Math.abs(lowest)).toBeLessThan(0.001);
  });
});

describe('a damaged program of level passes', () => {
  const good = named(boardPrograms(boardOf(184, 'flat')), 'fingerboard-surface-rough.nc');
  const levels = [...new Set(good.text.match(/Z-[\d.]+/g) ?? [])];

  it('goes down in several levels, each no deeper than a pass may be', () => {
    expect(levels.length).toBeGreaterThan(4);
    const proof = proofOf(good);
    expect(proof.passed).toBe(true);
    expect(figure(proof, 'bite')).toBeLessThanOrEqual(0.5);
  });

  it('is refused when a level is left out, doubled in depth or brought too far in', () => {
    const third = levels[2] ?? '';
    const second = levels[1] ?? '';
    expect(failed(good, every(new RegExp(`${second}\\b`, 'g'), levels[0] ?? ''))).toContain('ridges left');
    expect(failed(good, every(new RegExp(`${third}\\b`, 'g'), levels[4] ?? ''))).toContain('floor deep');
    expect(
      failed(
        good,
        numbers('Y', (y) => 0.97 * y),
      ),
    ).toContain('floor deep');
  });
});

describe('scribed lines', () => {
  const tools = [
    ...workshop.tools,
    { ...ball, id: 9, kind: 'flat' as const, diameter: 1.5, cuttingLength: 6 },
    vee,
  ];
  const shop = {
    ...workshop,
    tools,
    work: { ...workshop.work, slotTemplate: router.id, pinTemplate: router.id },
  };
  const jobs = planOf(boardOf(406.4, 'flat'), shop).jobs.flatMap((job) =>
    job.kind === 'router' && job.operations.some((o) => o.kind === 'scribe') ? [written(job)] : [],
  );
  const good = named(jobs, 'slot-template-lines.nc');
  const cuts = good.text.split('\n').flatMap((l, i) => (/^Y-?[\d.]+( F\d+)?$/.test(l) ? [i] : []));
  const fifth = cuts[4] ?? 0;

  it('prove, all at the depth that makes them 0.2 mm wide', () => {
    expect(jobs).toHaveLength(2);
    for (const job of jobs) {
      const proof = proofOf(job);
      expect(proof.checks.filter((c) => !c.passed)).toEqual([]);
      expect(proof.passed).toBe(true);
      expect(figure(proof, 'line width')).toBeLessThan(0.0002);
      expect(figure(proof, 'line covered')).toBeLessThan(0.001);
    }
    expect(good.text).toContain('Z-0.1732');
    expect(cuts).toHaveLength(19);
  });

  it('are refused when too shallow or too deep by what makes them 0.02 mm narrower or wider', () => {
    // 2 tan(30 deg) x 0.0185 = 0.0214.
    expect(failed(good, every(/Z-0\.1732/g, 'Z-0.1547'))).toContain('line width');
    expect(failed(good, every(/Z-0\.1732/g, 'Z-0.1917'))).toEqual(
      expect.arrayContaining(['line width', 'floor deep']),
    );
    expect(proofOf({ text: every(/Z-0\.1732/g, 'Z-0.17')(good.text), intent: good.intent }).passed).toBe(
      true,
    );
  });

  it('are refused when one stops short, is missing, lies elsewhere, or runs on', () => {
    const change =
      (to: (l: string) => string) =>
      (text: string): string =>
        text
          .split('\n')
          .map((l, i) => (i === fifth ? to(l) : l))
          .join('\n');
    const end = Number(/Y(-?[\d.]+)/.exec(good.text.split('\n')[fifth] ?? '')?.[1]);
    const inward = end > 20 ? -1 : 1;
    const moved = (by: number) => change((l) => l.replace(/Y-?[\d.]+/, `Y${(end + by * inward).toFixed(4)}`));
    expect(failed(good, moved(1))).toEqual(expect.arrayContaining(['line covered', 'line width']));
    expect(failed(good, moved(-0.1))).toContain('wall overcut');
    expect(
      failed(
        good,
        change((l) => `X${l.length} ${l}`),
      ),
    ).toContain('cuts where meant');
    expect(failed(good, without(fifth, fifth + 2))).toContain('line covered');
    expect(
      failed(
        good,
        numbers('X', (x) => x + 0.01),
      ),
    ).toContain('wall overcut');
  });
});
