/** How the back of a neck is shared out between a flat cutter's levels and the passes of a ball. */
import { grownBy, heightOfBack, sectionsOfBack, shortenedBy } from '../carving/shaftBack.ts';
import type { ShaftBack } from '../carving/types.ts';

/** On the level that is left under the neck the flat cutter keeps so much for the ball. Millimetres. */
const ON_LEVEL = 0.2;
/** Steps between two levels beside the back that are tried, highest first; more levels would only rub (common practice, no source). */
const STEPS = [1, 0.8, 0.65, 0.5, 0.4, 0.3, 0.2, 0.1];
/** What the ball takes deeper than it may is a shaving no wider than this share of its diameter (common practice, no source). */
const SHAVING = 0.1;
/** A level pass lies this much farther out than it must, for the straight stretches that it is made of. */
const APART = 0.015;
/** Room for a proof that bounds what is left, and for the rounding of heights. */
const ROOM = 0.12;
/** Places along and across at which heights are compared. */
const ALONG = 25;
const ACROSS = 800;
/** Of the ball's bite kept for the rounding of heights. */
const LET_PASS = 0.01;

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
  readonly ballDiameter: number;
  /** Greatest radius of the flat cutter, and how much thinner than its name it may be on one side. */
  readonly radius: number;
  readonly scatter: number;
  readonly halfBlank: number;
}

/** The step between levels, so that the ball may take what they leave; null where it would have to be too small. */
export function backSizes(need: BackNeed): BackSizes | null {
  const { back, allowance, flatBite, scatter } = need;
  const rough = grownBy(back, allowance, ON_LEVEL);
  const aside = mostAside(need, rough, APART + 2 * scatter);
  const corner = need.radius + 4 * APART;
  const atStep = (step: number): BackSizes => {
    const left = step + aside + ROOM;
    const roughed = { ...shortenedBy(rough, corner), raised: left };
    const past = roughed.ramps.x[0] + (left + ROOM) / back.ramps.rise - back.ramps.x[0];
    const atOnce = Math.max(1, Math.floor(flatBite / step + 1e-9));
    return { rough, step, atOnce, left, corner, roughed, finish: shortenedBy(back, past) };
  };
  return (
    STEPS.filter((step) => step <= flatBite)
      .map(atStep)
      .find((sizes) => leavesShavings(need, sizes)) ?? null
  );
}

/** Places along the back, off the ramps' upper ends. */
function stationsOf({ ramps: { x: ends } }: ShaftBack): number[] {
  return Array.from({ length: ALONG }, (_, i) => ends[0] + ((ends[1] - ends[0]) * (i + 0.5)) / ALONG);
}

/** Largest upright distance from a surface up to itself when it is moved aside from the middle: what a step leaves that lies so far out. */
function mostAside({ back, halfBlank }: BackNeed, surface: ShaftBack, aside: number): number {
  const sectionAt = sectionsOfBack(surface);
  const height = (x: number, y: number): number => heightOfBack(surface, sectionAt, x, y);
  return Math.max(
    ...stationsOf(back).flatMap((x) =>
      Array.from({ length: ACROSS }, (_, k) => {
        const y = (halfBlank * k) / ACROSS;
        return height(x, y) - height(x, y + aside);
      }),
    ),
  );
}

/** Whether what is left above the back is nowhere deeper than the ball may take, but for narrow strips down the sides. */
function leavesShavings(
  { back, halfBlank, ballBite, ballDiameter }: BackNeed,
  { roughed, finish }: BackSizes,
): boolean {
  const [above, below] = [sectionsOfBack(roughed), sectionsOfBack(finish)];
  return stationsOf(back).every((x) => {
    const deep = Array.from({ length: ACROSS }, (_, k) => {
      const y = (halfBlank * k) / ACROSS;
      return heightOfBack(roughed, above, x, y) - heightOfBack(finish, below, x, y) > ballBite - LET_PASS;
    });
    return deep.filter(Boolean).length * (halfBlank / ACROSS) <= SHAVING * ballDiameter;
  });
}
