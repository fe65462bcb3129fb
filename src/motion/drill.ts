import type { DrillOperation, RouterJob } from '../machining/types.ts';
import { DRILL_BREAK_THROUGH, RAPID_FLOOR, tipLength } from './heights.ts';
import type { Move } from './types.ts';

/** Moves that drill one hole in pecks no deeper than the step-down; the tip goes below the floor by its own length. */
export function drillMoves(drill: DrillOperation, job: RouterJob): Move[] {
  const tip = tipLength(job.tool.diameter, job.tool.tipAngle);
  const z = drill.z - tip - (drill.through ? DRILL_BREAK_THROUGH : 0);
  const pecks = Math.ceil((RAPID_FLOOR - z) / job.feeds.stepDown - 1e-9);
  return [
    {
      kind: 'drill',
      x: drill.at[0],
      y: drill.at[1],
      z,
      retract: RAPID_FLOOR,
      peck: pecks > 1 ? job.feeds.stepDown : null,
      feed: job.feeds.plunge,
    },
    { kind: 'rapid', z: job.machine.clearHeight },
  ];
}
