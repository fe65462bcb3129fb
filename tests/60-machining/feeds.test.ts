import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { rectangle } from '../../src/geometry/ring.ts';
import type { Ring } from '../../src/geometry/types.ts';
import { cuttingForce } from '../../src/machining/cuttingForce.ts';
import { tipDeflection } from '../../src/machining/deflection.ts';
import { chooseFeeds } from '../../src/machining/feeds.ts';
import { chooseStepDown } from '../../src/machining/stepDown.ts';
import { thinningFactor } from '../../src/machining/thinning.ts';
import type { BoreOperation, OutlineOperation } from '../../src/machining/types.ts';
import type { MaterialClass, Router, Tool } from '../../src/profile/types.ts';
import { router, workshop } from '../support/instrument.ts';

const byId = (id: number): Tool => {
  const tool = workshop.tools.find((t) => t.id === id);
  if (tool === undefined) throw new Error(`no tool ${id}`);
  return tool;
};
const slotCutter: Tool = { ...byId(1), stickOut: 14 };
const eighth = byId(3);
const drill = byId(4);

const EBONY = 'tropical hardwood';
const CLASSES: readonly MaterialClass[] = [
  EBONY,
  'hardwood',
  'softwood',
  'plywood',
  'mdf',
  'acrylic',
  'card',
];
const bore = (diameter: number): BoreOperation => ({
  id: 'bore',
  feature: 'bore',
  kind: 'bore',
  at: [0, 0],
  diameter,
  z: -1.5,
  through: false,
  direction: 'climb',
});

describe('spindle speed', () => {
  it('of a 1/8 in cutter at 18000 rpm is 179.54 m/min at the edge', () => {
    // Vc = pi d n: 3.175 mm at 18000 rpm.
    const slow: Router = { ...router, spindle: [8000, 18000] };
    expect(chooseFeeds(eighth, EBONY, slow).surfaceSpeed).toBeCloseTo(179.54, 2);
  });

  it('is held by the spindle for a thin cutter, and says so', () => {
    const feeds = chooseFeeds(slotCutter, EBONY, router);
    expect(feeds.rpm).toBe(24000);
    expect(feeds.spindleBoundBy).toContain('limited by spindle speed, 24000 rpm');
    expect(feeds.boundBy).toBe('limited by spindle speed, 24000 rpm');
  });

  it('falls with the diameter of a thick one: 300 m/min over pi x 8 mm is 11936', () => {
    const feeds = chooseFeeds({ ...eighth, diameter: 8, shankDiameter: 8, chipLoad: 0.02 }, EBONY, router);
    expect(feeds.rpm).toBe(11900);
    expect(feeds.spindleBoundBy).toBe('300 m/min at the edge in tropical hardwood');
  });

  it('is lowered where the machine cannot feed fast enough, so that chips keep their thickness', () => {
    // Plywood at 1/8 in: 0.0762 mm a tooth wants 3658 mm/min at 24000; 2500 mm/min fits 2500 / 0.1524 = 16404 rpm.
    const feeds = chooseFeeds(eighth, 'plywood', router);
    expect(feeds.rpm).toBe(16400);
    expect(feeds.feed).toBe(2499);
    expect(feeds.chip).toBeCloseTo(0.0762, 4);
    expect(feeds.boundBy).toContain("limited by the machine's feed, 2500 mm/min");
  });

  it('is not lowered below the slowest: then the chips are thinner, and it says so', () => {
    const slow: Router = { ...router, maxFeed: { xy: 500, z: 200 } };
    const feeds = chooseFeeds(eighth, 'plywood', slow);
    expect(feeds.rpm).toBe(8000);
    expect(feeds.feed).toBe(500);
    expect(feeds.chip).toBeCloseTo(500 / 16000, 12);
    expect(feeds.spindleBoundBy).toContain('slowest');
    expect(feeds.boundBy).toContain('thinner than aimed at');
  });
});

