import { describe, expect, it } from 'vitest';
import { parseAcceleration } from '../../src/units/acceleration.ts';

describe('accelerations', () => {
  it.each<[string | number, number]>([
    [250, 250],
    ['250', 250],
    ['250 mm/s^2', 250],
    ['250mm/s2', 250],
    ['0.25 m/s²', 250],
    ['10 in/s^2', 254],
    ['1/2 in / sec^2', 12.7],
  ])('%j is %d mm/s^2', (written, wanted) => {
    expect(parseAcceleration(written, 'mm')).toEqual({ ok: true, value: wanted });
  });

  it('counts a bare number in the unit of the file', () => {
    expect(parseAcceleration(10, 'in')).toEqual({ ok: true, value: 254 });
    expect(parseAcceleration('10', 'in')).toEqual({ ok: true, value: 254 });
    expect(parseAcceleration('10/s^2', 'in')).toEqual({ ok: true, value: 254 });
  });

  it.each<[string | number, RegExp]>([
    ['', /empty/],
    ['250 mm/s', /"mm\/s" is not a unit of acceleration/],
    ['250 mm', /"mm" is not a unit of acceleration/],
    ['fast', /no number in front/],
    ['2 kg/s^2', /not an acceleration that can be used/],
    [Number.NaN, /not an acceleration that can be used/],
  ])('refuses %j', (written, sentence) => {
    const parsed = parseAcceleration(written, 'mm');
    expect(parsed.ok ? `read as ${parsed.value}` : parsed.problem).toMatch(sentence);
  });
});
