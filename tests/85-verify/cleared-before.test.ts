import { describe, expect, it } from 'vitest';
import { hashesOf, jobsByProgram, makePrograms } from '../../src/app/programs.ts';
import { proofText } from '../../src/app/proofText.ts';
import type { ProvenProgram } from '../../src/app/types.ts';
import { buildProgramIntent } from '../../src/intent/buildProgram.ts';
import { parseIntent } from '../../src/intent/schema.ts';
import type { ClearedGround, Intent } from '../../src/intent/types.ts';
import { type ProveOptions, prove } from '../../src/verify/prove.ts';
import { ranBefore } from '../../src/verify/proveStages.ts';
import type { Proof } from '../../src/verify/removal/proof.ts';
import { router, workshop } from '../support/instrument.ts';
import { type PocketSetting, planPocketPart, SHAPES } from '../support/pocketShapes.ts';

type Name = keyof typeof SHAPES;

const bytesOf = (text: string): Uint8Array => new TextEncoder().encode(text);

function programsOf(name: Name, setting: PocketSetting = {}): readonly ProvenProgram[] {
  return makePrograms(jobsByProgram(planPocketPart([SHAPES[name]], setting).jobs), 'Test');
}

function pairOf(name: Name): { first: ProvenProgram; rest: ProvenProgram; ground: readonly ClearedGround[] } {
  const [first, rest] = programsOf(name, { cutters: [3.175, 0.6] });
  const ground = rest?.intent.cleared;
  if (first === undefined || rest === undefined || ground === undefined)
    throw new Error(`${name} has no rest`);
  return { first, rest, ground };
}

function failedIn(proof: Proof): string[] {
  return [...new Set(proof.checks.filter((c) => !c.passed).map((c) => c.name))];
}

const sha = (program: ProvenProgram): string => hashesOf([program]).get(program.job.program) ?? '';

function proofOf(
  { text, intent }: ProvenProgram,
  over: Partial<Intent>,
  ran: ProveOptions['ran'] = [],
): Proof {
  return prove(bytesOf(text), { ...intent, ...over }, { ran });
}

describe.each(['square', 'diamond', 'star', 'two rooms'] as const)('what is left of a %s', (name) => {
  const { first, rest, ground } = pairOf(name);

  it('is proven on the stock that the first program leaves, whose text is named by its hash', () => {
    expect(failedIn(rest.proof)).toEqual([]);
    expect(rest.proof.passed).toBe(true);
    expect(rest.proof.onlyAfter).toEqual([
      { program: first.job.program, programSha256: sha(first), checked: true },
    ]);
    expect(ground.length).toBe(rest.job.operations.length);
    const checks = rest.proof.checks.filter((c) => c.name === 'cleared before');
    expect(checks.length).toBe(ground.length);
    for (const check of checks) expect(check.seen).toBeGreaterThan(5);
  });

  it('is refused on a blank on which the first has not run', () => {
    const { cleared: _, ...fresh } = rest.intent;
    const proof = prove(bytesOf(rest.text), fresh);
    expect(proof.passed).toBe(false);
    expect(failedIn(proof)).toContain('ramped entry');
    expect(proof.refusals.map((r) => r.found).join()).toMatch(/mm straight down/);
    expect(proof.onlyAfter).toBeUndefined();
  });
});

