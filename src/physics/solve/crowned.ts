/**
 * The best compensated saddle: a straight slot, and for every string a crown that leans forward or back inside the saddle's
 * width.
 *
 * Where the ideal set-backs all fit beside one straight line, the line is the one that needs the least width. Otherwise a
 * string that wants more than the width has stands at its limit, and the slot's place and angle make the whole set's
 * errors least: a convex problem in two numbers.
 */
import { idealSetBack, type LocalCost, localCost, MOST_STEPS, pick, SETTLED, setCost } from './fit.ts';
import { onLine, type Saddle, type SaddleLine, type SaddleString } from './types.ts';

export interface CrownedSaddle extends Saddle {
  /** Of the slot's middle. */
  readonly line: SaddleLine;
  /** By string: how far its crown stands behind (negative: before) the slot's middle. */
  readonly leans: readonly number[];
  /** Half the width that the ideal set-backs would need, without any edge. */
  readonly halfWidthNeeded: number;
}

/** A string's wish in the shared problem: the set-back it would like, and how much it minds. */
interface Wish {
  readonly y: number;
  readonly at: number;
  readonly stiffness: number;
}

/** The best saddle whose crowns may stand up to `halfWidth` mm from its middle line, measured along the strings. */
export function crownedSaddle(strings: readonly SaddleString[], halfWidth: number): CrownedSaddle {
  const ideals = strings.map((s) => idealSetBack(s));
  const heard = strings.map((s, i) => ({ y: s.y, at: pick(ideals, i), stiffness: s.weight }));
  const narrowest = narrowestBand(heard.filter((w) => w.stiffness > 0));
  const line =
    narrowest.halfWidth <= halfWidth ? narrowest.line : sharedLine(strings, narrowest.line, halfWidth);
  const setBacks = strings.map((s, i) => within(pick(ideals, i), onLine(line, s.y), halfWidth));
  return {
    line,
    setBacks,
    leans: setBacks.map((at, i) => at - onLine(line, pick(strings, i).y)),
    halfWidthNeeded: narrowest.halfWidth,
    cost: setCost(strings, setBacks),
  };
}

const within = (value: number, middle: number, half: number): number =>
  Math.min(middle + half, Math.max(middle - half, value));

/**
 * The straight line that lies closest to all points at its worst, and that worst distance.
 * It leaves three points equally far off, in turn on either side; of all triples the one with the largest distance
 * decides (de la Vallee Poussin).
 */
export function narrowestBand(points: readonly { readonly y: number; readonly at: number }[]): {
  readonly line: SaddleLine;
  readonly halfWidth: number;
} {
  const sorted = [...points].sort((a, b) => a.y - b.y);
  let best = { line: lineOf(pick(sorted, 0), pick(sorted, sorted.length - 1)), halfWidth: 0 };
  for (let i = 0; i < sorted.length; i += 1)
    for (let j = i + 1; j < sorted.length; j += 1)
      for (let k = j + 1; k < sorted.length; k += 1) {
        const { atCentre, slope } = lineOf(pick(sorted, i), pick(sorted, k));
        const off = (pick(sorted, j).at - onLine({ atCentre, slope }, pick(sorted, j).y)) / 2;
        if (Math.abs(off) > best.halfWidth)
          best = { line: { atCentre: atCentre + off, slope }, halfWidth: Math.abs(off) };
      }
  return best;
}

type Point = { readonly y: number; readonly at: number };

function lineOf(a: Point, b: Point): SaddleLine {
  const slope = a.y === b.y ? 0 : (b.at - a.at) / (b.y - a.y);
  return { atCentre: a.at - slope * a.y, slope };
}

/** The slot when not every wish can be met. */
function sharedLine(strings: readonly SaddleString[], start: SaddleLine, halfWidth: number): SaddleLine {
  return byFullSteps(strings, start, halfWidth) ?? byGuardedSteps(strings, start, halfWidth);
}

/** Each cost is taken as quadratic about where its string now stands; null where that does not settle. */
function byFullSteps(
  strings: readonly SaddleString[],
  start: SaddleLine,
  halfWidth: number,
): SaddleLine | null {
  let line = start;
  let at = strings.map((s) => onLine(line, s.y));
  for (let i = 0; i < MOST_STEPS; i += 1) {
    const wishes = strings.map((s, k) => wishOf(s, pick(at, k), localCost(s, pick(at, k))));
    const next = leastBeyond(wishes, line, halfWidth);
    const moved = Math.abs(next.atCentre - line.atCentre) + 100 * Math.abs(next.slope - line.slope);
    line = next;
    at = wishes.map((w) => within(w.at, onLine(line, w.y), halfWidth));
    if (moved < SETTLED && i > 0) return line;
  }
  return null;
}

