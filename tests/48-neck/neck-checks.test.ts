/** Bad necks and heads are answered at the field that has to change; what is named as allowed is taken. */
import { describe, expect, it } from 'vitest';
import { checkLayout } from '../../src/checks/checkLayout.ts';
import { fallOfHead } from '../../src/checks/neckWood.ts';
import { checkInstrument } from '../../src/profile/checkInstrument.ts';
import type { Headstock, Instrument, NeckBlank } from '../../src/profile/types.ts';
import { DEGREE, headstock, layoutOf, necked, withHead } from '../support/neck.ts';

const onLayout = (instrument: Instrument) => checkLayout(layoutOf(instrument), instrument);
const pathsOf = (instrument: Instrument, code: string): (string | undefined)[] =>
  onLayout(instrument)
    .filter((f) => f.code === code)
    .map((f) => f.where?.path);

const onePiece: Partial<NeckBlank> = { build: 'one piece', heel: 'one piece', thickness: 90 };
const withRod = (change: Partial<NonNullable<Instrument['trussRod']>>): Instrument => ({
  ...necked,
  trussRod: { ...(necked.trussRod as NonNullable<Instrument['trussRod']>), ...change },
});

describe('a sound neck', () => {
  it('is not remarked on, right or left, scarfed or in one piece', () => {
    for (const instrument of [necked, withHead({}, {}, onePiece), { ...necked, hand: 'left' as const }]) {
      expect(onLayout(instrument).filter((f) => f.severity !== 'note')).toEqual([]);
      const about = checkInstrument(instrument).filter((f) =>
        /headstock|neckBlank/.test(f.where?.path ?? ''),
      );
      expect(about).toEqual([]);
    }
  });
});

describe('tuners', () => {
  it('too near the edge are refused at the field that puts them there', () => {
    expect(pathsOf(withHead({}, { fromCentre: 30, knob: null }), 'tuner-too-near-edge')).toEqual([
      'headstock.tuners.fromCentre',
      'headstock.tuners.fromCentre',
    ]);
    expect(pathsOf(withHead({}, { fromCentreLast: 29, knob: null }), 'tuner-too-near-edge')).toContain(
      'headstock.tuners.fromCentreLast',
    );
    const [finding] = onLayout(withHead({}, { apart: 60 })).filter((f) => f.code === 'tuner-too-near-edge');
    expect(finding?.text).toMatch(/string [34]/);
  });

  it('leave just the wood that is said: at the limit they pass, a tenth beyond it they do not', () => {
    const straight = { kind: 'sizes', tip: 0, corner: 0 } as const;
    const outline = { ...straight, length: 170, shoulder: 30, widthAtShoulder: 72, widthAtTip: 72 };
    // Half of 72, less half a bushing of 10, less 5 of wood: 26 from the centreline.
    const at = (fromCentre: number) =>
      pathsOf(
        withHead({ outline }, { fromCentre, fromCentreLast: fromCentre, knob: null }),
        'tuner-too-near-edge',
      );
    expect(at(26)).toEqual([]);
    expect(at(26.1)).toHaveLength(6);
  });

  it('widen with a reamer, and then want more wood', () => {
    const plain = { knob: null, bushing: null, hole: 9.5, leastEdge: 8 };
    expect(pathsOf(withHead({}, plain), 'tuner-too-near-edge')).toEqual([]);
    expect(
      pathsOf(withHead({}, { ...plain, reamerTaper: 0.25 }), 'tuner-too-near-edge').length,
    ).toBeGreaterThan(0);
  });

  it('want knobs clear of the head and of each other', () => {
    expect(pathsOf(withHead({}, { knob: { reach: 13, width: 16 } }), 'knob-under-head')).toContain(
      'headstock.tuners.fromCentre',
    );
    expect(pathsOf(withHead({}, { knob: { reach: 20, width: 41.5 } }), 'knobs-collide')).toEqual([
      'headstock.tuners.apart',
    ]);
  });

  it('must not stand in the way of strings that go farther', () => {
    const found = onLayout(withHead({}, { fromCentre: 16, fromCentreLast: 20, knob: null }));
    const at = found.filter((f) => f.code === 'string-at-post');
    expect(at.some((f) => f.severity === 'error')).toBe(true);
    expect(at[0]?.where?.path).toBe('headstock.tuners.fromCentre');
  });

  it('far to the side bend their strings', () => {
    const wide = { ...headstock.outline, widthAtShoulder: 84 } as Headstock['outline'];
    const found = onLayout(withHead({ outline: wide }, { first: 32, fromCentre: 32 }, { width: 95 }));
    expect(found.filter((f) => f.code === 'string-bent-sideways').map((f) => f.severity)).toContain(
      'warning',
    );
  });

  it('and their fields must agree', () => {
    const codes = (instrument: Instrument): string[] => checkInstrument(instrument).map((f) => f.code);
    expect(codes(withHead({}, { onBassSide: 7 }))).toContain('more-tuners-than-strings');
    expect(codes(withHead({}, { apart: 10, fromCentreLast: 45 }))).toContain('posts-too-close');
    expect(codes(withHead({}, { bushing: { diameter: 7, depth: 5 } }))).toContain(
      'bushing-narrower-than-hole',
    );
    expect(codes(withHead({}, { bushing: { diameter: 10, depth: 16 } }))).toContain(
      'bushing-deeper-than-head',
    );
    expect(codes(withHead({}, { post: 9 }))).toContain('post-wider-than-hole');
    expect(codes(withHead({ angle: 3 * DEGREE }))).toContain('scarf-too-flat');
    expect(codes({ ...necked, neckBlank: null })).toContain('headstock-without-blank');
  });
});

