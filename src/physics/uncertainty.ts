/**
 * How sure the model's answers are, by sampling: every input is drawn evenly from within its tolerance, many times, and
 * the answers' spread is read off. The same seed gives the same bands.
 */
import { type BenchSetUp, type FretRows, fretRows, setUpOf } from './board.ts';
import { bodyOf } from './construction.ts';
import { centsSharp, openString } from './intonation.ts';
import { evenlySpread } from './random.ts';
import { localCost, NUDGE } from './solve/fit.ts';
import type { Construction } from './types.ts';

/** How far a string's inputs may be off, either way. */
export interface StringTolerance {
  /** mm. */
  readonly action: number;
  readonly firstFret: number;
  readonly core: number;
  /** Shares of the value. */
  readonly mass: number;
  readonly modulus: number;
}

/** How far what all strings share may be off, either way, mm. */
export interface SharedTolerance {
  readonly relief: number;
  readonly fingerBehind: number;
  readonly press: number;
  /** Each fret slot by itself. */
  readonly slots: number;
}

export interface SampledString {
  readonly bench: BenchSetUp;
  readonly construction: Construction;
  readonly hertz: number;
  /** What the errors are aimed at, by fret. */
  readonly aims: readonly number[];
  readonly fretWeights: readonly number[];
  /** Where the saddle carries it while its errors are looked at. */
  readonly setBack: number;
  readonly tolerance: StringTolerance;
}

export interface SamplingPlan {
  readonly strings: readonly SampledString[];
  readonly shared: SharedTolerance;
  readonly samples: number;
  readonly seed: number;
  /** Saddles whose worst errors are wanted: set-backs by string. */
  readonly saddles: readonly (readonly number[])[];
}

/** Nine of ten samples lie from `low` to `high`. */
export interface Band {
  readonly low: number;
  readonly middle: number;
  readonly high: number;
}

/** What is drawn once for a string, what once for all, and last all fret slots together. */
const OWN = ['action', 'firstFret', 'core', 'mass', 'modulus'] as const;
const SHARED = ['relief', 'fingerBehind', 'press'] as const;
const DRAWN = [...OWN, ...SHARED] as const;
export type Shaken = (typeof DRAWN)[number] | 'slots';

export interface Influence {
  readonly input: Shaken;
  /** Share of the variance of the strings' ideal set-backs that this input causes, all strings together. */
  readonly share: number;
  /** Half the band of set-back that it alone would cause in the string that minds most, mm. */
  readonly halfBand: number;
}

export interface Uncertainty {
  /** Ideal set-back, by string. */
  readonly setBacks: readonly Band[];
  /** Half the width of the band of each note's error, by string and fret, cents. It is the same for any saddle. */
  readonly cents: readonly (readonly number[])[];
  /** Largest error of any counted fret, either way, by saddle. */
  readonly worst: readonly Band[];
  /** Most important first. */
  readonly influences: readonly Influence[];
}

/** Runs the samples and reads the bands off them. */
export function sampleUncertainty(plan: SamplingPlan): Uncertainty {
  const draw = evenlySpread(plan.seed);
  const tallies = plan.strings.map((_, i) => startTally(plan, i));
  const worst = plan.saddles.map(() => new Float64Array(plan.samples));
  const draws = new Float64Array(DRAWN.length);
  const slots = new Float64Array(plan.strings[0]?.bench.ratios.length ?? 0);
  for (let sample = 0; sample < plan.samples; sample += 1) {
    for (let i = OWN.length; i < DRAWN.length; i += 1) draws[i] = draw();
    for (let i = 0; i < slots.length; i += 1) slots[i] = draw() * plan.shared.slots;
    for (const tally of tallies) {
      for (let i = 0; i < OWN.length; i += 1) draws[i] = draw();
      takeSample(tally, { draws, slots, shared: plan.shared, sample, worst });
    }
  }
  return {
    setBacks: tallies.map((t) => bandOf(t.setBacks)),
    cents: tallies.map((t) => t.cents.map((list) => halfWidth(bandOf(list)))),
    worst: worst.map(bandOf),
    influences: influencesOf(tallies),
  };
}

