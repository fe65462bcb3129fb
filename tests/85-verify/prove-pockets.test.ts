import fc from 'fast-check';
import { difference, type Geom } from 'polyclip-ts';
import { describe, expect, it } from 'vitest';
import { ringFromPoints } from '../../src/geometry/ring.ts';
import type { Vec } from '../../src/geometry/types.ts';
import { buildIntent } from '../../src/intent/build.ts';
import { parseIntent } from '../../src/intent/schema.ts';
import type { Intent, IntentRegion } from '../../src/intent/types.ts';
import type { RouterJob } from '../../src/machining/types.ts';
import { planMoves } from '../../src/motion/planMoves.ts';
import { prove } from '../../src/verify/prove.ts';
import type { Proof } from '../../src/verify/removal/proof.ts';
import { writeProgram } from '../../src/writers/gcode/write.ts';
import { router, workshop } from '../support/instrument.ts';
import { type PocketSetting, planPocketPart, SHAPES } from '../support/pocketShapes.ts';
import { type CanonicalMotion, rs274Available, runRs274 } from '../support/rs274.ts';

type Name = keyof typeof SHAPES;

const SHA = '0'.repeat(64);

function intentOf(job: RouterJob): Intent {
  const earlier = new Map(job.after.map((program) => [program, SHA]));
  const parsed = parseIntent(JSON.stringify(buildIntent(job, SHA, earlier)));
  if (!parsed.ok) throw new Error(parsed.problems.join('; '));
  return parsed.intent;
}

const textOf = (job: RouterJob): string =>
  writeProgram(planMoves(job), { remarks: ['pocket'], controller: job.machine.controller });

const proofOf = (text: string, intent: Intent): Proof => prove(new TextEncoder().encode(text), intent);

function faultsOf(proof: Proof): string[] {
  return [
    ...proof.checks.filter((c) => !c.passed).map((c) => `${c.name} ${c.value}`),
    ...proof.refusals.map((r) => `line ${r.line} ${r.rule} ${r.found}`),
  ];
}

const noArcs = workshop.machines.map((m) =>
  m.kind === 'router' ? { ...router, controller: { ...router.controller, arcPlanes: [] } } : m,
);

const ALL = Object.keys(SHAPES) as Name[];

const SETTINGS: readonly (readonly [string, PocketSetting, readonly Name[]])[] = [
  ['climbing', {}, ALL],
  [
    'the conventional way, deeper, in tropical hardwood',
    { direction: 'conventional', depth: 3, materialClass: 'tropical hardwood' },
    ['square', 'diamond', 'ring with an island', 'free form', 'two rooms'],
  ],
  [
    'without arcs',
    { machines: noArcs, depth: 1.2 },
    ['round', 'rounded square', 'ring with an island', 'free form', 'barely wider than the cutter'],
  ],
];

describe.each(SETTINGS)('pockets cut %s', (_, setting, names) => {
  it.each(names)('prove: %s', (name) => {
    const { jobs, findings } = planPocketPart([SHAPES[name]], setting);
    expect(findings).toEqual([]);
    for (const job of jobs) {
      const proof = proofOf(textOf(job), intentOf(job));
      expect(faultsOf(proof)).toEqual([]);
      expect(proof.passed).toBe(true);
    }
  });
});

describe('several pockets in one program', () => {
  it('prove together, and so does what is left of them', () => {
    const at = (x: number, y: number) => ({
      outer: SHAPES.diamond.outer.map((v) => ({ ...v, x: v.x + x - 30, y: v.y + y - 30 })),
      holes: [],
    });
    const { jobs } = planPocketPart([at(15, 15), at(40, 15), at(15, 40)], { cutters: [2, 0.6] });
    expect(jobs.map((j) => j.operations.length)).toEqual([3, 12]);
    for (const job of jobs) expect(faultsOf(proofOf(textOf(job), intentOf(job)))).toEqual([]);
  });
});

