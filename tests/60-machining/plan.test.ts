import { describe, expect, it } from 'vitest';
import { segments } from '../../src/geometry/ring.ts';
import { planJobs } from '../../src/machining/planJobs.ts';
import { placeTabs } from '../../src/machining/tabs.ts';
import type { Shop } from '../../src/profile/types.ts';
import { parlour, router, workshop } from '../support/instrument.ts';
import { partsOf, planOf, routerJob } from '../support/job.ts';

describe('the plan', () => {
  it('makes every feature of every part exactly once, by a program or by a named hand step', () => {
    const plan = planOf();
    const made = [
      ...plan.jobs.flatMap((job) => job.operations.map((o) => o.feature)),
      ...plan.handSteps.flatMap((s) => s.features),
    ];
    const wanted = partsOf().flatMap((p) => p.features.map((f) => f.id));
    expect([...made].sort()).toEqual([...wanted].sort());
    expect(new Set(made).size).toBe(made.length);
  });

  it('drills pins, cuts slots and pockets, and frees the board last, each after the ones before', () => {
    const board = planOf().jobs.filter((j) => j.part.id === 'fingerboard');
    expect(board.map((j) => j.program)).toEqual([
      'fingerboard-walk-round.nc',
      'fingerboard-pins.nc',
      'fingerboard-slots.nc',
      'fingerboard-markers.nc',
      'fingerboard-outline.nc',
    ]);
    board.forEach((job, i) => {
      expect(job.after).toEqual(board.slice(0, i).map((j) => j.program));
    });
  });

  it('begins every blank on a router with one walk round, by the tool and work zero of the first cut', () => {
    const work = { ...workshop.work, radiusBlock: 'small-router' };
    const { jobs } = planOf(parlour, { ...workshop, work });
    const walks = jobs.filter((j) => j.operations.length === 0);
    expect(walks.map((j) => j.program)).toEqual(
      [...new Set(jobs.filter((j) => j.kind === 'router').map((j) => j.part.id))].map(
        (part) => `${part}-walk-round.nc`,
      ),
    );
    for (const walk of walks) {
      const first = jobs.find((j) => j.part.id === walk.part.id && j.operations.length > 0);
      if (walk.kind !== 'router' || first?.kind !== 'router') throw new Error('not a router');
      expect(walk.order).toBe(first.order - 1);
      expect(first.after).toEqual([walk.program]);
      expect([walk.tool, walk.setup.workZero]).toEqual([first.tool, first.setup.workZero]);
    }
  });

  it('walks round a blank once on each router that works on it, never for a laser', () => {
    const other = { ...router, id: 'other-router', name: 'Other router' };
    const work = { ...workshop.work, boardOutline: 'other-router' };
    const tools = workshop.tools.flatMap((t) => [t, { ...t, id: t.id + 10, machine: 'other-router' }]);
    const { jobs } = planOf(parlour, { ...workshop, machines: [...workshop.machines, other], tools, work });
    const walks = jobs.filter((j) => j.operations.length === 0);
    expect(walks.map((j) => [j.program, j.machine.id])).toEqual([
      ['fingerboard-walk-round.nc', 'small-router'],
      ['fingerboard-walk-round-2.nc', 'other-router'],
    ]);
  });

  it('keeps the walk round a program of its own on a machine that changes tools', () => {
    const control = { ...router.controller, toolChange: 'M6' as const };
    const machines = [{ ...router, controller: control }, ...workshop.machines.slice(1)];
    const { jobs } = planOf(parlour, { ...workshop, machines });
    const board = jobs.filter((j) => j.part.id === 'fingerboard');
    expect([...new Set(board.map((j) => j.program))]).toEqual([
      'fingerboard-walk-round.nc',
      'fingerboard.nc',
    ]);
    expect(board.filter((j) => j.program === 'fingerboard-walk-round.nc')).toHaveLength(1);
  });

  it('chooses a cutter no wider than the slot, and says which tool is missing when there is none', () => {
    expect(routerJob('fingerboard-slots.nc').tool.diameter).toBe(0.6);
    const shop: Shop = { ...workshop, tools: workshop.tools.filter((t) => t.diameter > 1) };
    const plan = planJobs(partsOf(), shop);
    expect(plan.ok).toBe(false);
    expect(plan.findings.map((f) => f.code)).toEqual(['no-tool-fits']);
    expect(plan.findings[0]?.allowed).toContain('a flat of 0.200 to 0.600 mm, cutting at least 3.25 mm deep');
  });

  it('leaves everything to the hand in a shop without machines', () => {
    const hand = Object.fromEntries(
      Object.keys(workshop.work).map((k) => [k, 'hand']),
    ) as unknown as Shop['work'];
    const plan = planOf(parlour, { ...workshop, machines: [], tools: [], work: hand });
    expect(plan.jobs).toEqual([]);
    expect(plan.handSteps.map((s) => s.step)).toContain('saw-fret-slots');
  });

  it('lets a laser mark the slots of a board and leaves the sawing to the hand', () => {
    const laser = workshop.machines.find((m) => m.kind === 'laser');
    if (laser?.kind !== 'laser') throw new Error('no laser');
    const setting = {
      ...laser.settings[0],
      materialClass: 'tropical hardwood',
      thickness: 6.5,
    } as (typeof laser.settings)[number];
    const plan = planOf(parlour, {
      ...workshop,
      machines: [router, { ...laser, settings: [...laser.settings, setting] }],
      work: { ...workshop.work, fretSlots: 'sheet-laser' },
    });
    const marks = plan.jobs.find((j) => j.program === 'fingerboard-slots.nc');
    expect(marks?.kind).toBe('laser');
    expect(marks?.operations).toHaveLength(19);
    expect(marks?.operations[0]?.feature).toBe('mark-fret-slot-01');
    expect(plan.handSteps.find((s) => s.step === 'saw-fret-slots')?.features).toHaveLength(19);
  });

  it('refuses pockets on a laser, untested material, and a blank too large for the machine', () => {
    const pockets = planJobs(partsOf(), {
      ...workshop,
      work: { ...workshop.work, faceMarkers: 'sheet-laser' },
    });
    expect(pockets.findings.map((f) => f.code)).toEqual(['not-for-a-laser']);
    const untested = planJobs(partsOf(), {
      ...workshop,
      work: { ...workshop.work, boardOutline: 'sheet-laser' },
    });
    expect(untested.findings.map((f) => f.code)).toEqual(['no-tested-setting']);
    const small: Shop = {
      ...workshop,
      machines: [{ ...router, travel: { x: 300, y: 200, z: 80 } }, ...workshop.machines.slice(1)],
    };
    expect(new Set(planJobs(partsOf(), small).findings.map((f) => f.code))).toEqual(
      new Set(['blank-too-large-for-machine']),
    );
  });

  it('makes flat parts on a router as well, openings before outlines', () => {
    const work = { ...workshop.work, radiusBlock: 'small-router' };
    const job = routerJob('radius-block-plates.nc', planOf(parlour, { ...workshop, work }).jobs);
    const kinds = job.operations.map((o) => o.kind);
    expect(kinds.filter((k) => k === 'bore')).toHaveLength(12);
    expect(kinds.lastIndexOf('bore')).toBeLessThan(kinds.indexOf('outline'));
  });
});

