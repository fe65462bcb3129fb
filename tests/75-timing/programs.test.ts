import { describe, expect, it } from 'vitest';
import { jobsByProgram, makeProgram } from '../../src/app/programs.ts';
import { timeProgram } from '../../src/app/timeProgram.ts';
import type { Job } from '../../src/machining/types.ts';
import { planOf } from '../support/job.ts';

const programs = jobsByProgram(planOf().jobs).map((jobs) => makeProgram(jobs, 'Test parlour'));
const encoder = new TextEncoder();

/** The same job on a machine that gains speed `factor` times as fast. */
function quicker(job: Job, factor: number): Job {
  if (job.kind === 'laser')
    return { ...job, machine: { ...job.machine, acceleration: job.machine.acceleration * factor } };
  const { xy, z } = job.machine.acceleration;
  return { ...job, machine: { ...job.machine, acceleration: { xy: xy * factor, z: z * factor } } };
}

describe('the time of a written program', () => {
  it.each(programs.map((p) => [p.job.program, p] as const))(
    'of %s is not less than its lengths over its speeds, found by the proof, nor far from it',
    (_, { proof, time }) => {
      expect(proof.passed).toBe(true);
      expect(time.minutes).toBeGreaterThanOrEqual(proof.minutes - 1e-9);
      expect(time.minutes).toBeLessThan(proof.minutes * 3);
      expect(time.cutting + time.travel + time.waiting).toBeCloseTo(time.minutes, 9);
      expect(time.atFeed).toBeGreaterThan(0);
      expect(time.atFeed).toBeLessThanOrEqual(1);
    },
  );

  it('comes down to lengths over speeds on a machine that gains speed at once', () => {
    for (const { job, text, intent, proof } of programs) {
      const fast = quicker(job, 1e9);
      const machine = { ...fast.machine, junctionSpeed: 1e9 };
      const { minutes } = timeProgram(encoder.encode(text), { ...fast, machine } as Job, intent);
      // The proof leaves out the first way across, which starts nobody knows where; here it starts at the work zero.
      const first = Math.hypot(600, 400) / 3000;
      expect(minutes).toBeGreaterThanOrEqual(proof.minutes - 1e-6);
      expect(minutes).toBeLessThan(proof.minutes + first);
    }
  });

  it('falls as the machine gains speed faster', () => {
    for (const { job, text, intent, time } of programs) {
      const faster = timeProgram(encoder.encode(text), quicker(job, 4), intent);
      expect(faster.minutes).toBeLessThan(time.minutes);
      expect(faster.atFeed).toBeGreaterThanOrEqual(time.atFeed);
    }
  });
});
