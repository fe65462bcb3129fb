import { describe, expect, it } from 'vitest';
import { layOut } from '../../src/layout/layOut.ts';
import type { Instrument, StringBuild } from '../../src/profile/types.ts';
import type { Finding } from '../../src/report/finding.ts';
import { planStrings, pullFindingsOf } from '../../src/stringing/plan.ts';
import { readTuning } from '../../src/stringing/retune.ts';
import type { Stringing } from '../../src/stringing/types.ts';
import { parlour, plain } from '../support/instrument.ts';

const layoutOf = (instrument: Instrument) => {
  const layout = layOut(instrument);
  if (!layout.ok) throw new Error(layout.findings.map((f) => f.text).join('\n'));
  return layout.value;
};

const planned = (instrument: Instrument) => planStrings(instrument, layoutOf(instrument));

function sound(instrument: Instrument): Stringing {
  const outcome = planned(instrument);
  if (!outcome.ok) throw new Error(outcome.findings.map((f) => f.text).join('\n'));
  return outcome.value;
}

const found = (instrument: Instrument): readonly Finding[] => planned(instrument).findings;
const codes = (instrument: Instrument): string[] => found(instrument).map((f) => f.code);

const string = (i: number, change: Partial<Instrument['strings'][number]>): Instrument => ({
  ...parlour,
  strings: parlour.strings.map((s, k) => (k === i ? { ...s, ...change } : s)),
});
const saddle = (change: Partial<Instrument['bridge']['saddle']>): Instrument => ({
  ...parlour,
  bridge: { ...parlour.bridge, saddle: { ...parlour.bridge.saddle, ...change } },
});
const targets = (change: Partial<Instrument['targets']>): Instrument => ({
  ...parlour,
  targets: { ...parlour.targets, ...change },
});

describe('the strings of a parlour', () => {
  const answer = sound(parlour);

  it('pull as their mass, length and pitch say, and all together as such guitars do', () => {
    for (const { pull, tuning } of answer.strings) {
      // Nut to saddle within a hundredth of a mm of scale and set-back: the slope adds next to nothing.
      expect(pull.length).toBeCloseTo(628 + tuning.setBack, 1);
      expect(pull.tension).toBeCloseTo(4e-9 * pull.massPerMetre * (pull.length * pull.hertz) ** 2, 6);
      expect(pull.stress).toBeCloseTo(pull.tension / ((Math.PI * pull.core ** 2) / 4), 6);
      expect(pull.strengthSure).toBe(true);
      expect(pull.breaksAtHertz).toBeGreaterThan(pull.hertz);
    }
    // Common practice, no source: 660 to 740 N for a set on a guitar, 25 to 40 deg over the saddle.
    expect(answer.totals.tension).toBeGreaterThan(660);
    expect(answer.totals.tension).toBeLessThan(740);
    for (const { pull } of answer.strings) {
      const angle = ((pull.breakAngles.front + pull.breakAngles.back) * 180) / Math.PI;
      expect(angle).toBeGreaterThan(20);
      expect(angle).toBeLessThan(40);
    }
    expect(found(parlour)).toEqual([]);
  });

  it('leave the profile’s set-backs alone and set the model’s beside them', () => {
    expect(answer.strings.map((s) => s.tuning.setBack)).toEqual(parlour.strings.map((s) => s.setBack));
    for (const { tuning } of answer.strings) {
      expect(tuning.ideal.low).toBeLessThan(tuning.ideal.value);
      expect(tuning.ideal.high).toBeGreaterThan(tuning.ideal.value);
      expect(tuning.crowned).toBeCloseTo(tuning.ideal.value, 5);
      expect(tuning.leastSquares).toBeNull();
      expect(tuning.cents.profile).toHaveLength(19);
    }
  });

  it('miss least on the compensated crown, most on a square saddle', () => {
    const worst = Object.fromEntries(answer.saddles.map((s) => [s.name, s.worst.value]));
    expect(worst.crowned).toBeLessThan(worst.straight ?? 0);
    expect(worst.inSlot).toBeLessThan(worst.constant ?? 0);
    expect(worst.straight).toBeLessThan(worst.constant ?? 0);
    // The default instrument: a few cents on a plain saddle, under two on a compensated one.
    expect(worst.straight).toBeLessThan(4);
    expect(worst.crowned).toBeLessThan(2);
    for (const { worst: band } of answer.saddles) {
      expect(band.low).toBeLessThan(band.high);
      expect(band.low).toBeGreaterThan(0);
    }
    const straight = answer.saddles.find((s) => s.name === 'straight')?.line;
    expect(straight?.angle).toBeGreaterThan(0);
    expect(straight?.bass).toBeGreaterThan(straight?.treble ?? 0);
  });

  it('say from where a note would be sharp: the parts add up to the first-order set-back', () => {
    for (const { tuning } of answer.strings) {
      const { pressing, stiffness } = tuning.withoutSetBack;
      // Set-back = cents at the octave x L / 1731, first order.
      expect(((pressing + stiffness) * 628) / 1731.234 / tuning.ideal.value).toBeCloseTo(1, 0);
    }
  });

  it('are the same on a left-handed instrument', () => {
    const left = sound({ ...parlour, hand: 'left' });
    expect(left.strings.map((s) => s.tuning.straight.toFixed(6))).toEqual(
      answer.strings.map((s) => s.tuning.straight.toFixed(6)),
    );
    const line = (s: Stringing) => s.saddles.find((r) => r.name === 'straight')?.line;
    expect(line(left)?.angle).toBeCloseTo(line(answer)?.angle ?? 0, 7);
    expect(line(left)?.bass).toBeCloseTo(line(answer)?.bass ?? 0, 6);
  });

  it('come out the same twice', () => {
    expect(sound(parlour)).toEqual(answer);
  });
});