describe('feed', () => {
  it('is rpm x flutes x chip load: 18000 x 2 x 0.05 = 1800, and 2 x 0.1 x 18000 = 3600', () => {
    const wide: Router = { ...router, spindle: [8000, 18000], maxFeed: { xy: 6000, z: 3000 } };
    expect(chooseFeeds({ ...eighth, chipLoad: 0.05 }, EBONY, wide).feed).toBe(1800);
    expect(chooseFeeds({ ...eighth, chipLoad: 0.1 }, EBONY, wide).feed).toBe(3600);
  });

  it('takes the shop’s own chip load before any table', () => {
    const feeds = chooseFeeds({ ...slotCutter, chipLoad: 0.007 }, EBONY, router);
    expect([feeds.feed, feeds.source]).toEqual([336, 'given for this tool in the shop file']);
    expect(chooseFeeds(slotCutter, EBONY, router).feed).toBe(288);
  });

  it('down is 0.3 of the feed sideways, or what the machine can do', () => {
    expect(chooseFeeds(slotCutter, EBONY, router).plunge).toBe(86);
    const lame: Router = { ...router, maxFeed: { xy: 2500, z: 50 } };
    const feeds = chooseFeeds(slotCutter, EBONY, lame);
    expect(feeds.plunge).toBe(50);
    expect(feeds.plungeBoundBy).toBe("limited by the machine's feed up and down, 50 mm/min");
  });

  it('stays within the machine for any tool, material and machine', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...CLASSES),
        fc.double({ min: 0.3, max: 12, noNaN: true }),
        fc.integer({ min: 1, max: 4 }),
        fc.integer({ min: 60, max: 8000 }),
        fc.integer({ min: 20, max: 3000 }),
        fc.constantFrom('flat' as const, 'drill' as const),
        (material, diameter, flutes, xy, z, kind) => {
          const tool: Tool = { ...eighth, kind, diameter, flutes, shankDiameter: Math.max(diameter, 3) };
          const feeds = chooseFeeds(tool, material, { ...router, maxFeed: { xy, z } }, [
            bore(diameter * 1.5),
          ]);
          expect(feeds.rpm).toBeGreaterThanOrEqual(router.spindle[0]);
          expect(feeds.rpm).toBeLessThanOrEqual(router.spindle[1]);
          expect(feeds.feed).toBeLessThanOrEqual(kind === 'drill' ? z : xy);
          expect(feeds.plunge).toBeLessThanOrEqual(z);
          expect(feeds.chip).toBeLessThanOrEqual(feeds.chipLoad + 1 / (feeds.rpm * flutes));
          expect(feeds.finish?.feed ?? 1).toBeLessThanOrEqual(xy);
          expect(feeds.finish?.feed ?? feeds.feed).toBeGreaterThanOrEqual(feeds.feed);
          expect(Math.min(feeds.feed, feeds.plunge, feeds.stepDown)).toBeGreaterThan(0);
        },
      ),
      { seed: 5, numRuns: 500 },
    );
  });
});

describe('the force on a cutter', () => {
  it('is depth x (edge + chip x thickness) x sqrt(1 + 0.5^2)', () => {
    // 0.3 x (3 + 60 x 0.007) = 1.026; x 1.118034 = 1.147103 N.
    expect(cuttingForce(EBONY, 0.007, 0.3, 2)).toBeCloseTo(1.147103, 6);
    // 1.5 x (2 + 40 x 0.05) = 6; x 1.118034 = 6.708204 N; with four flutes two cut at once.
    expect(cuttingForce('hardwood', 0.05, 1.5, 2)).toBeCloseTo(6.708204, 6);
    expect(cuttingForce('hardwood', 0.05, 1.5, 4)).toBeCloseTo(13.416408, 6);
    expect(cuttingForce('hardwood', 0.05, 1.5, 1)).toBeCloseTo(6.708204, 6);
  });

  it('is largest in tropical hardwood of all woods', () => {
    for (const wood of ['hardwood', 'softwood', 'plywood', 'mdf'] as const)
      expect(cuttingForce(wood, 0.03, 1, 2)).toBeLessThan(cuttingForce(EBONY, 0.03, 1, 2));
  });
});

