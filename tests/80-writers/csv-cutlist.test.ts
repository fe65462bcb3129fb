import { describe, expect, it } from 'vitest';
import { planCuts } from '../../src/cutlist/planCuts.ts';
import { writeCutListCsv } from '../../src/writers/csv/cutList.ts';
import { blank, board, dowel, piece, planOf, sheet, shopWith } from '../50-parts/cutlist-support.ts';
import { readCsv } from './csv-support.ts';

describe('the cut list as a table', () => {
  const shop = shopWith([board({ price: null }), sheet({ id: '=ply', material: '+ply,wood' })]);
  const plan = planOf(planCuts([blank(), piece({ title: '@Plate\nx', count: 2 }), dowel()], shop));
  const [heads = [], ...rows] = readCsv(
    writeCutListCsv(plan, [{ what: 'fret wire', amount: '1160 mm', note: '19 pieces' }]),
  );
  const at = (head: string): number => heads.indexOf(head);

  it('has a row for each piece of stock, piece, offcut, missing piece and thing to buy', () => {
    const kinds = rows.map((r) => r[0]);
    const count = (kind: string): number => kinds.filter((k) => k === kind).length;
    expect(count('stock')).toBe(2);
    expect(count('piece')).toBe(3);
    expect(count('offcut')).toBe(plan.layouts.flatMap((l) => l.offcuts).length);
    expect(count('no stock')).toBe(1);
    expect(count('to buy')).toBe(1);
    expect(rows.every((r) => r.length === heads.length)).toBe(true);
  });

  it('gives lengths in millimetres and inches', () => {
    const fingerboard = rows.find((r) => r[at('piece')] === 'fingerboard') ?? [];
    expect(fingerboard[at('length as it lies (mm)')]).toBe('450.00');
    expect(fingerboard[at('length as it lies (in)')]).toBe('17.717');
    expect(fingerboard[at('x of its corner from the end of the untrimmed stock (mm)')]).toBe('3.00');
  });

  it('says when a price is not known, and what to buy', () => {
    expect(rows[0]?.[at('price')]).toBe('');
    expect(rows[0]?.[at('note')]).toBe('price not known');
    expect(rows.find((r) => r[0] === 'no stock')?.[at('note')]).toContain(
      'buy a stick of any wood, 8 mm in diameter',
    );
  });

  it('keeps names from a shop file harmless', () => {
    const ply = rows.find((r) => r[0] === 'piece' && r[at('piece')] === 'plate') ?? [];
    expect([ply[at('stock')], ply[at('material')], ply[at('title')]]).toEqual([
      "'=ply",
      "'+ply,wood",
      "'@Plate x",
    ]);
  });
});
