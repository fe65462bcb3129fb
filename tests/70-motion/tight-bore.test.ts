/** A bore that its cutter nearly fills: no plunge in disguise, and said before anything is made. */
import { describe, expect, it } from 'vitest';
import { makeProgram } from '../../src/app/programs.ts';
import { planJobs } from '../../src/machining/planJobs.ts';
import { planMoves } from '../../src/motion/planMoves.ts';
import type { Shop } from '../../src/profile/types.ts';
import { parlour, workshop } from '../support/instrument.ts';
import { partsOf, planOf } from '../support/job.ts';

const wide = { ...parlour, indexPins: { ...parlour.indexPins, diameter: 2 } };

/** No drills, and cutters of these diameters only. */
function shopWith(...sizes: readonly number[]): Shop {
  const [flat] = workshop.tools.filter((t) => t.kind === 'flat' && t.diameter > 1);
  if (flat === undefined) throw new Error('no cutter');
  const slot = workshop.tools.filter((t) => t.kind === 'flat' && t.diameter < 1);
  const cutters = sizes.map((diameter, i) => ({
    ...flat,
    id: 50 + i,
    name: `${diameter} mm flat cutter`,
    diameter,
    cuttingLength: 8,
  }));
  return { ...workshop, tools: [...slot, ...cutters, flat] };
}

function pins(shop: Shop) {
  const job = planOf(wide, shop).jobs.find((j) => j.operation === 'index pins');
  if (job?.kind !== 'router') throw new Error('no pins');
  return job;
}

/** Steepest way down of all arcs, degrees. */
function steepest(shop: Shop): number {
  let z = 0;
  const slopes = planMoves(pins(shop)).map((move) => {
    const from = z;
    if (move.kind === 'arc') z = move.to.z ?? z;
    else if ('z' in move && move.z !== undefined) z = move.z;
    if (move.kind !== 'arc' || !(z < from)) return 0;
    const radius = Math.hypot(move.to.x - move.centre.x, move.to.y - move.centre.y);
    return (Math.atan2(from - z, Math.PI * radius) * 180) / Math.PI;
  });
  return Math.max(...slopes);
}

describe('a bore of 2 mm', () => {
  it.each([1.5, 1.6, 1.2])('by a cutter of %s mm proves, on a helix of at most 20 degrees', (size) => {
    const shop = shopWith(size);
    expect(pins(shop).tool.diameter).toBe(size);
    const { passed } = makeProgram([pins(shop)], 'Test').proof;
    expect(passed).toBe(true);
    expect(steepest(shop)).toBeLessThan(20.01);
    expect(steepest(shop)).toBeGreaterThan(1);
  });

  it('is warned of where the cutter fills most of it, with the cutter that would do it better', () => {
    const tight = (shop: Shop) =>
      planJobs(partsOf(wide, shop), shop).findings.filter((f) => f.code === 'bore-tight');
    const [found, ...more] = tight(shopWith(1.5));
    expect(more).toEqual([]);
    expect(found).toMatchObject({
      severity: 'warning',
      where: { source: 'shop', path: 'tools' },
      allowed: 'a flat cutter of less than 1.5 mm for a bore of 2 mm',
    });
    expect(found?.remedy).toContain('a drill of 2 mm');
    expect(tight(shopWith(1.2))).toEqual([]);
  });
});
