/** From a profile's words to the model's numbers, string by string. */
import type { Layout, StringLine } from '../layout/types.ts';
import type { BenchSetUp } from '../physics/board.ts';
import {
  BRONZE_80_20,
  GUT,
  NICKEL,
  NICKEL_PLATED_STEEL,
  NYLON,
  NYLON_FLOSS,
  PHOSPHOR_BRONZE,
  SILVERED_COPPER,
  STAINLESS_STEEL,
  STEEL,
} from '../physics/materials.ts';
import type { Construction, CoreMaterial, WrapMaterial } from '../physics/types.ts';
import type { SharedTolerance, StringTolerance } from '../physics/uncertainty.ts';
import type { CoreMaterialName, Instrument, InstrumentString, WrapMaterialName } from '../profile/types.ts';

const CORES: Readonly<Record<CoreMaterialName, CoreMaterial>> = {
  steel: STEEL,
  nylon: NYLON,
  'multifilament nylon': NYLON_FLOSS,
  gut: GUT,
};

const WRAPS: Readonly<Record<WrapMaterialName, WrapMaterial>> = {
  'phosphor bronze': PHOSPHOR_BRONZE,
  '80/20 bronze': BRONZE_80_20,
  'nickel-plated steel': NICKEL_PLATED_STEEL,
  nickel: NICKEL,
  'stainless steel': STAINLESS_STEEL,
  'silvered copper': SILVERED_COPPER,
};

const MPA_PER_GPA = 1000;

/** Everything the model needs of one string of an instrument. */
export interface StringCase {
  readonly string: InstrumentString;
  /** Across the instrument at the saddle. */
  readonly y: number;
  readonly bench: BenchSetUp;
  readonly construction: Construction;
  /** MPa. */
  readonly strength: number;
  readonly tolerance: StringTolerance;
  /** What is aimed at, cents by fret. */
  readonly aims: readonly number[];
  /** From the saddle along the string to where wood or tailpiece next touches it. */
  readonly toPin: number;
}

/** Frequency ratios that the frets of a string are cut for; where no slot reaches it, those of the fret as it would be. */
const ratiosOf = ({ frets }: Instrument, position: number): number[] =>
  frets.list.map(({ cents, pieces }) => {
    const under = pieces?.find((piece) => piece.first <= position && position <= piece.last);
    return 2 ** ((under?.cents ?? cents) / 1200);
  });

/** The strings of an instrument, bass side first. */
export function stringCases(instrument: Instrument, layout: Layout): StringCase[] {
  const lines = layout.strings;
  const [first, last] = [lines[0], lines[lines.length - 1]];
  if (first === undefined || last === undefined) throw new Error('an instrument without strings');
  return instrument.strings.map((string, i) => {
    const line = lines[i];
    if (line === undefined) throw new Error(`string ${i + 1} is not laid out`);
    const ratios = ratiosOf(instrument, line.position);
    const span = last.saddle[1] - first.saddle[1];
    const share = span === 0 ? 0 : (line.saddle[1] - first.saddle[1]) / span;
    return {
      string,
      y: line.saddle[1],
      bench: benchOf(instrument, line, { ratios, share }),
      construction: constructionOf(string),
      strength: string.build.strength ?? CORES[string.build.material].strength(string.build.core),
      tolerance: toleranceOf(string),
      aims: ratios.map((ratio) => string.aimCents * (ratio - 1)),
      toPin:
        Math.hypot(line.pin[0] - line.saddle[0], line.pin[1] - line.saddle[1]) - mouthOf(instrument.bridge),
    };
  });
}

/** From the middle of a string's end to where it first touches: the near edge of a hole from above. */
function mouthOf({ anchor }: Instrument['bridge']): number {
  switch (anchor.kind) {
    case 'pins':
      return anchor.seat / 2;
    case 'through':
      return anchor.drill / 2;
    case 'tied':
    case 'tailpiece':
      return 0;
  }
}

/**
 * The set-up under a string, `share` of the way from the bass-most to the treble-most, seen along the centreline from where the
 * string crosses scale zero. Slanted slots divide a string exactly that keeps its share of the room between the reference lines; of
 * any other `slotErrors` says how far off they cross it.
 */
function benchOf(
  instrument: Instrument,
  { scale, fretX, nut }: StringLine,
  { ratios, share }: { readonly ratios: readonly number[]; readonly share: number },
): BenchSetUp {
  const { targets, intonation } = instrument;
  const isSlanted = instrument.scale.slant !== null;
  const between = (bass: number, treble: number): number => bass + share * (treble - bass);
  return {
    scale: scale.length,
    ratios,
    slotErrors: isSlanted
      ? fretX.map((x, i) => x - scale.from - scale.length * (1 - 1 / (ratios[i] ?? Number.NaN)))
      : [],
    // Behind a zero fret the nut only keeps the strings apart: the fret at scale zero carries them.
    nutForward: instrument.nut.zeroFret ? 0 : nut[0] - scale.from,
    action: between(targets.actionBass, targets.actionTreble),
    actionFret: targets.actionFret,
    firstFret: between(targets.firstFretBass, targets.firstFretTreble),
    relief: targets.relief,
    bowFret: targets.bowFret,
    fingerBehind: intonation.fingerBehind,
    press: intonation.press,
    crownHeight: instrument.fretWire.crownHeight,
  };
}

function constructionOf({ gauge, build }: InstrumentString): Construction {
  const core = CORES[build.material];
  return {
    diameter: gauge,
    core: build.core,
    coreDensity: build.density ?? core.density,
    wrapDensity: build.wrap === null ? null : WRAPS[build.wrap].density,
    modulus: build.modulus === null ? core.modulus(build.core) : build.modulus * MPA_PER_GPA,
    massPerMetre: build.massPerMetre,
  };
}

/**
 * How far each input may be off: what a bench works to (action 0.1, nut slots 0.05, relief 0.05, slots 0.05 mm; common
 * practice, no source), a caliper's 0.01 mm on a core, 8 % on a core that nobody measured, 3 % on a wrap's packing.
 */
function toleranceOf({ make, build }: InstrumentString): StringTolerance {
  const plainGauge = 0.004;
  const measured = make === 'plain' ? plainGauge : 0.01;
  const worked = make === 'plain' ? 0.01 : 0.03;
  return {
    action: 0.1,
    firstFret: 0.05,
    core: build.coreGiven ? measured : 0.08 * build.core,
    mass: build.massPerMetre === null ? worked : 0.01,
    modulus: build.modulus === null ? CORES[build.material].modulusTolerance : 0.05,
  };
}

/** How far what all strings share may be off. The finger's are a player's, not a measurement's. */
export function sharedTolerance({ intonation, targets }: Instrument): SharedTolerance {
  return {
    relief: Math.min(0.05, targets.relief),
    fingerBehind: Math.min(4, intonation.fingerBehind / 2),
    press: Math.min(0.03, intonation.press),
    slots: 0.05,
  };
}

/** Sources of the figures that were taken for these strings, each once. */
export function sourcesOf(instrument: Instrument): string[] {
  const all = instrument.strings.flatMap(({ build }) => [
    CORES[build.material].sources,
    ...(build.wrap === null ? [] : [WRAPS[build.wrap].sources]),
  ]);
  return [...new Set(all)];
}
