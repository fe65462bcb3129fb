/** Where saddle and nut would go, beside the profile's own set-backs. */
import { type CrownedSaddle, crownedSaddle, narrowestBand } from '../physics/solve/crowned.ts';
import { idealSetBack } from '../physics/solve/fit.ts';
import { idealPair, type NutString, sharedNut } from '../physics/solve/nut.ts';
import { constantSaddle, straightSaddle } from '../physics/solve/straight.ts';
import { onLine, type Saddle, type SaddleLine, type SaddleString } from '../physics/solve/types.ts';
import { sampleUncertainty, type Uncertainty } from '../physics/uncertainty.ts';
import type { Instrument } from '../profile/types.ts';
import { type StringCase, sharedTolerance } from './cases.ts';
import { countedFrets, pick, saddleString, worstMiss } from './errors.ts';
import type { SaddleReport, Stringing } from './types.ts';

export const SAMPLES = 2000;
/** Any whole number but 0: it makes the bands the same every time. */
const SEED = 1436;

/** All that the solvers and the sampler say about one instrument. */
export interface Proposals {
  /** By string, aimed as the profile says. */
  readonly ideals: readonly number[];
  readonly straight: Saddle;
  readonly crowned: CrownedSaddle;
  /** Half the width that the profile's own set-backs need, without any edge. */
  readonly profileHalfWidth: number;
  readonly reports: readonly SaddleReport[];
  readonly sampled: Uncertainty;
}

/** Ideal set-backs, the best saddles of each kind, and the bands of all of them. */
export function proposeSaddles(instrument: Instrument, cases: readonly StringCase[]): Proposals {
  const { saddle } = instrument.bridge;
  const strings = cases.map((given) => saddleString(instrument, given, { aimed: true }));
  const ideals = strings.map((s) => idealSetBack(s));
  const constant = constantSaddle(strings);
  const straight = straightSaddle(strings);
  const halfWidth = saddle.width / 2 - saddle.edge;
  const crowned = crownedSaddle(strings, halfWidth);
  const profile = { line: null, setBacks: cases.map((c) => c.string.setBack) };
  const inSlot = straightSaddle(strings, { line: throughOuter(cases), halfWidth });
  const saddles = [
    { name: 'profile', ...profile },
    { name: 'constant', ...constant },
    { name: 'inSlot', ...inSlot },
    { name: 'straight', ...straight },
    { name: 'crowned', ...crowned },
  ] as const;
  const setBacks = saddles.map((s) => s.setBacks);
  const sampled = sample(instrument, cases, ideals, setBacks);
  const counted = countedFrets(instrument);
  const reports = saddles.map(({ name, line, setBacks: at }, k): SaddleReport => {
    const value = worstMiss(
      strings.map((s, i) => s.errors(pick(at, i))),
      counted,
    );
    return { name, line: lineReport(strings, line), worst: { value, ...pick(sampled.worst, k) } };
  });
  const profileHalfWidth = narrowestBand(cases.map((c) => ({ y: c.y, at: c.string.setBack }))).halfWidth;
  return { ideals, straight, crowned, profileHalfWidth, reports, sampled };
}

/** The profile's slot: straight through the outer strings' set-backs. */
function throughOuter(cases: readonly StringCase[]): SaddleLine {
  const [bass, treble] = [pick(cases, 0), pick(cases, cases.length - 1)];
  const slope = bass.y === treble.y ? 0 : (treble.string.setBack - bass.string.setBack) / (treble.y - bass.y);
  return { atCentre: bass.string.setBack - slope * bass.y, slope };
}

function sample(
  instrument: Instrument,
  cases: readonly StringCase[],
  ideals: readonly number[],
  saddles: readonly (readonly number[])[],
): Uncertainty {
  return sampleUncertainty({
    strings: cases.map((given, i) => ({
      bench: given.bench,
      construction: given.construction,
      hertz: given.string.hertz,
      aims: given.aims,
      fretWeights: instrument.intonation.fretWeights,
      setBack: pick(ideals, i),
      tolerance: given.tolerance,
    })),
    shared: sharedTolerance(instrument),
    samples: SAMPLES,
    seed: SEED,
    saddles,
  });
}

function lineReport(strings: readonly SaddleString[], line: SaddleLine | null): SaddleReport['line'] {
  if (line === null) return null;
  const [bass, treble] = [pick(strings, 0).y, pick(strings, strings.length - 1).y];
  // A left-handed instrument has its bass side at positive y.
  const toTreble = treble < bass ? -1 : 1;
  return {
    atCentre: line.atCentre,
    bass: onLine(line, bass),
    treble: onLine(line, treble),
    angle: Math.atan(-line.slope * toTreble),
  };
}

/** One place of the nut for all strings, each on its own saddle; null unless the profile lets the nut move. */
export function proposeNut(instrument: Instrument, cases: readonly StringCase[]): Stringing['nut'] {
  if (instrument.intonation.nut === 'fixed') return null;
  const strings = cases.map((given) => nutString(instrument, given));
  const { nutForward, setBacks } = sharedNut(strings);
  return {
    now: instrument.nut.setForward,
    proposed: nutForward,
    setBacks,
    wishes: strings.map((s) => idealPair(s).nutForward),
    worst: worstMiss(
      strings.map((s, i) => s.errors(pick(setBacks, i), nutForward)),
      countedFrets(instrument),
    ),
  };
}

function nutString(instrument: Instrument, given: StringCase): NutString {
  const moved = (nutForward: number): SaddleString =>
    saddleString(instrument, { ...given, bench: { ...given.bench, nutForward } }, { aimed: true });
  return {
    weight: given.string.importance,
    fretWeights: instrument.intonation.fretWeights,
    errors: (setBack, nutForward) => moved(nutForward).errors(setBack),
  };
}