describe('what is aimed at', () => {
  it('moves the proposals, with the least-squares answer beside them', () => {
    const aimed = sound(string(0, { aimCents: -2 }));
    const plainAnswer = sound(parlour);
    const [flat, straightOn] = [aimed.strings[0]?.tuning, plainAnswer.strings[0]?.tuning];
    expect(flat?.leastSquares).toBeCloseTo(straightOn?.ideal.value ?? 0, 6);
    // Two cents flat at the octave: 2 x 628 / 1731 = 0.73 mm more.
    expect((flat?.ideal.value ?? 0) - (straightOn?.ideal.value ?? 0)).toBeCloseTo(0.73, 1);
    const octave = (cents: readonly number[] | undefined): number => cents?.[11] ?? 0;
    expect(octave(flat?.cents.crowned) - octave(straightOn?.cents.crowned)).toBeCloseTo(-2, 1);
    expect(aimed.strings[3]?.tuning.ideal.value).toBeCloseTo(
      plainAnswer.strings[3]?.tuning.ideal.value ?? 0,
      6,
    );
  });

  it('proposes a nut when it may move', () => {
    expect(sound(parlour).nut).toBeNull();
    const free = sound({ ...parlour, intonation: { ...parlour.intonation, nut: 'free' } });
    expect(free.nut?.proposed).toBeGreaterThan(0);
    expect(free.nut?.proposed).toBeLessThan(1);
    expect(free.nut?.worst).toBeLessThan(free.saddles.find((s) => s.name === 'crowned')?.worst.value ?? 0);
    expect(free.nut?.setBacks).toHaveLength(6);
  });

  it('weighs what the profile weighs', () => {
    const wide = saddle({ width: 12 });
    const low = sound({ ...wide, intonation: { ...parlour.intonation, fretWeights: [0, 0, 1, 1] } });
    expect(low.counted).toEqual([3, 4]);
    for (const { tuning } of low.strings) {
      const errors = [tuning.cents.crowned[2] ?? 9, tuning.cents.crowned[3] ?? 9];
      expect(Math.max(...errors.map(Math.abs))).toBeLessThan(0.3);
    }
    const heard = sound(string(0, { importance: 50 }));
    const straight = heard.strings[0]?.tuning;
    expect(straight?.straight).toBeCloseTo(straight?.ideal.value ?? 0, 0);
  });
});

