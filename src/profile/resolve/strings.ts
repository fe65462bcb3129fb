/** What each string is made of, where the file leaves it open. */
import { inchesFromMm, mmFromInches } from '../../units/convert.ts';
import type { GivenInstrument } from '../schema/instrument.ts';
import type { CoreMaterialName, Family, InstrumentString, StringBuild, WrapMaterialName } from '../types.ts';
import { type Fill, PRACTICE } from './fill.ts';

type GivenString = GivenInstrument['strings'][number];

/** Fills in what the file leaves out of each string. */
export function resolveStrings(
  strings: GivenInstrument['strings'],
  family: Family,
  fill: Fill,
): readonly InstrumentString[] {
  return strings.map((string, i) => ({
    pitch: string.pitch.written,
    hertz: string.pitch.hertz,
    gauge: string.gauge,
    make: string.make,
    setBack: string.setBack,
    build: resolveBuild(string, `strings[${i}]`, family, fill),
    aimCents: fill.plain(`strings[${i}].aimCents`, string.aimCents, 0, 'in tune at the octave'),
    importance: fill.plain(`strings[${i}].importance`, string.importance, 1, 'as much as any other string'),
  }));
}

function resolveBuild(string: GivenString, path: string, family: Family, fill: Fill): StringBuild {
  const wound = string.make === 'wound';
  const material = fill.plain(
    `${path}.material`,
    string.material,
    usualMaterial(family, wound),
    `usual for the kind of instrument (${PRACTICE})`,
  );
  const ofMaterial = (key: 'density' | 'modulus' | 'strength', given: number | undefined): number | null =>
    fill.shown(`${path}.${key}`, given, null, `that of ${material}`, '`nutline strings` names its source');
  return {
    core: wound ? resolveCore(string, material, path, fill) : (string.core ?? string.gauge),
    coreGiven: !wound || string.core !== undefined,
    material,
    wrap: wound
      ? fill.plain(
          `${path}.wrap`,
          string.wrap,
          usualWrap(family, material),
          `usual for the kind of instrument (${PRACTICE})`,
        )
      : (string.wrap ?? null),
    massPerMetre: fill.shown(
      `${path}.massPerMetre`,
      string.massPerMetre,
      null,
      'worked out',
      wound ? 'from core and wrap' : 'from gauge and material',
    ),
    density: ofMaterial('density', string.density),
    modulus: ofMaterial('modulus', string.modulus),
    strength: ofMaterial('strength', string.strength),
  };
}

function usualMaterial(family: Family, wound: boolean): CoreMaterialName {
  if (family !== 'ukulele') return 'steel';
  return wound ? 'multifilament nylon' : 'nylon';
}

function usualWrap(family: Family, material: CoreMaterialName): WrapMaterialName {
  if (material !== 'steel') return 'silvered copper';
  return family === 'bass' ? 'nickel-plated steel' : 'phosphor bronze';
}

function resolveCore(string: GivenString, material: CoreMaterialName, path: string, fill: Fill): number {
  const why =
    material === 'steel'
      ? `a usual core for that gauge (${PRACTICE}, from memory): measure where the wrap ends`
      : 'worked back from the masses of a published set (see DEVELOPERS.md): measure where the wrap ends';
  return fill.length(`${path}.core`, string.core, usualCore(string.gauge, material), why);
}

/** Gauge and core of usual bronze-wound strings, thousandths of an inch. Common practice, from memory. */
const USUAL_CORES: readonly (readonly [gauge: number, core: number])[] = [
  [18, 10],
  [24, 13],
  [32, 14],
  [42, 16],
  [53, 18],
  [65, 22],
  [80, 30],
  [105, 42],
];
/** Of wound nylon strings, whatever their gauge. */
const NYLON_CORE = 0.48;
/** No core is more than this share of its gauge. */
const LARGEST_SHARE = 0.65;

function usualCore(gauge: number, material: CoreMaterialName): number {
  if (material !== 'steel') return Math.min(NYLON_CORE, LARGEST_SHARE * gauge);
  const thou = 1000 * inchesFromMm(gauge);
  const above = USUAL_CORES.findIndex(([g]) => g >= thou);
  const upper = above < 0 ? USUAL_CORES.length - 1 : Math.max(1, above);
  const [low, high] = [USUAL_CORES[upper - 1], USUAL_CORES[upper]];
  if (low === undefined || high === undefined) throw new Error(`no core for a gauge of ${gauge} mm`);
  const core = low[1] + ((thou - low[0]) / (high[0] - low[0])) * (high[1] - low[1]);
  return Math.min(mmFromInches(core / 1000), LARGEST_SHARE * gauge);
}
