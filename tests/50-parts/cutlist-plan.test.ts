import { describe, expect, it } from 'vitest';
import { planCuts } from '../../src/cutlist/planCuts.ts';
import { proveCutPlan } from '../../src/verify/cutlist/proveCutPlan.ts';
import { blank, board, dowel, piece, planOf, sheet, shopWith, stick } from './cutlist-support.ts';

const provenOf = (
  pieces: Parameters<typeof planCuts>[0],
  shop: Parameters<typeof planCuts>[1],
): ReturnType<typeof planOf> => {
  const plan = planOf(planCuts(pieces, shop));
  expect(proveCutPlan(plan, pieces, shop).filter((c) => !c.passed)).toEqual([]);
  return plan;
};

describe('planning cuts', () => {
  it('puts a piece in the trimmed corner and frees it with two cuts', () => {
    const plan = provenOf([piece()], shopWith([sheet()]));
    expect(plan.layouts).toHaveLength(1);
    expect(plan.layouts[0]?.placed[0]).toMatchObject({ x: 3, y: 3, number: 1 });
    expect(plan.layouts[0]?.cuts).toHaveLength(2);
  });

  it('counts one kerf between two pieces and none past the last', () => {
    // 2 x 200 + 1 x 2 + 2 x 3 = 408: just enough; one kerf more would not fit.
    const exact = shopWith([sheet({ length: 408, width: 106 })]);
    const pieces = [piece({ count: 2, grain: true })];
    const plan = provenOf(pieces, exact);
    expect(plan.layouts[0]?.placed.map((p) => p.x).sort((a, b) => a - b)).toEqual([3, 205]);
    const short = planCuts(pieces, shopWith([sheet({ length: 407.9, width: 106 })]));
    expect(planOf(short).unplaced).toHaveLength(1);
  });

  it('turns a piece only when its grain does not matter', () => {
    const narrow = shopWith([sheet({ length: 110, width: 220 })]);
    expect(provenOf([piece()], narrow).layouts[0]?.placed[0]).toMatchObject({
      turned: true,
      length: 100,
      width: 200,
    });
    expect(planOf(planCuts([piece({ grain: true })], narrow)).unplaced).toHaveLength(1);
  });

  it('takes the cheaper of two boards that both do', () => {
    const dear = board({ id: 'dear', price: 60 });
    const cheap = board({ id: 'cheap', price: 25, length: 900 });
    expect(provenOf([blank()], shopWith([dear, cheap])).layouts.map((l) => l.stock)).toEqual(['cheap']);
  });

  it('takes the smaller board when prices are not known', () => {
    const large = board({ id: 'large', price: null, length: 900 });
    const small = board({ id: 'small', price: null });
    expect(provenOf([blank()], shopWith([large, small])).layouts.map((l) => l.stock)).toEqual(['small']);
  });

  it('buys one large sheet instead of three small ones when that costs less', () => {
    const small = sheet({ id: 'small', length: 210, width: 110, price: 4, count: 5 });
    const large = sheet({ id: 'large', length: 700, width: 220, price: 9 });
    const plan = provenOf([piece({ count: 3 })], shopWith([small, large]));
    expect(plan.layouts.map((l) => l.stock)).toEqual(['large']);
    expect(plan.totals.cost).toBe(9);
  });

  it('cuts dowels along their length only, kerf and trim counted', () => {
    // 6 x 150 + 5 x 2 + 2 x 3 = 916; a seventh needs 1068.
    const plan = provenOf([dowel({ count: 6 })], shopWith([stick()]));
    expect(plan.layouts).toHaveLength(1);
    expect(plan.layouts[0]?.cuts.every((c) => c.direction === 'across')).toBe(true);
    expect(plan.layouts[0]?.offcuts).toHaveLength(1);
    expect(provenOf([dowel({ count: 7 })], shopWith([stick({ count: 2 })])).layouts).toHaveLength(2);
  });

  it('keeps kinds, materials and thicknesses apart', () => {
    const shop = shopWith([
      board(),
      board({ id: 'thin', thickness: 6.9, price: 1 }),
      board({ id: 'maple', material: 'maple', materialClass: 'hardwood', price: 1 }),
      sheet({ id: 'ply-4', thickness: 4, price: 1 }),
      sheet({ id: 'ply-3.2', thickness: 3.2 }),
      stick({ id: 'dowel-6', width: 6, thickness: 6, price: 1 }),
      stick(),
    ]);
    const plan = provenOf([blank(), piece(), dowel()], shop);
    expect(plan.layouts.map((l) => l.stock)).toEqual(['ebony-8', 'ply-3.2', 'dowel-8']);
  });

  it('reads a material the same whatever its case and spaces', () => {
    const plan = provenOf([blank({ material: ' Ebony ' })], shopWith([board({ material: 'EBONY' })]));
    expect(plan.unplaced).toEqual([]);
  });

  it('counts board feet of the boards used', () => {
    // A board of 12 x 12 x 1 in is one board foot by definition: 144 cubic inches.
    const foot = board({ length: 304.8, width: 304.8, thickness: 25.4 });
    const plan = provenOf([blank({ length: 200 })], shopWith([foot]));
    expect(plan.totals.kinds[0]?.boardFeet).toBeCloseTo(1, 12);
    expect(plan.totals.kinds[0]?.yield).toBeCloseTo((200 * 64) / 304.8 ** 2, 12);
  });

  it('lists offcuts longer and wider than 50 mm and leaves out the strips', () => {
    const plan = provenOf(
      [piece({ length: 500, width: 200 })],
      shopWith([sheet({ length: 540, width: 306 })]),
    );
    // 540 - 6 - 500 - 2 = 32 mm beside it: a strip. 306 - 6 - 200 - 2 = 98 mm above it.
    expect(plan.layouts[0]?.offcuts).toHaveLength(1);
    expect(plan.layouts[0]?.offcuts[0]?.width).toBeCloseTo(98, 9);
  });

  it('gives the same plan every time, and whatever the price of wood it does not use', () => {
    const pieces = [piece({ count: 5 }), piece({ id: 'b', length: 130, width: 90, count: 4 })];
    const shop = shopWith([sheet({ count: 3 }), sheet({ id: 'large', length: 900, price: 22 })]);
    expect(planCuts(pieces, shop)).toEqual(planCuts(structuredClone(pieces), structuredClone(shop)));
  });
});

