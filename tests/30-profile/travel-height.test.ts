import { describe, expect, it } from 'vitest';
import { checkShop } from '../../src/profile/checkShop.ts';
import { loadShop } from '../../src/profile/loadShop.ts';
import { soundValue } from './bundled.ts';

const load = (heights: string) =>
  loadShop(
    `name: Shed
units: mm
machines:
  - kind: router
    id: mill
    travel: { x: 600, y: 400, z: 80 }
    spindle: [8000, 24000]
    maxFeed: { xy: 2000, z: 600 }
${heights}
`,
    'shed.yaml',
    () => null,
  );

describe('the height of travel between features', () => {
  it('is read, and is low unless it is said, with what that asks of clamps', () => {
    expect(soundValue(load('    travelHeight: 2')).value.machines[0]).toMatchObject({ travelHeight: 2 });
    const { value, defaults } = soundValue(load(''));
    expect(value.machines[0]).toMatchObject({ clearHeight: 5, travelHeight: 1.5 });
    expect(defaults.find((d) => d.path === 'machines[0].travelHeight')?.why).toContain('keepOuts');
    // Never above the clear height.
    expect(soundValue(load('    clearHeight: 1')).value.machines[0]).toMatchObject({ travelHeight: 1 });
  });

  it('is refused above the clear height, and where rapids may not go', () => {
    const { value } = soundValue(load('    clearHeight: 5'));
    const machines = value.machines.map((m) => (m.kind === 'router' ? { ...m, travelHeight: 6 } : m));
    expect(checkShop({ ...value, machines }).map((f) => [f.code, f.where?.path])).toEqual([
      ['travel-height-too-high', 'machines[0].travelHeight'],
    ]);
    expect(load('    travelHeight: 0.4').ok).toBe(false);
  });
});
