import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { planCuts } from '../../src/cutlist/planCuts.ts';
import type { CutPlan, PlacedPiece, StockLayout } from '../../src/cutlist/types.ts';
import type { Piece } from '../../src/parts/types.ts';
import type { Shop, StockItem } from '../../src/profile/types.ts';
import { isGuillotine } from '../../src/verify/cutlist/guillotine.ts';
import { proveCutPlan } from '../../src/verify/cutlist/proveCutPlan.ts';
import { blank, board, dowel, piece, planOf, sheet, shopWith, stick } from './cutlist-support.ts';

const SEED = 20240611;

const length = fc.integer({ min: 40, max: 3500 }).map((n) => n / 10);
const kind = fc.constantFrom('sheet' as const, 'sheet' as const, 'board' as const, 'stick' as const);

const somePiece = (index: number): fc.Arbitrary<Piece> =>
  fc
    .record({
      kind,
      material: fc.constantFrom(null, null, 'ebony', 'birch plywood'),
      length,
      width: length,
      thickness: fc.constantFrom(3, 3, 5),
      count: fc.integer({ min: 1, max: 5 }),
      grain: fc.boolean(),
    })
    .map((p) => piece({ ...p, id: `piece-${index}`, title: `Piece ${index}`, materialClass: null }));

const someStock = (index: number): fc.Arbitrary<StockItem> =>
  fc
    .record({
      kind,
      material: fc.constantFrom('ebony', 'Birch  Plywood'),
      length: fc.integer({ min: 500, max: 9000 }).map((n) => n / 10),
      width: fc.integer({ min: 500, max: 6000 }).map((n) => n / 10),
      thickness: fc.constantFrom(3, 3.2, 5.05),
      count: fc.integer({ min: 0, max: 4 }),
      price: fc.option(fc.integer({ min: 1, max: 80 }), { nil: null }),
    })
    .map((s) => sheet({ ...s, id: `stock-${index}` }));

const listOf = <T>(make: (index: number) => fc.Arbitrary<T>, most: number): fc.Arbitrary<T[]> =>
  fc.integer({ min: 1, max: most }).chain((n) => fc.tuple(...Array.from({ length: n }, (_, i) => make(i))));

describe('the proof of a cut plan', () => {
  it('passes whatever is planned for random pieces, stock, kerfs and trims', () => {
    let placed = 0;
    let turned = 0;
    let reported = 0;
    fc.assert(
      fc.property(
        listOf(somePiece, 6),
        listOf(someStock, 5),
        fc.constantFrom(0, 0.8, 2.4),
        fc.constantFrom(0, 1.7, 5),
        (pieces, stock, sawKerf, trim) => {
          const shop = shopWith(stock, { sawKerf, trim });
          const plan = planOf(planCuts(pieces, shop));
          expect(proveCutPlan(plan, pieces, shop).filter((c) => !c.passed)).toEqual([]);
          const all = plan.layouts.flatMap((l) => l.placed);
          placed += all.length;
          turned += all.filter((p) => p.turned).length;
          reported += plan.unplaced.length;
        },
      ),
      { seed: SEED, numRuns: 250 },
    );
    // The property means something only when each case occurs.
    expect(Math.min(placed, turned, reported)).toBeGreaterThan(50);
  });
});

