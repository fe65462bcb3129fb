import { at } from '../removal/at.ts';
import { cuttingNear } from '../removal/cutting.ts';
import type { Job } from '../removal/job.ts';
import type { Piece } from '../removal/piece.ts';
import { judge, newWorst, note, type Worst } from '../removal/proof.ts';
import { heightAt } from '../removal/surface.ts';
import type { LineTarget } from '../removal/targets.ts';
import { endOf, tangentOfHalf } from '../removal/tool.ts';
import { straightParts } from './straight.ts';
import { type Stroke, strokeOf } from './stroke.ts';

/** The groove is looked at this often along the line, and at both of its ends. Millimetres. */
const STEP = 0.5;

/**
 * Writes `line width` of a line scribed by a vee cutter: how far the groove's width at the stock's top is off what was meant.
 * A place that was never cut has no width, and one where the path strays has less.
 */
export function checkScribed(job: Job, target: LineTarget): void {
  const { tool } = job.intent;
  const tangent = tangentOfHalf(tool.tipAngle ?? Number.NaN);
  const strokes = cuttingNear(job, target.box, job.tool.most).flatMap((piece) => strokesOf(job, piece));
  const worst = newWorst();
  target.points.slice(1).forEach((to, i) => {
    const from = at(target.points, i);
    const steps = Math.max(1, Math.ceil(Math.hypot(to[0] - from[0], to[1] - from[1]) / STEP));
    for (let k = 0; k <= steps; k += 1) {
      const x = from[0] + ((to[0] - from[0]) * k) / steps;
      const y = from[1] + ((to[1] - from[1]) * k) / steps;
      noteWidth(job, target, strokes, tangent, [x, y], worst);
    }
  });
  const { wallOver, wallUnder } = target.cut.tolerance;
  judge(job.ledger, 'line width', worst, wallOver + wallUnder, target.cut.id);
}

function strokesOf(job: Job, piece: Piece): Stroke[] {
  const end = endOf(job.intent, job.tool.most);
  return straightParts(piece).map((part) => strokeOf(end, part));
}

function noteWidth(
  job: Job,
  target: LineTarget,
  strokes: readonly Stroke[],
  tangent: number,
  [x, y]: readonly [number, number],
  worst: Worst,
): void {
  const top = heightAt(job.intent.stock.top, x, y);
  const floor = heightAt(target.cut.floor, x, y);
  const lowest = strokes.reduce((height, stroke) => Math.min(height, stroke.over(x, y)), top);
  note(worst, Math.abs(2 * tangent * (floor - lowest)), [x, y, lowest], 0);
}
