/** Programs of neck and head prove, for either hand; and what is spoilt in them is refused. */
import { describe, expect, it } from 'vitest';
import { jobsByProgram, makeProgram } from '../../src/app/programs.ts';
import type { ProvenProgram } from '../../src/app/types.ts';
import type { Instrument } from '../../src/profile/types.ts';
import { prove } from '../../src/verify/prove.ts';
import { planOf } from '../support/job.ts';
import { necked, neckShop } from '../support/neck.ts';

const PARTS = ['neck-blank', 'headstock', 'head-veneer', 'head-template'];

function programsOf(instrument: Instrument): ProvenProgram[] {
  const { jobs } = planOf(instrument, neckShop);
  return jobsByProgram(jobs.filter((job) => PARTS.includes(job.part.id))).map((of) =>
    makeProgram(of, instrument.name),
  );
}

const right = programsOf(necked);
const byName = (name: string): ProvenProgram => {
  const found = right.find((p) => p.job.program === name);
  if (found === undefined) throw new Error(`no ${name} among ${right.map((p) => p.job.program).join(', ')}`);
  return found;
};
const failed = (text: string, { intent }: ProvenProgram): string[] =>
  prove(new TextEncoder().encode(text), intent)
    .checks.filter((c) => !c.passed)
    .map((c) => c.name);

describe('programs of neck and head', () => {
  it.each([
    ['right', right],
    ['left', programsOf({ ...necked, hand: 'left' })],
  ] as const)('prove for the %s hand', (_, programs) => {
    expect(new Set(programs.map((p) => p.job.part.id))).toEqual(new Set(PARTS));
    for (const { job, proof } of programs) {
      expect([job.program, proof.checks.filter((c) => !c.passed)]).toEqual([job.program, []]);
      expect(proof.passed).toBe(true);
    }
  });

  it('are measured from the back of the nut on the middle line of the neck', () => {
    const { job, text } = byName('neck-blank-channel-2.nc');
    expect(job.setup.workZero).toContain('back of the nut');
    const deepest = Math.min(...[...text.matchAll(/Z(-[\d.]+)/g)].map((m) => Number(m[1])));
    expect(deepest).toBeCloseTo(-11, 2);
  });

  it('are refused when the channel is cut deeper, or shifted', () => {
    const channel = byName('neck-blank-channel-2.nc');
    expect(failed(channel.text, channel)).toEqual([]);
    const deeper = channel.text.replaceAll(/Z-11(\.0*)?\b/g, 'Z-11.2');
    expect(deeper).not.toBe(channel.text);
    expect(failed(deeper, channel).length).toBeGreaterThan(0);
    const shifted = channel.text.replaceAll(
      /Y(-?[\d.]+)/g,
      (_, y: string) => `Y${(Number(y) + 0.1).toFixed(4)}`,
    );
    expect(failed(shifted, channel).length).toBeGreaterThan(0);
  });
});
