import { coneLength } from '../geometry/cone.ts';
import type { DrillOperation, RouterJob } from '../machining/types.ts';
import { passDepth, RAPID_FLOOR } from './heights.ts';
import { heightOver } from './slotCourse.ts';
import type { Move } from './types.ts';

/** Moves that drill one hole in pecks no deeper than the step-down; the tip goes below a blind floor by its own length,
 * and as deep as the machine allows below a through hole. */
export function drillMoves(drill: DrillOperation, job: RouterJob): Move[] {
  const tip = coneLength(job.tool.diameter, job.tool.tipAngle);
  const z = drill.through ? drill.z - job.below : drill.z - tip;
  const end: Move = { kind: 'rapid', z: job.machine.clearHeight };
  const top = heightOver(job.setup.stock.top, drill.at, job.tool.diameter / 2);
  // Where the wood begins lower than the first peck ends, no peck of a cycle would find a hole to go back into.
  if (top < RAPID_FLOOR - passDepth(job)) return [...pecksFrom(top, z, drill, job), end];
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
    end,
  ];
}

/** The drill goes back into its hole to this much above where it was. Millimetres. */
const ABOVE_LAST = 0.1;

/** Even pecks from where the wood begins, out of the hole after each. */
function pecksFrom(top: number, z: number, { at: [x, y] }: DrillOperation, job: RouterJob): Move[] {
  const count = Math.ceil((top - z) / passDepth(job) - 1e-9);
  const peck = (top - z) / count;
  return [
    { kind: 'rapid', x, y },
    { kind: 'rapid', z: RAPID_FLOOR },
    ...Array.from({ length: count }, (_, k): Move[] => [
      ...(k === 0 ? [] : [{ kind: 'rapid' as const, z: top - k * peck + ABOVE_LAST }]),
      { kind: 'feed', z: top - (k + 1) * peck, feed: job.feeds.plunge },
      ...(k === count - 1 ? [] : [{ kind: 'rapid' as const, z: RAPID_FLOOR }]),
    ]).flat(),
  ];
}
