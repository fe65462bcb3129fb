import { describe, expect, it } from 'vitest';
import { checkShop } from '../../src/profile/checkShop.ts';
import { loadShop } from '../../src/profile/loadShop.ts';
import { soundValue } from './bundled.ts';

const shop = (machine: string, tool = ''): string => `name: Shed
units: mm
machines:
  - kind: router
    id: mill
    travel: { x: 600, y: 400, z: 80 }
    spindle: [8000, 24000]
    maxFeed: { xy: 2000, z: 600 }
${machine}
  - { kind: laser, id: beam, bed: { x: 600, y: 400 }, maxFeed: 6000, fullPower: 1000, settings: [] }
tools:
  - { id: 1, kind: flat, diameter: 3, cuttingLength: 12, shankDiameter: 3${tool} }
`;
const load = (text: string) => loadShop(text, 'shed.yaml', () => null);

describe('how fast a machine gains speed', () => {
  it('is read in any unit', () => {
    const text = shop('    acceleration: { xy: 10 in/s^2, z: 100 }\n    junctionSpeed: 5 mm/s');
    expect(soundValue(load(text)).value.machines[0]).toMatchObject({
      acceleration: { xy: 254, z: 100 },
      junctionSpeed: 300,
    });
  });

  it('has careful defaults that say so', () => {
    const { value, defaults } = soundValue(load(shop('')));
    expect(value.machines).toMatchObject([
      { acceleration: { xy: 200, z: 100 }, junctionSpeed: 300 },
      { acceleration: 800, junctionSpeed: 600 },
    ]);
    for (const path of ['machines[0].acceleration', 'machines[0].junctionSpeed', 'machines[1].acceleration'])
      expect(defaults.find((d) => d.path === path)?.why).toContain('only for the time estimate');
  });

  it('is refused when it is a speed', () => {
    const outcome = load(shop('    acceleration: { xy: 200 mm/s, z: 100 }'));
    expect(outcome.findings.map((f) => [f.code, f.where?.path])).toContainEqual([
      'bad-acceleration',
      'machines[0].acceleration.xy',
    ]);
  });
});

describe('how far a tool reaches out of the collet', () => {
  it('is the cutting edges and 10 mm of shank unless it is said', () => {
    const { value, defaults } = soundValue(load(shop('')));
    expect(value.tools[0]?.stickOut).toBe(22);
    expect(defaults.find((d) => d.path === 'tools[0].stickOut')?.why).toContain('shorter is stiffer');
    expect(soundValue(load(shop('', ', stickOut: 15'))).value.tools[0]?.stickOut).toBe(15);
  });

  it('cannot be less than the cutting edges', () => {
    const { value } = soundValue(load(shop('')));
    const [tool] = value.tools;
    if (tool === undefined) throw new Error('no tool');
    const codes = checkShop({ ...value, tools: [{ ...tool, stickOut: 11 }] }).map((f) => f.code);
    expect(codes).toContain('stick-out-too-short');
    expect(checkShop({ ...value, tools: [{ ...tool, stickOut: 12 }] }).map((f) => f.code)).not.toContain(
      'stick-out-too-short',
    );
  });
});