/** What is kept of one string over all samples. */
interface Tally {
  readonly string: SampledString;
  readonly rows: FretRows;
  /** Weight times cents per mm of set-back, by fret, at the nominal inputs; and the sum of weight times that squared. */
  readonly pulls: Float64Array;
  readonly curvature: number;
  readonly setBacks: Float64Array;
  /** By fret, then sample. */
  readonly cents: readonly Float64Array[];
  /** By saddle and fret: what the saddle adds to the error, cents; not a number where a fret does not count. */
  readonly shifts: readonly Float64Array[];
  /** Sum over the samples of draw times set-back, by input. */
  readonly products: Float64Array;
}

function startTally(plan: SamplingPlan, index: number): Tally {
  const string = plan.strings[index];
  if (string === undefined) throw new Error(`no string ${index}`);
  const { bench, construction, fretWeights, setBack } = string;
  const count = bench.ratios.length;
  const rows = fretRows(count);
  const errors = (at: number): number[] => {
    const list = new Array<number>(count).fill(0);
    writeErrors({ string, rows }, bench, construction, at, (fret, e) => {
      list[fret] = e;
    });
    return list;
  };
  const [here, beyond, before] = [errors(setBack), errors(setBack + NUDGE), errors(setBack - NUDGE)];
  const slopes = Float64Array.from(beyond, (e, i) => (e - (before[i] ?? 0)) / (2 * NUDGE));
  const me = { y: 0, weight: 1, fretWeights, errors };
  return {
    string,
    rows,
    pulls: slopes.map((slope, i) => slope * (fretWeights[i] ?? 0)),
    curvature: localCost(me, setBack).curvature,
    setBacks: new Float64Array(plan.samples),
    cents: Array.from(slopes, () => new Float64Array(plan.samples)),
    shifts: plan.saddles.map((saddle) => {
      const there = errors(saddle[index] ?? 0);
      return slopes.map((_, i) =>
        (fretWeights[i] ?? 0) > 0 ? (there[i] ?? 0) - (here[i] ?? 0) : Number.NaN,
      );
    }),
    products: new Float64Array(DRAWN.length),
  };
}

function writeErrors(
  { string, rows }: Pick<Tally, 'string' | 'rows'>,
  bench: BenchSetUp,
  made: Construction,
  setBack: number,
  write: (fret: number, error: number) => void,
): void {
  const setUp = setUpOf(bench, rows);
  const open = openString(setUp, { kind: 'built', body: bodyOf(made), hertz: string.hertz }, setBack);
  for (let fret = 0; fret < bench.ratios.length; fret += 1)
    write(fret, centsSharp(setUp, open, fret, setBack) - (string.aims[fret] ?? 0));
}

/** One sample: what was drawn, and where its worst errors go, by saddle. */
interface Sample {
  readonly draws: Float64Array;
  readonly slots: Float64Array;
  readonly shared: SharedTolerance;
  readonly sample: number;
  readonly worst: readonly Float64Array[];
}

/** One sample of one string: its errors where the saddle is, and by one least-squares step the set-back it would like. */
function takeSample(tally: Tally, { draws, slots, shared, sample, worst }: Sample): void {
  const { string, pulls, cents, shifts } = tally;
  let gradient = 0;
  const bench = shakenBench(string, draws, slots, shared);
  writeErrors(tally, bench, shakenConstruction(string, draws), string.setBack, (fret, error) => {
    gradient += (pulls[fret] ?? 0) * error;
    const list = cents[fret];
    if (list !== undefined) list[sample] = error;
    for (let k = 0; k < worst.length; k += 1) {
      const most = worst[k];
      const miss = Math.abs(error + (shifts[k]?.[fret] ?? Number.NaN));
      // Not a number where the fret does not count: never larger.
      if (most !== undefined && miss > (most[sample] ?? 0)) most[sample] = miss;
    }
  });
  const step = -gradient / tally.curvature;
  tally.setBacks[sample] = string.setBack + step;
  for (let i = 0; i < DRAWN.length; i += 1)
    tally.products[i] = (tally.products[i] ?? 0) + (draws[i] ?? 0) * step;
}

