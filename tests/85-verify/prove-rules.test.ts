/** Rules of machine, tool and plan, each broken by changing the intent instead of the text. */
import { describe, expect, it } from 'vitest';
import type { Intent, IntentCut } from '../../src/intent/types.ts';
import type { Motion, ReadResult } from '../../src/verify/gcode/types.ts';
import { prove } from '../../src/verify/prove.ts';
import {
  bytesOf,
  circle,
  cut,
  outline,
  pocket,
  rectangle,
  SAMPLES,
  type Sample,
  type SampleName,
} from '../support/proofSamples.ts';

function failedWith(sample: Sample, over: Partial<Intent>): string[] {
  const proof = prove(bytesOf(sample.text), { ...sample.intent, ...over });
  expect(proof.passed).toBe(false);
  return [...new Set(proof.checks.filter((c) => !c.passed).map((c) => c.name))];
}

function refusedWith(sample: Sample, over: Partial<Intent>): string {
  const proof = prove(bytesOf(sample.text), { ...sample.intent, ...over });
  expect(proof.passed).toBe(false);
  return proof.refusals.map((r) => `${r.rule}: ${r.found}`).join('; ');
}

function onlyCut(sample: Sample): IntentCut {
  const [first] = sample.intent.cuts;
  if (first === undefined) throw new Error('a sample without cuts');
  return first;
}

describe('what cannot be proven yet is refused plainly', () => {
  const { intent } = pocket();

  it('a pocket by a ball, and a vee whose angle is not stated or that would be wider in the wood than it is', () => {
    expect(refusedWith(pocket(), { tool: { ...intent.tool, kind: 'ball' } })).toBe(
      'provable-cut: pocket: cut kind not provable yet: region by a ball',
    );
    expect(refusedWith(pocket(), { tool: { ...intent.tool, kind: 'vee' } })).toBe(
      'provable-tool: a vee cutter without the angle of its tip',
    );
    expect(refusedWith(pocket(), { tool: { ...intent.tool, kind: 'vee', tipAngle: 60 } })).toBe(
      'provable-tool: a vee cutter of 3.175 mm that may go 6.500 mm deep',
    );
  });

  it('a blended path', () => {
    expect(refusedWith(pocket(), { machine: { ...intent.machine, path: 'blended' } })).toContain(
      'path not provable',
    );
  });

  it('a surface right through or by a drill, and a line by a cutter that is no vee', () => {
    const over = (change: Partial<IntentCut>): { cuts: IntentCut[] } => ({
      cuts: [{ ...onlyCut(pocket()), ...change }],
    });
    expect(refusedWith(pocket(), over({ kind: 'surface', through: true }))).toBe(
      'provable-cut: pocket: a surface cut right through',
    );
    const drill = { ...intent.tool, kind: 'drill' as const, tipAngle: 118 };
    expect(refusedWith(pocket(), { ...over({ kind: 'surface' }), tool: drill })).toBe(
      'provable-cut: pocket: a surface by a drill',
    );
    const line: IntentCut['line'] = [
      [0, 0],
      [9, 0],
    ];
    expect(refusedWith(pocket(), over({ kind: 'line', line, region: null }))).toBe(
      'provable-cut: pocket: cut kind not provable yet: a line by a cutter that is no vee',
    );
  });

  it('a region by a beam', () => {
    const laser = SAMPLES.laser();
    const region = cut({ id: 'hole', kind: 'region', region: [circle(40, 25, 5)] });
    expect(refusedWith(laser, { cuts: [...laser.intent.cuts, region] })).toBe(
      'provable-cut: hole: cut kind not provable yet: region by a beam',
    );
  });

  it('a program without cuts', () => {
    expect(prove(bytesOf(pocket().text), { ...intent, cuts: [] }).passed).toBe(false);
  });
});

describe('a cut that nobody made', () => {
  it('fails in every check that has nothing to see', () => {
    const extra = cut({
      id: 'other',
      kind: 'region',
      region: [circle(20, 40, 3.175)],
      floor: { kind: 'plane', z: -2 },
    });
    const proof = prove(bytesOf(pocket().text), { ...pocket().intent, cuts: [onlyCut(pocket()), extra] });
    const failed = proof.checks.filter((c) => !c.passed);
    expect(failed.map((c) => [c.name, c.cut, c.seen])).toEqual([
      ['wall overcut', 'other', 0],
      ['floor deep', 'other', 0],
      ['wall undercut', 'other', 1],
      ['floor shallow', 'other', 0],
      ['position', 'other', 0],
    ]);
  });
});

