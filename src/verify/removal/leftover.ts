import type { Left } from './coverage.ts';
import { floorOf } from './depth.ts';
import type { Job } from './job.ts';
import { judge } from './proof.ts';
import { heightAt } from './surface.ts';
import type { Target } from './targets.ts';

/** Writes how much is left in plan. */
export function writeLeft(job: Job, target: Target, name: string, left: Left, limit: number): void {
  const [x, y] = left.place;
  const worst = {
    value: left.value + job.sweep.bound,
    place: [x, y, heightAt(floorOf(job, target), x, y)] as const,
    line: 0,
    seen: left.seen,
  };
  judge(job.ledger, name, worst, limit, target.cut.id);
}
