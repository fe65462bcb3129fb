import { describe, expect, it } from 'vitest';
import { loadShop } from '../../src/profile/loadShop.ts';
import { soundValue } from './bundled.ts';

const load = (pockets: string) =>
  loadShop(`name: Shed\nunits: mm\n${pockets}`, 'shed.yaml', (name) =>
    name === 'base.yaml' ? 'name: Base\nunits: mm\npockets: { direction: conventional }\n' : null,
  );

describe('how a shop clears pockets', () => {
  it('is climbing, with an allowance that goes with the cutter, unless it says otherwise; and both are shown', () => {
    const { value, defaults } = soundValue(load(''));
    expect(value.pockets).toEqual({ direction: 'climb', allowance: null });
    const shown = defaults.filter((d) => d.path.startsWith('pockets.'));
    expect(shown.map((d) => [d.path, d.value])).toEqual([
      ['pockets.direction', 'climb'],
      ['pockets.allowance', '0.04 of the cutter'],
    ]);
  });

  it('is what it says, in any unit, and comes from included files too', () => {
    expect(soundValue(load('pockets: { allowance: 5 thou }')).value.pockets.allowance).toBeCloseTo(0.127, 9);
    const { value } = soundValue(load('include: [base.yaml]\npockets: { allowance: 0.2 }'));
    expect(value.pockets).toEqual({ direction: 'conventional', allowance: 0.2 });
  });

  it('is refused when it is a word of another kind or too thick to be a shaving', () => {
    const wrong = load('pockets: { direction: up, allowance: 3 }');
    expect(wrong.ok).toBe(false);
    expect(wrong.findings.map((f) => f.where?.path)).toEqual(['pockets.direction', 'pockets.allowance']);
    expect(wrong.findings[0]?.allowed).toBe('climb, conventional');
  });
});
