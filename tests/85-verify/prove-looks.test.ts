/**
 * A program that only looks: round the stock's corners, spindle off. Written by hand here, and as the product
 * writes it.
 */
import { describe, expect, it } from 'vitest';
import { buildIntent } from '../../src/intent/build.ts';
import { parseIntent } from '../../src/intent/schema.ts';
import type { Intent } from '../../src/intent/types.ts';
import { planMoves } from '../../src/motion/planMoves.ts';
import { prove } from '../../src/verify/prove.ts';
import { writeProgram } from '../../src/writers/gcode/write.ts';
import { parlour, router, workshop } from '../support/instrument.ts';
import { planOf, routerJob } from '../support/job.ts';
import { bytesOf, intentFor } from '../support/proofSamples.ts';
import { rs274Available, runRs274 } from '../support/rs274.ts';

const base = intentFor({});
const look = intentFor({
  limits: { ...base.limits, rapidFloor: 5, zMin: 5, stepDown: 0, feed: [900, 1000], spindle: [0, 0] },
});

// The stock of the samples is 80 x 60 mm with its corner at the work zero.
const LINES = [
  'G21 G17 G90 G94',
  'G40 G49 G54 G61',
  'G0 Z5',
  'M5',
  'G0 X0 Y0',
  'G4 P2',
  'G1 X80 F1000',
  'G4 P2',
  'G1 Y60',
  'G1 X0',
  'G1 Y0',
  'M2',
];

function failing(lines: readonly string[], intent: Intent = look): string[] {
  const proof = prove(bytesOf(`${lines.join('\n')}\n`), intent);
  expect(proof.passed).toBe(proof.checks.every((c) => c.passed) && proof.refusals.length === 0);
  const names = proof.checks.filter((c) => !c.passed).map((c) => c.name);
  return proof.passed ? [] : [...names, ...(names.length === 0 ? proof.refusals.map((r) => r.rule) : [])];
}

function swapped(line: string, by: readonly string[]): string[] {
  expect(LINES).toContain(line);
  return LINES.flatMap((l) => (l === line ? by : [l]));
}

describe('a program that only looks', () => {
  it('proves, and its intent reads', () => {
    expect(failing(LINES)).toEqual([]);
    expect(parseIntent(JSON.stringify(look))).toMatchObject({ ok: true });
  });

  it.each<[string, string[], string]>([
    ['a spindle that starts', swapped('M5', ['M3 S9000']), 'spindle never on'],
    ['a spindle that starts and is stopped', swapped('G4 P2', ['M3 S9000', 'M5']), 'spindle never on'],
    ['a spindle left as it was', swapped('M5', []), 'spindle never on'],
    ['a dip below the clear height', swapped('G1 Y60', ['G1 Y60', 'G1 Z4.99', 'G0 Z5']), 'lowest point'],
    ['a corner missed', swapped('G1 Y60', ['G1 Y59.9']), 'corners passed'],
    [
      'a corner passed at rapid only',
      LINES.map((l) => l.replace('G1', 'G0').replace(' F1000', '')),
      'corners passed',
    ],
    ['a pace that was not meant', swapped('G1 X80 F1000', ['G1 X80 F1500']), 'walking feed'],
    ['an end elsewhere', swapped('G1 Y0', ['G1 Y0', 'G1 X1']), 'end position'],
    ['a way out of the envelope', swapped('G1 Y60', ['G1 X301', 'G1 X80', 'G1 Y60']), 'envelope'],
    ['another tool', swapped('M5', ['M5', 'T3']), 'tool'],
    ['no end', LINES.slice(0, -1), 'program ends'],
  ])('is refused with %s', (_, lines, name) => {
    expect(failing(lines)).toContain(name);
  });

  it('is refused where a clamp stands in its way', () => {
    const clamp = {
      name: 'clamp',
      region: [
        [
          [70, 20],
          [90, 20],
          [90, 40],
          [70, 40],
        ] as const,
      ],
      z: [-6, 20] as const,
    };
    expect(failing(LINES, { ...look, keepOuts: [clamp] })).toContain('keep-outs');
    expect(failing(LINES, { ...look, keepOuts: [{ ...clamp, z: [-6, 4] }] })).toEqual([]);
  });

  it('is refused when the stock is as high as the clear height', () => {
    expect(failing(LINES, { ...look, stock: { ...look.stock, top: { kind: 'plane', z: 5 } } })).toEqual([
      'above the stock',
    ]);
  });

  it('an empty program looks at nothing', () => {
    const names = failing(['M5', 'M2']);
    for (const name of ['first move lifts', 'corners passed', 'walking feed', 'lowest point'])
      expect(names).toContain(name);
  });
});

