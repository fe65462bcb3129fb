import { type Area, areaSize, divided, pointOf } from '../geometry/area.ts';
import { lapCost, layLaps } from '../geometry/kernel/laps.ts';
import { partCentres } from '../geometry/kernel/parts.ts';
import { nearnessTo } from '../geometry/nearness.ts';
import type { Vec } from '../geometry/types.ts';

/**
 * Most of a cutter's front half that may meet wood at a full step down: 125 degrees, three quarters of the diameter (common
 * practice, no source). Where more is met, it is met in two bites of half a step.
 */
export const ENGAGEMENT = (125 * Math.PI) / 180;

/** Of what an earlier cutter left of a corner, too small for the choice to matter much. */
export const FEW_SHARES = [0.4, 0.29, 0.2];

/** Shares of the diameter that are tried, widest first. */
const SHARES = [0.45, 0.4, 0.36, 0.32, 0.29, 0.26, 0.23, 0.2, 0.18, 0.16, 0.14];

/** How laps are laid. */
export interface LapChoice {
  /** Between laps, mm. */
  readonly stepOver: number;
  /** Of inner corners, mm. */
  readonly rounding: number;
}

/** Roundings of inner corners that are tried, of the radius. */
const ROUNDINGS = [0.8, 0.42, 0.3];
/** Laps are costed by chords that leave their arcs by this share of the radius. */
const COARSE = 0.006;

/**
 * Distance between laps and their rounding: of those tried the pair that costs the least way. Wide steps bury the cutter in
 * corners, which are then cut twice; narrow ones make many laps. Wide roundings leave corners to be cleared by themselves.
 */
export function chooseLaps(
  centres: Area,
  radius: number,
  cusp: number,
  shares: readonly number[] = SHARES,
): LapChoice {
  const grain = COARSE * radius;
  const parted = partCentres(centres, radius, grain);
  const size = areaSize(parted.base);
  let best = { cost: Number.POSITIVE_INFINITY, stepOver: 0, rounding: 0 };
  for (const stepOver of shares.map((share) => share * 2 * radius)) {
    // Fewer laps than the area asks for there cannot be.
    if (size / stepOver > best.cost) break;
    for (const rounding of ROUNDINGS.map((share) => share * radius)) {
      const bound = { radius, step: stepOver, engagement: ENGAGEMENT };
      const clearing = layLaps(parted, { ...bound, rounding, cusp, grain });
      const cost = lapCost(clearing);
      if (cost < best.cost) best = { cost, stepOver, rounding };
      if (clearing.corners.length === parted.spikes.length) break;
    }
  }
  return { stepOver: best.stepOver, rounding: best.rounding };
}

/** Laps into a corner may leave this much of the radius besides the allowance, and up to so much where the corner is blunt. */
const LEAST_CUSP = 0.04;
const MOST_CUSP = 0.18;
/** Share of the room that is used: turns spread over some length are sharper than they look. */
const SAFE = 0.7;
/** Share of the radius within which a shaving is no bite: what the cutter meets there is a narrow strip. */
const RIM = 0.7;

/**
 * How much laps may leave in corners besides the allowance, mm: so little that what the finishing pass meets in the sharpest
 * of them is still a narrow strip under the cutter's rim.
 */
export function cuspFor(centres: Area, radius: number, allowance: number): number {
  const half = (Math.PI - sharpestTurn(centres, radius / 5)) / 2;
  const strip = Math.sqrt(1 - (RIM * Math.sin(half)) ** 2) - RIM * Math.cos(half);
  const room = strip - allowance / radius / Math.sin(half);
  return radius * Math.min(MOST_CUSP, Math.max(LEAST_CUSP, SAFE * room));
}

/**
 * Whether the walls can be finished in one pass at full depth: nowhere, not even going into the sharpest corner, does what the
 * laps leave reach farther than a narrow strip under the cutter's rim. `walls`: where the finishing pass goes.
 */
export function finishesAtOnce(centres: Area, walls: Area, radius: number, allowance: number): boolean {
  const half = (Math.PI - sharpestTurn(centres, radius / 5)) / 2;
  const back = allowance / radius / Math.sin(half) + LEAST_CUSP;
  if (Math.hypot(back + RIM * Math.cos(half), RIM * Math.sin(half)) > 1) return false;
  // A place so narrow that laps with an allowance do not go through is cut by the finishing pass alone.
  return walls.every((way) => divided(way, radius / 4).every(nearnessTo(centres, back * radius * 1.05)));
}

/** The farthest the inner walls of an area turn within a length, radians. */
function sharpestTurn(area: Area, within: number): number {
  let sharpest = 0;
  for (const polygon of area) {
    polygon.forEach((_, i) => {
      let turn = 0;
      let run = 0;
      for (let k = i; run <= within && k < i + polygon.length; k += 1) {
        turn += turnAt(pointOf(polygon, k - 1), pointOf(polygon, k), pointOf(polygon, k + 1));
        sharpest = Math.max(sharpest, turn);
        const [p, q] = [pointOf(polygon, k), pointOf(polygon, k + 1)];
        run += Math.hypot(q[0] - p[0], q[1] - p[1]);
      }
    });
  }
  return sharpest;
}

function turnAt(a: Vec, b: Vec, c: Vec): number {
  const [ux, uy] = [b[0] - a[0], b[1] - a[1]];
  const [vx, vy] = [c[0] - b[0], c[1] - b[1]];
  return Math.atan2(ux * vy - uy * vx, ux * vx + uy * vy);
}
