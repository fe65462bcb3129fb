import type { Finding } from '../report/finding.ts';
import { formatShort } from '../units/format.ts';
import type { BoreOperation, Job, RouterJob } from './types.ts';

/** A cutter of this share of a bore, or wider, has little room for chips, and goes down steeply (common practice, no source). */
const WIDEST = 0.75;

/** Chips find their way out of a bore that is no deeper than it is wide (common practice, no source). */
const SHALLOW = 1;

/** Warnings of deep bores that their cutter nearly fills, one for each cutter: what would do it better. */
export function tightBores(jobs: readonly Job[]): Finding[] {
  return jobs
    .filter((job): job is RouterJob => job.kind === 'router')
    .flatMap((job) => {
      const tight = job.operations.filter(
        (o): o is BoreOperation =>
          o.kind === 'bore' && job.tool.diameter >= WIDEST * o.diameter - 1e-9 && -o.z > SHALLOW * o.diameter,
      );
      const [first] = [...tight].sort((a, b) => a.diameter - b.diameter);
      return first === undefined ? [] : [warningOf(job, first, tight.length)];
    });
}

function warningOf({ tool, machine, program }: RouterJob, bore: BoreOperation, count: number): Finding {
  const mm = (length: number): string => `${formatShort(length, 3)} mm`;
  const more = count === 1 ? '' : `, and ${count - 1} more of ${program}`;
  return {
    code: 'bore-tight',
    severity: 'warning',
    where: { source: 'shop', path: 'tools' },
    text: `${tool.name}, ${mm(tool.diameter)}, bores ${bore.feature}, ${mm(bore.diameter)} wide and ${mm(-bore.z)} deep${more}: it nearly fills the hole, so that chips have little room and it goes down on a steep helix.`,
    allowed: `a flat cutter of less than ${mm(WIDEST * bore.diameter)} for a bore of ${mm(bore.diameter)}`,
    remedy: `give ${machine.name} a drill of ${mm(bore.diameter)} or such a cutter, or lift often and blow the chips out`,
  };
}
