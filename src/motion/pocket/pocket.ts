import { centresOf, lapCentresOf } from '../../geometry/kernel/centres.ts';
import { layLaps } from '../../geometry/kernel/laps.ts';
import { partCentres } from '../../geometry/kernel/parts.ts';
import { mirrorY } from '../../geometry/ring.ts';
import type { Region } from '../../geometry/types.ts';
import type { PocketOperation, RouterJob } from '../../machining/types.ts';
import type { Move } from '../types.ts';
import { type Finish, finishWalls } from './finish.ts';
import { clearLevel } from './level.ts';
import { finishesOf, levelsOf } from './levels.ts';
import { mirrorMoves } from './mirror.ts';
import { cutRest, restOf } from './rest.ts';
import { newTrace, type Trace } from './trace.ts';

/** Laps, which leave an allowance, are laid as exactly as this. Millimetres. */
const GRAIN = 0.002;

/**
 * Moves that clear a pocket of any shape down to its floor: flat levels of laps from the inside out, entered on a ramp or helix,
 * and a finishing pass round the walls. Counter-clockwise along the outer wall, so that a right-hand spindle climbs; the
 * conventional way is the same seen in a mirror.
 */
export function pocketMoves(pocket: PocketOperation, job: RouterJob): Move[] {
  if (pocket.direction === 'climb') return climbing(pocket, job);
  const mirrored = { ...pocket, region: mirrorRegion(pocket.region), whole: mirrorRegion(pocket.whole) };
  return mirrorMoves(climbing(mirrored, job));
}

function mirrorRegion({ outer, holes }: Region): Region {
  return { outer: mirrorY(outer), holes: holes.map(mirrorY) };
}

function climbing(pocket: PocketOperation, job: RouterJob): Move[] {
  const trace = newTrace(job, pocket);
  const radius = job.tool.diameter / 2;
  const rest = restOf(pocket, radius, GRAIN);
  if (rest === null) clearAll(trace, pocket, radius);
  else cutRest(trace, pocket, rest);
  return [...trace.moves, { kind: 'rapid', z: job.machine.clearHeight }];
}

function clearAll(trace: Trace, pocket: PocketOperation, radius: number): void {
  const part = pocket.around === null ? null : pocket.region;
  const centres = lapCentresOf(pocket.whole, part, radius, pocket.allowance);
  const clearing = layLaps(partCentres(centres, radius, GRAIN), {
    radius,
    step: pocket.stepOver,
    engagement: pocket.engagement,
    rounding: pocket.rounding,
    cusp: pocket.cusp,
    grain: GRAIN,
  });
  const finish: Finish = {
    whole: pocket.whole,
    centres: centresOf(pocket.whole, part, radius, radius),
    reached: clearing.reached,
  };
  let above = 0;
  for (const z of levelsOf(pocket, trace.job)) {
    clearLevel(trace, { clearing, step: pocket.stepOver, above, z });
    if (pocket.finish === 'at each level') finishWalls(trace, finish, z);
    above = z;
  }
  if (pocket.finish !== 'at full depth') return;
  for (const z of finishesOf(pocket, trace.job)) finishWalls(trace, finish, z);
}