describe('feeds', () => {
  it('stay within the machine and are the product of speed, flutes and chip load', () => {
    for (const job of planOf().jobs) {
      if (job.kind !== 'router' || job.operations.length === 0) continue;
      expect(job.feeds.rpm).toBeLessThanOrEqual(router.spindle[1]);
      expect(job.feeds.feed).toBeLessThanOrEqual(router.maxFeed.xy);
      expect(job.feeds.plunge).toBeLessThanOrEqual(router.maxFeed.z);
      expect(job.feeds.feed).toBe(
        Math.floor(Math.min(job.feeds.rpm * 2 * job.feeds.chipLoad, router.maxFeed.xy)),
      );
      expect(job.feeds.boundBy).not.toBe('');
    }
  });
});

describe('tabs', () => {
  it('lie on straight sides, well away from the corners', () => {
    const outline = partsOf()[0]?.features.find((f) => f.kind === 'outline');
    if (outline?.kind !== 'outline') throw new Error('no outline');
    const tabs = placeTabs(outline.ring, 6, 1);
    expect(tabs.length).toBeGreaterThanOrEqual(4);
    const corners = segments(outline.ring).flatMap((s) => [s.from]);
    for (const tab of tabs)
      for (const corner of corners)
        expect(Math.hypot(tab.at[0] - corner[0], tab.at[1] - corner[1])).toBeGreaterThan(3 + 12);
  });
});
