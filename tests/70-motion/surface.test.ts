import { describe, expect, it } from 'vitest';
import type { FinishSurfaceOperation, RoughSurfaceOperation } from '../../src/machining/types.ts';
import { finishSurfaceMoves, roughSurfaceMoves } from '../../src/motion/surface.ts';
import type { Move } from '../../src/motion/types.ts';
import { prove } from '../../src/verify/prove.ts';
import { bytesOf } from '../support/proofSamples.ts';
import { boardOf, boardPrograms, named, surfacingShop, type Written, written } from '../support/surfaced.ts';

const R = 305;
const programs = boardPrograms(boardOf(R, 'flat'));
const rough = named(programs, 'fingerboard-surface-rough.nc');
const finish = named(programs, 'fingerboard-surface-finish.nc');

function operationOf<K extends 'rough surface' | 'finish surface'>(
  program: Written,
  kind: K,
): Extract<RoughSurfaceOperation | FinishSurfaceOperation, { kind: K }> {
  const found = program.job.operations.find((o) => o.kind === kind);
  if (found === undefined) throw new Error(`no ${kind}`);
  return found as Extract<RoughSurfaceOperation | FinishSurfaceOperation, { kind: K }>;
}

type Feed = Extract<Move, { kind: 'feed' }>;

/** Moves along the board, with where they begin. */
function passesIn(moves: readonly Move[]): { from: Required<Feed>; to: Required<Feed> }[] {
  return moves.flatMap((to, i) => {
    const from = moves[i - 1];
    return isPlaced(from) && isPlaced(to) && Math.abs(to.x - from.x) > 100 ? [{ from, to }] : [];
  });
}

function isPlaced(move: Move | undefined): move is Required<Feed> {
  return move?.kind === 'feed' && move.x !== undefined;
}

describe('finishing passes', () => {
  const operation = operationOf(finish, 'finish surface');
  const moves = finishSurfaceMoves(operation, finish.job);
  const passes = passesIn(moves);

  it('come down once, in the air beside the blank, and lift once at the end', () => {
    const [first, second] = moves;
    const edge = Math.max(...operation.box.y);
    expect(first).toMatchObject({ kind: 'rapid' });
    expect(first?.kind === 'rapid' && (first.y ?? 0)).toBeGreaterThan(edge + 3);
    expect(second).toEqual({ kind: 'rapid', z: 0.5 });
    expect(moves.at(-1)).toEqual({ kind: 'rapid', z: finish.job.machine.clearHeight });
    expect(moves.slice(2, -1).every((m) => m.kind === 'feed')).toBe(true);
  });

  it('run the length of the board and a little past it, each the other way than the one before', () => {
    const [x0, x1] = operation.box.x;
    for (const { from, to } of passes) {
      expect([from.x, to.x].sort((a, b) => a - b)).toEqual([x0 - 1, x1 + 1]);
    }
    for (const [i, { to }] of passes.slice(0, -1).entries()) expect(passes[i + 1]?.from.x).toBe(to.x);
  });

  it('keep the ball’s centre at R + r from the axis of the round, from one edge of the blank to the other', () => {
    for (const { from, to } of passes) {
      for (const place of [from, to]) expect(Math.hypot(place.y, place.z + 3 + R)).toBeCloseTo(R + 3, 9);
    }
    const angles = passes.map(({ from }) => Math.asin(from.y / (R + 3)));
    const edge = Math.asin(Math.max(...operation.box.y) / R);
    expect(angles[0]).toBeCloseTo(edge, 12);
    expect(angles.at(-1)).toBeCloseTo(-edge, 12);
    const steps = angles.slice(1).map((a, i) => (angles[i] ?? 0) - a);
    expect(Math.max(...steps) - Math.min(...steps)).toBeLessThan(1e-12);
    // By hand for the flat: s = 2 sqrt(2 r h - h^2), h 0.0189, r 2.995: 0.6714; on the round a hair less, seen on its surface.
    expect((steps[0] ?? 0) * R).toBeLessThan(0.672);
    expect((steps[0] ?? 0) * R).toBeGreaterThan(0.66);
  });

  it('never fall faster than the cutter may plunge', () => {
    moves.forEach((to, i) => {
      const from = moves[i - 1];
      if (!isPlaced(from) || !isPlaced(to)) return;
      const length = Math.hypot(to.x - from.x, to.y - from.y, to.z - from.z);
      expect((to.feed * (from.z - to.z)) / length).toBeLessThanOrEqual(finish.job.feeds.plunge + 1e-9);
    });
  });
});

describe('level passes', () => {
  const operation = operationOf(rough, 'rough surface');
  const moves = roughSurfaceMoves(operation, rough.job);
  const passes = passesIn(moves);
  const radius = rough.job.tool.diameter / 2;

  it('go down level by level, on either side of the crest, and keep the allowance on the round everywhere', () => {
    const levels = [...new Set(passes.map(({ to }) => to.z))];
    expect([...levels].sort((a, b) => b - a)).toEqual(levels);
    expect(levels.length).toBeGreaterThan(2);
    for (const { from, to } of passes) {
      expect(to.z).toBe(from.z);
      const inner = Math.max(0, Math.abs(to.y) - radius);
      expect(to.z).toBeGreaterThanOrEqual(Math.sqrt(R * R - inner * inner) - R + operation.allowance - 1e-9);
    }
    const sides = passes.map(({ to }) => Math.sign(to.y));
    expect(sides.filter((s) => s > 0)).toHaveLength(sides.filter((s) => s < 0).length);
  });

  it('end inside what may be cleared, and take no more sideways than a cutter should', () => {
    const [x0, x1] = operation.box.x;
    for (const { from, to } of passes) {
      expect(Math.min(from.x, to.x) - radius).toBeCloseTo(x0 - operation.runOut, 9);
      expect(Math.max(from.x, to.x) + radius).toBeCloseTo(x1 + operation.runOut, 9);
    }
    const ys = [...new Set(passes.filter(({ to }) => to.y > 0).map(({ to }) => to.y))].sort((a, b) => a - b);
    expect(ys.length).toBeGreaterThan(4);
  });
});

describe('other controls', () => {
  it.each([
    ['in', 4],
    ['in', 5],
    ['mm', 3],
  ] as const)('that read %s with %d decimals get passes set close enough to prove', (units, decimals) => {
    const controller = { units, decimals, arcPlanes: [], exactPath: false };
    const machines = surfacingShop.machines.map((machine) =>
      machine.kind === 'router'
        ? { ...machine, controller: { ...machine.controller, ...controller } }
        : machine,
    );
    const both = boardPrograms(boardOf(R, 'flat'), { ...surfacingShop, machines }).filter((p) =>
      p.name.includes('surface'),
    );
    expect(both).toHaveLength(2);
    for (const { text, intent } of both) {
      const proof = prove(bytesOf(text), intent);
      expect(proof.checks.filter((c) => !c.passed)).toEqual([]);
      expect(proof.passed).toBe(true);
    }
    expect(written(both[1]?.job ?? finish.job).text).toContain(units === 'in' ? 'G20' : 'G21');
  });
});
