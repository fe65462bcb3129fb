import { describe, expect, it } from 'vitest';
import { scribingDepth } from '../../src/machining/lines.ts';
import { planJobs } from '../../src/machining/planJobs.ts';
import type { RouterJob } from '../../src/machining/types.ts';
import type { Shop } from '../../src/profile/types.ts';
import { router, workshop } from '../support/instrument.ts';
import { partsOf, planOf } from '../support/job.ts';
import { ball, boardOf, boardPrograms, surfacingShop, vee, type When } from '../support/surfaced.ts';

const names = (when: When): string[] => boardPrograms(boardOf(406.4, when)).map((p) => p.name);

function findingsOf(shop: Shop, radius = 406.4): string[] {
  const instrument = boardOf(radius, 'flat');
  return planJobs(partsOf(instrument, shop), shop).findings.map((f) => f.code);
}

function operationsOf(shop: Shop, radius: number): RouterJob[] {
  return planOf(boardOf(radius, 'flat'), shop).jobs.flatMap((job) =>
    job.kind === 'router' && job.program.includes('surface') && job.operations.length > 0 ? [job] : [],
  );
}

describe('a board worked to its radius by a router', () => {
  it('is worked first when its slots are meant for a radiused board', () => {
    expect(names('radiused')).toEqual([
      'fingerboard-surface-rough.nc',
      'fingerboard-surface-finish.nc',
      'fingerboard-pins.nc',
      'fingerboard-slots.nc',
      'fingerboard-markers.nc',
      'fingerboard-outline.nc',
    ]);
  });

  it('is worked after slots and pockets, before it is freed, when they are meant for a flat blank', () => {
    expect(names('flat')).toEqual([
      'fingerboard-pins.nc',
      'fingerboard-slots.nc',
      'fingerboard-markers.nc',
      'fingerboard-surface-rough.nc',
      'fingerboard-surface-finish.nc',
      'fingerboard-outline.nc',
    ]);
  });

  it.each(['flat', 'radiused'] as const)('tells later programs what is left of a %s blank’s top', (when) => {
    const programs = boardPrograms(boardOf(406.4, when));
    const worked = programs.findIndex((p) => p.name === 'fingerboard-surface-finish.nc');
    programs.forEach(({ intent, job }, i) => {
      const { top } = intent.stock;
      if (i < worked) {
        expect(top).toEqual({ kind: 'plane', z: 0 });
        expect(job.setup.workZero).toContain('Z0 on its top');
        return;
      }
      expect(job.setup.workZero).toContain('Z0 on the flat that is left at that end');
      expect(top).toMatchObject({ kind: 'worked', z: 0, cone: { R: [406.4, 406.4] } });
      if (top.kind !== 'worked') throw new Error('checked above');
      // Above the finished surface by what the level passes may leave, then by the ridges of the ball.
      const rough = programs[worked - 1]?.intent.cuts[0];
      const above = i === worked ? 0.3 + (rough?.tolerance.floorShallow ?? Number.NaN) : 0.02;
      expect(top.cone.crest - top.cone.below).toBeCloseTo(above, 9);
    });
  });

  it('leaves the blank as thick as the crest is high, and all later depths measured from the same zero', () => {
    const thick = boardOf(406.4, 'flat');
    const programs = boardPrograms({ ...thick, fingerboard: { ...thick.fingerboard, blankThickness: 7 } });
    const finish = programs.find((p) => p.name === 'fingerboard-surface-finish.nc');
    expect(finish?.intent.cuts[0]?.floor).toMatchObject({ kind: 'cone', crest: -0.5, below: 0 });
    expect(programs.at(-1)?.intent.stock).toMatchObject({ bottom: -7, top: { kind: 'worked', z: 0 } });
  });

  it('is the ball’s work alone where the level passes would take next to nothing', () => {
    expect(operationsOf(surfacingShop, 406.4).map((job) => job.tool.kind)).toEqual(['flat', 'ball']);
    const nearlyFlat = operationsOf(surfacingShop, 1200);
    expect(nearlyFlat.map((job) => job.tool.kind)).toEqual(['ball']);
    expect(nearlyFlat[0]?.setup.stock.top).toEqual({ kind: 'plane', z: 0 });
  });

  it('says what is missing: a ball cutter, waste at the ends, a ball that may take enough', () => {
    const without: Shop = { ...surfacingShop, tools: workshop.tools };
    expect(findingsOf(without, 1200)).toEqual(['no-tool-fits']);
    const short: Shop = { ...surfacingShop, allowances: { ...surfacingShop.allowances, ends: 6 } };
    expect(findingsOf(short)).toEqual(['no-land-at-ends']);
    const weak = { ...ball, stepDownShare: 0.05 };
    expect(findingsOf({ ...surfacingShop, tools: [...surfacingShop.tools.slice(0, -1), weak] })).toEqual([
      'ball-cutter-too-weak',
    ]);
  });

  it('says when ridges are wanted that the text of the program is too coarse for', () => {
    const machines = surfacingShop.machines.map((machine) =>
      machine.kind === 'router'
        ? { ...machine, controller: { ...machine.controller, units: 'in' as const, decimals: 4 } }
        : machine,
    );
    const surfacing = { ...surfacingShop.surfacing, cusp: 0.003 };
    expect(findingsOf({ ...surfacingShop, surfacing })).toEqual([]);
    // One unit of the fourth decimal of an inch is 0.00254 mm: 0.95 x 0.003 leaves 0.0003 to aim at.
    expect(findingsOf({ ...surfacingShop, machines, surfacing })).toEqual(['ridges-finer-than-text']);
  });

  it('stays with the hand unless a router is named: nothing in the plan then speaks of it', () => {
    const plan = planOf(boardOf(406.4, 'flat'), workshop);
    expect(plan.jobs.filter((job) => job.program.includes('surface'))).toEqual([]);
    expect(partsOf(boardOf(406.4, 'flat'), workshop)[0]?.features.map((f) => f.kind)).not.toContain(
      'surface',
    );
  });
});

