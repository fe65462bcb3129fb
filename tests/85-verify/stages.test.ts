/** A program that changes tools: each stage proven as a program of its own, and the changes between them. */
import { describe, expect, it } from 'vitest';
import { parseIntent, parseProgramIntent } from '../../src/intent/schema.ts';
import type { StagedIntent } from '../../src/intent/types.ts';
import { proveProgram } from '../../src/verify/proveStages.ts';
import type { Proof } from '../../src/verify/removal/proof.ts';
import { all, type Damage, every, line } from '../support/damage.ts';
import { programsOn } from '../support/machines.ts';
import { bytesOf } from '../support/proofSamples.ts';

const [made] = programsOn({ toolChange: 'M6', lengthOffset: 'G43', drillCycles: true }, /^fingerboard\.nc$/);
if (made === undefined) throw new Error('no program for the fingerboard');
const parsed = parseProgramIntent(made.intentText);
if (!parsed.ok || !('stages' in parsed.intent)) throw new Error('no intent of several tools');
const intent: StagedIntent = parsed.intent;
const { text } = made;

function proofOf(damage: Damage): Proof {
  return proveProgram(bytesOf(damage(text)), intent);
}

function failed(proof: Proof): string[] {
  return [
    ...new Set(
      proof.checks
        .filter((c) => !c.passed)
        .map((c) => (c.stage === undefined ? c.name : `${c.stage}: ${c.name}`)),
    ),
  ];
}

describe('a fingerboard by one program', () => {
  it('proves as a whole, every stage by every check of its tool', () => {
    const proof = proofOf((t) => t);
    expect(proof.refusals).toEqual([]);
    expect(failed(proof)).toEqual([]);
    expect(proof.passed).toBe(true);
    const stages = new Set(proof.checks.flatMap((c) => (c.stage === undefined ? [] : [c.stage])));
    expect([...stages]).toEqual(intent.stages.map((_, i) => i + 1));
    for (const stage of stages) {
      const names = proof.checks.filter((c) => c.stage === stage).map((c) => c.name);
      for (const name of [
        'first move lifts',
        'cuts where meant',
        'rapids',
        'spindle on',
        'end position',
        'tool',
      ])
        expect(names).toContain(name);
    }
  });

  it('has an intent of plain intents, one a tool, none of which is taken for the whole', () => {
    expect(intent.stages.length).toBeGreaterThanOrEqual(4);
    for (const stage of intent.stages) {
      expect(parseIntent(JSON.stringify(stage)).ok).toBe(true);
      expect(stage.program).toBe(intent.program);
      expect(proveProgram(bytesOf(text), stage).passed).toBe(false);
    }
    expect(parseIntent(made.intentText).ok).toBe(false);
    expect(parseProgramIntent(JSON.stringify({ ...intent, stages: [] })).ok).toBe(false);
    const twice = { ...intent, stages: [intent.stages[0], intent.stages[0]] };
    expect(parseProgramIntent(JSON.stringify(twice))).toMatchObject({
      ok: false,
      problems: expect.arrayContaining([expect.stringContaining('stages[1].cuts[0].id')]),
    });
  });

  it('adds its stages up', () => {
    const proof = proofOf((t) => t);
    const single = programsOn({ drillCycles: true }, /^fingerboard-(?!walk)/);
    const sum = (figure: (p: Proof) => number): number =>
      single.reduce((total, p) => total + figure(p.proof), 0);
    expect(proof.cutLength).toBeCloseTo(
      sum((p) => p.cutLength),
      6,
    );
    expect(proof.maxOvercut).toBeCloseTo(Math.max(...single.map((p) => p.proof.maxOvercut)), 9);
  });
});

/** Numbers of the tools, as the program puts them in. */
const tools = intent.stages.map((stage) => stage.tool.id);
const change = (k: number): string => `T${tools[k]} M6`;
const HEAD = 'G21 G17 G90 G94\nG40 G49 G54 G61\nG80\n';

function between(from: string, to: string, damage: (part: string) => string): Damage {
  return (whole) => {
    const start = whole.indexOf(from);
    const end = whole.indexOf(to, start);
    if (start < 0 || end < 0) throw new Error(`no ${from} before ${to}`);
    return whole.slice(0, start) + damage(whole.slice(start, end)) + whole.slice(end);
  };
}

const inSlots = (damage: (part: string) => string): Damage => between(change(1), change(2), damage);

describe('refused', () => {
  it.each<[string, Damage, readonly string[]]>([
    ['the spindle left on at a change', inSlots((p) => p.replace('\nM5\n', '\n')), ['2: program ends']],
    [
      'the spindle on before the first tool',
      between('M5', change(0), (p) => p.replace('M5', 'M3 S9000')),
      ['before the first tool'],
    ],
    [
      'no lift at the start',
      between('M5', change(0), (p) => p.replace('G0 Z5\n', '')),
      ['before the first tool'],
    ],
    [
      'a way to the side before the first tool',
      between('M5', change(0), (p) => p.replace('G0 Z5\n', 'G0 Z5\nX10 Y10\n')),
      ['before the first tool'],
    ],
    ['a change left out', line(change(1), null), ['tool changes']],
    ['another tool put in', line(change(1), 'T9 M6'), ['program reads', 'tool changes', '2: tool']],
    ['a T word for a tool of no stage', line(change(1), `T9\n${change(1)}`), ['tool changes']],
    [
      'M6 for the tool named for later',
      inSlots((p) => p.replace('\nM5\n', `\nM5\nT${tools[2]}\nM6\n`)),
      ['tool changes'],
    ],
    [
      'modes not set again after a change',
      inSlots((p) => p.replace(HEAD, '')),
      ['program reads', 'same from any start'],
    ],
    ['no lift after a change', inSlots((p) => p.replace('\nG0 Z5\n', '\n')), ['2: first move lifts']],
    ['the length of another tool', line(`G43 H${tools[1]}`, 'G43 H9'), ['program reads']],
    ['no length at all', line(`G43 H${tools[1]}`, null), ['program reads']],
    ['the work offset of another job', every(/G54/g, 'G55'), ['program reads']],
    ['cut off after the second tool', (t) => `${t.slice(0, t.indexOf(change(2)))}M30\n`, ['tool changes']],
    [
      'two tools in each other’s place',
      all(line(change(0), 'T99 M6'), line(change(1), change(0)), line('T99 M6', change(1))),
      ['program reads', 'tool changes', '1: tool', '2: tool'],
    ],
    [
      'a slot moved in the second stage alone',
      inSlots((p) =>
        p.replace(/^(G0 )?X(\d+\.\d+)/m, (_, g = '', x) => `${g}X${(Number(x) + 0.05).toFixed(4)}`),
      ),
      ['2: wall overcut'],
    ],
  ])('%s', (_, damage, checks) => {
    const proof = proofOf(damage);
    expect(proof.passed).toBe(false);
    for (const check of checks) expect(failed(proof)).toContain(check);
  });

  it('the stages of one tool swapped with those of another', () => {
    const swap: Damage = (whole) => {
      const [a, b, c] = [whole.indexOf(change(0)), whole.indexOf(change(1)), whole.indexOf(change(2))];
      return whole.slice(0, a) + whole.slice(b, c) + whole.slice(a, b) + whole.slice(c);
    };
    const proof = proofOf(swap);
    expect(proof.passed).toBe(false);
    expect(failed(proof)).toContain('tool changes');
  });
});
