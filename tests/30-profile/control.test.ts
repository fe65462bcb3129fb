import { describe, expect, it } from 'vitest';
import { loadShop } from '../../src/profile/loadShop.ts';
import type { Controller } from '../../src/profile/types.ts';

const shop = (control: string, beam = ''): string => `name: Shed
machines:
  - kind: router
    id: mill
    travel: { x: 600, y: 400, z: 80 }
    spindle: [8000, 24000]
    maxFeed: { xy: 2000 mm/min, z: 600 mm/min }
    controller: { ${control} }
  - kind: laser
    id: beam
    bed: { x: 600, y: 400 }
    maxFeed: 6000 mm/min
    fullPower: 1000
    settings:
      - materialClass: plywood
        thickness: 3
        kerf: 0.18
        cut: { power: 80 %, speed: 600 mm/min, pierce: 0.3 }
        mark: { power: 12 %, speed: 2400 mm/min }
    controller: { ${beam} }
`;

function controlOf(text: string, machine = 0): Controller {
  const loaded = loadShop(shop(text), 'shop.yaml', () => null);
  if (!loaded.ok) throw new Error(JSON.stringify(loaded.findings));
  const found = loaded.value.value.machines[machine];
  if (found === undefined) throw new Error('no machine');
  return found.controller;
}

function codesOf(text: string, beam = ''): string[] {
  return loadShop(shop(text, beam), 'shop.yaml', () => null).findings.map(
    (f) => `${f.code} ${f.where?.path ?? ''}`,
  );
}

describe('what a control understands', () => {
  it('is the least and the most careful when nothing is said, each default with its reason', () => {
    expect(controlOf('')).toEqual({
      arcPlanes: [],
      drillCycles: false,
      exactPath: false,
      corners: null,
      straightRapids: false,
      workOffset: 'G54',
      dwellUnit: 'seconds',
      lengthOffset: 'G49',
      programEnd: 'M2',
      units: 'mm',
      decimals: 4,
      comments: true,
      lineNumbers: false,
      numbering: { start: 5, step: 5 },
      percentLines: false,
      wordSpaces: true,
      lineLength: 255,
      toolChange: 'none',
      beamWord: 'M3',
    });
    const loaded = loadShop(shop(''), 'shop.yaml', () => null);
    if (!loaded.ok) throw new Error('not loaded');
    const said = loaded.value.defaults.filter((d) => d.path.startsWith('machines[0].controller.'));
    expect(said.map((d) => d.path.split('.').at(-1)).sort()).toEqual(
      Object.keys(controlOf(''))
        .filter((key) => key !== 'beamWord')
        .sort(),
    );
    for (const { why } of said) expect(why.length).toBeGreaterThan(5);
  });

  it('writes five digits of an inch unless told otherwise', () => {
    expect(controlOf('units: in').decimals).toBe(5);
    expect(controlOf('units: in, decimals: 4').decimals).toBe(4);
  });

  it('is taken over as stated', () => {
    const stated =
      'units: in, decimals: 4, lineNumbers: true, numbering: { start: 10, step: 10 }, percentLines: true, wordSpaces: false, lineLength: 100, workOffset: G58, dwellUnit: milliseconds, toolChange: M6, lengthOffset: G43, programEnd: M30, comments: false';
    expect(controlOf(stated)).toMatchObject({
      units: 'in',
      decimals: 4,
      lineNumbers: true,
      numbering: { start: 10, step: 10 },
      percentLines: true,
      wordSpaces: false,
      lineLength: 100,
      workOffset: 'G58',
      dwellUnit: 'milliseconds',
      toolChange: 'M6',
      lengthOffset: 'G43',
      programEnd: 'M30',
      comments: false,
    });
  });

  it.each([
    ['units: in, decimals: 3', '', 'decimals-too-few machines[0].controller.decimals'],
    ['lengthOffset: G43', '', 'length-table-not-used machines[0].controller.lengthOffset'],
    ['numbering: { start: 9999, step: 100 }, lineNumbers: true', '', null],
    ['', 'beamWord: M4', 'pierce-without-beam machines[1].settings[0].cut.pierce'],
  ])('%s | %s', (control, beam, code) => {
    expect(codesOf(control, beam)).toEqual(code === null ? [] : [code]);
  });

  it.each([
    ['workOffset: G53', ''],
    ['lineLength: 60', ''],
    ['decimals: 2', ''],
    ['beamWord: M4', ''],
    ['', 'toolChange: M6'],
    ['dwellUnit: minutes', ''],
  ])('is refused where it makes no sense: %s | %s', (control, beam) => {
    expect(loadShop(shop(control, beam), 'shop.yaml', () => null).ok).toBe(false);
  });
});

describe('the tested settings of a laser', () => {
  it('say how a cut begins and ends when the shop does not', () => {
    const loaded = loadShop(shop(''), 'shop.yaml', () => null);
    if (!loaded.ok) throw new Error('not loaded');
    const laser = loaded.value.value.machines[1];
    if (laser?.kind !== 'laser') throw new Error('no laser');
    expect(laser.settings[0]).toMatchObject({
      cut: { passes: 1, pierce: 0.3, leadIn: 2, overCut: 0.5 },
      air: null,
    });
    const said = loaded.value.defaults.map((d) => d.path);
    for (const key of ['passes', 'leadIn', 'overCut'])
      expect(said).toContain(`machines[1].settings[0].cut.${key}`);
  });
});

describe('what a control does where moves meet', () => {
  const cornersOf = (text: string) => controlOf(text).corners;

  it('is unknown unless it is stated, exact with G61, and a length in any unit', () => {
    expect(cornersOf('')).toBeNull();
    expect(cornersOf('exactPath: true')).toBe(0);
    expect(cornersOf('corners: exact')).toBe(0);
    expect(cornersOf('corners: 0.1 thou')).toBeCloseTo(0.00254, 9);
  });

  it('is an error where it is more than walls can bear, and where it is no length', () => {
    expect(codesOf('corners: 0.02')).toEqual(['corners-too-loose machines[0].controller.corners']);
    expect(codesOf('corners: 0.02, exactPath: true')).toEqual([]);
    expect(codesOf('corners: round')).toHaveLength(1);
  });
});