describe('how far a cutter bends', () => {
  it('is F L^3 / (3 E I) for a bar of one thickness', () => {
    // Shank as thick as the flutes' core, 0.7 x 4 = 2.8 mm: I = pi 2.8^4 / 64 = 3.017186 mm^4; 10 N on 20 mm:
    // 10 x 8000 / (3 x 600000 x 3.017186) = 0.014730 mm.
    const bar: Tool = { ...eighth, diameter: 4, shankDiameter: 2.8, cuttingLength: 9, stickOut: 20 };
    expect(tipDeflection(bar, 10)).toBeCloseTo(0.01473, 6);
    expect(tipDeflection({ ...bar, cuttingLength: 17 }, 10)).toBeCloseTo(0.01473, 6);
  });

  it('of a bar in two thicknesses is the sum of its parts, by the area of moments', () => {
    // 0.6 mm cutter, 3.5 mm of flutes of core 0.42 (I 1.527451e-3), 14 mm out on a 3.175 mm shank (I 4.988139), 1.147103 N:
    // flutes 42.875 / 1.527451e-3 = 28069.65, shank (2744 - 42.875) / 4.988139 = 541.51; sum 28611.2 x 1.147103 / 1.8e6.
    expect(tipDeflection(slotCutter, 1.147103)).toBeCloseTo(0.018233, 5);
  });

  it('of two thicknesses agrees with adding up small slices', () => {
    const tool: Tool = { ...eighth, diameter: 2, shankDiameter: 3, cuttingLength: 8, stickOut: 22 };
    const slices = 100_000;
    let sum = 0;
    for (let i = 0; i < slices; i += 1) {
      const x = ((i + 0.5) * 22) / slices;
      const d = x < 8 ? 1.4 : 3;
      sum += (x * x * 22) / slices / ((Math.PI * d ** 4) / 64);
    }
    expect(tipDeflection(tool, 5)).toBeCloseTo((5 * sum) / 600_000, 5);
  });

  it('grows with the third power of the stick-out and falls with the fourth of the diameter', () => {
    const bar: Tool = { ...eighth, diameter: 4, shankDiameter: 2.8, cuttingLength: 5, stickOut: 10 };
    expect(tipDeflection({ ...bar, cuttingLength: 10, stickOut: 20 }, 1)).toBeCloseTo(
      8 * tipDeflection(bar, 1),
      12,
    );
    expect(tipDeflection({ ...bar, diameter: 8, shankDiameter: 5.6 }, 1)).toBeCloseTo(
      tipDeflection(bar, 1) / 16,
      12,
    );
  });
});

describe('step down', () => {
  it('of a stiff cutter is a share of its diameter in the material', () => {
    const stub: Tool = { ...eighth, cuttingLength: 6, stickOut: 12 };
    const step = chooseStepDown(stub, EBONY, 0.0355);
    expect(step.stepDown).toBeCloseTo(1.5875, 12);
    expect(step.boundBy).toBe('0.5 times the diameter in tropical hardwood');
    expect(step.bend.tip).toBeLessThan(0.02);
  });

  it('of a long one is made shallower until the tip bends 0.02 mm, and says so', () => {
    // 1/8 in, 15 mm of flutes (core 2.2225, I 1.197652), 25 out: (3375/1.197652 + 12250/4.988139) / 1.8e6 = 0.0029298 mm/N;
    // 1 mm deep at 0.0355: (3 + 2.13) x 1.118034 = 5.735514 N, 0.016804 mm. 0.02 / 0.016804 = 1.190.
    const step = chooseStepDown(eighth, EBONY, 0.0355);
    expect(step.stepDown).toBe(1.19);
    expect(step.boundBy).toBe('limited by deflection, 0.02 mm at the tip');
    expect(step.bend.tip).toBeCloseTo(1.19 * 0.016804, 5);
    expect(step.bend.force).toBeCloseTo(1.19 * 5.735514, 5);
  });

  it('of one that bends whatever is done stays at 0.05 of the diameter, and says so', () => {
    const whip: Tool = { ...slotCutter, cuttingLength: 12, stickOut: 25 };
    const step = chooseStepDown(whip, EBONY, 0.006);
    expect(step.stepDown).toBeCloseTo(0.03, 12);
    expect(step.bend.tip).toBeGreaterThan(0.02);
    expect(step.boundBy).toContain('take a shorter or thicker cutter');
  });

  it('that the shop states is kept, and said when it bends the tip too far', () => {
    const own = chooseStepDown({ ...eighth, stepDownShare: 1 }, EBONY, 0.0355);
    expect(own.stepDown).toBe(3.175);
    expect(own.boundBy).toBe("the shop's own share, 1 times the diameter; the tip bends more than 0.02 mm");
    const light = chooseStepDown({ ...eighth, stepDownShare: 0.1 }, EBONY, 0.0355);
    expect(light.boundBy).toBe("the shop's own share, 0.1 times the diameter");
  });

  it('is never deeper than the cutting edges are long', () => {
    const stub: Tool = { ...eighth, diameter: 12, shankDiameter: 12, cuttingLength: 3, stickOut: 20 };
    expect(chooseStepDown(stub, 'softwood', 0.05)).toMatchObject({
      stepDown: 3,
      boundBy: 'limited by the length of the cutting edges',
    });
  });
});

