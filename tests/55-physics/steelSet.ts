/** A made-up bronze-wound steel set over a made-up board, for the solvers. */
import { type BenchSetUp, setUpOf } from '../../src/physics/board.ts';
import { bodyOf } from '../../src/physics/construction.ts';
import { fretCents } from '../../src/physics/intonation.ts';
import { PHOSPHOR_BRONZE, STEEL } from '../../src/physics/materials.ts';
import type { NutString } from '../../src/physics/solve/nut.ts';
import type { SaddleString } from '../../src/physics/solve/types.ts';
import type { Construction } from '../../src/physics/types.ts';
import type { SampledString } from '../../src/physics/uncertainty.ts';
import { twelfths } from './published.ts';

const THOU = 0.0254;

export interface SetString {
  readonly hertz: number;
  /** Thousandths of an inch; no core for a plain string. */
  readonly gauge: number;
  readonly core: number | null;
}

export const SET: readonly SetString[] = [
  { hertz: 82.4069, gauge: 53, core: 18 },
  { hertz: 110, gauge: 42, core: 16 },
  { hertz: 146.8324, gauge: 32, core: 14 },
  { hertz: 195.9977, gauge: 24, core: 13 },
  { hertz: 246.9417, gauge: 16, core: null },
  { hertz: 329.6276, gauge: 12, core: null },
];

export function construction({ gauge, core }: SetString): Construction {
  const loaded = (core ?? gauge) * THOU;
  return {
    diameter: gauge * THOU,
    core: loaded,
    coreDensity: STEEL.density,
    wrapDensity: core === null ? null : PHOSPHOR_BRONZE.density,
    modulus: STEEL.modulus(loaded),
    massPerMetre: null,
  };
}

export const bench = (change: Partial<BenchSetUp> = {}): BenchSetUp => ({
  scale: 628,
  ratios: twelfths(19),
  slotErrors: [],
  nutForward: 0,
  action: 2.4,
  actionFret: 12,
  firstFret: 0.5,
  relief: 0.15,
  bowFret: 12,
  fingerBehind: 6,
  press: 0.03,
  crownHeight: 1,
  ...change,
});

/** The bench of string `i` of six: action falls from 2.4 to 1.8, the first fret's clearance from 0.5 to 0.35. */
export const benchOf = (i: number, change: Partial<BenchSetUp> = {}): BenchSetUp =>
  bench({ action: 2.4 - 0.12 * i, firstFret: 0.5 - 0.03 * i, ...change });

export const firstTwelve: readonly number[] = Array(12).fill(1);

export interface Change {
  readonly bench?: Partial<BenchSetUp>;
  readonly construction?: Partial<Construction>;
  readonly weight?: number;
  readonly fretWeights?: readonly number[];
}

/** Cents by fret of a string over its bench. */
export const centsOf =
  (string: SetString, over: BenchSetUp, made: Construction = construction(string)) =>
  (setBack: number): number[] =>
    fretCents(setUpOf(over), { kind: 'built', body: bodyOf(made), hertz: string.hertz }, setBack);

/** The whole set as the solvers see it, six strings 56 mm wide. */
export const saddleStrings = (change: (i: number) => Change = () => ({})): SaddleString[] =>
  SET.map((string, i) => {
    const own = change(i);
    return {
      y: -28 + 11.2 * i,
      weight: own.weight ?? 1,
      fretWeights: own.fretWeights ?? firstTwelve,
      errors: centsOf(string, benchOf(i, own.bench), { ...construction(string), ...own.construction }),
    };
  });

export const nutStrings = (): NutString[] =>
  SET.map((string, i) => ({
    weight: 1,
    fretWeights: firstTwelve,
    errors: (setBack, nutForward) => centsOf(string, benchOf(i, { nutForward }))(setBack),
  }));

export const sampled = (setBacks: readonly number[]): SampledString[] =>
  SET.map((string, i) => ({
    bench: benchOf(i),
    construction: construction(string),
    hertz: string.hertz,
    aims: [],
    fretWeights: firstTwelve,
    setBack: setBacks[i] ?? 0,
    tolerance: { action: 0.1, firstFret: 0.05, core: 0.01, mass: 0.03, modulus: 0.02 },
  }));