/** The same for strings so slack that their costs bend: only steps that make the whole set cheaper, halved until they do. */
function byGuardedSteps(strings: readonly SaddleString[], start: SaddleLine, halfWidth: number): SaddleLine {
  const ideals = strings.map((s) => idealSetBack(s));
  const standing = (on: SaddleLine): number[] =>
    strings.map((s, k) => within(pick(ideals, k), onLine(on, s.y), halfWidth));
  const cost = (on: SaddleLine): number => setCost(strings, standing(on));
  let line = start;
  for (let i = 0; i < MOST_STEPS; i += 1) {
    const at = standing(line);
    const wishes = strings.map((s, k) => wishOf(s, pick(at, k), localCost(s, pick(at, k))));
    const next = leastBeyond(wishes, line, halfWidth);
    const step = { atCentre: next.atCentre - line.atCentre, slope: next.slope - line.slope };
    const here = cost(line);
    let share = 1;
    while (share > LEAST_SHARE && !(cost(moved(line, step, share)) < here)) share /= 2;
    if (share <= LEAST_SHARE) return line;
    line = moved(line, step, share);
  }
  return line;
}

/** A step that helps no more when it is this short has come to the least cost. */
const LEAST_SHARE = 1e-6;

const wishOf = (string: SaddleString, at: number, { gradient, curvature }: LocalCost): Wish => ({
  y: string.y,
  at: at - gradient / curvature,
  stiffness: string.weight * curvature,
});

/** How far a wish lies beyond the band about a line; 0 inside. */
function beyond(wish: Wish, line: SaddleLine, halfWidth: number): number {
  const off = wish.at - onLine(line, wish.y);
  return Math.sign(off) * Math.max(0, Math.abs(off) - halfWidth);
}

/** The line that makes the sum of stiffness times (distance beyond the band)^2 least, by guarded Newton steps. */
function leastBeyond(wishes: readonly Wish[], start: SaddleLine, halfWidth: number): SaddleLine {
  const value = (line: SaddleLine): number =>
    wishes.reduce((sum, w) => sum + w.stiffness * beyond(w, line, halfWidth) ** 2, 0);
  let line = start;
  for (let i = 0; i < MOST_STEPS; i += 1) {
    const step = newtonStep(wishes, line, halfWidth);
    if (Math.abs(step.atCentre) + 100 * Math.abs(step.slope) < SETTLED / 10) return line;
    let share = 1;
    const here = value(line);
    // A hair above is rounding: near the least point every value is the same.
    while (share > 1e-6 && value(moved(line, step, share)) > here * (1 + 1e-9)) share /= 2;
    line = moved(line, step, share);
  }
  return line;
}

const moved = (line: SaddleLine, step: SaddleLine, share: number): SaddleLine => ({
  atCentre: line.atCentre + share * step.atCentre,
  slope: line.slope + share * step.slope,
});

function newtonStep(wishes: readonly Wish[], line: SaddleLine, halfWidth: number): SaddleLine {
  const sum = { g: 0, gy: 0, h: 0, hy: 0, hyy: 0 };
  for (const wish of wishes) {
    const off = beyond(wish, line, halfWidth);
    if (off === 0) continue;
    sum.g += wish.stiffness * off;
    sum.gy += wish.stiffness * off * wish.y;
    sum.h += wish.stiffness;
    sum.hy += wish.stiffness * wish.y;
    sum.hyy += wish.stiffness * wish.y ** 2;
  }
  if (sum.h === 0) return { atCentre: 0, slope: 0 };
  const determinant = sum.h * sum.hyy - sum.hy ** 2;
  // A single string beyond its limit: the line moves toward it as a whole.
  if (determinant <= 1e-12 * sum.h * sum.hyy) return { atCentre: sum.g / sum.h, slope: 0 };
  return {
    atCentre: (sum.hyy * sum.g - sum.hy * sum.gy) / determinant,
    slope: (sum.h * sum.gy - sum.hy * sum.g) / determinant,
  };
}