describe('a drill', () => {
  it('feeds 2 % of its diameter a turn in ebony and pecks its diameter', () => {
    // 60 m/min over pi x 1.6 = 11937 rpm; 0.032 mm a turn.
    const feeds = chooseFeeds(drill, EBONY, router);
    expect(feeds.rpm).toBe(11900);
    expect(feeds.plunge).toBe(Math.floor(11900 * 0.032));
    expect(feeds.stepDown).toBeCloseTo(1.6, 12);
    expect([feeds.bend, feeds.finish]).toEqual([null, null]);
    expect(feeds.source).toContain('2 % of the diameter a turn in tropical hardwood');
    expect(feeds.stepDownBoundBy).toContain('so that the flutes clear');
  });

  it('feeds faster and pecks deeper in softer wood, but never more than 0.2 mm a turn', () => {
    const pine = chooseFeeds(drill, 'softwood', router);
    expect(pine.plunge).toBe(Math.floor(11900 * 0.064));
    expect(pine.stepDown).toBeCloseTo(3.2, 12);
    const thick = chooseFeeds({ ...drill, diameter: 12 }, 'softwood', { ...router, spindle: [1000, 24000] });
    expect(thick.chipLoad * 2).toBeCloseTo(0.2, 12);
  });

  it('is slowed, not starved, by a machine that is slow up and down', () => {
    const feeds = chooseFeeds(drill, 'softwood', { ...router, maxFeed: { xy: 2500, z: 600 } });
    expect(feeds.rpm).toBe(9300);
    expect(feeds.plunge).toBe(Math.floor(9300 * 0.064));
    expect(feeds.boundBy).toContain("limited by the machine's feed up and down, 600 mm/min");
  });

  it('thinner than 1 mm pecks half as deep; the shop’s own figures come first', () => {
    expect(chooseFeeds({ ...drill, diameter: 0.8 }, EBONY, router).stepDown).toBeCloseTo(0.4, 12);
    const own = chooseFeeds({ ...drill, chipLoad: 0.01, stepDownShare: 0.75 }, EBONY, router);
    expect(own.stepDown).toBeCloseTo(1.2, 12);
    expect(own.plunge).toBe(Math.floor(11900 * 0.02));
    expect(own.stepDownBoundBy).toContain("the shop's own share");
  });
});

describe('a job that only bores', () => {
  // Radius (5.05 - 3.175) / 2 = 0.9375: sqrt(250 x 0.9375) = 15.309 mm/s = 918 mm/min.
  it('is fed as fast as the machine can go round the smallest bore, with the spindle slowed to suit', () => {
    const feeds = chooseFeeds(eighth, EBONY, router, [bore(7.05), bore(5.05)]);
    // 918 / (2 x 0.03556) = 12908 rpm.
    expect(feeds.rpm).toBe(12900);
    expect(feeds.feed).toBe(917);
    expect(feeds.chip).toBeCloseTo(0.03556, 4);
    expect(feeds.boundBy).toContain(
      "limited by the machine's acceleration round the smallest bore, 918 mm/min",
    );
    expect(feeds.spindleBoundBy).toContain('slowed so that chips stay thick enough');
  });

  it('on a machine without that limit goes as fast as any other', () => {
    const quick: Router = { ...router, acceleration: { xy: 20_000, z: 5000 } };
    expect(chooseFeeds(eighth, EBONY, quick, [bore(5.05)]).feed).toBe(1706);
  });
});

