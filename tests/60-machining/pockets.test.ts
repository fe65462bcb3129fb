import { describe, expect, it } from 'vitest';
import { areaSize } from '../../src/geometry/area.ts';
import { areaOf } from '../../src/geometry/kernel/area.ts';
import { circle, rectangle, ringFromPoints } from '../../src/geometry/ring.ts';
import type { Region } from '../../src/geometry/types.ts';
import { clears, largestCutter, leftBy } from '../../src/machining/reach.ts';
import { planPocketPart, pocketOf, rooms, roundedSquare, SHAPES } from '../support/pocketShapes.ts';

const square = SHAPES.square;
const region = (outer: Region['outer']): Region => ({ outer, holes: [] });

describe('what a cutter leaves', () => {
  // Geometry of a circle in a corner of angle b: its tip is r (1 / sin(b / 2) - 1) away; in a square corner 0.4142 r.
  it.each([
    ['square', 90, 4],
    ['star', 36, 5],
  ] as const)('of a %s is the tips of its corners of %i degrees', (name, angle, corners) => {
    const left = leftBy(SHAPES[name], 1);
    const tip = 1 / Math.sin((angle * Math.PI) / 360) - 1;
    expect(left?.gap).toBeCloseTo(tip, 2);
    expect(left?.pieces).toHaveLength(corners);
    expect(left?.corners).toBe(true);
  });

  it('is (4 - pi) r^2 in the four corners of a square', () => {
    const left = leftBy(square, 2);
    const size = left?.pieces.reduce((sum, piece) => sum + areaSize(piece), 0) ?? 0;
    // Each piece is made a hundredth of a millimetre larger all round.
    expect(size).toBeGreaterThan((4 - Math.PI) * 4);
    expect(size).toBeLessThan((4 - Math.PI) * 4 + 4 * 7.3 * 0.0105);
  });

  it('is nothing where the corners are as round as the cutter', () => {
    expect(leftBy(region(roundedSquare(20, 2)), 2)?.gap).toBeLessThan(0.003);
    expect(leftBy(region(roundedSquare(20, 2)), 2.1)?.gap).toBeCloseTo(0.1 * (Math.SQRT2 - 1), 2);
  });

  it('is no corner when it is a passage, a branch or a squeezed wall', () => {
    expect(leftBy(region(rooms(1.9)), 1)?.corners).toBe(false);
    expect(leftBy(region(rooms(2.1)), 1)?.corners).toBe(true);
    const branch = ringFromPoints([
      [0, 0],
      [20, 0],
      [20, 9],
      [21, 9],
      [21, 10.5],
      [20, 10.5],
      [20, 20],
      [0, 20],
    ]);
    expect(leftBy(region(branch), 1)?.corners).toBe(false);
    // An island so near the wall that the cutter gets past neither side of the narrowest place.
    const island = { outer: rectangle({ x: [0, 20], y: [0, 20] }), holes: [circle([6.95, 10], 5)] };
    expect(leftBy(island, 1)?.corners).toBe(false);
    expect(leftBy({ ...island, holes: [circle([7.05, 10], 5)] }, 1)?.corners).toBe(true);
  });

  it('is everything when it does not get in', () => {
    expect(leftBy(region(roundedSquare(1.9, 0.5)), 1)).toBeNull();
    expect(clears(region(roundedSquare(1.9, 0.5)), 2)).toBe(false);
  });
});

describe('the largest cutter that clears', () => {
  it.each([
    ['a round hole', region(circle([0, 0], 3)), 6],
    ['a square', region(rectangle({ x: [0, 8], y: [0, 8] })), 8],
    ['two rooms and their passage', region(rooms(4)), 4],
  ] as const)('%s', (_, of, diameter) => {
    const found = largestCutter(of);
    expect(found).toBeLessThanOrEqual(diameter);
    expect(found).toBeGreaterThan(diameter - 0.03);
  });
});