describe('free forms at random', () => {
  it('prove, whatever their lobes, corners and depth, with every cutter that takes them', () => {
    const share = (most: number) => fc.double({ min: 0, max: most, noNaN: true });
    const shape = fc.tuple(share(0.3), share(0.25), share(6), share(6), fc.integer({ min: 5, max: 60 }));
    let seen = 0;
    fc.assert(
      fc.property(shape, fc.double({ min: 0.4, max: 2.5, noNaN: true }), ([a, b, p, q, count], depth) => {
        const outer = ringFromPoints(
          Array.from({ length: count }, (_, i): Vec => {
            const t = (2 * Math.PI * i) / count;
            const radius = 6 * (1 + a * Math.cos(2 * t + p) + b * Math.cos(3 * t + q));
            return [30 + radius * Math.cos(t), 30 + radius * Math.sin(t)];
          }),
        );
        const { jobs } = planPocketPart([{ outer, holes: [] }], { depth });
        for (const job of jobs) expect(faultsOf(proofOf(textOf(job), intentOf(job)))).toEqual([]);
        seen += jobs.length;
      }),
      { seed: 11, numRuns: 15 },
    );
    expect(seen).toBeGreaterThan(15);
  });
});

describe('pointed forms at random', () => {
  it('prove, cleared by one cutter: long corners from wall to wall, blunt ones round and round', () => {
    const share = (most: number) => fc.integer({ min: 0, max: 1000 }).map((n) => (most * n) / 1000);
    const shape = fc.tuple(share(0.35), share(6), share(0.45), share(10), fc.integer({ min: 5, max: 12 }));
    let seen = 0;
    fc.assert(
      fc.property(shape, share(2), fc.boolean(), ([a, p, notch, size, count], depth, climbs) => {
        const outer = ringFromPoints(
          Array.from({ length: count }, (_, i): Vec => {
            const t = (2 * Math.PI * i) / count;
            const radius = (6 + size) * (1 + a * Math.cos(3 * t + p)) * (i % 2 === 1 ? 1 - notch : 1);
            return [30 + radius * Math.cos(t), 30 + radius * Math.sin(t)];
          }),
        );
        const direction = climbs ? 'climb' : 'conventional';
        const setting: PocketSetting = { depth: 0.5 + depth, direction, cutters: [3.175] };
        const { jobs } = planPocketPart([{ outer, holes: [] }], setting);
        for (const job of jobs) expect(faultsOf(proofOf(textOf(job), intentOf(job)))).toEqual([]);
        seen += jobs.length;
      }),
      { seed: 3, numRuns: 25 },
    );
    expect(seen).toBeGreaterThan(12);
  });
});

// What the two programs leave together is what the small cutter's radius leaves, by another polygon library.
describe('a pocket and its rest program', () => {
  it('share the pocket out: what the first may leave is what the second removes', () => {
    const [main, rest] = planPocketPart([SHAPES.square]).jobs.map(intentOf);
    const mayRemain = main?.cuts[0]?.mayRemain?.region ?? [];
    const removed = rest?.cuts.flatMap((c) => c.region ?? []) ?? [];
    const pocket = main?.cuts[0]?.region ?? [];
    const geom = (rings: IntentRegion): Geom => rings.map((r) => [r.map((v) => [v[0], v[1]])]) as Geom;
    const lost = difference(difference(geom(mayRemain), geom(removed)), []);
    const size = lost.reduce((sum, p) => sum + Math.abs(areaOf(p[0] ?? [])), 0);
    const outside = difference(geom(mayRemain), geom(pocket)).reduce(
      (s, p) => s + Math.abs(areaOf(p[0] ?? [])),
      0,
    );
    expect(mayRemain.length).toBe(4);
    // Only the hair by which they reach into the walls.
    expect(size).toBeLessThan(outside + 1e-3);
    expect(size).toBeLessThan(0.15);
  });
});

const areaOf = (ring: readonly (readonly number[])[]): number =>
  ring.reduce((sum, p, i) => {
    const q = ring[(i + 1) % ring.length] ?? p;
    return sum + ((p[0] ?? 0) * (q[1] ?? 0) - (q[0] ?? 0) * (p[1] ?? 0)) / 2;
  }, 0);

/** Length at feed of what the outside interpreter makes of a program; it starts where the first rapid ends. */
function feedLengthBy274(text: string): number {
  let from: readonly number[] = [Number.NaN, Number.NaN, Number.NaN];
  let length = 0;
  for (const motion of runRs274(text)) {
    if (motion.kind === 'dwell') continue;
    const { end } = motion;
    const rise = end[2] - (from[2] ?? 0);
    const run = Math.hypot(end[0] - (from[0] ?? 0), end[1] - (from[1] ?? 0));
    if (motion.kind === 'feed') length += Math.hypot(run, rise);
    if (motion.kind === 'arc') length += Math.hypot(arcLength(from, motion), rise);
    from = end;
  }
  return length;
}

