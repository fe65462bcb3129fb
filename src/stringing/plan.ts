/** Strings, tuning, saddle and bands of an instrument, worked out as a whole. */
import type { Layout } from '../layout/types.ts';
import { setUpOf } from '../physics/board.ts';
import { openHeights, swings } from '../physics/clearance.ts';
import { saddleHeightAt } from '../physics/frettedLength.ts';
import { idealSetBack } from '../physics/solve/fit.ts';
import type { Instrument } from '../profile/types.ts';
import { hasErrors } from '../report/collect.ts';
import type { Finding, Outcome } from '../report/finding.ts';
import { type StringCase, sourcesOf, stringCases } from './cases.ts';
import { centsBy, countedFrets, octaveFret, pick, saddleString, sharpWithoutSetBack } from './errors.ts';
import { actionAtFirstFret, pullFindings, tuningFindings } from './findings.ts';
import { type Proposals, proposeNut, proposeSaddles, SAMPLES } from './proposals.ts';
import { pullOf } from './pull.ts';
import { type OtherTuning, retune } from './retune.ts';
import type { StringHeights, Stringing, StringPull, StringTuning } from './types.ts';

/** Share of the scale before the saddle where a string is usually plucked (assumed). */
const PLUCK_SHARE = 0.2;

/**
 * What is wrong with tensions and down-bearing: cheap enough for every check of a profile. Nothing when the set-up cannot be
 * worked out.
 */
export function pullFindingsOf(instrument: Instrument, layout: Layout): Finding[] {
  if (instrument.targets.actionFret < 2) return [];
  return pullFindings(stringCases(instrument, layout).map((given, i) => pullOf(instrument, given, i + 1)));
}

/** Everything about an instrument's strings; with another tuning of the same set beside it when one is named. */
export function planStrings(
  instrument: Instrument,
  layout: Layout,
  other: OtherTuning | null = null,
): Outcome<Stringing> {
  if (instrument.targets.actionFret < 2) return { ok: false, findings: [actionAtFirstFret()] };
  const cases = stringCases(instrument, layout);
  const pulls = cases.map((given, i) => pullOf(instrument, given, i + 1));
  const found = pullFindings(pulls);
  if (hasErrors(found)) return { ok: false, findings: found };
  const stringing = compose(instrument, cases, pulls, other);
  return { ok: true, value: stringing, findings: [...found, ...tuningFindings(stringing)] };
}

/** Undersides of the open strings at nut and saddle above the plane of the fret tops, string by string. */
export function endHeightsOf(
  instrument: Instrument,
  layout: Layout,
): Outcome<{ readonly atNut: number; readonly atSaddle: number }[]> {
  if (instrument.targets.actionFret < 2) return { ok: false, findings: [actionAtFirstFret()] };
  const heights = stringCases(instrument, layout).map(({ bench, string }) => {
    const setUp = setUpOf(bench);
    return { atNut: setUp.nutHeight, atSaddle: saddleHeightAt(setUp, string.setBack) };
  });
  return { ok: true, value: heights, findings: [] };
}

function compose(
  instrument: Instrument,
  cases: readonly StringCase[],
  pulls: readonly StringPull[],
  other: OtherTuning | null,
): Stringing {
  const { saddle } = instrument.bridge;
  const proposals = proposeSaddles(instrument, cases);
  const pluckAt = PLUCK_SHARE * instrument.scale.length;
  return {
    instrument: instrument.name,
    scale: instrument.scale.length,
    units: instrument.units,
    concertPitch: instrument.concertPitch,
    strings: cases.map((given, i) => ({
      pull: pick(pulls, i),
      heights: heightsOf(given, pluckAt),
      tuning: tuningOf(instrument, given, proposals, i),
    })),
    fretNames: instrument.frets.list.map(({ label }) => label),
    counted: countedFrets(instrument),
    octaveFret: octaveFret(instrument),
    totals: totalsOf(pulls),
    saddles: proposals.reports,
    saddleWidth: {
      has: saddle.width,
      needs: 2 * (proposals.crowned.halfWidthNeeded + saddle.edge),
      profileNeeds: 2 * (proposals.profileHalfWidth + saddle.edge),
    },
    nut: proposeNut(instrument, cases),
    influences: proposals.sampled.influences,
    samples: SAMPLES,
    pluckAt,
    retuned: other === null ? null : retune(instrument, cases, pulls, other),
    sources: sourcesOf(instrument),
  };
}

function tuningOf(instrument: Instrument, given: StringCase, proposals: Proposals, i: number): StringTuning {
  const { ideals, straight, crowned, sampled } = proposals;
  const cents = centsBy(given);
  const aims = instrument.strings.some((s) => s.aimCents !== 0);
  return {
    setBack: given.string.setBack,
    ideal: { value: pick(ideals, i), ...pick(sampled.setBacks, i) },
    leastSquares: aims ? idealSetBack(saddleString(instrument, given, { aimed: false })) : null,
    straight: pick(straight.setBacks, i),
    crowned: pick(crowned.setBacks, i),
    lean: pick(crowned.leans, i),
    withoutSetBack: sharpWithoutSetBack(given, octaveFret(instrument)),
    cents: {
      profile: cents(given.string.setBack),
      straight: cents(pick(straight.setBacks, i)),
      crowned: cents(pick(crowned.setBacks, i)),
      plusMinus: pick(sampled.cents, i),
    },
  };
}

function totalsOf(pulls: readonly StringPull[]): Stringing['totals'] {
  const tensions = pulls.map((p) => p.tension);
  return {
    tension: tensions.reduce((a, b) => a + b, 0),
    downBearing: pulls.reduce((sum, p) => sum + p.downBearing, 0),
    balance: Math.max(...tensions) / Math.min(...tensions),
  };
}

function heightsOf({ bench, string }: StringCase, pluckAt: number): StringHeights {
  const setUp = setUpOf(bench);
  const all = swings(setUp, string.setBack, pluckAt);
  return {
    atNut: setUp.nutHeight,
    atSaddle: saddleHeightAt(setUp, string.setBack),
    overFrets: openHeights(setUp, string.setBack),
    tightest: all.reduce((least, swing) => (swing.room < least.room ? swing : least)),
    openRoom: pick(all, 0).room,
  };
}