describe('the ground that a program counts with', () => {
  const { first, rest, ground } = pairOf('square');
  const whole = buildProgramIntent(first.jobs, sha(first));
  const ranWith = (text: string, hash = sha(first)) => ranBefore(bytesOf(text), whole, hash);

  it('is a condition where the earlier text is not at hand, in words and in data', () => {
    const proof = proofOf(rest, {});
    expect(proof.passed).toBe(true);
    expect(proof.onlyAfter?.map((c) => c.checked)).toEqual([false]);
    const said = proofText('rest.nc', proof);
    expect(said).toContain('Only on the stock that board-markers.nc leaves, which was not at hand');
    expect(said).toContain(sha(first));
    expect(proofText('rest.nc', rest.proof)).toContain('which was read too');
    expect(proofText('first.nc', first.proof)).not.toContain('Only on the stock');
  });

  it('is not clear where the earlier program lost a level or a stretch', () => {
    const shallow = first.text.replaceAll(/Z-2\b/g, 'Z-1.9');
    expect(shallow).not.toBe(first.text);
    expect(failedIn(proofOf(rest, {}, ranWith(shallow)))).toEqual(['cleared before']);
    const lines = first.text.split('\n');
    const short = [...lines.slice(0, Math.floor(lines.length * 0.6)), 'G0 Z5', 'M5', 'M2', ''].join('\n');
    const proof = proofOf(rest, {}, ranWith(short));
    expect(failedIn(proof)).toEqual(['cleared before']);
    expect(proof.onlyAfter?.map((c) => c.checked)).toEqual([false]);
  });

  it('is not clear where more is claimed than was cleared: a corner, or a deeper floor', () => {
    const claim = (change: Partial<ClearedGround>): { cleared: ClearedGround[] } => ({
      cleared: ground.map((g) => ({ ...g, ...change })),
    });
    const ran = ranWith(first.text);
    expect(failedIn(proofOf(rest, {}, ran))).toEqual([]);
    const corner = claim({
      region: [
        [
          [10, 10],
          [13, 10],
          [13, 13],
          [10, 13],
        ],
      ],
    });
    expect(failedIn(proofOf(rest, corner, ran))).toContain('cleared before');
    expect(failedIn(proofOf(rest, claim({ z: -2.03 }), ran))).toContain('cleared before');
  });

  it('is another program’s: one with another hash, of another work zero, of no such cut or that runs later is refused', () => {
    const words = (over: Partial<Intent>, ran: ProveOptions['ran'] = ranWith(first.text)): string => {
      const proof = proofOf(rest, over, ran);
      expect(proof.passed).toBe(false);
      return proof.refusals.map((r) => `${r.rule}: ${r.found}`).join('; ');
    };
    expect(words({}, ranWith(first.text, 'f'.repeat(64)))).toContain('its text has another hash');
    const { toPart } = rest.intent;
    expect(words({ toPart: { ...toPart, workZero: 'elsewhere' } })).toContain('another work zero');
    expect(words({ cleared: ground.map((g) => ({ ...g, cut: 'none' })) })).toContain('has no cut none');
    expect(words({ after: [] })).toContain('not among the programs that run before');
    expect(words({ cleared: ground.map((g) => ({ ...g, programSha256: null })) })).toContain(
      'named without a hash',
    );
  });

  it('is read from the intent file, and nothing else is', () => {
    const read = parseIntent(rest.intentText);
    expect(read).toEqual({ ok: true, intent: rest.intent });
    const broken = parseIntent(JSON.stringify({ ...rest.intent, cleared: [{ ...ground[0], depth: 1 }] }));
    expect(broken.ok ? '' : broken.problems.join()).toContain('cleared[0]');
    expect(parseIntent(JSON.stringify({ ...rest.intent, cleared: [] })).ok).toBe(false);
  });

  it('stands in the head of the program', () => {
    expect(rest.text).toContain('ONLY AFTER board-markers.nc');
    expect(first.text).not.toContain('ONLY AFTER');
  });
});

describe('a program that changes tools', () => {
  const machines = workshop.machines.map((m) =>
    m.kind === 'router'
      ? {
          ...router,
          controller: { ...router.controller, toolChange: 'M6' as const, lengthOffset: 'G43' as const },
        }
      : m,
  );
  const [program, ...more] = programsOf('square', { cutters: [3.175, 0.6], machines });
  if (program === undefined) throw new Error('no program');

  it('proves its second tool on what its first one cleared, without a condition', () => {
    expect(more).toEqual([]);
    expect(program.jobs.length).toBe(2);
    expect(failedIn(program.proof)).toEqual([]);
    expect(program.proof.onlyAfter).toBeUndefined();
    const checks = program.proof.checks.filter((c) => c.name === 'cleared before');
    expect(checks.map((c) => c.stage)).toEqual([2, 2, 2, 2]);
    expect(program.intents[1]?.cleared?.map((g) => g.programSha256)).toEqual([null, null, null, null]);
    expect(program.text).not.toContain('ONLY AFTER');
  });
});
