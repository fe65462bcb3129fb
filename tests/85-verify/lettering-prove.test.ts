/** Letters burnt by a laser and cut by a vee cutter: proven like other lines, and no slip in one gets through. */
import { describe, expect, it } from 'vitest';
import { jobsByProgram, makeProgram } from '../../src/app/programs.ts';
import type { ProvenProgram } from '../../src/app/types.ts';
import type { Instrument, Shop } from '../../src/profile/types.ts';
import { prove } from '../../src/verify/prove.ts';
import { parlour, router, workshop } from '../support/instrument.ts';
import { planOf } from '../support/job.ts';
import { bytesOf } from '../support/proofSamples.ts';
import { ball, vee } from '../support/surfaced.ts';

// Every sign of the face that a name may hold goes through both machines.
const SIGNS = 'ABCDEFGHIJ KLMNOPQRST UVWXYZabcd efghijklmn opqrstuvwx yz&@%$#?()/+*=8';
const instrument: Instrument = {
  ...parlour,
  name: SIGNS,
  jigs: {
    ...parlour.jigs,
    lettering: { height: 3 },
    slotTemplate: { materialClass: 'plywood', thickness: 3, width: 100 },
  },
};

const routed: Shop = {
  ...workshop,
  tools: [...workshop.tools, { ...ball, id: 9, kind: 'flat', diameter: 1.5, cuttingLength: 6 }, vee],
  work: { ...workshop.work, slotTemplate: router.id, pinTemplate: router.id },
};

function programsOf(shop: Shop): ProvenProgram[] {
  return jobsByProgram(planOf(instrument, shop).jobs)
    .filter(([job]) => job?.part.id === 'slot-template')
    .map((jobs) => makeProgram(jobs, 'Test'));
}

function lettersOf({ job }: ProvenProgram): number {
  return job.operations.filter((o) => /-(number|name|instrument)/.test(o.feature)).length;
}

const failed = (text: string, { intent }: ProvenProgram): string[] =>
  prove(bytesOf(text), intent)
    .checks.filter((check) => !check.passed)
    .map((check) => check.name.split(':')[0] ?? '');

describe.each([
  ['laser', workshop],
  ['vee cutter', routed],
])('letters by %s', (_, shop) => {
  const programs = programsOf(shop).filter((program) => lettersOf(program) > 0);

  it('prove, the whole face', () => {
    expect(programs).toHaveLength(1);
    for (const program of programs) {
      expect(lettersOf(program)).toBeGreaterThan(100);
      expect(program.proof.checks.filter((check) => !check.passed)).toEqual([]);
      expect(program.proof.passed).toBe(true);
    }
  });

  it('are refused with one stroke left out, or with one point off by 0.05 mm', () => {
    const [program] = programs;
    if (program === undefined) throw new Error('no program');
    const lines = program.text.split('\n');
    const strokes = lines.flatMap((line, i) =>
      /^(G1 )?X-?[\d.]+ Y-?[\d.]+/.test(line) && !line.includes('G0') ? [i] : [],
    );
    for (const k of [11, 97, 203]) {
      const at = strokes[k] ?? Number.NaN;
      const dropped = lines.filter((_, i) => i !== at).join('\n');
      expect(failed(dropped, program)).not.toEqual([]);
      const off = lines.map((line, i) =>
        i === at ? line.replace(/Y(-?[\d.]+)/, (_all, y) => `Y${(Number(y) + 0.05).toFixed(4)}`) : line,
      );
      expect(failed(off.join('\n'), program)).not.toEqual([]);
    }
  });
});
