/** A program that only looks round the stock: nothing may turn, nothing may come near, and every corner is passed. */
import type { Run } from '../machine/types.ts';
import type { Good, Harm } from './types.ts';

/** A corner counts as passed when the tool's middle comes this near, mm. */
const AT_CORNER = 0.01;
/** F words are written in whole numbers. */
const ROUNDING = 0.5;

export function isLook({ intent }: Good): boolean {
  return intent.cuts.length === 0;
}

export function harmInLook({ intent }: Good, run: Run, slack: number): Harm | null {
  const { limits, stock } = intent;
  const say = (what: string): Harm => ({ kind: 'process', what });
  for (const step of run.steps) {
    if (step.speed !== 0) return say(`line ${step.line}: the spindle turns`);
    if (Math.min(step.z0, step.z1) < limits.clearHeight - slack) return say(`line ${step.line}: too low`);
    if (!step.rapid && (step.feed > limits.feed[1] + ROUNDING || step.feed < limits.feed[0] - ROUNDING))
      return say(`line ${step.line}: F ${step.feed}`);
  }
  const missed = stock.region
    .flat()
    .find(([x, y]) => run.steps.every((s) => s.rapid || distance(s, x, y) > AT_CORNER + slack));
  return missed === undefined ? null : say(`corner ${missed.join(', ')} not passed`);
}

function distance(s: Run['steps'][number], x: number, y: number): number {
  const [dx, dy] = [s.x1 - s.x0, s.y1 - s.y0];
  const square = dx * dx + dy * dy;
  const t = square === 0 ? 0 : Math.min(1, Math.max(0, ((x - s.x0) * dx + (y - s.y0) * dy) / square));
  return Math.hypot(x - s.x0 - t * dx, y - s.y0 - t * dy);
}
