import { describe, expect, it } from 'vitest';
import { layOut } from '../../src/layout/layOut.ts';
import { checkInstrument } from '../../src/profile/checkInstrument.ts';
import { offStraightSaddle } from '../../src/profile/checkSaddle.ts';
import { loadInstrument } from '../../src/profile/loadInstrument.ts';
import type { Instrument } from '../../src/profile/types.ts';
import { benchSheet } from '../../src/sheet/benchSheet.ts';
import { parlourWith } from './bundled.ts';
import { block, equalCentres, parlour, setBacks, template } from './variations.ts';

const found = (instrument: Instrument) =>
  checkInstrument(instrument).map(({ code, severity, where }) => [code, severity, where?.path]);

describe('strings and the straight saddle', () => {
  it('are measured as the layout measures them, for both spacings', () => {
    for (const instrument of [parlour, equalCentres(parlour), setBacks([1, 5, -2, 7, 0, 3])]) {
      const layout = layOut(instrument);
      if (!layout.ok) throw new Error('no layout');
      const sheet = benchSheet(layout.value, instrument);
      offStraightSaddle(instrument).forEach((off, i) => {
        expect(off).toBeCloseTo(sheet.offSaddle[i] ?? Number.NaN, 9);
      });
    }
  });

  it('are warned of where a point has slipped: 25 for 2.5', () => {
    const slipped = parlourWith(['setBack: 2.5', 'setBack: 25']);
    const { ok, findings } = loadInstrument(slipped, 'p.yaml');
    expect(ok).toBe(true);
    expect(findings.map(({ code, severity, where }) => [code, severity, where?.path, where?.line])).toEqual([
      ['off-straight-saddle', 'warning', 'strings[2].setBack', 25],
      ['set-backs-differ', 'warning', 'strings[2].setBack', 25],
    ]);
    expect(findings[1]?.text).toBe(
      'String 3 has a set-back of 25 mm; beside it string 2 has 3.2 mm and string 4 has 2 mm.',
    );
  });

  it('are named once each, the outer ones too', () => {
    expect(
      found(setBacks([16, 3.2, 2.5, 2, 2.8, 1.6])).filter(([code]) => code === 'set-backs-differ'),
    ).toEqual([['set-backs-differ', 'warning', 'strings[0].setBack']]);
    const [off] = checkInstrument(setBacks([4.5, 5.5, 2.5, 5, 2.8, 1.6]));
    expect(off?.text).toMatch(/string 2 lies 1\.\d+ mm behind it, string 4 lies 2\.\d+ mm behind it\.$/);
    expect(off?.where?.path).toBe('strings[3].setBack');
  });

  it('have no line to be off with one string or two', () => {
    const few = (count: number): Instrument => ({
      ...parlour,
      headstock: null,
      strings: parlour.strings.slice(0, count),
    });
    expect(found(few(1))).toEqual([]);
    expect(found(few(2)).map(([code]) => code)).not.toContain('off-straight-saddle');
  });
});

describe('jigs that cannot be cut', () => {
  it.each<[string, Instrument, string, string]>([
    [
      'pilot holes through the edge',
      template({ pilot: 6, margin: 2 }),
      'pilot-at-edge',
      'jigs.pinTemplate.margin',
    ],
    [
      'dowels thicker than their plates',
      block({ dowelDiameter: 25, height: 15 }),
      'dowel-too-thick',
      'jigs.radiusBlock.dowelDiameter',
    ],
    [
      'plates too narrow for two dowels',
      block({ dowelDiameter: 8, width: 20 }),
      'dowel-too-thick',
      'jigs.radiusBlock.dowelDiameter',
    ],
  ])('%s are errors at their field, with what is allowed and what to do', (_, instrument, code, path) => {
    expect(found(instrument)).toEqual([[code, 'error', path]]);
    const [finding] = checkInstrument(instrument);
    expect(finding?.allowed).toMatch(/^at (least|most) [\d.]+ mm/);
    expect(finding?.remedy).toMatch(/\.$/);
  });

  it('say so when no dowel at all fits', () => {
    // A hollow of radius 50 rises 10 into a plate 60 wide, which leaves the dowels nothing below 15.
    const low = block({ width: 60, height: 15, padding: 0, dowelDiameter: 3 });
    const [finding] = checkInstrument({ ...low, fingerboard: { ...parlour.fingerboard, radius: 50 } }).filter(
      ({ where }) => where?.path?.startsWith('jigs'),
    );
    expect(finding?.code).toBe('dowel-too-thick');
    expect(finding?.allowed).toBe('no dowel fits these plates');
  });

  it('name a width that is then accepted, when the hollow is too high', () => {
    const tight = (width: number): Instrument => ({
      ...block({ width, height: 20, padding: 0, dowelDiameter: 3 }),
      fingerboard: { ...parlour.fingerboard, radius: 60 },
    });
    const [finding] = checkInstrument(tight(110)).filter(({ code }) => code === 'block-too-wide');
    const most = Number(/[\d.]+/.exec(finding?.allowed ?? '')?.[0]);
    const codesAt = (width: number) => found(tight(width)).map(([code]) => code);
    expect(codesAt(most - 0.01)).not.toContain('block-too-wide');
    expect(codesAt(most + 0.01)).toContain('block-too-wide');
  });

  it('are not looked at when they are not wanted', () => {
    expect(
      found({
        ...parlour,
        jigs: {
          radiusBlock: null,
          pinTemplate: null,
          slotTemplate: null,
          bridgeTemplate: null,
          bridgeCaul: null,
          pinGauges: null,
          nutAndSaddle: null,
          sideMarkerTemplate: null,
          lettering: null,
        },
      }),
    ).toEqual([]);
  });
});
