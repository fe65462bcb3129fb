/**
 * Passes of a ball cutter along the back of a neck, each at one place of the sections, so that it touches them there all along; they are
 * set apart so that the ridges between them have the same height everywhere. At both ends a pass comes down and goes up along the
 * ramp, and it goes no lower than the level that is left.
 */
import { footAt, rampOver, sectionsOfBack } from '../carving/shaftBack.ts';
import type { ShaftBack } from '../carving/types.ts';
import type { FinishBackOperation, RouterJob } from '../machining/types.ts';
import { outside, thereAndBack } from './rows.ts';
import { thinOut } from './thinOut.ts';
import type { Move, Point } from './types.ts';

/** From one pass to the next the ball goes over at this height above the blank. */
const OVER = 0.5;
/** Between points of a pass before those not needed are left out, and how far it may lie off them then. */
const LOOK = 0.5;
const CHORDS = 0.002;
/** Places along the neck at which the ridges are looked at. */
const LOOKS = 17;
/** Nearer to the side a place of the section tells nothing more. */
const SIDE = 1e-4;

/** Moves of all passes, from one side over the crest to the other. */
export function finishBackMoves(operation: FinishBackOperation, job: RouterJob): Move[] {
  const { back } = operation;
  const radius = job.tool.diameter / 2;
  const half = placesOf(operation, job);
  const rows = [
    ...half.toReversed().map((t) => passAt(back, t, 1, radius)),
    ...half.slice(1).map((t) => passAt(back, t, -1, radius)),
  ];
  return thereAndBack(rows, outside(operation.box, 1, radius), job);
}

/** One pass at a place `t` of the sections on one side, thinned out. */
function passAt(back: ShaftBack, t: number, side: 1 | -1, radius: number): Point[] {
  const sectionAt = sectionsOfBack(back);
  const slant = radius * (Math.hypot(1, back.ramps.rise) - 1);
  const aside = (OVER - slant) / back.ramps.rise;
  // x of the ball's middle where it is so far above the blank on either ramp.
  const [from, to] = [back.ramps.x[0] - aside, back.ramps.x[1] + aside];
  const count = Math.ceil((to - from) / LOOK);
  const points = Array.from({ length: count + 1 }, (_, k): Point => {
    const x = from + ((to - from) * k) / count;
    const { at, normal } = footUnder(back, sectionAt, x, t, radius);
    const touching = at[2] + radius * normal[2] - radius;
    return {
      x,
      y: side * (at[1] + radius * normal[1]) || 0,
      z: Math.max(touching, back.least, rampOver(back, x) + slant),
    };
  });
  return thinOut(points, CHORDS);
}

/** The place that a ball with its middle at x touches: a little before or past it where the neck gets thicker or wider. */
function footUnder(
  back: ShaftBack,
  sectionAt: ReturnType<typeof sectionsOfBack>,
  x: number,
  t: number,
  radius: number,
): ReturnType<typeof footAt> {
  let foot = footAt(back, sectionAt, x, t);
  for (let look = 0; look < 3; look += 1) foot = footAt(back, sectionAt, x - radius * foot.normal[0], t);
  return foot;
}

/** Places of the half section, from its middle to its side, whose ridges are as high as is aimed at somewhere and nowhere higher. */
function placesOf({ back, aim }: FinishBackOperation, job: RouterJob): number[] {
  const thinnest = (job.tool.diameter - job.tool.tolerance) / 2;
  const sectionAt = sectionsOfBack(back);
  const [from, to] = back.ramps.x;
  const stations = Array.from({ length: LOOKS }, (_, k) => from + ((to - from) * k) / (LOOKS - 1));
  const isLow = (t: number): boolean =>
    stations.every((x) => {
      const { at, normal } = footAt(back, sectionAt, x, t);
      return at[2] + thinnest * normal[2] - thinnest <= back.least;
    });
  const ridge = (a: number, b: number): number =>
    Math.max(...stations.map((x) => ridgeBetween(back, sectionAt, x, [a, b], thinnest)));
  const places = [1];
  for (let t = 1; t > SIDE && !isLow(t); ) {
    t = nextPlace(t, (next) => ridge(t, next) <= aim);
    places.push(t);
  }
  return places;
}

/** The farthest place that is still good, by halving. */
function nextPlace(t: number, isGood: (next: number) => boolean): number {
  let [good, bad] = [t, 0];
  if (isGood(SIDE)) return SIDE;
  for (let i = 0; i < 40; i += 1) {
    const middle = (good + bad) / 2;
    if (isGood(middle)) good = middle;
    else bad = middle;
  }
  if (good === t) throw new Error(`no pass beside ${t}`);
  return good;
}

/** Height of the ridge that balls touching two places of a section leave between them, square to the section. */
function ridgeBetween(
  back: ShaftBack,
  sectionAt: ReturnType<typeof sectionsOfBack>,
  x: number,
  [a, b]: readonly [number, number],
  radius: number,
): number {
  const [first, second] = [footAt(back, sectionAt, x, a), footAt(back, sectionAt, x, b)];
  const middle = footAt(back, sectionAt, x, (a + b) / 2);
  const centre = (foot: typeof first): readonly [number, number] => [
    foot.at[1] + radius * foot.normal[1],
    foot.at[2] + radius * foot.normal[2],
  ];
  const [p, q] = [centre(first), centre(second)];
  const apart = Math.hypot(q[0] - p[0], q[1] - p[1]) / 2;
  if (apart >= radius) return Number.POSITIVE_INFINITY;
  const down = Math.sqrt(radius * radius - apart * apart);
  const [ny, nz] = [middle.normal[1], middle.normal[2]];
  const [my, mz] = [(p[0] + q[0]) / 2 - down * ny, (p[1] + q[1]) / 2 - down * nz];
  return (my - middle.at[1]) * ny + (mz - middle.at[2]) * nz;
}
