import { coneLength } from '../geometry/cone.ts';
import type { DrillOperation, RouterJob } from '../machining/types.ts';
import { passDepth, RAPID_FLOOR } from './heights.ts';
import type { Move } from './types.ts';

/** Moves that drill one hole in pecks no deeper than the step-down; the tip goes below a blind floor by its own length,
 * and as deep as the machine allows below a through hole. */
export function drillMoves(drill: DrillOperation, job: RouterJob): Move[] {
  const tip = coneLength(job.tool.diameter, job.tool.tipAngle);
  const z = drill.through ? drill.z - job.below : drill.z - tip;
  const pecks = Math.ceil((RAPID_FLOOR - z) / passDepth(job) - 1e-9);
  return [
    {
      kind: 'drill',
      x: drill.at[0],
      y: drill.at[1],
      z,
      retract: RAPID_FLOOR,
      peck: pecks > 1 ? passDepth(job) : null,
      feed: job.feeds.plunge,
    },
    { kind: 'rapid', z: job.machine.clearHeight },
  ];
}