const build = (i: number, change: Partial<StringBuild>): Instrument =>
  string(i, { build: { ...(parlour.strings[i]?.build as StringBuild), ...change } });

describe('what cannot be', () => {
  it('a string that would break, with stress, limit and the pitch it bears', () => {
    const [finding] = found(string(5, { pitch: 'C5', hertz: 523.25 }));
    expect(finding).toMatchObject({
      code: 'string-breaks',
      severity: 'error',
      where: { source: 'instrument', path: 'strings[5].pitch' },
    });
    // 7850 x (2 x 0.62961 x 523.25)^2 = 3408 MPa in a wire that bears 2599 (ASTM A228, 0.012 in).
    expect(finding?.text).toMatch(/3408 MPa in a core of 0.305 mm/);
    expect(finding?.allowed).toMatch(/less than 2599 MPa \(ASTM A228 minimum\): up to 457 Hz/);
    expect(pullFindingsOf(string(5, { pitch: 'C5', hertz: 523.25 }), layoutOf(parlour))[0]).toEqual(finding);
    // A thicker wire bears no higher a pitch: a little less, even.
    const thick = found(
      string(5, { pitch: 'C5', hertz: 523.25, gauge: 0.4, build: { ...plain(12), core: 0.4 } }),
    );
    expect(thick[0]?.code).toBe('string-breaks');
  });

  it('only warns where the core was not measured or the strength is from memory', () => {
    const guessed = { pitch: 'C4', hertz: 261.63 };
    const wound = string(3, {
      ...guessed,
      build: { ...(parlour.strings[3]?.build as StringBuild), coreGiven: false },
    });
    expect(found(wound)[0]).toMatchObject({ code: 'string-breaks', severity: 'warning' });
    expect(found(wound)[0]?.text).toContain('measure it');
    expect(found(string(3, guessed))[0]?.severity).toBe('error');
    const gut = string(5, { gauge: 0.6, build: { ...plain(12), core: 0.6, material: 'gut' } });
    expect(found(gut).map((f) => [f.code, f.severity])).not.toContainEqual(['string-breaks', 'error']);
    const known = string(5, { build: { ...plain(12), strength: 1000 } });
    expect(found(known)[0]).toMatchObject({ code: 'string-breaks', severity: 'error' });
  });

  it('a string near its limit, from three quarters of it on', () => {
    // Stress goes with the square of pitch: 329.63 Hz is 52 %.
    expect(codes(string(5, { hertz: 329.63 * Math.sqrt(0.74 / 0.52) }))).toEqual([]);
    expect(codes(string(5, { hertz: 329.63 * Math.sqrt(0.77 / 0.52) }))).toContain('string-near-breaking');
  });

  it('a string that would lift off the saddle, or hardly press it', () => {
    const lifted = found(saddle({ height: -4, ramp: 1 }));
    expect(lifted.map((f) => f.code)).toEqual(Array(6).fill('no-down-bearing'));
    expect(lifted[0]?.text).toMatch(/-\d+\.\d N of down-bearing/);
    expect(lifted[0]?.severity).toBe('error');
    expect(new Set(codes(saddle({ height: 1, ramp: 0 })))).toEqual(new Set(['little-down-bearing']));
    expect(found(saddle({ height: 1, ramp: 0 }))[0]?.severity).toBe('warning');
  });

  it('a saddle narrower than the crowns need, with both widths', () => {
    const needs = sound(parlour).saddleWidth.needs;
    expect(codes(saddle({ width: needs + 0.001 }))).toEqual([]);
    const [finding] = found(saddle({ width: needs - 0.1 }));
    expect(finding).toMatchObject({ code: 'saddle-narrow', severity: 'warning' });
    expect(finding?.text).toContain(`${needs.toFixed(1)} mm wide`);
    const profileNeeds = sound(parlour).saddleWidth.profileNeeds;
    expect(profileNeeds).toBeLessThan(needs);
    expect(codes(saddle({ width: profileNeeds + 0.001 }))).not.toContain('saddle-narrow-for-set-backs');
    expect(codes(saddle({ width: profileNeeds - 0.001 }))).toContain('saddle-narrow-for-set-backs');
    const narrow = sound(saddle({ width: 1 }));
    // The crowns stay inside: half of 1.0 less the edge of 0.3.
    for (const { tuning } of narrow.strings) expect(Math.abs(tuning.lean)).toBeLessThanOrEqual(0.2 + 1e-9);
  });

  it('a set out of balance, naming both strings', () => {
    const [finding] = found(build(0, { massPerMetre: 18 }));
    expect(finding).toMatchObject({ code: 'set-unbalanced', severity: 'warning' });
    expect(finding?.text).toMatch(
      /^String 1 \(E2\) pulls with 196 N and string 6 \(E4\) with 99 N: 2.0 times/,
    );
  });

  it('strings that lie on frets, and a nut below them', () => {
    expect(
      codes(targets({ relief: 0, actionBass: 0.3, actionTreble: 0.3, firstFretBass: 0, firstFretTreble: 0 })),
    ).toEqual(expect.arrayContaining(['nut-too-low']));
    const low = found(targets({ actionBass: 0.5, firstFretBass: 2, relief: 0 }));
    expect(low.map((f) => f.code)).toContain('string-on-fret');
  });

  it('an action measured at the first fret', () => {
    const outcome = planned(targets({ actionFret: 1 }));
    expect(outcome.ok).toBe(false);
    expect(outcome.findings.map((f) => f.code)).toEqual(['action-at-first-fret']);
    expect(pullFindingsOf(targets({ actionFret: 1 }), layoutOf(parlour))).toEqual([]);
  });
});

