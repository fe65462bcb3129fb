import { describe, expect, it } from 'vitest';
import { areaSize, distanceToBoundary, isInArea, lengthRound } from '../../src/geometry/area.ts';
import { areaOf, grown } from '../../src/geometry/kernel/area.ts';
import type { RouterJob } from '../../src/machining/types.ts';
import { planMoves } from '../../src/motion/planMoves.ts';
import type { Move } from '../../src/motion/types.ts';
import { router, workshop } from '../support/instrument.ts';
import { loadOf } from '../support/pocketLoad.ts';
import { firstJob, type PocketSetting, planPocketPart, pocketOf, SHAPES } from '../support/pocketShapes.ts';

type Name = keyof typeof SHAPES;

const jobOf = (name: Name, setting: PocketSetting = { cutters: [3.175] }): RouterJob =>
  firstJob(planPocketPart([SHAPES[name]], setting));

/** Carves a job's program and sets it against area over step-over plus half the way round. */
function measure(job: RouterJob) {
  const pocket = pocketOf(job);
  const radius = job.tool.diameter / 2;
  const levels = Math.ceil(-pocket.z / job.feeds.stepDown - 1e-9);
  const inset = grown(areaOf(pocket.whole), -radius);
  const load = loadOf(planMoves(job), {
    x: [5, 55],
    y: [5, 55],
    cell: 0.06,
    radius,
    nominal: (pocket.stepOver * -pocket.z) / levels,
    deep: 0.62 * job.feeds.stepDown,
    floor: pocket.z,
    isFinish: (x, y) => distanceToBoundary(inset, [x, y]) < 0.003,
  });
  const around = inset.reduce((sum, way) => sum + lengthRound(way), 0);
  const bound = levels * (areaSize(inset) / pocket.stepOver + around / 2);
  return { load, around, level: (load.level - load.finishing) / bound, air: load.air / load.feed, inset };
}

// Aims: the way at one height at most 1.03 of area / step-over + half the way round for round and square pockets and 1.10 for
// free forms; less than 5 per cent of all feed in the air.
describe.each([
  ['round', 1.03],
  ['square', 1.03],
  ['rounded square', 1.03],
  ['free form', 1.1],
] as const)('a %s pocket', (name, most) => {
  const job = jobOf(name);
  const { load, around, level, air, inset } = measure(job);

  it('takes hardly more way than its area asks for', () => {
    expect(level).toBeGreaterThan(0.9);
    expect(level).toBeLessThanOrEqual(most);
  });

  it('cuts air on less than a twentieth of its way', () => {
    expect(air).toBeLessThan(0.05);
  });

  it('never buries the cutter at more than half a step down', () => {
    // Two rim points' width of the carving's own grid is allowed for.
    expect((load.buried * 180) / Math.PI).toBeLessThan(125 + 8);
  });

  it('finishes the wall once, and leaves nothing standing inside it', () => {
    expect(load.finishing).toBeGreaterThan(around * 0.97);
    expect(load.finishing).toBeLessThan(around * 1.05);
    const inside = grown(inset, job.tool.diameter / 2 - 0.06);
    expect(load.left((x, y) => isInArea(inside, [x, y]))).toBeLessThan(1e-6);
  });
});

describe('pockets of other shapes', () => {
  it.each(['star', 'diamond', 'two rooms', 'ring with an island', 'small rounded square'] as const)(
    'a %s is cleared to its floor',
    (name) => {
      const job = jobOf(name, name === 'small rounded square' ? { cutters: [2] } : { cutters: [3.175] });
      const { load, inset } = measure(job);
      const inside = grown(inset, job.tool.diameter / 2 - 0.06);
      expect(load.left((x, y) => isInArea(inside, [x, y]))).toBeLessThan(1e-6);
    },
  );
});

type Place = readonly [x: number, y: number, z: number];

/** Every move with where it starts and ends. */
function stepsOf(moves: readonly Move[]): { move: Move; from: Place; to: Place }[] {
  let from: Place = [0, 0, 5];
  return moves.flatMap((move) => {
    if (move.kind !== 'feed' && move.kind !== 'arc' && move.kind !== 'rapid') return [];
    const end = move.kind === 'arc' ? move.to : move;
    const to: Place = [end.x ?? from[0], end.y ?? from[1], end.z ?? from[2]];
    const step = { move, from, to };
    from = to;
    return [step];
  });
}

const across = (a: Place, b: Place): number => Math.hypot(b[0] - a[0], b[1] - a[1]);

