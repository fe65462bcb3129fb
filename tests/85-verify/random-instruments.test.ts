/**
 * Instruments by lot: scales of 300 to 1100 mm, 3 to 12 strings, one or two scales, any radius, division, edge and hand, on a router
 * or a laser. Each is checked, laid out for both hands, made and proven; one with a flaw is refused for that flaw. Some hundreds:
 * `npm run bench -- instruments-random`.
 */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Trial, tryInstrument } from '../support/instrumentTrial.ts';
import { anyJob } from '../support/randomInstrument.ts';

/** About a second each. */
const RUNS = 20;
const SEED = 20240611;

describe('instruments by lot', () => {
  const trials: Trial[] = [];

  it(
    'are made and proven, with slots that do not cross and the exact mirror for the other hand',
    () => {
      fc.assert(
        fc.property(anyJob, (job) => {
          const trial = tryInstrument(job);
          trials.push(trial);
          expect(trial.wrong, `${job.kind}, flaw ${job.flaw}:\n${job.profile}\n`).toEqual([]);
        }),
        // The first text that fails is told; a smaller one would take minutes.
        { seed: SEED, numRuns: RUNS, endOnFailure: true },
      );
    },
    RUNS * 20_000,
  );

  it('are mostly sound as they are drawn, and of every kind', () => {
    const made = trials.filter((trial) => trial.made);
    const count = (holds: (trial: Trial) => boolean): number => made.filter(holds).length;
    expect(trials).toHaveLength(RUNS);
    expect(made.length).toBeGreaterThanOrEqual(0.8 * RUNS);
    for (const kind of ['slanted', 'left', 'bound'] as const)
      expect(count((trial) => trial[kind])).toBeGreaterThan(RUNS / 8);
    expect(made.reduce((sum, { slots }) => sum + slots, 0)).toBeGreaterThan(8 * RUNS);
    expect(made.reduce((sum, { programs }) => sum + programs, 0)).toBeGreaterThan(2 * RUNS);
  });
});