describe('a damaged cut plan', () => {
  const pieces = [
    blank(),
    piece({ count: 4 }),
    piece({ id: 'strip', length: 300, width: 60, grain: true }),
    dowel({ count: 2 }),
  ];
  const shop = shopWith([
    board(),
    board({ id: 'maple', material: 'maple', materialClass: 'hardwood' }),
    sheet(),
    sheet({ id: 'ply-6', thickness: 6 }),
    stick(),
  ]);
  const plan = planOf(planCuts(pieces, shop));

  const failing = (damaged: CutPlan, wanted: readonly Piece[] = pieces, inShop: Shop = shop): string[] =>
    proveCutPlan(damaged, wanted, inShop)
      .filter((c) => !c.passed)
      .map((c) => c.name);

  const withLayout = (stock: string, change: (layout: StockLayout) => StockLayout): CutPlan => ({
    ...plan,
    layouts: plan.layouts.map((l) => (l.stock === stock ? change(l) : l)),
  });

  const withPiece = (id: string, number: number, change: (p: PlacedPiece) => PlacedPiece): CutPlan => ({
    ...plan,
    layouts: plan.layouts.map((l) => ({
      ...l,
      placed: l.placed.map((p) => (p.piece === id && p.number === number ? change(p) : p)),
    })),
  });

  it('is whole before it is damaged', () => {
    expect(failing(plan)).toEqual([]);
    expect(
      proveCutPlan(plan, pieces, shop).every((c) => c.seen > 0 || c.name.startsWith('no piece is left')),
    ).toBe(true);
  });

  const faults: [string, CutPlan, string][] = [
    [
      'a piece lost',
      withLayout('ply-3', (l) => ({ ...l, placed: l.placed.slice(1) })),
      'each piece is placed or reported once',
    ],
    [
      'a piece cut twice',
      withLayout('ply-3', (l) => ({ ...l, placed: [...l.placed, ...l.placed.slice(0, 1)] })),
      'each piece is placed or reported once',
    ],
    [
      'a piece nobody wants',
      withPiece('plate', 1, (p) => ({ ...p, piece: 'stranger' })),
      'each piece is placed or reported once',
    ],
    [
      'a piece of another size',
      withPiece('plate', 1, (p) => ({ ...p, length: p.length - 0.1 })),
      'each piece has its size',
    ],
    [
      'a size that is not a number',
      withPiece('plate', 1, (p) => ({ ...p, width: Number.NaN })),
      'each piece has its size',
    ],
    [
      'a place that is not a number',
      withPiece('plate', 1, (p) => ({ ...p, x: Number.NaN })),
      'each piece is inside its trimmed stock',
    ],
    [
      'a piece in the trim',
      withPiece('fingerboard', 1, (p) => ({ ...p, x: 2 })),
      'each piece is inside its trimmed stock',
    ],
    [
      'half a kerf',
      withPiece('dowel', 2, (p) => ({ ...p, x: p.x - 1 })),
      'a kerf lies between any two pieces',
    ],
    [
      'two pieces in one place',
      withLayout('ply-3', (l) => ({
        ...l,
        placed: l.placed.map((p) => (p.piece === 'plate' ? { ...p, x: 3, y: 3 } : p)),
      })),
      'a kerf lies between any two pieces',
    ],
    [
      'a piece across the grain',
      withPiece('strip', 1, (p) => ({ ...p, turned: true, length: p.width, width: p.length })),
      'the grain is kept',
    ],
    [
      'the wrong wood',
      withLayout('ebony-8', (l) => ({ ...l, stock: 'maple', material: 'maple' })),
      'material and thickness are right',
    ],
    [
      'the wrong thickness',
      withLayout('ply-3', (l) => ({ ...l, stock: 'ply-6', thickness: 6 })),
      'material and thickness are right',
    ],
    [
      'stock that is larger than it is',
      withLayout('ply-3', (l) => ({ ...l, length: 601 })),
      'the stock is what the shop has',
    ],
    [
      'a second board of one',
      withLayout('ebony-8', (l) => ({ ...l, number: 2 })),
      'the stock is what the shop has',
    ],
    [
      'stock nobody has',
      withLayout('ebony-8', (l) => ({ ...l, stock: 'none' })),
      'the stock is what the shop has',
    ],
    [
      'a cut left out',
      withLayout('ply-3', (l) => ({ ...l, cuts: l.cuts.slice(1) })),
      'the cuts in their order free each piece',
    ],
    [
      'a cut that stops short',
      withLayout('ply-3', (l) => ({
        ...l,
        cuts: l.cuts.map((c, i) => (i === 0 ? { ...c, to: c.to - 5 } : c)),
      })),
      'the cuts in their order free each piece',
    ],
    [
      'cuts in the wrong order',
      withLayout('ply-3', (l) => ({ ...l, cuts: [...l.cuts].reverse() })),
      'the cuts in their order free each piece',
    ],
    [
      'an offcut over a piece',
      withLayout('ply-3', (l) => ({ ...l, offcuts: [{ x: 3, y: 3, length: 100, width: 100 }] })),
      'offcuts are free wood worth keeping',
    ],
    [
      'a wrong price',
      { ...plan, totals: { ...plan.totals, cost: plan.totals.cost - 1 } },
      'the totals add up',
    ],
    ['another kerf', { ...plan, sawKerf: 0 }, 'the stock is what the shop has'],
  ];

  it.each(faults)('is refused: %s', (_, damaged, check) => {
    expect(failing(damaged)).toContain(check);
  });

  it('is refused: a piece reported as having no stock that would fit', () => {
    const lazy: CutPlan = {
      ...plan,
      layouts: plan.layouts.filter((l) => l.stock !== 'ebony-8'),
      unplaced: [{ piece: 'fingerboard', title: 'Fingerboard', number: 1, buy: 'a board' }],
    };
    expect(failing(lazy)).toContain('no piece is left out needlessly');
  });

  it('is refused: no pieces, so nothing was looked at', () => {
    expect(failing(planOf(planCuts([], shop)), [])).toContain('each piece is placed or reported once');
  });
});