describe('an intent without cuts', () => {
  it('that may go lower means nothing, and is refused by reader and prover alike', () => {
    const lost: Intent = { ...look, limits: { ...look.limits, zMin: -6.5 } };
    expect(failing(LINES, lost)).toEqual(['something-meant']);
    expect(parseIntent(JSON.stringify(lost))).toMatchObject({ ok: false });
  });

  it("is never a beam's, whose heights are all 0", () => {
    const beam: Intent = {
      ...look,
      limits: { ...look.limits, clearHeight: 0, zMin: 0 },
      tool: { ...look.tool, kind: 'beam', kerf: 0.2, diameter: 0.2, diameterRange: [0.2, 0.2], shank: null },
    };
    expect(failing(LINES, beam)).toContain('something-meant');
    expect(parseIntent(JSON.stringify(beam))).toMatchObject({ ok: false });
  });
});

const controls = {
  plain: router.controller,
  inches: { ...router.controller, units: 'in' as const },
  'any order of axes': { ...router.controller, straightRapids: false },
};

describe.each(Object.entries(controls))('the walk round of a board, control: %s', (_, controller) => {
  const machines = [{ ...router, controller }, ...workshop.machines.slice(1)];
  const { jobs } = planOf(parlour, { ...workshop, machines });
  const job = routerJob('fingerboard-walk-round.nc', jobs);
  const text = writeProgram(planMoves(job), { remarks: [], controller });
  const intent = buildIntent(job, '0'.repeat(64));

  it('proves', () => {
    const proof = prove(bytesOf(text), intent);
    expect(proof.checks.filter((c) => !c.passed)).toEqual([]);
    expect(proof.passed).toBe(true);
    expect(proof.checks.map((c) => c.name)).toContain('corners passed');
  });

  it('goes over a clamp on an edge, and comes back to the clear height', () => {
    const clamp = {
      name: 'clamp',
      part: 'fingerboard',
      machine: null,
      x: [100, 120],
      y: [30, 60],
      z: [-6, 18],
    } as const;
    const clamped = { ...job, setup: { ...job.setup, keepOuts: [clamp] } };
    const over = writeProgram(planMoves(clamped), { remarks: [], controller });
    const meant = buildIntent(clamped, '0'.repeat(64));
    expect(prove(bytesOf(over), meant).checks.filter((c) => !c.passed)).toEqual([]);
    expect(prove(bytesOf(text), meant).passed).toBe(false);
  });

  it.skipIf(!rs274Available())('is read by rs274 as a round of the blank at clear height', () => {
    const motions = runRs274(text).filter((m) => m.kind !== 'dwell');
    const ends = motions.map((m) => m.end);
    for (const { x, y } of job.setup.stock.region.outer)
      expect(Math.min(...ends.map((e) => Math.hypot(e[0] - x, e[1] - y)))).toBeLessThan(0.005);
    expect(Math.min(...ends.map((e) => e[2]))).toBeGreaterThanOrEqual(5 - 1e-9);
    expect(ends.at(-1)?.[2]).toBeLessThan(5.01);
  });
});
