/**
 * Some hundreds of the faults that `npm run bench -- faults` makes by the hundred thousand: every harmful one is refused, and
 * nothing that changes nothing is. What does harm is decided by `support/harm`, which knows nothing of the prover.
 */
import { describe, expect, it } from 'vitest';
import { proveProgram } from '../../src/verify/proveStages.ts';
import { corpus } from '../support/damages/corpus.ts';
import { REWRITES } from '../support/damages/harmless.ts';
import { KINDS } from '../support/damages/kinds.ts';
import {
  emptyReport,
  faultOf,
  harmOfFault,
  harmOfReady,
  makeReady,
  runFaults,
} from '../support/damages/run.ts';
import { bytesOf } from '../support/proofSamples.ts';

const SEED = 20;
const COUNT = 500;

const programs = corpus(undefined, [
  'as bundled',
  'left-handed, drill cycles',
  'plain router',
  'tool-change router',
]);
const ready = makeReady(programs);

describe('faults by seeded choice', () => {
  const numbers = Array.from({ length: COUNT }, (_, k) => k);
  const report = runFaults(ready, SEED, numbers, emptyReport());
  const sum = (key: 'made' | 'harmful' | 'refused' | 'harmlessPassed'): number =>
    Object.values(report.byKind).reduce((all, tally) => all + tally[key], 0);

  it('are of all kinds, most of them harmful', () => {
    expect(sum('made')).toBe(COUNT);
    expect(Object.keys(report.byKind).length).toBeGreaterThan(0.9 * KINDS.length);
    for (const harm of ['geometric', 'process', 'control']) {
      expect(report.byHarm[harm]?.made ?? 0).toBeGreaterThan(COUNT / 20);
    }
    expect(sum('harmlessPassed')).toBeGreaterThan(COUNT / 20);
  });

  it('are refused when they do harm: at least 99.9 per cent, and no survivor is off by more than 0.05 mm', () => {
    expect(report.survivors.filter((s) => s.below > 0.05)).toEqual([]);
    expect(sum('refused') / sum('harmful')).toBeGreaterThanOrEqual(0.999);
  });

  it('are the same for the same seed and number, and others for others', () => {
    const texts = [1, 2, 3].map((n) => faultOf(ready, SEED, n).fault.text);
    expect([1, 2, 3].map((n) => faultOf(ready, SEED, n).fault.text)).toEqual(texts);
    expect(new Set([...texts, faultOf(ready, SEED + 1, 1).fault.text]).size).toBe(4);
  });
});

describe('the judge', () => {
  it.each(ready.map((r) => ({ ...r, title: r.parts.name })))('finds no harm in $title', (one) => {
    expect(harmOfReady(one)).toBeNull();
  });
});

describe('programs written anew', () => {
  const cases = ready.flatMap((r) =>
    Object.entries(REWRITES).map(([name, rewrite]) => ({ ...r, rewrite, title: `${r.parts.name}: ${name}` })),
  );

  it.each(cases)('$title still proves', ({ parts, good, rewrite }) => {
    const text = rewrite(parts.text);
    expect(harmOfFault({ text, intent: null }, { good })).toBeNull();
    const proof = proveProgram(bytesOf(text), parts.staged ?? parts.intent, { stopAtFirst: true });
    expect(proof.refusals).toEqual([]);
    expect(proof.checks.filter((c) => !c.passed)).toEqual([]);
    expect(proof.passed).toBe(true);
  });
});
