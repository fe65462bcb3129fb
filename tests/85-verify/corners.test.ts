/** Controls that leave the written path where two moves meet: by a stated limit, by nobody knows how much, or not at all. */
import { describe, expect, it } from 'vitest';
import { makeProgram } from '../../src/app/programs.ts';
import { planJobs } from '../../src/machining/planJobs.ts';
import type { Shop } from '../../src/profile/types.ts';
import { prove } from '../../src/verify/prove.ts';
import { parlour, router, workshop } from '../support/instrument.ts';
import { partsOf, planOf, routerJob } from '../support/job.ts';

const NAMES = ['fingerboard-slots.nc', 'fingerboard-markers.nc', 'fingerboard-outline.nc'];

function shopWith(corners: number | null, exactPath = false): Shop {
  const controller = { ...router.controller, exactPath, corners };
  return { ...workshop, machines: [{ ...router, controller }, ...workshop.machines.slice(1)] };
}

function made(name: string, corners: number | null, exactPath = false) {
  return makeProgram([routerJob(name, planOf(parlour, shopWith(corners, exactPath)).jobs)], 'Test');
}

describe('a control that blends corners', () => {
  it.each(NAMES)('adds its limit to every wall of %s, which proves as long as both have room', (name) => {
    const [exact, blended] = [made(name, 0), made(name, 0.004)];
    expect(blended.intent.machine).toMatchObject({ path: 'blended', blend: 0.004 });
    expect(blended.text).toBe(exact.text);
    expect([exact.proof.passed, blended.proof.passed]).toEqual([true, true]);
    expect(blended.proof.maxOvercut - exact.proof.maxOvercut).toBeCloseTo(0.004, 4);
  });

  it('is refused by the proof when it strays farther than walls may be off', () => {
    const { text, intent } = made('fingerboard-markers.nc', 0);
    const loose = { ...intent, machine: { ...intent.machine, path: 'blended' as const, blend: 0.02 } };
    const proof = prove(new TextEncoder().encode(text), loose);
    expect(proof.checks.filter((c) => !c.passed).map((c) => c.name)).toContain('wall overcut');
  });

  it('is refused when nobody says by how much', () => {
    const { text, intent } = made('fingerboard-markers.nc', 0);
    const unsaid = { ...intent, machine: { ...intent.machine, path: 'blended' as const } };
    expect(prove(new TextEncoder().encode(text), unsaid).refusals[0]?.found).toContain('nobody has stated');
  });
});

describe('a control of which nobody knows', () => {
  it('is proven as written, and warned of once, with what to do', () => {
    const shop = shopWith(null);
    expect(made('fingerboard-markers.nc', null).intent.machine.path).toBe('unknown');
    const { findings } = planJobs(partsOf(parlour, shop), shop);
    const warned = findings.filter((f) => f.code === 'corners-unknown');
    expect(warned).toHaveLength(1);
    expect(warned[0]).toMatchObject({ severity: 'warning', where: { source: 'shop', path: 'machines' } });
    expect(warned[0]?.remedy).toContain('controller of small-router');
  });

  it('is none where G61 is understood: the program says so, and the proof wants it in every cut', () => {
    const exact = made('fingerboard-markers.nc', 0, true);
    expect(exact.text).toContain('G61');
    const { findings } = planJobs(partsOf(parlour, shopWith(0, true)), shopWith(0, true));
    expect(findings.filter((f) => f.code === 'corners-unknown')).toEqual([]);
  });
});