describe('the finishing ring of a bore', () => {
  const quick: Router = { ...router, acceleration: { xy: 20_000, z: 5000 } };

  it('is fed faster by as much as its chips are thinner', () => {
    // Smallest bore 5.05: thinning 1.5199 (see chip thinning).
    const fast: Router = { ...quick, maxFeed: { xy: 5000, z: 800 } };
    const { finish } = chooseFeeds(eighth, EBONY, fast, [bore(7.05), bore(5.05)]);
    expect(finish?.thinning).toBeCloseTo(1.5199, 4);
    expect(finish?.feed).toBe(Math.floor(1706 * 1.51992));
    expect(finish?.boundBy).toContain('as thick as those of a full cut');
  });

  it('is never fed faster than the machine, straight or round the ring', () => {
    // 1706 x 1.5199 = 2592 > 2500.
    expect(chooseFeeds(eighth, EBONY, quick, [bore(5.05)]).finish).toMatchObject({
      feed: 2500,
      boundBy: "limited by the machine's feed, 2500 mm/min",
    });
    expect(chooseFeeds(eighth, EBONY, router, [bore(5.05)]).finish).toMatchObject({
      feed: 918,
      boundBy: "limited by the machine's acceleration round the smallest bore, 918 mm/min",
    });
  });

  it('is not there where nothing is bored', () => {
    expect(chooseFeeds(eighth, EBONY, router).finish).toBeNull();
  });
});

describe('the last pass along walls', () => {
  const outline = (ring: Ring, allowance = 0.127): OutlineOperation => ({
    id: 'part',
    feature: 'part',
    kind: 'outline',
    direction: 'climb',
    finish: { allowance, stepDown: 5, lead: null },
    ring,
    keep: 'inside',
    z: -6,
    tabs: [],
    skin: null,
  });
  const square = rectangle({ x: [0, 60], y: [0, 40] });
  const roomy: Router = { ...router, maxFeed: { xy: 9000, z: 900 } };

  it('is fed faster by 1 / sin t, t the arc of the cutter in the strip, outside a part with straight sides', () => {
    const { feed, wall } = chooseFeeds(eighth, 'hardwood', roomy, [outline(square)]);
    const t = Math.acos(1 - 0.127 / (3.175 / 2));
    expect(wall?.thinning).toBeCloseTo(1 / Math.sin(t), 9);
    expect(wall?.thinning).toBeCloseTo(thinningFactor(0.127 / 3.175), 9);
    expect(wall?.feed).toBe(Math.floor(feed / Math.sin(t)));
    expect(wall?.boundBy).toContain('raised until');
  });

  it('stops at what the machine feeds, and says so', () => {
    const { wall } = chooseFeeds(eighth, 'hardwood', router, [outline(square)]);
    expect(wall?.feed).toBe(router.maxFeed.xy);
    expect(wall?.boundBy).toBe(`limited by the machine's feed, ${router.maxFeed.xy} mm/min`);
  });

  it('is not raised where a wall turns sharply toward the cutter', () => {
    const bay = [...square.slice(0, 3), { x: 30, y: 20, bulge: 0 }, ...square.slice(3)];
    const { feed, wall } = chooseFeeds(eighth, 'hardwood', roomy, [outline(bay)]);
    expect(wall?.feed).toBe(feed);
    expect(wall?.boundBy).toContain('not raised');
  });

  it('is none where nothing is left for it', () => {
    expect(chooseFeeds(eighth, 'hardwood', router, [{ ...outline(square), finish: null }]).wall).toBeNull();
  });
});
