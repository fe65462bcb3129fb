/** Parts that share a panel: a cut round one that runs into the next is refused, whatever holds them. */
import { describe, expect, it } from 'vitest';
import { makeProgram } from '../../src/app/programs.ts';
import { bounds, translate } from '../../src/geometry/ring.ts';
import type { BeamJob, Job, RouterJob } from '../../src/machining/types.ts';
import type { Shop } from '../../src/profile/types.ts';
import type { Check } from '../../src/verify/removal/proof.ts';
import { parlour, router, workshop } from '../support/instrument.ts';
import { planOf, routerJob } from '../support/job.ts';

const byRouter: Shop = {
  ...workshop,
  holding: { ...workshop.holding, by: 'skin' },
  work: { ...workshop.work, radiusBlock: router.id },
};

const plates = routerJob('radius-block-plates.nc', planOf(parlour, byRouter).jobs);
const beam = planOf().jobs.find((job): job is BeamJob => job.program === 'radius-block-plates.nc') as BeamJob;

/** The panel with its second plate, and the holes in it, moved until it lies `gap` from the first. */
function movedTo<T extends RouterJob | BeamJob>(job: T, gap: number): T {
  const boxOf = (id: string): ReturnType<typeof bounds> => {
    const found = job.operations.find((o) => o.id === id);
    if (found === undefined || !('ring' in found)) throw new Error(`no ${id}`);
    return bounds(found.ring);
  };
  const [first, second] = [boxOf('plate-1-outline'), boxOf('plate-2-outline')];
  const away = second.x[0] - first.x[1];
  expect(away).toBeGreaterThan(3);
  const shift = gap - away;
  const operations = job.operations.map((o) => {
    if (!o.id.startsWith('plate-2')) return o;
    if (o.kind === 'bore') return { ...o, at: [o.at[0] + shift, o.at[1]] };
    if (!('ring' in o)) return o;
    const moved = { ...o, ring: translate(o.ring, [shift, 0]) };
    if (moved.kind !== 'beam cut') return moved;
    const to = (p: readonly [number, number]): readonly [number, number] => [p[0] + shift, p[1]];
    const { leadIn } = moved;
    return {
      ...moved,
      start: to(moved.start),
      leadIn: leadIn === null ? null : { ...leadIn, from: to(leadIn.from) },
    };
  });
  return { ...job, operations } as T;
}

function untouched(job: Job): readonly Check[] {
  const { proof } = makeProgram([job], 'x');
  const checks = proof.checks.filter((c) => c.name === 'next part untouched');
  expect(checks.length).toBe(6);
  expect(proof.passed).toBe(checks.every((c) => c.passed));
  return checks.filter((c) => !c.passed);
}

describe('the next part', () => {
  const outline = plates.operations.find((o) => o.kind === 'outline');
  // The passes before the last leave its shaving on the part, and so reach farther out.
  const allowance = outline?.kind === 'outline' ? (outline.finish?.allowance ?? 0) : 0;
  const width = plates.tool.diameter + plates.tool.tolerance + allowance;

  it('is untouched where the gap is as wide as the thickest cutter cuts', () => {
    expect(untouched(plates)).toEqual([]);
    expect(untouched(movedTo(plates, width - 0.012))).toEqual([]);
  });

  it.each([2, 1, 0])('is cut into by a router at a gap of %d mm, as far as reckoned', (gap) => {
    const failed = untouched(movedTo(plates, gap));
    expect(failed.map((c) => c.cut)).toEqual(['plate-1-outline', 'plate-2-outline']);
    // The middle of the cutter runs its nominal radius beside its own part.
    const into = plates.tool.diameter / 2 + allowance / 2 + width / 2 - gap;
    for (const check of failed) {
      expect(check.value).toBeGreaterThan(into - 0.01);
      expect(check.value).toBeLessThan(into + 1.6);
      expect(check.line).toBeGreaterThan(0);
    }
  });

  it('is cut into by a beam whose kerf is wider than the gap', () => {
    const { kerf } = beam;
    expect(untouched(movedTo(beam, kerf))).toEqual([]);
    const failed = untouched(movedTo(beam, kerf - 0.05));
    expect(failed.map((c) => c.cut)).toEqual(['plate-1-outline', 'plate-2-outline']);
    for (const check of failed) expect(check.value).toBeCloseTo(0.05, 3);
  });

  it('is not asked for where a program cuts one part only', () => {
    const { proof } = makeProgram([routerJob('fingerboard-outline.nc')], 'x');
    expect(proof.checks.map((c) => c.name)).not.toContain('next part untouched');
  });
});
