import { lengthRound, type Polygon, stretchOf } from '../../geometry/area.ts';
import { passDepth, RAMP_ANGLE, rampLength } from '../heights.ts';
import { follow, type Trace } from './trace.ts';

/** Share of the step-down that a cutter buried all round may take. */
const BURIED_SHARE = 0.55;

/** Angle of a helix where the whole pocket has no room for a longer ramp, radians: 5 degrees (common practice, no source). */
const STEEP_ANGLE = (5 * Math.PI) / 180;

/** On the smallest ways a turn falls by this at least, or it would never come down. Millimetres. */
const LEAST_FALL = 0.02;

/** How a cutter comes down on a closed way. */
export interface Entry {
  readonly way: Polygon;
  /** From the height of what is cut already. */
  readonly from: number;
  readonly z: number;
  /** Length of the pocket's longest lap, mm. */
  readonly longest: number;
}

/** Whether a way is too short for a ramp at the start of each turn, and how many turns keep each within its share of a step. */
function turnsOf(trace: Trace, { way, from, z }: Entry): { turns: number; isHelix: boolean } {
  const turns = Math.ceil((from - z) / (BURIED_SHARE * passDepth(trace.job)) - 1e-9);
  return { turns, isHelix: lengthRound(way) < 2 * rampLength((from - z) / turns) };
}

function fallOfTurn({ way, from, z, longest }: Entry): number {
  const angle = longest < 2 * rampLength(from - z) ? STEEP_ANGLE : RAMP_ANGLE;
  return Math.max(LEAST_FALL, lengthRound(way) * Math.tan(angle));
}

/**
 * How far below the height of what is cut already a tool may be when it comes to the way, having gone down on its way there. On a
 * helix, whose first turn falls by its share of what is left, the cutter then ends that turn deeper in the wood by as much.
 */
export function mayFallBefore(trace: Trace, entry: Entry): number {
  const { turns, isHelix } = turnsOf(trace, entry);
  const depth = entry.from - entry.z;
  if (!isHelix) return (0.9 * depth) / turns;
  const count = Math.max(turns, Math.ceil(depth / fallOfTurn(entry) - 1e-9));
  if (count === 1) return 0;
  const share = BURIED_SHARE * passDepth(trace.job);
  return Math.max(0, (share - depth / count) * (count / (count - 1)));
}

/**
 * Comes down on a closed way, from the tool's place `along` it, and leaves it cut to `z` all round: on a long way by a
 * ramp at the start of each turn, on a short one by a helix. No turn takes more than half the step-down, about. Gives the
 * place along the way at which it ends.
 */
export function comeDown(trace: Trace, entry: Entry, along: number): number {
  const { way, z } = entry;
  const { turns, isHelix } = turnsOf(trace, entry);
  if (!isHelix) return rampTurns(trace, entry, along, turns);
  const round = lengthRound(way);
  const count = Math.max(turns, Math.ceil((trace.z - z) / fallOfTurn(entry) - 1e-9));
  follow(trace, stretchOf(way, along, along + count * round), z);
  const end = along + round - Math.min(cutAhead(trace), round / 2);
  follow(trace, stretchOf(way, along, end));
  return end;
}

/**
 * Once the cutter has come down somewhere, it has cut the way there for some length before that place too: a level turn may end
 * so far before it. What stays beside the way there is lower than the ramp is high within that length. Millimetres.
 */
function cutAhead({ job }: Trace): number {
  return AHEAD * (job.tool.diameter / 2);
}

/** Of the radius: what stays at the rim then is no wider than a fourteenth of it. */
const AHEAD = 0.75;

function rampTurns(trace: Trace, { way, from, z }: Entry, along: number, turns: number): number {
  const round = lengthRound(way);
  const step = (from - z) / turns;
  const ramp = rampLength(step);
  for (let turn = 1; turn <= turns; turn += 1) {
    follow(trace, stretchOf(way, along, along + ramp), turn === turns ? z : from - turn * step);
    follow(trace, stretchOf(way, along + ramp, along + round));
  }
  const last = Math.max(0, ramp - cutAhead(trace));
  follow(trace, stretchOf(way, along, along + last));
  return along + last;
}

/** RAMP_ANGLE over a level way: how far a tool comes down on it. */
export function fallOver(length: number): number {
  return length * Math.tan(RAMP_ANGLE);
}
