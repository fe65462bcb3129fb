import type { KeepOut } from '../profile/types.ts';
import type { Finding } from '../report/finding.ts';
import { formatShort } from '../units/format.ts';
import type { Job, RouterJob } from './types.ts';

/**
 * Warnings of what stands so high that, with the tool at its deepest, it reaches past the collet's nut: the spindle's body above
 * is as wide as it is, and no proof knows it. One for each keep-out, for the tool that brings the body down lowest.
 */
export function tooHighForNut(jobs: readonly Job[]): Finding[] {
  const routers = jobs.filter((job): job is RouterJob => job.kind === 'router' && job.operations.length > 0);
  const boxes = [...new Set(routers.flatMap((job) => job.setup.keepOuts))];
  return boxes.flatMap((box) => {
    const beside = routers.filter((job) => job.setup.keepOuts.includes(box));
    const lowest = beside
      .map((job) => ({ job, height: bodyHeight(job) }))
      .sort((a, b) => a.height - b.height)
      .at(0);
    return lowest !== undefined && box.z[1] > lowest.height
      ? [warningOf(box, lowest.job, lowest.height)]
      : [];
  });
}

/** Where the spindle's body begins above the stock's top when the tool is at its deepest; out of the way when no nut is stated. */
function bodyHeight({ machine: { nut }, tool, setup, below }: RouterJob): number {
  if (nut === null) return Number.POSITIVE_INFINITY;
  return setup.stock.bottom - below + tool.stickOut + nut.length;
}

function warningOf(box: KeepOut, job: RouterJob, height: number): Finding {
  const mm = (length: number): string => `${formatShort(length, 1)} mm`;
  return {
    code: 'keep-out-beside-spindle',
    severity: 'warning',
    where: { source: 'shop', path: 'keepOuts' },
    text: `"${box.name}" reaches ${mm(box.z[1])} above the wood; with ${job.tool.name} at its deepest the spindle’s body begins at ${mm(height)}, and nobody knows how wide it is.`,
    allowed: `nothing above ${mm(height)}`,
    remedy: 'clamp lower, or watch the spindle pass the clamp in the dry run',
  };
}
