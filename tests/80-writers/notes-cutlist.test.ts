import { describe, expect, it } from 'vitest';
import { planCuts } from '../../src/cutlist/planCuts.ts';
import { writeCutListMarkdown } from '../../src/writers/notes/cutList.ts';
import { blank, board, dowel, piece, planOf, sheet, shopWith, stick } from '../50-parts/cutlist-support.ts';

describe('the cut list as a page', () => {
  const shop = shopWith([board({ price: null }), sheet({ price: 12.5 }), stick({ length: 140 })]);
  const plan = planOf(planCuts([blank(), piece({ count: 2 }), dowel()], shop));
  const page = writeCutListMarkdown(plan, [{ what: 'fret wire', amount: '1160 mm', note: '19 pieces' }]);

  it('gives each size in millimetres, decimal inches and the nearest sixty-fourth with its remainder', () => {
    // 450 mm = 17.7165 in; 17 46/64 = 17 23/32 in = 450.05625 mm, so the true size is 0.06 mm under.
    expect(page).toMatch(/450\.00 \|\s+17\.717 \|\s+17 23\/32 in -0\.06 mm/);
  });

  it('says what has no stock and what to buy, before anything else', () => {
    expect(page.indexOf('## No stock for these')).toBeLessThan(page.indexOf('## Totals'));
    expect(page).toContain(
      '**Dowel**, no. 1: buy a stick of any wood, 8 mm in diameter, at least 156 mm long.',
    );
  });

  it('adds up cost and board feet, and says what has no price', () => {
    // 520 x 80 x 8 mm over 144 cubic inches: 332800 / 2359737.216 = 0.141.
    expect(page).toMatch(/\| boards \|\s+1 \|\s+1 \|\s+69 % \|\s+0\.14 \|/);
    expect(page).toContain('Cost of the stock used: 12.50 EUR. 1 of the stock used has no price');
  });

  it('lists the saw cuts in order, as many as the plan has', () => {
    const cuts = page.split('\n').filter((l) => /^\d+\. (across|along), at /.test(l));
    expect(cuts).toHaveLength(plan.layouts.flatMap((l) => l.cuts).length);
    expect(page).toContain('thickness from 8.00 mm');
  });

  it('carries offcuts, things to buy and the cautions of sawing', () => {
    expect(page).toContain('Offcuts worth keeping:');
    expect(page).toMatch(/\| fret wire \| 1160 mm\s+\| 19 pieces \|/);
    expect(page).toContain('**Sawing.**');
    expect(page).toContain('**Tropical hardwood.**');
  });

  it('keeps names from a shop file as text', () => {
    const hostile = shopWith([sheet({ id: '# <i>|', material: '*x*\n## y' })]);
    const text = writeCutListMarkdown(planOf(planCuts([piece()], hostile)));
    expect(text).toContain('## \\# &lt;i&gt;\\| no. 1: sheet of \\*x\\* \\#\\# y');
  });

  it('says so when nothing is sawn', () => {
    expect(writeCutListMarkdown(planOf(planCuts([], shop)))).toContain('No stock is used.');
  });
});