describe('a piece that fits nowhere', () => {
  const shop = shopWith([
    board({ id: 'short', length: 440 }),
    board({ id: 'thin', thickness: 5 }),
    board({ id: 'maple', material: 'maple', materialClass: 'hardwood' }),
    sheet(),
  ]);
  const outcome = planCuts([blank(), piece()], shop);

  it('leaves the plan of the others standing', () => {
    expect(planOf(outcome).layouts.map((l) => l.stock)).toEqual(['ply-3']);
    expect(proveCutPlan(planOf(outcome), [blank(), piece()], shop).every((c) => c.passed)).toBe(true);
  });

  it('says the size, what was tried and why, and what to buy', () => {
    const [finding] = outcome.findings;
    expect(outcome.findings).toHaveLength(1);
    expect(finding).toMatchObject({ code: 'piece-fits-no-stock', severity: 'warning' });
    expect(finding?.text).toContain('450 x 64 x 7 mm of ebony, grain along the length');
    expect(finding?.found).toBe(
      '"short": 16 mm too short once 3 mm are trimmed off each edge; "thin": only 5 mm thick; "maple": maple, not ebony',
    );
    expect(finding?.remedy).toContain('a board of ebony, at least 456 x 70 mm and at least 7 mm thick');
    expect(planOf(outcome).unplaced[0]?.buy).toContain('456 x 70');
  });

  it('would fit on what it says to buy', () => {
    const bought = board({ id: 'bought', length: 456, width: 70, thickness: 7 });
    expect(planOf(planCuts([blank()], shopWith([bought]))).unplaced).toEqual([]);
  });

  it('says when stock that would do is used up', () => {
    const two = planCuts([blank({ count: 2 })], shopWith([board()]));
    expect(planOf(two).layouts[0]?.placed).toHaveLength(1);
    expect(two.findings[0]?.text).toContain('1 of 2 has no stock');
    expect(two.findings[0]?.found).toBe('"ebony-8": all 1 are used up');
  });

  it('says when there is no stock of that kind at all', () => {
    expect(planCuts([dowel()], shopWith([]))?.findings[0]?.found).toBe('no stick in the shop file at all');
  });

  it('throws on a size that cannot be', () => {
    expect(() => planCuts([piece({ length: Number.NaN })], shop)).toThrow('size of NaN');
    expect(() => planCuts([piece({ count: 1.5 })], shop)).toThrow('count of 1.5');
  });
});
