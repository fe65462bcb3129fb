/** How the back of a neck is shared out between a flat cutter's levels and the passes of a ball. */
import { grownBy, heightOfBack, sectionsOfBack, shortenedBy } from '../carving/shaftBack.ts';
import type { ShaftBack } from '../carving/types.ts';

/** On the level that is left under the neck the flat cutter keeps so much for the ball. Millimetres. */
const ON_LEVEL = 0.2;
/** Highest step between two levels beside the back (common practice, no source). */
const HIGHEST_STEP = 1;
/** More levels than at this step would only rub. */
const LEAST_STEP = 0.1;
/** A level pass lies this much farther out than it must, for the straight stretches that it is made of. */
const APART = 0.015;
/** Room for a proof that bounds what is left, and for the rounding of heights. */
const ROOM = 0.12;
/** Places along and across at which heights are compared. */
const ALONG = 25;
const ACROSS = 400;

export interface BackSizes {
  readonly rough: ShaftBack;
  readonly step: number;
  readonly atOnce: number;
  /** How far in from the ramps the flat cutter leaves wood in corners. */
  readonly corner: number;
  /** All that the levels leave lies below this. */
  readonly roughed: ShaftBack;
  /** Most that the levels leave above `rough` and, near the ramps, above the same with its ramps `corner` farther in; upright. */
  readonly left: number;
  /** The back between ramps so far in that a ball finds nothing there but what the levels left of the back itself. */
  readonly finish: ShaftBack;
}

/** What bounds the levels of a neck's back. */
export interface BackNeed {
  readonly back: ShaftBack;
  /** Kept on the back for the ball, square to it. */
  readonly allowance: number;
  /** Deepest bites of both cutters. */
  readonly flatBite: number;
  readonly ballBite: number;
  /** Greatest radius of the flat cutter, and how much thinner than its name it may be on one side. */
  readonly radius: number;
  readonly scatter: number;
  readonly halfBlank: number;
}

/** The step between levels, so that the ball may take what they leave; null where it would have to be too small. */
export function backSizes(need: BackNeed): BackSizes | null {
  const { back, allowance, flatBite, ballBite, scatter } = need;
  const rough = grownBy(back, allowance, ON_LEVEL);
  const thick = mostBetween(need, rough, back, 0);
  const aside = mostBetween(need, rough, rough, APART + 2 * scatter);
  const step = Math.min(HIGHEST_STEP, flatBite, ballBite - thick - aside - ROOM);
  if (step < LEAST_STEP) return null;
  const left = step + aside + ROOM;
  const corner = need.radius + 4 * APART;
  const roughed = { ...shortenedBy(rough, corner), raised: left };
  const past = roughed.ramps.x[0] + (left + ROOM) / back.ramps.rise - back.ramps.x[0];
  const atOnce = Math.max(1, Math.floor(flatBite / step + 1e-9));
  return { rough, step, atOnce, left, corner, roughed, finish: shortenedBy(back, past) };
}

/** Largest upright distance from one surface up to another that is moved `aside` from the middle. */
function mostBetween(
  { back, halfBlank }: BackNeed,
  upper: ShaftBack,
  lower: ShaftBack,
  aside: number,
): number {
  const [upperAt, lowerAt] = [sectionsOfBack(upper), sectionsOfBack(lower)];
  const [from, to] = back.ramps.x;
  let most = 0;
  for (let i = 0; i < ALONG; i += 1) {
    const x = from + ((to - from) * (i + 0.5)) / ALONG;
    for (let k = 0; k < ACROSS; k += 1) {
      const y = (halfBlank * k) / ACROSS;
      const over = heightOfBack(upper, upperAt, x, y) - heightOfBack(lower, lowerAt, x, y + aside);
      most = Math.max(most, over);
    }
  }
  return most;
}