describe('machine and tool', () => {
  const { intent } = pocket();

  it.each<[string, Partial<Intent>, string[]]>([
    [
      'envelope',
      { machine: { ...intent.machine, envelope: { ...intent.machine.envelope, x: [0, 41] } } },
      ['envelope'],
    ],
    [
      'height',
      { machine: { ...intent.machine, envelope: { ...intent.machine.envelope, z: [-8, 4] } } },
      ['envelope'],
    ],
    ['lowest point', { limits: { ...intent.limits, zMin: -1.9 } }, ['lowest point']],
    ['cutting length', { tool: { ...intent.tool, cutLength: 1.9 } }, ['cutting length']],
    [
      'a thick shank that starts low',
      { tool: { ...intent.tool, shank: { diameter: 8, from: 1 } } },
      ['shank and holder clear'],
    ],
    [
      'a holder that starts low',
      { tool: { ...intent.tool, holder: [{ diameter: 30, from: 1.5 }] } },
      ['shank and holder clear'],
    ],
    ['step down', { limits: { ...intent.limits, stepDown: 0.5 } }, ['bite']],
    ['plunge feed', { limits: { ...intent.limits, plungeFeed: 30 } }, ['plunge feed']],
    ['machine feed', { machine: { ...intent.machine, maxFeed: { xy: 400, z: 700 } } }, ['machine feed']],
    ['machine speed', { machine: { ...intent.machine, spindle: [8000, 17000] } }, ['spindle speed']],
    [
      'clear height',
      { limits: { ...intent.limits, clearHeight: 6 } },
      ['first move lifts', 'placed before cutting'],
    ],
    ['rapid floor', { limits: { ...intent.limits, rapidFloor: 0.8 } }, ['rapids']],
    ['end position', { end: { spindle: 'off', position: [0, 0, 6] } }, ['end position']],
  ])('%s', (_, over, expected) => {
    expect(failedWith(pocket(), over)).toEqual(expected);
  });

  it('a thick shank that starts above the wood is let pass; one that rubs the wall below the top is not', () => {
    for (const shank of [
      { diameter: 8, from: 2.01 },
      { diameter: 3.4, from: 1.9 },
    ]) {
      const proof = prove(bytesOf(pocket().text), { ...intent, tool: { ...intent.tool, shank } });
      const clear = proof.checks.find((c) => c.name === 'shank and holder clear');
      expect(clear?.passed).toBe(shank.from > 2);
    }
  });

  it('a tool called by another number', () => {
    const text = pocket().text.replace('M3 S18000', 'T3 M6\nM3 S18000');
    const understands = { ...intent.machine.understands, toolChange: true };
    const machine = { ...intent.machine, understands };
    expect(failedWith({ text, intent }, { machine })).toEqual(['tool']);
    const named = text.replace('T3', 'T2');
    expect(prove(bytesOf(named), { ...intent, machine }).passed).toBe(true);
  });

  it('a word the control does not understand', () => {
    const understands = { ...intent.machine.understands, arcPlanes: [] };
    expect(failedWith(pocket(), { machine: { ...intent.machine, understands } })).toContain('program reads');
  });

  it('a control without exact path mode is not asked for it', () => {
    const machine = { ...intent.machine, understands: { ...intent.machine.understands, exactPath: false } };
    const proof = prove(bytesOf(pocket().text.replace(' G61', '')), { ...intent, machine });
    expect(proof.passed).toBe(true);
    expect(proof.checks.map((c) => c.name)).not.toContain('exact path');
  });
});

