import { type Area, areaSize, divided, isNear, pointOf } from '../geometry/area.ts';
import { lapCost, layLaps } from '../geometry/kernel/laps.ts';
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

/**
 * Distance between laps, mm: of those tried the one that costs the least way. A wide one buries the cutter in corners, which are
 * then cut twice; a narrow one makes many laps.
 */
export function chooseStepOver(centres: Area, radius: number, shares: readonly number[] = SHARES): number {
  const size = areaSize(centres);
  let best = { cost: Number.POSITIVE_INFINITY, step: 0 };
  for (const share of shares) {
    const step = share * 2 * radius;
    // Fewer laps than the area asks for there cannot be.
    if (size / step > best.cost) break;
    const cost = lapCost(layLaps(centres, { radius, step, engagement: ENGAGEMENT }));
    if (cost < best.cost) best = { cost, step };
  }
  return best.step;
}

/** Laps into a corner leave up to this much of the radius besides the allowance. */
const LAP_SLACK = 0.04;
/** Share of the radius within which a shaving is no bite: what the cutter meets there is a narrow strip. */
const RIM = 0.7;

/**
 * Whether the walls can be finished in one pass at full depth: nowhere, not even going into the sharpest corner, does what the
 * laps leave reach farther than a narrow strip under the cutter's rim. `walls`: where the finishing pass goes.
 */
export function finishesAtOnce(centres: Area, walls: Area, radius: number, allowance: number): boolean {
  const half = (Math.PI - sharpestTurn(centres, radius / 5)) / 2;
  const back = allowance / radius / Math.sin(half) + LAP_SLACK;
  if (Math.hypot(back + RIM * Math.cos(half), RIM * Math.sin(half)) > 1) return false;
  // A place so narrow that laps with an allowance do not go through is cut by the finishing pass alone.
  return walls.every((way) =>
    divided(way, radius / 4).every((p) => isNear(centres, p, back * radius * 1.05)),
  );
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
