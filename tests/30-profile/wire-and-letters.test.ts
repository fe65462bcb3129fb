import { describe, expect, it } from 'vitest';
import { loadInstrument } from '../../src/profile/loadInstrument.ts';
import { parlourWith, soundValue } from './bundled.ts';

const loaded = (...changes: readonly (readonly [from: string, to: string])[]) =>
  soundValue(loadInstrument(parlourWith(...changes), 'p.yaml'));
const problems = (...changes: readonly (readonly [from: string, to: string])[]) =>
  loadInstrument(parlourWith(...changes), 'p.yaml').findings.map((f) => [f.severity, f.where?.path]);

describe('sticks of fret wire', () => {
  it('are as long as the file says, in its unit or another', () => {
    expect(loaded().value.fretWire.stick).toBeCloseTo(609.6, 9);
    expect(loaded(['stick: 24 in', 'stick: 300']).value.fretWire.stick).toBe(300);
  });

  it('are none when the file says nothing, and the list of defaults says so', () => {
    const { value, defaults } = loaded(['  stick: 24 in\n', '']);
    expect(value.fretWire.stick).toBeNull();
    expect(defaults.find((d) => d.path === 'fretWire.stick')?.value).toBe('none');
  });

  it('have a sensible length', () => {
    expect(problems(['stick: 24 in', 'stick: 20'])).toEqual([['error', 'fretWire.stick']]);
    expect(problems(['stick: 24 in', 'stick: long'])).toEqual([['error', 'fretWire.stick']]);
  });
});

describe('letters on the templates', () => {
  const SAID = '  lettering: { height: 3 }\n';

  it('are as high as asked, 3 mm by default, and off when not asked for', () => {
    expect(loaded([SAID, '  lettering: { height: 4.5 }\n']).value.jigs.lettering).toEqual({ height: 4.5 });
    expect(loaded([SAID, '  lettering: {}\n']).value.jigs.lettering).toEqual({ height: 3 });
    const off = loaded([SAID, '']);
    expect(off.value.jigs.lettering).toBeNull();
    expect(off.defaults.find((d) => d.path === 'jigs.lettering')?.value).toBe('none');
  });

  it('are of a height that can be cut, and know no other key', () => {
    expect(problems([SAID, '  lettering: { height: 1 }\n'])).toEqual([['error', 'jigs.lettering.height']]);
    expect(problems([SAID, '  lettering: { size: 3 }\n']).length).toBeGreaterThan(0);
  });
});
