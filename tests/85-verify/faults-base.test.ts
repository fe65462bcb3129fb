/** The quick ways to a verdict against the plain proof, which stays the reference. */
import { describe, expect, it } from 'vitest';
import { prove } from '../../src/verify/prove.ts';
import { proveProgram } from '../../src/verify/proveStages.ts';
import { baseOf, proveAgainstBase } from '../../src/verify/reprove.ts';
import { corpus } from '../support/damages/corpus.ts';
import { faultOf, makeReady } from '../support/damages/run.ts';
import { bytesOf, SAMPLES, type SampleName } from '../support/proofSamples.ts';
import { FAULTS } from './faultTable.ts';

const SEED = 31;

function names(proof: ReturnType<typeof prove>): string[] {
  const failed = proof.checks.filter((check) => !check.passed).map((check) => check.name);
  return [...new Set(failed.length > 0 ? failed : proof.refusals.map((refusal) => refusal.rule))];
}

/** How many faults of each variant: a program of many tools takes as many proofs. */
const COUNTS = [
  ['as bundled', 250],
  ['tool-change router', 40],
] as const;

describe.each(COUNTS)('a proof that takes over what is the same: %s', (variant, count) => {
  const ready = makeReady(corpus(undefined, [variant]));

  it('comes to the verdict of the plain proof, check by check', () => {
    let [passed, refused] = [0, 0];
    for (let number = 0; number < count; number += 1) {
      const { fault, on } = faultOf(ready, SEED, number);
      if (fault.intent !== null) continue;
      const bytes = bytesOf(fault.text);
      const intent = on.parts.staged ?? on.parts.intent;
      const plain = proveProgram(bytes, intent);
      const again = proveAgainstBase(on.base, bytes);
      const short = proveAgainstBase(on.base, bytes, { stopAtFirst: true });
      const first = proveProgram(bytes, intent, { stopAtFirst: true });
      const label = `${number} ${fault.kind} ${fault.program}`;
      expect([label, again.passed, short.passed, first.passed]).toEqual([
        label,
        plain.passed,
        plain.passed,
        plain.passed,
      ]);
      expect([label, again.refusedBy]).toEqual([label, names(plain)]);
      if (plain.passed) passed += 1;
      else refused += 1;
      // Cut short, a check may see only a part, but what it finds the plain proof finds too.
      const alike = short.refusedBy.filter((name) => names(plain).includes(name));
      expect([label, alike]).toEqual([label, short.refusedBy]);
    }
    expect(passed).toBeGreaterThan(count / 10);
    expect(refused).toBeGreaterThan(count / 2);
  });
});

describe('a proof of a sample that takes over what is the same', () => {
  it.each(FAULTS.map((f) => ({ ...f, title: `${f.sample}: ${f.name}` })))(
    'refuses $title',
    ({ sample, damage }) => {
      const { text, intent } = SAMPLES[sample]();
      const base = baseOf(bytesOf(text), intent);
      const bytes = bytesOf(damage(text));
      expect(proveAgainstBase(base, bytes).refusedBy).toEqual(names(prove(bytes, intent)));
      expect(proveAgainstBase(base, bytes, { stopAtFirst: true }).passed).toBe(false);
    },
  );

  it.each(Object.keys(SAMPLES))('passes %s itself', (name) => {
    const { text, intent } = SAMPLES[name as SampleName]();
    const base = baseOf(bytesOf(text), intent);
    expect(proveAgainstBase(base, bytesOf(text))).toEqual({ passed: true, refusedBy: [] });
    expect(proveAgainstBase(base, bytesOf(`(again)\n${text}`), { stopAtFirst: true })).toEqual({
      passed: true,
      refusedBy: [],
    });
  });

  it('does not start from a program that does not prove', () => {
    const { text, intent } = SAMPLES.pocket();
    expect(() => baseOf(bytesOf(text.replace('M3 S18000', 'M3 S1')), intent)).toThrow(
      'sample.nc does not prove',
    );
  });
});
