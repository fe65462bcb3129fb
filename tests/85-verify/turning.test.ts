/** A blank turned over on two pins for its underside: every program proven, and all of them against each other. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Intent } from '../../src/intent/types.ts';
import { planJobs } from '../../src/machining/planJobs.ts';
import { checkInstrument } from '../../src/profile/checkInstrument.ts';
import type { Instrument, RodClearance, Shop, Tool } from '../../src/profile/types.ts';
import { proveFrames } from '../../src/verify/frames/proveFrames.ts';
import { prove } from '../../src/verify/prove.ts';
import type { Check } from '../../src/verify/removal/proof.ts';
import { boardWith, cone } from '../support/boards.ts';
import { numbers } from '../support/damage.ts';
import { parlour, workshop } from '../support/instrument.ts';
import { partsOf, planOf } from '../support/job.ts';
import { bytesOf } from '../support/proofSamples.ts';
import { boardPrograms, named, surfacingShop, type Written } from '../support/surfaced.ts';

const clearance: RodClearance = { width: 8, depth: 1, from: 330, length: 24 };
const withPocket = (change: Partial<RodClearance> = {}, instrument: Instrument = parlour): Instrument => ({
  ...instrument,
  trussRod: { width: 6, depth: 9, from: 0, length: 360, clearance: { ...clearance, ...change } },
  faceMarkers: { ...instrument.faceMarkers, thickness: 1.5 },
});

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
const turningShop: Shop = {
  ...surfacingShop,
  tools: [...surfacingShop.tools, drill],
  work: { ...workshop.work, boardUnderside: 'small-router' },
};

const PINS = 'fingerboard-turning-pins.nc';
const UNDER = 'fingerboard-underside.nc';

const framesOf = (
  programs: readonly { readonly text: string; readonly intent: Intent }[],
): readonly Check[] => proveFrames(programs.map(({ text, intent }) => ({ bytes: bytesOf(text), intent })));
const failed = (programs: readonly { readonly text: string; readonly intent: Intent }[]): string[] => [
  ...new Set(framesOf(programs).flatMap((c) => (c.passed ? [] : [c.name]))),
];

describe('a board with a pocket in its underside', () => {
  const programs = boardPrograms(withPocket(), turningShop);
  const [pins, under] = [named(programs, PINS), named(programs, UNDER)];

  it('is turned over before all else, and every program is proven', () => {
    expect(programs.slice(0, 2).map((p) => p.name)).toEqual([PINS, UNDER]);
    for (const program of programs) expect(prove(bytesOf(program.text), program.intent).passed).toBe(true);
    expect(failed(programs)).toEqual([]);
    expect(under.intent.after).toContain(PINS);
  });

  it('has its pins in the waste on the middle line, and six millimetres deep in the board below', () => {
    // Blank from -10 to the board's end and 10: 2 mm of waste and half a pin from either end, worked by hand.
    const board = 628 * (1 - 2 ** (-parlour.frets.count / 12)) + parlour.fingerboard.overhang;
    const places = [...pins.text.matchAll(/^G0 X([\d.]+)(?: Y([\d.-]+))?$/gm)].map((m) => Number(m[1]));
    expect(places[0]).toBeCloseTo(3, 4);
    expect(places[1]).toBeCloseTo(board + 20 - 3, 3);
    expect(pins.text).toContain('G0 X3 Y0');
    const deepest = Math.min(...[...pins.text.matchAll(/Z(-[\d.]+)/g)].map((m) => Number(m[1])));
    expect(deepest).toBeCloseTo(-6.5 - 6, 4);
    expect(pins.job.below).toBe(6);
  });

  it('has its pocket under the rod, cut from below: as far from the pin as the layout has it', () => {
    const { toPart, cuts } = under.intent;
    const xs = cuts[0]?.region?.[0]?.map(([x]) => x) ?? [];
    // Zero of that program is the first pin, 7 mm before the nut face: the blank begins 10 before it. Round ends of 4 mm.
    expect(Math.min(...xs) - 4 - 7).toBeCloseTo(330, 9);
    expect(Math.max(...xs) + 4 - 7).toBeCloseTo(354, 9);
    expect(cuts[0]?.floor).toEqual({ kind: 'plane', z: -1 });
    expect(toPart.mirrored).toBe(true);
    // The program's top is the part's underside.
    expect(toPart.matrix.map((row) => row[3])).toEqual([-7, 0, -6.5]);
    expect(toPart.workZero).toContain('X0 and Y0 on the middle of the pin at the nut end');
  });

  it('walks round again each time the blank is laid anew', () => {
    const names = planOf(withPocket(), turningShop).jobs.map((job) => job.program);
    const walks = names.flatMap((name, i) => (name.includes('walk-round') ? [names[i + 1]] : []));
    expect(walks).toEqual([PINS, UNDER, 'fingerboard-pins.nc']);
  });

  it('is refused where a hole was drilled elsewhere than the pin is said to stand', () => {
    const shifted = { ...pins, text: numbers('Y', (y) => y + 0.004)(pins.text) };
    expect(failed([shifted, under])).toEqual(['pin in its hole']);
    const stretched = { ...pins, text: numbers('X', (x) => (x > 100 ? x + 0.004 : x))(pins.text) };
    expect(failed([stretched, under])).toEqual(['pin in its hole', 'pin stays in the table']);
  });

  it('is refused where the pins do not stand on the line it is turned about', () => {
    // Both programs agree about the board, but the holes in the table lie on the other side once it is turned.
    const [zero, far] = under.intent.toPart.pins ?? [];
    const [cut, other] = pins.intent.cuts;
    if (zero === undefined || far === undefined || cut === undefined || other === undefined)
      throw new Error('no pins');
    const aside = { ...pins, text: pins.text.replace(/^(G0 X4[\d.]+)$/m, '$1 Y5') };
    const moved = other.region?.map((ring) => ring.map(([x, y, b]) => [x, y + 5, b ?? 0] as const)) ?? null;
    const intent = { ...pins.intent, cuts: [cut, { ...other, region: moved }] };
    const toPart = { ...under.intent.toPart, pins: [zero, { ...far, at: [far.at[0], -5] as const }] };
    expect(
      failed([
        { ...aside, intent },
        { ...under, intent: { ...under.intent, toPart } },
      ]),
    ).toEqual(['pin stays in the table']);
  });

  it('is refused mirrored where it should be turned, and turned where it says it is not', () => {
    const as = (toPart: Partial<Intent['toPart']>): Written => ({
      ...under,
      intent: { ...under.intent, toPart: { ...under.intent.toPart, ...toPart } },
    });
    const [a, b, c] = under.intent.toPart.matrix;
    if (a === undefined || b === undefined || c === undefined) throw new Error('no frame');
    expect(failed([pins, as({ matrix: [a, b, [0, 0, 1, c[3]]] })])).toEqual(['frame is rigid']);
    expect(failed([pins, as({ mirrored: false })])).toEqual(['mirrored as said']);
    expect(failed([pins, as({ matrix: [a.map((v) => v * 1.001) as never, b, c] })])).toContain(
      'frame is rigid',
    );
  });

  it('is refused where the holes come later, or not at all', () => {
    expect(failed([pins, { ...under, intent: { ...under.intent, after: [] } }])).toEqual([
      'pin hole drilled before',
    ]);
    // Of pins without holes nothing can be measured, and what saw nothing fails.
    expect(failed([under])).toEqual(['pin hole drilled before', 'pin in its hole', 'pin stays in the table']);
  });
});

describe('who turns the board over', () => {
  it('is nobody where the hand cuts the underside: one step, no pins', () => {
    const plan = planOf(withPocket());
    const step = plan.handSteps.find((s) => s.step === 'cut-board-underside');
    expect(step?.features).toEqual(['rod-clearance']);
    expect(plan.jobs.map((j) => j.program)).not.toContain(PINS);
    expect(partsOf(withPocket())[0]?.features.map((f) => f.id)).not.toContain('turning-pin-1');
  });

  const codes = (instrument: Instrument, shop: Shop): string[] => {
    const plan = planJobs(partsOf(instrument, shop), shop);
    return plan.findings.filter((f) => f.severity === 'error').map((f) => f.code);
  };

  it('is told when there is no waste for pins, no drill long enough, or a top that is round', () => {
    const ends = (mm: number): Shop => ({
      ...turningShop,
      allowances: { ...turningShop.allowances, ends: mm },
    });
    // 2 mm of waste, a pin of 2 mm, 3.5 mm for the outline's cutter.
    expect(codes(withPocket(), ends(7.5))).toEqual([]);
    expect(codes(withPocket(), ends(7.4))).toEqual(['no-room-for-turning-pins']);
    const short: Shop = {
      ...turningShop,
      tools: turningShop.tools.map((t) => (t.id === 9 ? { ...t, cuttingLength: 12 } : t)),
    };
    expect([...new Set(codes(withPocket(), short))]).toEqual(['no-tool-fits']);
    const round = boardWith({ surfaceWhenSlotted: 'radiused' }, withPocket());
    expect(codes(round, turningShop)).toEqual(['turned-on-a-round-top']);
    const worked = { ...turningShop, work: { ...turningShop.work, boardSurface: 'small-router' } };
    expect(codes(round, worked)).toEqual([]);
    expect(
      codes(withPocket(), { ...turningShop, work: { ...turningShop.work, boardUnderside: 'sheet-laser' } }),
    ).toEqual(['not-for-a-laser']);
  });
});

describe('the pocket over the rod', () => {
  const codes = (instrument: Instrument): string[] =>
    checkInstrument(instrument).flatMap((f) => (f.code.startsWith('clearance') ? [f.code] : []));

  it('leaves wood above it, beside it and at the board’s end', () => {
    expect(codes(withPocket())).toEqual([]);
    // 6 mm of board, 2 mm of slot, 1.5 mm that must stay: 2.5, less the little that the board has fallen 4 mm from its middle.
    const { radius, thickness } = parlour.fingerboard;
    const { slotDepth, leastWoodBelow } = parlour.frets;
    const most = thickness - slotDepth - leastWoodBelow - (radius - Math.sqrt(radius ** 2 - 16));
    const markers = { ...parlour.faceMarkers, at: [] };
    const deep = (depth: number): Instrument => ({ ...withPocket({ depth }), faceMarkers: markers });
    expect(codes(deep(most - 1e-5))).toEqual([]);
    expect(codes(deep(most + 1e-5))).toEqual(['clearance-too-deep']);
    expect(codes(withPocket({ from: 5, width: 36, length: 60 }))).toEqual(['clearance-too-wide']);
    expect(codes(withPocket({ length: 7 }))).toEqual(['clearance-too-short']);
    expect(codes(withPocket({ length: 200 }))).toEqual(['clearance-too-long']);
  });
});

describe('random pockets', () => {
  it('are proven, of either hand and under any radius', () => {
    const pocket = fc.record({
      width: fc.double({ min: 3.5, max: 14, noNaN: true }),
      depth: fc.double({ min: 0.3, max: 1.5, noNaN: true }),
      from: fc.double({ min: 5, max: 250, noNaN: true }),
      length: fc.double({ min: 16, max: 120, noNaN: true }),
      radius: fc.double({ min: 250, max: 900, noNaN: true }),
      hand: fc.constantFrom('right' as const, 'left' as const),
    });
    fc.assert(
      fc.property(pocket, ({ radius, hand, ...change }) => {
        const board = { ...withPocket(change, boardWith(cone(radius, radius * 1.2))), hand };
        const programs = boardPrograms(board, turningShop).filter(({ name }) =>
          /turning|underside/.test(name),
        );
        expect(failed(programs)).toEqual([]);
        for (const { text, intent } of programs) expect(prove(bytesOf(text), intent).passed).toBe(true);
      }),
      { numRuns: 10, seed: 4 },
    );
  }, 60_000);
});