describe('other tunings of the same set', () => {
  const read = (notes?: string, concertPitch?: string) => readTuning(parlour, { notes, concertPitch });

  it('pull less when tuned down, with the square of the pitch', () => {
    const other = read('D2 A2 D3 G3 A3, D4');
    if (!other.ok || other.value === null) throw new Error('not read');
    const outcome = planStrings(parlour, layoutOf(parlour), other.value);
    if (!outcome.ok) throw new Error('no plan');
    const { retuned, strings, totals } = outcome.value;
    const first = retuned?.strings[0];
    expect((first?.pull.tension ?? 0) / (strings[0]?.pull.tension ?? 1)).toBeCloseTo(2 ** (-4 / 12), 5);
    expect(retuned?.strings[1]?.change).toBeCloseTo(0, 3);
    expect(retuned?.total).toBeLessThan(totals.tension);
    expect(first?.ideal).toBeGreaterThan(strings[0]?.tuning.ideal.value ?? 0);
    expect(first?.atOctave).toBeGreaterThan(strings[0]?.tuning.cents.profile[11] ?? 0);
  });

  it('follow any concert pitch: 415 Hz is a factor of (415/440)^2 in tension', () => {
    const other = read(undefined, '415 Hz');
    if (!other.ok || other.value === null) throw new Error('not read');
    const outcome = planStrings(parlour, layoutOf(parlour), other.value);
    if (!outcome.ok) throw new Error('no plan');
    expect((outcome.value.retuned?.total ?? 0) / outcome.value.totals.tension).toBeCloseTo(
      (415 / 440) ** 2,
      5,
    );
  });

  it('are refused in words when they cannot be read', () => {
    for (const [notes, pitch, text] of [
      ['E2 A2 D3', undefined, '3 notes and the instrument has 6'],
      ['E2 A2 D3 G3 B3 H4', undefined, 'H4'],
      ['E2 A2 D3 G3 B3 E', undefined, 'no octave'],
      [undefined, '300', 'not a concert pitch'],
      [undefined, 'high', 'not a concert pitch'],
    ] as const) {
      const outcome = read(notes, pitch);
      expect(outcome.ok).toBe(false);
      expect(outcome.findings[0]).toMatchObject({ code: 'bad-tuning', severity: 'error' });
      expect(outcome.findings[0]?.text).toContain(text);
    }
    expect(read()).toEqual({ ok: true, value: null, findings: [] });
  });
});
