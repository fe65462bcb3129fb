/** Side markers drilled into the board's edge: the program's own set-up, where its holes are on the instrument, and damaged ones refused. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Intent } from '../../src/intent/types.ts';
import { layOut } from '../../src/layout/layOut.ts';
import { planJobs } from '../../src/machining/planJobs.ts';
import type { Instrument, Shop, Tool } from '../../src/profile/types.ts';
import { prove } from '../../src/verify/prove.ts';
import { boardWith, cone } from '../support/boards.ts';
import { line, numbers } from '../support/damage.ts';
import { parlour, workshop } from '../support/instrument.ts';
import { partsOf, planOf } from '../support/job.ts';
import { bytesOf } from '../support/proofSamples.ts';
import { twoScales } from '../support/scales.ts';
import { boardPrograms, named, type Written } from '../support/surfaced.ts';

const [first] = workshop.tools;
if (first === undefined) throw new Error('the workshop has no tools');
const drill: Tool = {
  ...first,
  id: 9,
  name: 'drill 2',
  kind: 'drill',
  diameter: 2,
  cuttingLength: 20,
  shankDiameter: 2,
  tipAngle: (118 * Math.PI) / 180,
};
const edgeShop: Shop = {
  ...workshop,
  tools: [
    ...workshop.tools.map((tool) => (tool.id === 1 ? { ...tool, cuttingLength: 5.5, stickOut: 15 } : tool)),
    drill,
  ],
  work: { ...workshop.work, sideMarkers: 'small-router' },
};

const PROGRAM = 'fingerboard-side-markers.nc';
const sides = (instrument: Instrument, shop = edgeShop): Written =>
  named(boardPrograms(instrument, shop), PROGRAM);

type Point = readonly [x: number, y: number, z: number];

/** Where each hole's floor is in the written text: the place it rapids to, and the deepest z there, its tip taken off. */
function drilled(
  text: string,
): { readonly id: string; readonly at: readonly [number, number]; readonly z: number }[] {
  return text
    .split(/^\((?=side-marker)/m)
    .slice(1)
    .map((block) => {
      const [, x, y] = /X(-?[\d.]+) Y(-?[\d.]+)/.exec(block) ?? [];
      const depths = [...(block.split('G0 X0 Y0')[0] ?? '').matchAll(/Z(-?[\d.]+)/g)].map((m) =>
        Number(m[1]),
      );
      return {
        id: block.slice(0, block.indexOf(')')),
        at: [Number(x), Number(y)],
        z: Math.min(...depths) + 1 / Math.tan((59 * Math.PI) / 180),
      };
    });
}

const onto = ({ toPart: { matrix } }: Intent, [x, y, z]: Point): Point => {
  const [a, b, c] = matrix.map(([p, q, r, s]) => p * x + q * y + r * z + s);
  return [a ?? Number.NaN, b ?? Number.NaN, c ?? Number.NaN];
};

/** The fret's place by the rule of the twelfth root of two. */
const fretAt = (n: number): number => 628 * (1 - 2 ** (-n / 12));

describe('side markers of a right-handed board', () => {
  const program = sides(parlour);
  const { widthAtNut, widthAt, thickness, radius } = parlour.fingerboard;
  // Worked here from the widths alone: the edge is the line through half the widths at the nut and at its fret.
  const far = fretAt(widthAt.fret ?? 0);
  const lean = (widthAt.width - widthAtNut) / 2 / far;
  const expected = [
    { id: 'side-marker-05', x: (fretAt(4) + fretAt(5)) / 2 },
    { id: 'side-marker-12-a', x: (fretAt(11) + fretAt(12)) / 2 - 4 },
    { id: 'side-marker-12-b', x: (fretAt(11) + fretAt(12)) / 2 + 4 },
  ];

  it('lie along the edge from its corner at the nut end, and up from the underside', () => {
    const holes = new Map(drilled(program.text).map((hole) => [hole.id, hole]));
    expect([...holes.keys()].sort()).toEqual(expected.map(({ id }) => id));
    for (const { id, x } of expected) {
      const half = widthAtNut / 2 + lean * x;
      const hole = holes.get(id);
      expect(hole?.at[0]).toBeCloseTo(Math.hypot(x, lean * x), 4);
      // Pythagoras on the board's round: how far the surface has fallen at the edge, then `below` it.
      const fall = radius - Math.sqrt(radius ** 2 - half ** 2);
      expect(hole?.at[1]).toBeCloseTo(thickness - fall - 2.5, 4);
      expect(hole?.z).toBeCloseTo(-3, 3);
    }
  });

  it('are those of the layout once the written frame takes them there, drilled square into the edge', () => {
    const layout = layOut(parlour);
    if (!layout.ok) throw new Error('no layout');
    const crest = thickness - parlour.fingerboard.blankThickness;
    for (const { id, at } of drilled(program.text)) {
      const marker = layout.value.sideMarkers.find((m) => m.id === id);
      const top = onto(program.intent, [...at, 0]);
      [marker?.x, marker?.y, crest + (marker?.z ?? 0)].forEach((v, i) => {
        expect(Math.abs((top[i] ?? 0) - (v ?? 0))).toBeLessThan(0.0001);
      });
      const deep = onto(program.intent, [...at, -1]);
      const into = deep.map((v, i) => v - (top[i] ?? 0));
      // Square to an edge that runs (1, -lean): away from the bass side, level with the face.
      expect((into[0] ?? 0) - lean * (into[1] ?? 0)).toBeCloseTo(0, 9);
      expect(into[1]).toBeGreaterThan(0.99);
      expect(into[2]).toBeCloseTo(0, 12);
    }
  });

  it('are proven, after the outline, with a walk round of their own', () => {
    const proof = prove(bytesOf(program.text), program.intent);
    expect(proof.checks.filter((c) => !c.passed)).toEqual([]);
    expect(proof.passed).toBe(true);
    expect(program.intent.after).toContain('fingerboard-outline.nc');
    expect(program.intent.after).toContain('fingerboard-walk-round-2.nc');
    expect(planOf(parlour, edgeShop).handSteps.map((s) => s.step)).not.toContain('drill-side-markers');
  });

  it('say which edge is up, which face touches the jaw and which end the stop', () => {
    const { workZero } = program.intent.toPart;
    expect(workZero).toContain('its bass edge up');
    expect(workZero).toContain('underside against the jaw on the side of lesser Y');
    expect(workZero).toContain('its nut end to the left');
    // The nut end is square to the centreline, not to the edge: its other corner lies width x sin(lean) farther out.
    const past = widthAtNut * Math.sin(Math.atan(lean));
    expect(workZero).toContain(`lower corner ${Number(past.toFixed(2))} mm farther left`);
    expect(program.intent.stock.top).toEqual({ kind: 'plane', z: 0 });
    expect(program.intent.stock.region[0]?.map((v) => v[1]).sort()).toEqual([0, 0, 6.5, 6.5]);
  });

  it.each([
    ['0.01 mm along', numbers('X', (x) => (x === 0 ? 0 : x + 0.01))],
    ['0.01 mm up', numbers('Y', (y) => (y === 0 ? 0 : y + 0.01))],
    ['0.1 mm too deep', numbers('Z', (z) => (z < -3 ? z - 0.1 : z))],
    ['0.1 mm too shallow', numbers('Z', (z) => (z < -3 ? z + 0.1 : z))],
    ['at the other hand’s places', numbers('X', (x) => -x)],
    ['without its spindle', line('M3 S9500', null)],
  ])('are refused %s', (_what, damage) => {
    const text = damage(program.text.replace(/M3 S\d+/, 'M3 S9500'));
    expect(prove(bytesOf(text), program.intent).passed).toBe(false);
  });
});

describe('the other hand', () => {
  it('has every hole mirrored in x, the nut end to the right', () => {
    const [right, left] = [sides(parlour), sides({ ...parlour, hand: 'left' })];
    expect(drilled(left.text)).toEqual(
      drilled(right.text).map(({ id, at, z }) => ({ id, at: [-at[0], at[1]], z })),
    );
    expect(left.intent.toPart.workZero).toContain('its nut end to the right');
    expect(left.intent.toPart.workZero).toContain('every X is negative');
    expect(prove(bytesOf(left.text), left.intent).passed).toBe(true);
    expect(prove(bytesOf(right.text), left.intent).passed).toBe(false);
  });
});

const binding = { material: 'maple', width: 1.5, around: 'sides', trim: 20, channelDepth: null } as const;

describe('a bound board', () => {
  it('is drilled through its binding into the wood once that is on', () => {
    const program = sides(boardWith({ binding }));
    expect(program.intent.toPart.workZero).toContain('the board bound and standing on edge');
    expect(drilled(program.text)).toEqual(drilled(sides(parlour).text));
    const hand = planOf(boardWith({ binding })).handSteps.find((s) => s.step === 'drill-side-markers');
    expect(hand?.why).toContain('its binding is on and level');
  });

  it('or its strip is drilled right through before, at the same places along it', () => {
    const alone: Instrument = {
      ...boardWith({ binding }),
      sideMarkers: { ...parlour.sideMarkers, drilled: 'before binding' },
    };
    const program = sides(alone);
    expect(program.intent.stock.bottom).toBe(-1.5);
    expect(program.intent.cuts.every((cut) => cut.through)).toBe(true);
    expect(program.intent.toPart.workZero).toContain('the binding strip of the bass side alone');
    expect(drilled(program.text).map(({ at }) => at)).toEqual(
      drilled(sides(parlour).text).map(({ at }) => at),
    );
    expect(prove(bytesOf(program.text), program.intent).passed).toBe(true);
    const hand = planOf(alone).handSteps.find((s) => s.step === 'drill-side-markers');
    expect(hand?.why).toContain('before it is glued on');
  });
});

describe('a nut that slants', () => {
  const slanted = (bass: number, treble: number): Instrument => ({
    ...parlour,
    scale: twoScales(bass, treble, { squareCents: 700, nut: 18, saddle: 28 }),
    indexPins: { ...parlour.indexPins, place: 'none' },
    trussRod: null,
    sideMarkers: { ...parlour.sideMarkers, spread: 6 },
  });

  it('counts from the corner at the edge whichever corner lies farther out', () => {
    const [long, short] = [sides(slanted(640, 616)), sides(slanted(616, 640))];
    expect(long.intent.toPart.workZero).toContain('a stop touches it there');
    expect(short.intent.toPart.workZero).toMatch(/lower corner [\d.]+ mm farther left/);
    for (const program of [long, short])
      expect(prove(bytesOf(program.text), program.intent).passed).toBe(true);
  });
});

describe('a shop that cannot', () => {
  it('is told when the board on edge does not go under the spindle', () => {
    const low: Shop = {
      ...edgeShop,
      machines: edgeShop.machines.map((m) =>
        m.kind === 'router' ? { ...m, travel: { ...m.travel, z: 40 } } : m,
      ),
    };
    const plan = planJobs(partsOf(parlour, low), low);
    expect(plan.ok).toBe(false);
    expect(plan.findings.map((f) => f.code)).toEqual(['edge-set-up-too-large']);
    expect(plan.findings[0]?.remedy).toContain('sideMarkerTemplate');
  });

  it('is told when a laser is to drill an edge', () => {
    const shop: Shop = { ...edgeShop, work: { ...edgeShop.work, sideMarkers: 'sheet-laser' } };
    const plan = planJobs(partsOf(parlour, shop), shop);
    expect(plan.findings.map((f) => f.code)).toEqual(['not-for-a-laser']);
  });

  it('keeps clear of what stands beside the board on edge, and only of that', () => {
    const box = (part: string) => ({
      name: part,
      part,
      machine: null,
      x: [500, 520] as const,
      y: [-5, 5] as const,
      z: [-6, 12] as const,
    });
    const shop: Shop = { ...edgeShop, keepOuts: [box('fingerboard'), box('fingerboard-edge')] };
    const names = boardPrograms(parlour, shop).map(({ name, intent }) => [name, intent.keepOuts[0]?.name]);
    for (const [name, keepOut] of names)
      expect(keepOut).toBe(name === PROGRAM ? 'fingerboard-edge' : 'fingerboard');
  });
});

describe('random boards', () => {
  it('have every hole where the layout has it, below the surface by what was asked, and proven', () => {
    const board = fc.record({
      radius: fc.double({ min: 200, max: 1200, noNaN: true }),
      end: fc.double({ min: 200, max: 1200, noNaN: true }),
      nut: fc.double({ min: 40, max: 50, noNaN: true }),
      wide: fc.double({ min: 50, max: 62, noNaN: true }),
      below: fc.double({ min: 1.6, max: 2.6, noNaN: true }),
      hand: fc.constantFrom('right' as const, 'left' as const),
      when: fc.constantFrom('flat' as const, 'radiused' as const),
    });
    fc.assert(
      fc.property(board, ({ radius, end, nut, wide, below, hand, when }) => {
        const instrument: Instrument = {
          ...boardWith({
            ...cone(radius, end),
            widthAtNut: nut,
            widthAt: { fret: 12, width: wide },
            surfaceWhenSlotted: when,
          }),
          hand,
          sideMarkers: { ...parlour.sideMarkers, below },
        };
        const program = sides(instrument);
        const { thickness, blankThickness } = instrument.fingerboard;
        const boardEnd = fretAt(instrument.frets.count) + instrument.fingerboard.overhang;
        for (const { at } of drilled(program.text)) {
          const [x, y, z] = onto(program.intent, [...at, 0]);
          const half = (nut + ((wide - nut) * x) / 314) / 2;
          expect(Math.abs(y - (hand === 'right' ? -half : half))).toBeLessThan(0.0002);
          const R = radius + ((end - radius) * x) / boardEnd;
          const surface = thickness - blankThickness + Math.sqrt(R ** 2 - half ** 2) - R;
          expect(Math.abs(surface - z - below)).toBeLessThan(0.0002);
        }
        expect(prove(bytesOf(program.text), program.intent).passed).toBe(true);
      }),
      { numRuns: 25, seed: 4 },
    );
  }, 60_000);
});

describe('the template for the edge', () => {
  const template = { materialClass: 'plywood', thickness: 3, width: 22, pilot: 1 } as const;
  const withTemplate = (hand: 'right' | 'left'): Instrument => ({
    ...parlour,
    hand,
    jigs: { ...parlour.jigs, sideMarkerTemplate: template, lettering: { height: 2.5 } },
  });
  const holesOf = (instrument: Instrument) =>
    partsOf(instrument)
      .find((part) => part.id === 'side-marker-template')
      ?.features.flatMap((f) => (f.kind === 'outline' && f.keep === 'outside' ? [f] : []))
      .map(({ id, ring: [a, b] }) => {
        if (a === undefined || b === undefined) throw new Error(`${id} has no ring`);
        return [id, (a.x + b.x) / 2, (a.y + b.y) / 2] as const;
      });

  it.each(['right', 'left'] as const)('has its holes where the program of a %s hand drills them', (hand) => {
    const program = drilled(sides(withTemplate(hand)).text);
    const holes = holesOf(withTemplate(hand)) ?? [];
    expect(holes).toHaveLength(3);
    for (const { id, at } of program) {
      const hole = holes.find(([name]) => name === id.replace('side-marker-', 'side-marker-template-'));
      expect(Math.abs((hole?.[1] ?? 0) - at[0])).toBeLessThan(0.0001);
      expect(Math.abs((hole?.[2] ?? 0) - at[1])).toBeLessThan(0.0001);
    }
  });

  it('is cut by the laser, its line at the underside, with the frets’ numbers below', () => {
    const plan = planOf(withTemplate('right'));
    const job = plan.jobs.find((j) => j.program === 'side-marker-template.nc');
    expect(job?.kind).toBe('laser');
    const part = job?.part;
    const line = part?.features.find((f) => f.id === 'side-marker-template-underside');
    expect(line?.kind === 'line' && line.points.every(([, y]) => y === 0)).toBe(true);
    const numbers = part?.features.filter((f) => f.id.startsWith('side-marker-template-number-')) ?? [];
    expect(numbers.length).toBeGreaterThan(2);
    for (const f of numbers) if (f.kind === 'line') for (const [, y] of f.points) expect(y).toBeLessThan(0);
  });

  it('is not made where there are no side markers', () => {
    const none = { ...withTemplate('right'), sideMarkers: { ...parlour.sideMarkers, at: [] } };
    expect(partsOf(none).map((p) => p.id)).not.toContain('side-marker-template');
  });
});
