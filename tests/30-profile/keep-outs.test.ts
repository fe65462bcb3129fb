/** Boxes that no tool may enter: on which machine they stand, and where they would be in the way of every program. */
import { describe, expect, it } from 'vitest';
import { planJobs } from '../../src/machining/planJobs.ts';
import { checkShop } from '../../src/profile/checkShop.ts';
import { loadShop } from '../../src/profile/loadShop.ts';
import type { KeepOut, Shop } from '../../src/profile/types.ts';
import { parlour, router, workshop } from '../support/instrument.ts';
import { partsOf } from '../support/job.ts';

const box: KeepOut = {
  name: 'left clamp',
  part: 'fingerboard',
  machine: null,
  x: [20, 40],
  y: [45, 60],
  z: [-6, 20],
};

const found = (over: Partial<KeepOut>, shop: Shop = workshop): (string | undefined)[][] =>
  checkShop({ ...shop, keepOuts: [{ ...box, ...over }] })
    .filter((f) => f.where?.path?.startsWith('keepOuts'))
    .map((f) => [f.severity, f.code, f.where?.path]);

describe('a keep-out', () => {
  it('may name its machine; left out, it stands on every one', () => {
    const read = (more: string): readonly KeepOut[] => {
      const text = `machines:
  - { kind: router, id: r, travel: { x: 600, y: 400, z: 80 }, spindle: [8000, 8000], maxFeed: { xy: 2000, z: 500 } }
keepOuts:
  - { name: clamp, part: fingerboard,${more} x: [10, 20], y: [40, 50], z: [-6, 20] }
`;
      const shop = loadShop(text, 'shop.yaml', () => null);
      if (!shop.ok) throw new Error(JSON.stringify(shop.findings));
      return shop.value.value.keepOuts;
    };
    expect(read('').map((k) => k.machine)).toEqual([null]);
    expect(read(' machine: r,').map((k) => k.machine)).toEqual(['r']);
  });

  it('guards the programs of its own machine only', () => {
    const shop: Shop = {
      ...workshop,
      work: { ...workshop.work, slotTemplate: router.id },
      keepOuts: [
        { ...box, part: 'slot-template', machine: router.id },
        { ...box, part: 'pin-template', machine: router.id, name: 'not there' },
        { ...box, part: 'pin-template', name: 'everywhere' },
      ],
    };
    const plan = planJobs(partsOf(parlour, shop), shop);
    if (!plan.ok) throw new Error(JSON.stringify(plan.findings));
    const names = (part: string): string[] => [
      ...new Set(
        plan.value.jobs
          .filter((job) => job.part.id === part)
          .flatMap((job) => job.setup.keepOuts.map((k) => k.name)),
      ),
    ];
    expect(names('slot-template')).toEqual(['left clamp']);
    expect(names('pin-template')).toEqual(['everywhere']);
  });

  it('names a machine that there is and that works on the part', () => {
    expect(found({ machine: 'smal-router' })).toEqual([['error', 'no-such-machine', 'keepOuts[0].machine']]);
    expect(found({ machine: 'sheet-laser' })).toEqual([
      ['warning', 'keep-out-guards-nothing', 'keepOuts[0].machine'],
    ]);
    expect(found({ machine: router.id })).toEqual([]);
    expect(found({})).toEqual([]);
  });

  it('cannot stand on a router and on a laser in the same place, because their work zeros differ', () => {
    const both = { ...workshop, work: { ...workshop.work, boardOutline: 'sheet-laser' } };
    expect(found({}, both)).toEqual([['warning', 'keep-out-in-two-frames', 'keepOuts[0]']]);
    expect(found({ machine: router.id }, both)).toEqual([]);
  });

  it('leaves the work zero free, where every program ends, unless it is lower than the clear height', () => {
    expect(found({ x: [-15, 5], y: [-20, 20] })).toEqual([
      ['error', 'keep-out-over-work-zero', 'keepOuts[0]'],
    ]);
    expect(found({ x: [-15, 5], y: [-20, 20], z: [-6, router.clearHeight] })).toEqual([]);
    expect(found({ x: [-15, -1], y: [-20, 20] })).toEqual([]);
    const [finding] = checkShop({ ...workshop, keepOuts: [{ ...box, x: [-15, 5], y: [-20, 20] }] }).filter(
      (f) => f.code === 'keep-out-over-work-zero',
    );
    expect(finding?.text).toContain('"left clamp"');
    expect(finding?.text).toContain('20 mm up');
  });
});

describe('a router', () => {
  it('may have one spindle speed, but not a slowest above its fastest', () => {
    const codes = (spindle: [number, number]): (string | undefined)[] =>
      checkShop({ ...workshop, machines: [{ ...router, spindle }, ...workshop.machines.slice(1)] }).map(
        (f) => f.where?.path,
      );
    expect(codes([8000, 8000])).not.toContain('machines[0].spindle');
    expect(codes([8001, 8000])).toContain('machines[0].spindle');
  });

  it('has a nut that its shanks go through', () => {
    const shop = { ...workshop, machines: [{ ...router, nut: { diameter: 3, length: 10 } }] };
    const codes = checkShop(shop)
      .filter((f) => f.code === 'nut-narrower-than-shank')
      .map((f) => f.where?.path);
    expect(codes).toContain('tools[0].shankDiameter');
    expect(codes).not.toContain('tools[3].shankDiameter');
  });
});