describe('cutting by straight cuts', () => {
  // Five pieces around a middle one: the smallest layout that no straight cut can part.
  const wheel = [
    { x: 0, y: 0, length: 20, width: 10 },
    { x: 20, y: 0, length: 10, width: 20 },
    { x: 10, y: 20, length: 20, width: 10 },
    { x: 0, y: 10, length: 10, width: 20 },
    { x: 10, y: 10, length: 10, width: 10 },
  ];

  it('refuses a wheel of pieces, and takes it once a piece is gone', () => {
    expect(isGuillotine(wheel, 0)).toBe(false);
    wheel.forEach((_, i) => {
      const four = wheel.filter((__, k) => k !== i);
      expect(isGuillotine(four, 0)).toBe(i !== 4);
    });
  });

  it('wants the whole kerf in the way of the saw', () => {
    const two = [
      { x: 0, y: 0, length: 20, width: 10 },
      { x: 22, y: 0, length: 20, width: 10 },
    ];
    expect(isGuillotine(two, 2)).toBe(true);
    expect(isGuillotine(two, 2.4)).toBe(false);
  });

  it('is refused in a plan', () => {
    const pieces = wheel.map((w, i) =>
      piece({ id: `w${i}`, length: w.length * 10, width: w.width * 10, grain: true }),
    );
    const shop = shopWith([sheet({ length: 300, width: 300 })], { sawKerf: 0, trim: 0 });
    const plan = planOf(planCuts(pieces, shop));
    const [layout] = planOf(planCuts([pieces[0] as Piece], shop)).layouts;
    const forged: CutPlan = {
      ...plan,
      unplaced: [],
      layouts: [
        {
          ...(layout as StockLayout),
          placed: wheel.map((w, i) => ({
            piece: `w${i}`,
            title: 'Plate',
            number: 1,
            x: w.x * 10,
            y: w.y * 10,
            length: w.length * 10,
            width: w.width * 10,
            thickness: 3,
            turned: false,
          })),
        },
      ],
    };
    const checks = proveCutPlan(forged, pieces, shop);
    expect(checks.find((c) => c.name === 'a kerf lies between any two pieces')?.passed).toBe(true);
    expect(checks.find((c) => c.name === 'straight cuts part all pieces')?.passed).toBe(false);
  });
});