describe('the wood of a neck', () => {
  it('refuses a head angle that breaks through the blank, and takes the one that it names', () => {
    const thin = (degrees: number) =>
      withHead({ angle: degrees * DEGREE }, {}, { ...onePiece, thickness: 50, heel: 'stacked' });
    const [finding] = onLayout(thin(15)).filter((f) => f.code === 'head-breaks-through-blank');
    expect(finding?.where?.path).toBe('headstock.angle');
    // By hand: 170 sin 15 + 14 cos 15 = 44.00 + 13.52 = 57.52, more than 50.
    expect(fallOfHead(170, 14, 15 * DEGREE)).toBeCloseTo(57.522, 3);
    const most = Number(/at most ([\d.]+) deg/.exec(finding?.allowed ?? '')?.[1]);
    expect(pathsOf(thin(most - 0.01), 'head-breaks-through-blank')).toEqual([]);
    expect(pathsOf(thin(most + 0.01), 'head-breaks-through-blank')).toEqual(['headstock.angle']);
  });

  it('refuses a scarf whose seam comes up in the heel', () => {
    const flat = withHead({ angle: 5 * DEGREE, thickness: 20 }, {}, { heelLength: 120 });
    expect(pathsOf(flat, 'scarf-runs-into-heel')).toEqual(['headstock.angle']);
  });

  it('refuses a blank too narrow for the head, or too thin for a heel in one piece', () => {
    expect(pathsOf(withHead({}, {}, { width: 70 }), 'neck-wider-than-blank')).toEqual(['neckBlank.width']);
    expect(pathsOf(withHead({}, {}, { heel: 'one piece' }), 'heel-deeper-than-blank')).toEqual([
      'neckBlank.thickness',
    ]);
  });

  it('refuses a rod longer than the neck, and takes the length that it names', () => {
    const [finding] = onLayout(withRod({ length: 380 })).filter((f) => f.code === 'rod-longer-than-neck');
    expect(finding?.where?.path).toBe('trussRod.length');
    const most = Number(/at most ([\d.]+) mm/.exec(finding?.allowed ?? '')?.[1]);
    expect(most).toBeCloseTo(374 - necked.nut.setForward, 6);
    expect(pathsOf(withRod({ length: most }), 'rod-longer-than-neck')).toEqual([]);
  });

  it('refuses channel and pockets that leave too little below or beside them', () => {
    expect(pathsOf(withRod({ depth: 16.5 }), 'too-little-under-rod')).toEqual(['trussRod.depth']);
    const anchor = { length: 14, width: 40, depth: 17 };
    expect(pathsOf(withRod({ anchor }), 'too-little-under-rod')).toEqual(['trussRod.anchor.depth']);
    expect(pathsOf(withRod({ anchor }), 'too-little-beside-rod')).toEqual(['trussRod.anchor.width']);
    expect(pathsOf(withRod({ filler: 9.5 }), 'filler-fills-channel')).toEqual(['trussRod.filler']);
  });

  it('counts the wood below a channel that goes on under the head’s face', () => {
    // 20 before the break: 14 / cos 15 + 20 tan 15 = 14.494 + 5.359 = 19.853 below the neck's plane; less 16 are 3.853.
    const rod = { from: -26, length: 300, depth: 16 };
    const {
      anchor: _anchor,
      adjuster: _adjuster,
      ...plain
    } = necked.trussRod as NonNullable<Instrument['trussRod']>;
    const found = onLayout({ ...necked, trussRod: { ...plain, ...rod } });
    expect(found.find((f) => f.code === 'too-little-under-rod')?.text).toContain('3.85 mm');
  });

  it('warns of an index pin that the neck does not reach', () => {
    const far = { ...necked, indexPins: { ...necked.indexPins, frets: [2, 18] as const } };
    expect(pathsOf(far, 'index-pin-past-neck')).toEqual(['indexPins.frets[1]']);
    expect(pathsOf(necked, 'index-pin-past-neck')).toEqual([]);
  });

  it('keeps the rod out of the tuners', () => {
    const near = { at: 'head', length: 40, width: 30, depth: 10, access: 52 } as const;
    const wide = withRod({ adjuster: near });
    expect(pathsOf(wide, 'rod-at-tuner')).toContain('trussRod.from');
  });
});