describe('pockets', () => {
  it('are cut by the thickest cutter that leaves nothing', () => {
    const plan = planPocketPart([SHAPES['small rounded square']]);
    expect(plan.jobs.map((j) => j.tool.diameter)).toEqual([2]);
    expect(pocketOf(plan.jobs[0]).left).toBeNull();
  });

  it('leave sharp corners to a smaller cutter, in a program of its own after the first', () => {
    const [first, rest, ...more] = planPocketPart([square]).jobs;
    expect(more).toEqual([]);
    expect([first?.program, rest?.program]).toEqual(['board-markers.nc', 'board-markers-rest.nc']);
    expect([first?.tool.diameter, rest?.tool.diameter]).toEqual([3.175, 0.6]);
    expect(rest?.after).toContain('board-markers.nc');
    expect(rest?.operations).toHaveLength(4);
    const ids = rest?.operations.map((o) => o.feature);
    expect(ids).toEqual([1, 2, 3, 4].map((n) => `rest-of-pocket-1-${n}`));
    const main = pocketOf(first);
    expect(main.left?.follows).toBe(true);
    expect(main.left?.gap).toBeCloseTo((Math.SQRT2 - 1) * 1.5875 + 0.01, 2);
    // What is left is what the rest program removes.
    const left = main.left?.regions.reduce((sum, r) => sum + areaSize(areaOf(r)), 0) ?? 0;
    const removed = rest?.operations.reduce(
      (s, o) => s + (o.kind === 'pocket' ? areaSize(areaOf(o.region)) : 0),
      0,
    );
    expect(removed).toBeGreaterThan((4 - Math.PI) * 1.5875 ** 2);
    expect(removed).toBeLessThanOrEqual(left);
  });

  it('need no second program where the shop has no cutter that is worth it', () => {
    const plan = planPocketPart([square], { cutters: [3.175, 2] });
    expect(plan.jobs).toHaveLength(1);
    expect(pocketOf(plan.jobs[0]).left?.follows).toBe(false);
  });

  it('are named when they are too narrow, with the largest cutter that would fit', () => {
    const plan = planPocketPart([SHAPES.square, region(rooms(1.4))], { cutters: [3.175, 2] });
    expect(plan.jobs).toEqual([]);
    const [finding, ...more] = plan.findings;
    expect(more).toEqual([]);
    expect(finding?.code).toBe('pocket-too-narrow');
    expect(finding?.text).toBe('No flat cutter of Small router clears pocket-2: it has 3.175 mm, 2 mm.');
    expect(finding?.allowed).toMatch(
      /^a flat cutter of at most 1\.(39|40) mm, cutting at least 2\.00 mm deep$/,
    );
  });

  it('are named when no cutter is long enough', () => {
    const plan = planPocketPart([square], { depth: 20 });
    expect(plan.findings[0]?.text).toContain('none cuts so deep');
  });

  it('that no one cutter suits get one each', () => {
    const large = { outer: roundedSquare(30, 3), holes: [] };
    const small = { outer: roundedSquare(2.4, 1.1).map((v) => ({ ...v, x: v.x + 25 })), holes: [] };
    const plan = planPocketPart([large, small]);
    expect(plan.jobs.flatMap((j) => j.operations.map((o) => [o.feature, j.tool.diameter]))).toEqual([
      ['pocket-1', 2],
      ['pocket-2', 2],
    ]);
    const none = planPocketPart([large, small], { cutters: [3.175, 0.6] });
    expect(none.findings).toEqual([]);
  });

  it('are bored when small and round, and cleared in laps when wide', () => {
    const kinds = [5, 20].map((d) => {
      const plan = planPocketPart([region(circle([30, 30], d / 2))]);
      return plan.jobs[0]?.operations.map((o) => o.kind);
    });
    expect(kinds).toEqual([['bore'], ['pocket']]);
  });

  it('have laps as far apart as their corners allow, and are finished at once unless these are too sharp', () => {
    const of = (name: keyof typeof SHAPES) =>
      pocketOf(planPocketPart([SHAPES[name]], { cutters: [2] }).jobs[0]);
    expect(of('round').stepOver).toBeCloseTo(0.9, 9);
    expect(of('square').stepOver).toBeLessThan(0.7);
    expect(of('round').finish).toBe('at full depth');
    expect(of('square').finish).toBe('at full depth');
    const sharp = region(
      ringFromPoints([
        [10, 10],
        [50, 14],
        [10, 18],
      ]),
    );
    const wedge = planPocketPart([sharp], { cutters: [2] });
    expect(wedge.findings[0]?.code).toBe('pocket-too-narrow');
    const thick = planPocketPart([SHAPES.star], { cutters: [2], allowance: 0.3 });
    expect(pocketOf(thick.jobs[0]).finish).toBe('at each level');
  });

  it('take direction and allowance from the shop', () => {
    const plan = planPocketPart([square], { direction: 'conventional', allowance: 0.2 });
    const pocket = pocketOf(plan.jobs[0]);
    expect([pocket.direction, pocket.allowance]).toEqual(['conventional', 0.2]);
    expect(pocketOf(planPocketPart([square]).jobs[0]).direction).toBe('climb');
  });
});
