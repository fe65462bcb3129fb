import { describe, expect, it } from 'vitest';
import { checkInstrument } from '../../src/profile/checkInstrument.ts';
import { checkShop } from '../../src/profile/checkShop.ts';
import { checkTogether } from '../../src/profile/checkTogether.ts';
import { explainDefaults } from '../../src/profile/loaded.ts';
import { loadInstrument } from '../../src/profile/loadInstrument.ts';
import type { Instrument, Shop } from '../../src/profile/types.ts';
import { parlour, workshop } from '../support/instrument.ts';
import { bundledShop, parlourWith, soundValue } from './bundled.ts';

const load = (...changes: readonly (readonly [string, string])[]) =>
  soundValue(loadInstrument(parlourWith(...changes), 'parlour.yaml'));
const codes = (instrument: Instrument): string[] => checkInstrument(instrument).map((f) => f.code);
const template = { materialClass: 'plywood', thickness: 3, width: 22, pilot: 1 } as const;

describe('side markers in a file', () => {
  it('of a bound board are drilled once the binding is on, unless the file says before', () => {
    const bound = ['fingerboard:\n', 'fingerboard:\n  binding: { material: maple, width: 1.5 }\n'] as const;
    const loaded = load(bound);
    expect(loaded.value.sideMarkers.drilled).toBe('after binding');
    const shown = explainDefaults(loaded).find(({ path }) => path === 'sideMarkers.drilled');
    expect(shown).toMatchObject({ value: 'after binding' });
    expect(explainDefaults(load()).some(({ path }) => path === 'sideMarkers.drilled')).toBe(false);
    const before = load(bound, ['sideMarkers:\n', 'sideMarkers:\n  drilled: before binding\n']);
    expect(before.value.sideMarkers.drilled).toBe('before binding');
  });

  it('cannot be drilled into a binding that there is not', () => {
    const instrument: Instrument = {
      ...parlour,
      sideMarkers: { ...parlour.sideMarkers, drilled: 'before binding' },
    };
    expect(codes(instrument)).toEqual(['no-binding-to-drill']);
  });

  it('cannot be drilled into a strip that ends above the underside', () => {
    const strip = { material: 'maple', width: 1.5, around: 'sides', trim: 20 } as const;
    const bound = (channelDepth: number | null): Instrument => ({
      ...parlour,
      fingerboard: { ...parlour.fingerboard, binding: { ...strip, channelDepth } },
      sideMarkers: { ...parlour.sideMarkers, drilled: 'before binding' },
    });
    expect(codes(bound(3))).toContain('strip-in-a-channel');
    expect(codes(bound(null))).not.toContain('strip-in-a-channel');
  });

  it('have a template as wide as the board and a batten, by default', () => {
    const { sideMarkerTemplate } = load(['jigs:\n', 'jigs:\n  sideMarkerTemplate: {}\n']).value.jigs;
    expect(sideMarkerTemplate).toEqual({ materialClass: 'plywood', thickness: 3, width: 20, pilot: 1 });
    expect(load().value.jigs.sideMarkerTemplate).toBeNull();
  });
});

describe('the template for side markers', () => {
  const withTemplate = (
    change: Partial<typeof template> & object,
    at = parlour.sideMarkers.at,
  ): Instrument => ({
    ...parlour,
    sideMarkers: { ...parlour.sideMarkers, at },
    jigs: { ...parlour.jigs, sideMarkerTemplate: { ...template, ...change } },
  });

  it('must reach from above the blank down to a batten', () => {
    // 6.5 mm of blank, 3 above it and 6 below it: worked by hand.
    expect(codes(withTemplate({ width: 15.5 } as never))).toEqual([]);
    expect(codes(withTemplate({ width: 15.4 } as never))).toEqual(['template-too-narrow']);
  });

  it('keeps its holes apart, and is not made for no marker', () => {
    expect(codes(withTemplate({ pilot: 7.5 } as never))).toEqual(['pilots-too-close']);
    expect(codes(withTemplate({}, []))).toEqual(['template-without-markers']);
  });
});

describe('who drills side markers', () => {
  it('is the hand unless a router is named', () => {
    const shop = soundValue(bundledShop('home-shop.yaml')).value;
    expect(shop.work.sideMarkers).toBe('hand');
    expect(shop.work.sideMarkerTemplate).toBe('sheet-laser');
  });

  it('is no laser', () => {
    const shop: Shop = { ...workshop, work: { ...workshop.work, sideMarkers: 'sheet-laser' } };
    expect(checkShop(shop).map((f) => [f.code, f.where?.path])).toEqual([
      ['work-needs-depth', 'work.sideMarkers'],
    ]);
  });

  it('needs a drill or cutter that is thin and long enough', () => {
    const by = (change: Partial<Instrument['sideMarkers']>): string[] =>
      checkTogether(
        { ...parlour, sideMarkers: { ...parlour.sideMarkers, ...change } },
        { ...workshop, work: { ...workshop.work, sideMarkers: 'small-router' } },
      ).map((f) => f.code);
    expect(by({})).toEqual([]);
    expect(by({ diameter: 0.5 })).toEqual(['no-tool-thin-enough']);
    expect(by({ diameter: 1.6, depth: 25 })).toEqual(['no-tool-long-enough']);
    expect(by({ diameter: 0.5, at: [] })).toEqual([]);
  });
});