describe('keep-outs', () => {
  const at = (x0: number, y0: number, x1: number, y1: number, top: number): Partial<Intent> => ({
    keepOuts: [{ name: 'clamp', region: [rectangle(x0, y0, x1, y1)], z: [-6, top] }],
  });

  /** The pocket, its first way led over clamps that stand higher than the clear height. */
  const over = (): Sample => ({ ...pocket(), text: pocket().text.replace('G0 Z5', 'G0 Z12') });

  it('a clamp beside the cut is clear by its distance less the cutter’s radius', () => {
    // The pocket's circle reaches to x = 41.5875 and the thickest cutter 1.5925 farther.
    const proof = prove(bytesOf(pocket().text), { ...pocket().intent, ...at(45, 0, 60, 20, 1) });
    expect(proof.checks.find((c) => c.name === 'keep-outs')).toMatchObject({ passed: true });
    expect(proof.checks.find((c) => c.name === 'keep-outs')?.value).toBeCloseTo(41.5875 + 1.5925 - 45, 9);
  });

  it('a clamp that the cutter touches is refused', () => {
    expect(failedWith(pocket(), at(43, 0, 60, 20, 1))).toEqual(['keep-outs']);
  });

  it('a clamp that only the shank touches is refused', () => {
    const { tool } = pocket().intent;
    const shank = { diameter: 12, from: 12 };
    expect(failedWith(over(), { ...at(45, 0, 60, 20, 11), tool: { ...tool, shank } })).toEqual(['keep-outs']);
    const low = prove(bytesOf(over().text), {
      ...pocket().intent,
      ...at(45, 0, 60, 20, 9),
      tool: { ...tool, shank },
    });
    expect(low.passed).toBe(true);
  });

  it('a rapid whose axes run on their own may pass anywhere in its box', () => {
    // The way home from (41.4, 10) to (0, 0) at z 5 passes a tall clamp in the corner of its box, not on its line.
    const tall = at(30, 0, 34, 3, 8);
    expect(failedWith(over(), tall)).toEqual(['keep-outs']);
    const { machine } = pocket().intent;
    const straight = prove(bytesOf(over().text), {
      ...pocket().intent,
      ...tall,
      machine: { ...machine, rapid: 'straight' },
    });
    expect(straight.passed).toBe(true);
  });

  it('on its first way, from nobody knows where, the tool must be above every one of them', () => {
    const far = at(100, 100, 110, 110, 8);
    expect(failedWith(pocket(), far)).toEqual(['placed before cutting']);
    expect(prove(bytesOf(over().text), { ...pocket().intent, ...far }).passed).toBe(true);
  });
});

describe('inner before outer', () => {
  const hole = cut({
    id: 'hole',
    kind: 'region',
    region: [circle(40, 30, 6)],
    floor: { kind: 'plane', z: -1 },
  });
  const bore = ['G0 X43 Y30', 'G0 Z0.5', 'G1 Z0 F150', 'G3 X43 Y30 Z-1 I-3 J0 F600', 'G3 X43 Y30 I-3 J0'];

  function withBore(first: boolean, tabs: boolean): ReturnType<typeof prove> {
    const { text, intent } = outline();
    const lines = text.split('\n').filter((l) => tabs || !/X33|X47|X27|X53/.test(l));
    if (first) lines.splice(5, 0, ...bore, 'G0 Z5');
    else lines.splice(lines.indexOf('M5'), 0, ...bore, 'G0 Z5');
    const part = { ...onlyCut({ text, intent }), tabs: tabs ? onlyCut({ text, intent }).tabs : [] };
    return prove(bytesOf(lines.join('\n')), { ...intent, cuts: [part, hole] });
  }

  it.each([
    [true, false],
    [true, true],
    [false, true],
  ])('first %s, tabs %s: proves', (first, tabs) => {
    const proof = withBore(first, tabs);
    expect(proof.checks.filter((c) => !c.passed)).toEqual([]);
    expect(proof.passed).toBe(true);
  });

  it('a hole bored in a part already loose is refused', () => {
    const proof = withBore(false, false);
    expect(proof.checks.filter((c) => !c.passed).map((c) => c.name)).toEqual(['inner before outer']);
    expect(proof.refusals[0]?.found).toBe('a cut inside part-outline, which was already loose');
  });
});