describe('the way down', () => {
  it.each(['round', 'two rooms', 'diamond'] as const)(
    'into a %s is a ramp or helix, never a plunge',
    (name) => {
      for (const job of planPocketPart([SHAPES[name]]).jobs) {
        let deepest = 0.02;
        const ground = job.operations.flatMap((o) => (o.kind === 'pocket' ? (o.cleared?.regions ?? []) : []));
        const clear = ground.map((region) => grown(areaOf(region), -job.tool.diameter / 2));
        for (const { move, from, to } of stepsOf(planMoves(job))) {
          // Straight down only to just above the top, into what is cut already, or where an earlier cutter has cleared with room.
          const isClear = clear.some((area) => isInArea(area, [to[0], to[1]]));
          if (move.kind === 'feed' && across(from, to) < 1e-9 && !isClear)
            expect(to[2]).toBeGreaterThanOrEqual(deepest - 1e-9);
          deepest = Math.min(deepest, to[2]);
        }
        expect(deepest).toBe(-2);
      }
    },
  );

  it('goes down by no more than three degrees where there is room', () => {
    for (const { move, from, to } of stepsOf(planMoves(jobOf('square')))) {
      const run = across(from, to);
      if (move.kind !== 'feed' || run < 1e-9) continue;
      expect((from[2] - to[2]) / run).toBeLessThanOrEqual(Math.tan((3.001 * Math.PI) / 180));
    }
  });
});

/** Twice the signed area swept by the cuts along the finished wall: positive counter-clockwise. */
function senseOf(job: RouterJob): number {
  const inset = grown(areaOf(pocketOf(job).whole), -job.tool.diameter / 2);
  let twice = 0;
  for (const { move, from, to } of stepsOf(planMoves(job))) {
    const isWall = [from, to].every(([x, y]) => distanceToBoundary(inset, [x, y]) < 0.002);
    if (move.kind !== 'rapid' && isWall) twice += from[0] * to[1] - to[0] * from[1];
  }
  return twice;
}

describe('the finishing pass', () => {
  it('climbs counter-clockwise round a pocket, and the other way when the shop says so', () => {
    expect(senseOf(jobOf('square'))).toBeGreaterThan(0);
    expect(senseOf(jobOf('square', { cutters: [3.175], direction: 'conventional' }))).toBeLessThan(0);
  });

  it('comes on to the wall and leaves it on arcs tangent to it', () => {
    const moves = planMoves(jobOf('square'));
    const last = moves.findLastIndex((m) => m.kind === 'arc');
    const out = moves[last];
    if (out?.kind !== 'arc') throw new Error('no arc at the end');
    const before = moves[last - 1];
    if (before?.kind !== 'feed') throw new Error('no wall before the lead-out');
    const [x, y] = [before.x ?? Number.NaN, before.y ?? Number.NaN];
    const wall = moves[last - 2];
    const from = wall?.kind === 'feed' ? [wall.x ?? 0, wall.y ?? 0] : [Number.NaN, Number.NaN];
    // Tangent: the arc's centre lies square to the wall at the place where it begins.
    const along = [x - (from[0] ?? 0), y - (from[1] ?? 0)];
    const dot = (along[0] ?? 0) * (out.centre.x - x) + (along[1] ?? 0) * (out.centre.y - y);
    expect(Math.abs(dot)).toBeLessThan(1e-6);
    expect(Math.hypot(out.centre.x - x, out.centre.y - y)).toBeGreaterThan(0.3);
    expect(out.clockwise).toBe(false);
  });

  it('keeps the true arcs of a drawn outline', () => {
    const arcs = planMoves(jobOf('rounded square')).filter((m) => m.kind === 'arc');
    // Corners of 2 mm less the cutter's radius.
    const radii = arcs.map((m) => Math.hypot(m.to.x - m.centre.x, m.to.y - m.centre.y));
    expect(radii.filter((r) => Math.abs(r - (2 - 3.175 / 2)) < 1e-6)).toHaveLength(4);
  });

  it('is made of short chords where the control has no arcs', () => {
    const machines = workshop.machines.map((m) =>
      m.kind === 'router' ? { ...router, controller: { ...router.controller, arcPlanes: [] } } : m,
    );
    const job = jobOf('round', { cutters: [3.175], machines });
    expect(planMoves(job).filter((m) => m.kind === 'arc')).toEqual([]);
    expect(measure(job).level).toBeLessThanOrEqual(1.03);
  });
});