/** The draw of one input. */
const drawOf = (draws: Float64Array, input: (typeof DRAWN)[number]): number =>
  draws[DRAWN.indexOf(input)] ?? 0;

function shakenBench(
  { bench, tolerance }: SampledString,
  draws: Float64Array,
  slotErrors: Float64Array,
  shared: SharedTolerance,
): BenchSetUp {
  return {
    scale: bench.scale,
    ratios: bench.ratios,
    slotErrors,
    nutForward: bench.nutForward,
    action: bench.action + drawOf(draws, 'action') * tolerance.action,
    actionFret: bench.actionFret,
    firstFret: bench.firstFret + drawOf(draws, 'firstFret') * tolerance.firstFret,
    relief: bench.relief + drawOf(draws, 'relief') * shared.relief,
    bowFret: bench.bowFret,
    fingerBehind: bench.fingerBehind + drawOf(draws, 'fingerBehind') * shared.fingerBehind,
    press: bench.press + drawOf(draws, 'press') * shared.press,
    crownHeight: bench.crownHeight,
  };
}

/** A core that is off weighs differently too, unless the string itself was weighed. */
function shakenConstruction(
  { construction: c, tolerance }: SampledString,
  draws: Float64Array,
): Construction {
  const core = c.core + drawOf(draws, 'core') * tolerance.core;
  const heavier = 1 + drawOf(draws, 'mass') * tolerance.mass;
  return {
    core,
    diameter: c.wrapDensity === null ? core : c.diameter,
    coreDensity: c.coreDensity * heavier,
    wrapDensity: c.wrapDensity === null ? null : c.wrapDensity * heavier,
    modulus: c.modulus * (1 + drawOf(draws, 'modulus') * tolerance.modulus),
    massPerMetre: c.massPerMetre === null ? null : c.massPerMetre * heavier,
  };
}

function bandOf(values: Float64Array): Band {
  const sorted = values.slice().sort();
  const at = (share: number): number => sorted[Math.round(share * (sorted.length - 1))] ?? Number.NaN;
  return { low: at(0.05), middle: at(0.5), high: at(0.95) };
}

const halfWidth = ({ low, high }: Band): number => (high - low) / 2;

/** Variance of a number drawn evenly from -1 to 1. */
const VARIANCE_OF_DRAW = 1 / 3;

/** Shares of the set-backs' variance by input: the squared correlation with each draw, the rest being the slots'. */
function influencesOf(tallies: readonly Tally[]): Influence[] {
  const variances = tallies.map((t) => varianceOf(t.setBacks));
  const caused = tallies.map((t) =>
    Array.from(t.products, (p) => (p / t.setBacks.length) ** 2 / VARIANCE_OF_DRAW),
  );
  const rest = caused.map((parts, i) => Math.max(0, (variances[i] ?? 0) - sum(parts)));
  const total = sum(variances);
  const list = [...DRAWN, 'slots' as const].map((input, k): Influence => {
    const parts = input === 'slots' ? rest : caused.map((own) => own[k] ?? 0);
    return {
      input,
      share: total > 0 ? sum(parts) / total : 0,
      // An even draw of that variance reaches sqrt(3 variance); nine of ten lie within 0.9 of it.
      halfBand: 0.9 * Math.sqrt(3 * Math.max(...parts)),
    };
  });
  return list.sort((a, b) => b.share - a.share);
}

const sum = (list: readonly number[]): number => list.reduce((a, b) => a + b, 0);

function varianceOf(values: Float64Array): number {
  const mean = values.reduce((a, b) => a + b, 0) / values.length;
  return values.reduce((total, v) => total + (v - mean) ** 2, 0) / values.length;
}