describe('corners the cutter cannot reach', () => {
  // A square of 10 mm cleared by a 3.175 mm cutter: each corner keeps r(sqrt(2) - 1) = 0.6576 mm, 0.6597 with the thinnest.
  const square = cut({
    id: 'square',
    kind: 'region',
    region: [rectangle(20, 20, 30, 30)],
    floor: { kind: 'plane', z: -0.5 },
  });
  const inset = 1.5875;
  const [low, high] = [20 + inset, 30 - inset];
  const lines = [
    `G0 X${low} Y${low}`,
    'G0 Z0.5',
    'G1 Z0 F150',
    `G1 X${high} Z-0.25 F500`,
    `G1 X${low} Z-0.5`,
  ];
  for (const y of [22.9, 25, 27.1, high]) lines.push(`G1 Y${y}`, `G1 X${high}`, `G1 X${low}`);
  lines.push(`G1 X${high}`, `G1 Y${low}`, `G1 X${low}`, `G1 Y${high}`);
  const text = pocket()
    .text.split('\n')
    .flatMap((l, i) => (i === 5 ? lines : i > 5 && i < 13 ? [] : [l]))
    .join('\n');
  const corners: IntentCut['mayRemain'] = {
    region: [
      rectangle(20, 20, 22, 22),
      rectangle(28, 20, 30, 22),
      rectangle(28, 28, 30, 30),
      rectangle(20, 28, 22, 30),
    ],
    maxGap: 0.67,
    why: 'cutter radius',
  };

  it('are undercut when nothing says that they may remain', () => {
    const proof = prove(bytesOf(text), { ...pocket().intent, cuts: [square] });
    expect(proof.checks.filter((c) => !c.passed).map((c) => c.name)).toEqual(['wall undercut']);
    const least = 1.5825;
    const gap = Math.hypot(inset, inset) - least;
    expect(proof.maxUndercut).toBeGreaterThanOrEqual(gap - 1e-6);
    expect(proof.maxUndercut).toBeLessThan(gap + 0.001);
  });

  it('may remain where it is said, up to the gap it is said for', () => {
    const cuts = (maxGap: number): IntentCut[] => [{ ...square, mayRemain: { ...corners, maxGap } }];
    const good = prove(bytesOf(text), { ...pocket().intent, cuts: cuts(0.67) });
    expect(good.checks.filter((c) => !c.passed)).toEqual([]);
    const tight = prove(bytesOf(text), { ...pocket().intent, cuts: cuts(0.6) });
    expect(tight.checks.filter((c) => !c.passed).map((c) => c.name)).toEqual(['corner left']);
  });
});

describe('numbers that are none', () => {
  it('a reader that hands on NaN cannot make a program pass', () => {
    const end = { x: 0, y: 0, z: 5, spindleOn: false, ended: true };
    const result: ReadResult = {
      refusals: [],
      lines: 3,
      motions: 1,
      end,
      words: [],
      tools: [],
      toolChanges: [],
    };
    const motion: Motion = {
      line: 1,
      kind: 'feed',
      plane: 'xy',
      fromX: 0,
      fromY: 0,
      fromZ: 0,
      toX: 1,
      toY: 1,
      toZ: -1,
      centreX: 0,
      centreY: 0,
      centreZ: 0,
      radius: 0,
      sweep: 0,
      feed: Number.NaN,
      spindle: 18000,
      spindleOn: true,
      spindleStarts: 1,
      seconds: 0,
      tool: -1,
      exactPath: true,
      cycle: 0,
    };
    const read = (_: Uint8Array, __: unknown, ___: unknown, sink: (m: Motion) => void): ReadResult => {
      sink({ ...motion, feed: 500 });
      sink({ ...motion, fromX: 1, fromY: 1, fromZ: -1, toX: 40, toY: 10, toZ: -2 });
      return result;
    };
    const proof = prove(bytesOf(''), pocket().intent, { read });
    expect(proof.passed).toBe(false);
    const failed = proof.checks.filter((c) => !c.passed).map((c) => c.name);
    expect(failed).toContain('numbers finite');
    expect(failed).toContain('feed');
  });
});

describe('a text with nothing in it', () => {
  it.each(Object.keys(SAMPLES))('does not prove %s', (name) => {
    const { intent } = SAMPLES[name as SampleName]();
    for (const text of ['', '\n', '(nothing)\n', 'G21 G90 G94 G17 G40 G49 G54 G61\nM2\n']) {
      const proof = prove(bytesOf(text), intent);
      expect(proof.passed).toBe(false);
    }
  });
});
