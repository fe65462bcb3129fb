import type { Finding } from '../report/finding.ts';
import type { Job } from './types.ts';

/** A warning for each machine whose control may leave its path by nobody knows how much. */
export function unknownCorners(jobs: readonly Job[]): Finding[] {
  const cutting = jobs.filter((job) => job.operations.length > 0);
  const machines = [...new Set(cutting.map((job) => job.machine))];
  return machines
    .filter(({ controller }) => controller.corners === null)
    .map(({ id, name }) => ({
      code: 'corners-unknown',
      severity: 'warning' as const,
      where: { source: 'shop' as const, path: 'machines' },
      text: `Nobody has said how far the control of ${name} leaves the written path where two moves meet: its programs are proven as written, and corners may come out rounder.`,
      allowed: 'exactPath: true where it understands G61; or corners: exact, or the limit set at the control',
      remedy: `look it up in the manual and state it under controller of ${id}; until then try a square pocket in scrap and look at its corners`,
    }));
}
