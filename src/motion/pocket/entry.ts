import { lengthRound, type Polygon, stretchOf } from '../../geometry/area.ts';
import { passDepth, RAMP_ANGLE, rampLength } from '../heights.ts';
import { follow, type Trace } from './trace.ts';

/** Share of the step-down that a cutter buried all round may take. */
const BURIED_SHARE = 0.55;

/** On the smallest ways a turn falls by this at least, or it would never come down. Millimetres. */
const LEAST_FALL = 0.02;

/**
 * Comes down to `z` on a closed way, from the tool's place `along` it, and leaves it cut to `z` all round: on a long way by a
 * ramp at the start of each turn, on a short one by a helix. No turn takes more than half the step-down, about. Gives the
 * place along the way at which it ends.
 */
export function comeDown(trace: Trace, way: Polygon, along: number, z: number): number {
  const round = lengthRound(way);
  const fall = trace.z - z;
  const turns = Math.max(2, Math.ceil(fall / (BURIED_SHARE * passDepth(trace.job)) - 1e-9));
  const ramp = rampLength(fall / turns);
  if (round >= 2 * ramp) return rampTurns(trace, way, along, z, turns);
  const perTurn = Math.max(LEAST_FALL, round * Math.tan(RAMP_ANGLE));
  const spiral = Math.max(turns, Math.ceil(fall / perTurn - 1e-9));
  follow(trace, stretchOf(way, along, along + spiral * round), z);
  follow(trace, stretchOf(way, along, along + round));
  return along;
}

function rampTurns(trace: Trace, way: Polygon, along: number, z: number, turns: number): number {
  const round = lengthRound(way);
  const step = (trace.z - z) / turns;
  const ramp = rampLength(step);
  for (let turn = 0; turn < turns; turn += 1) {
    const height = turn === turns - 1 ? z : trace.z - step;
    follow(trace, stretchOf(way, along, along + ramp), height);
    follow(trace, stretchOf(way, along + ramp, along + round));
  }
  follow(trace, stretchOf(way, along, along + ramp));
  return along + ramp;
}
