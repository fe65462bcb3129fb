/** How deep a tool has gone straight down without letting go of its chips. */
import type { Intent } from '../../../src/intent/types.ts';
import type { Step } from '../machine/types.ts';
import { planLength } from './reach.ts';
import { surfaceAt } from './wood.ts';

/** The plunge that is going on: its depth, and where it began. */
export interface Dive {
  depth: number;
  x: number;
  y: number;
  /** Way cut in plan since. */
  along: number;
}

export function newDive(): Dive {
  return { depth: 0, x: 0, y: 0, along: 0 };
}

/** Whether a step goes more down than along. */
export function isSteep(step: Step): boolean {
  return step.z1 < step.z0 && planLength(step) < step.z0 - step.z1;
}

/**
 * Takes a step in; `bite` is what it takes of the wood, 0 for a rapid. Gives the depth of the plunge so far. A drill begins anew
 * above the wood; no cutter does, where it only goes up and comes down again.
 */
export function dive({ tool, stock }: Intent, state: Dive, step: Step, bite: number): number {
  const isOut = (x: number, y: number, z: number): boolean => {
    const aside = Math.max(state.along, Math.hypot(x - state.x, y - state.y)) > state.depth;
    return aside || (tool.kind === 'drill' && z >= surfaceAt(stock.top, x, y));
  };
  if (isOut(step.x0, step.y0, step.z0)) state.depth = 0;
  const isDown = !step.rapid && isSteep(step);
  if (isDown && state.depth === 0) [state.x, state.y, state.along] = [step.x0, step.y0, 0];
  if (!step.rapid) state.along += planLength(step);
  if (isDown) state.depth += Math.max(0, bite);
  else if (isOut(step.x1, step.y1, step.z1)) state.depth = 0;
  return state.depth;
}
