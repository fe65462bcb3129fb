import type { PlaneSurfaceOperation, RouterJob } from '../machining/types.ts';
import { passesBetween, stripMoves } from './surface.ts';
import type { Move } from './types.ts';

/** The outermost passes go past the blank's edges by this, so that the thinnest cutter leaves nothing there. */
const PAST_EDGE = 0.5;

/** Moves that plane a blank: level by level, evenly, each over the whole width. */
export function planeMoves(operation: PlaneSurfaceOperation, job: RouterJob): Move[] {
  const { box, runOut, z, step } = operation;
  const radius = job.tool.diameter / 2;
  // Not even the thickest cutter goes past the run-out.
  const most = radius + job.tool.tolerance / 2;
  const ends = [box.x[0] - runOut + most, box.x[1] + runOut - most] as const;
  const edge = Math.max(...box.y.map(Math.abs)) + PAST_EDGE;
  const count = Math.max(1, Math.ceil(-z / step - 1e-9));
  return Array.from({ length: count }, (_, k) => (z * (k + 1)) / count).flatMap((level) =>
    stripMoves(passesBetween([edge, edge], [-edge, -edge], radius, job), level, ends, operation, job),
  );
}