function arcLength(from: readonly number[], arc: CanonicalMotion & { kind: 'arc' }): number {
  const [cx, cy] = arc.centre;
  const angle = (x = 0, y = 0): number => Math.atan2(y - cy, x - cx);
  const sweep = (angle(arc.end[0], arc.end[1]) - angle(from[0], from[1])) * arc.turns;
  const turn = sweep - 2 * Math.PI * Math.floor(sweep / (2 * Math.PI));
  return turn * Math.hypot((from[0] ?? 0) - cx, (from[1] ?? 0) - cy);
}

describe('an outside interpreter', () => {
  const title = 'runs pockets and their rest programs to the length that the proof found';
  it.skipIf(!rs274Available())(
    rs274Available() ? title : `${title} (SKIPPED: rs274 is not installed)`,
    () => {
      for (const name of ['rounded square', 'free form', 'diamond'] as const) {
        for (const job of planPocketPart([SHAPES[name]]).jobs) {
          const text = textOf(job);
          const proof = proofOf(text, intentOf(job));
          const length = feedLengthBy274(text);
          expect(Math.abs(length / proof.cutLength - 1)).toBeLessThan(1e-4);
        }
      }
    },
  );
});

describe('a pocket’s program that was damaged', () => {
  const [job] = planPocketPart([SHAPES['rounded square']], { cutters: [3.175] }).jobs;
  if (job === undefined) throw new Error('no job');
  const text = textOf(job);
  const intent = intentOf(job);
  const lines = text.split('\n');
  const broken = (change: (line: string, i: number) => string | null): Proof =>
    proofOf(lines.flatMap((line, i) => change(line, i) ?? []).join('\n'), intent);

  it('is refused when a lap is lost', () => {
    const lap = lines.findIndex((l, i) => i > lines.length / 2 && /^G1 X/.test(l));
    const proof = broken((line, i) => (i >= lap && i < lap + 5 ? null : line));
    expect(proof.passed).toBe(false);
  });

  it('is refused when a level is lost', () => {
    const proof = broken((line) => line.replace(/Z-0\.\d+/, 'Z-0.01'));
    expect(proof.passed).toBe(false);
    expect(faultsOf(proof).join()).toMatch(/bite|floor|entry/);
  });

  it('is refused for a larger cutter, a smaller one, a shifted wall and a deeper floor', () => {
    const other = (diameter: number): Intent => ({
      ...intent,
      tool: { ...intent.tool, diameter, diameterRange: [diameter - 0.01, diameter + 0.01] },
    });
    expect(faultsOf(proofOf(text, other(3.3))).join()).toContain('wall overcut');
    expect(faultsOf(proofOf(text, other(3.05))).join()).toContain('wall undercut');
    const shifted = text.replace(/X(\d+\.\d+)/g, (_, x: string) => `X${(Number(x) + 0.03).toFixed(4)}`);
    expect(proofOf(shifted, intent).passed).toBe(false);
    const deeper = text.replace(/Z-2\b/g, 'Z-2.05');
    expect(faultsOf(proofOf(deeper, intent)).join()).toContain('floor deep');
  });

  it('may leave corners only as far as the intent says', () => {
    const star = planPocketPart([SHAPES.star], { cutters: [2] }).jobs[0];
    if (star === undefined) throw new Error('no job');
    const meant = intentOf(star);
    const stricter: Intent = {
      ...meant,
      cuts: meant.cuts.map((c) => ({ ...c, mayRemain: null })),
    };
    expect(proofOf(textOf(star), meant).passed).toBe(true);
    expect(faultsOf(proofOf(textOf(star), stricter)).join()).toContain('wall undercut');
    const capped: Intent = {
      ...meant,
      cuts: meant.cuts.map((c) => ({
        ...c,
        mayRemain: c.mayRemain === null ? null : { ...c.mayRemain, maxGap: c.mayRemain.maxGap - 0.05 },
      })),
    };
    expect(faultsOf(proofOf(textOf(star), capped)).join()).toContain('corner left');
  });
});