describe('lines on a template', () => {
  const work = { ...workshop.work, slotTemplate: router.id, pinTemplate: router.id };
  const tools = [
    ...workshop.tools,
    { ...ball, id: 9, kind: 'flat' as const, diameter: 1.5, cuttingLength: 6 },
  ];

  it('are as deep as makes them as wide as they are to be: w / (2 tan(tip / 2))', () => {
    // By hand: 0.2 / (2 tan 30 deg) = 0.173205; 0.2 / (2 tan 45 deg) = 0.1.
    expect(scribingDepth(0.2, Math.PI / 3)).toBeCloseTo(0.173205, 6);
    expect(scribingDepth(0.2, Math.PI / 2)).toBeCloseTo(0.1, 12);
  });

  it('are scribed by the router’s sharpest vee cutter, before anything is cut out', () => {
    const blunt = { ...vee, id: 10, name: 'blunt', tipAngle: Math.PI / 2 };
    const plan = planOf(boardOf(406.4, 'flat'), { ...workshop, work, tools: [...tools, blunt, vee] });
    const lines = plan.jobs.filter((job) => job.operations.some((o) => o.kind === 'scribe'));
    expect(lines.map((job) => [job.program, job.operation])).toEqual([
      ['slot-template-lines.nc', 'scribed lines'],
      ['pin-template-lines.nc', 'scribed lines'],
    ]);
    for (const job of lines) {
      expect(job.kind === 'router' && job.tool.id).toBe(vee.id);
      const later = plan.jobs.filter((j) => j.part.id === job.part.id && j.order > job.order);
      expect(later.length).toBeGreaterThan(0);
      for (const other of later) expect(other.after).toContain(job.program);
    }
    expect(plan.handSteps.map((s) => s.step)).toEqual(['drill-side-markers']);
  });

  it('stay with the hand when there is no vee cutter, or none that is wide enough', () => {
    const stepsWith = (more: Shop['tools']): string[] =>
      planOf(boardOf(406.4, 'flat'), { ...workshop, work, tools: [...tools, ...more] }).handSteps.map(
        (s) => s.step,
      );
    expect(stepsWith([])).toContain('mark-lines-slot-template');
    expect(stepsWith([{ ...vee, diameter: 0.3 }])).toContain('mark-lines-pin-template');
    expect(stepsWith([vee])).not.toContain('mark-lines-slot-template');
  });
});
