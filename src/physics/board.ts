/** From what a bench measures of a string over its board to the numbers of the model. */
import type { SetUp } from './types.ts';

/** One string as it is set up, measured the usual way. Lengths in mm. */
export interface BenchSetUp {
  readonly scale: number;
  /** Frequency ratio that each fret is cut for, first fret first. */
  readonly ratios: ArrayLike<number>;
  /** Errors of the fret slots along the board, first fret first; those missing are 0. */
  readonly slotErrors: ArrayLike<number>;
  readonly nutForward: number;
  /** Open string over the fret at which the action is measured. */
  readonly action: number;
  /** That fret, counted from 1; not the first. */
  readonly actionFret: number;
  /** Open string over the first fret. */
  readonly firstFret: number;
  /** Deepest gap under a straightedge from scale zero to the fret where the bow ends. */
  readonly relief: number;
  /** That fret, counted from 1. */
  readonly bowFret: number;
  readonly fingerBehind: number;
  readonly press: number;
  readonly crownHeight: number;
}

/** Where a fret of that ratio stands on a scale: S (1 - 1/ratio). */
const fretAt = (scale: number, ratio: number): number => scale * (1 - 1 / ratio);

/** How far a bow of that relief lies below its chord, a share `u` of the way along: 4 r u (1 - u), nothing beyond. */
export const bowDrop = (relief: number, u: number): number =>
  u <= 0 || u >= 1 ? 0 : 4 * relief * u * (1 - u);

/** A finger presses as far behind the fret as wanted, but not past the middle of the space behind it. */
const fingerPlace = (wanted: number, fret: number, before: number): number =>
  Math.min(wanted, (fret - before) / 2);

/** Room for what hangs on each fret, so that a sampler need not ask for it anew a thousand times. */
export interface FretRows {
  readonly frets: Float64Array;
  readonly drops: Float64Array;
  readonly fingerBehind: Float64Array;
}

export const fretRows = (count: number): FretRows => ({
  frets: new Float64Array(count),
  drops: new Float64Array(count),
  fingerBehind: new Float64Array(count),
});

/**
 * The model's set-up for a bench's measurements.
 *
 * The open string is straight: its height over the plane at the first and at the action fret is what was measured less
 * the bow's drop there, which fixes its height at the nut and its slope to the saddle. With `rows` given, they are
 * overwritten and belong to the result.
 */
export function setUpOf(bench: BenchSetUp, rows: FretRows = fretRows(bench.ratios.length)): SetUp {
  const { frets, drops, fingerBehind } = rows;
  const bowEnd = fretAt(bench.scale, item(bench.ratios, bench.bowFret - 1));
  let before = bench.nutForward;
  for (let i = 0; i < frets.length; i += 1) {
    const x = fretAt(bench.scale, item(bench.ratios, i));
    frets[i] = x + (bench.slotErrors[i] ?? 0);
    drops[i] = bowDrop(bench.relief, x / bowEnd);
    fingerBehind[i] = fingerPlace(bench.fingerBehind, x, before);
    before = x;
  }
  return lineOver(bench, rows);
}

/** The straight open string over those frets. */
function lineOver(bench: BenchSetUp, { frets, drops, fingerBehind }: FretRows): SetUp {
  const { scale, ratios, nutForward, press, crownHeight } = bench;
  const far = bench.actionFret - 1;
  const firstX = fretAt(scale, item(ratios, 0));
  const farX = fretAt(scale, item(ratios, far));
  const firstZ = bench.firstFret - item(drops, 0);
  const farZ = bench.action - item(drops, far);
  const slope = (farZ - firstZ) / (farX - firstX);
  return {
    scale,
    ratios,
    frets,
    drops,
    nutForward,
    nutHeight: firstZ - slope * (firstX - nutForward),
    saddleHeight: farZ + slope * (scale - farX),
    saddleSlope: slope,
    fingerBehind,
    press,
    crownHeight,
    restsOnFrets: true,
    stiffnessRule: 'by length',
  };
}

function item(list: ArrayLike<number>, index: number): number {
  const value = list[index];
  if (value === undefined) throw new Error(`no fret ${index + 1} among ${list.length}`);
  return value;
}
