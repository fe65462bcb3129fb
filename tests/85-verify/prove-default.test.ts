/** The programs the product writes for its own demo instrument, read back and proven. */
import { describe, expect, it } from 'vitest';
import { buildIntent } from '../../src/intent/build.ts';
import { parseIntent } from '../../src/intent/schema.ts';
import { planMoves } from '../../src/motion/planMoves.ts';
import { prove } from '../../src/verify/prove.ts';
import { writeProgram } from '../../src/writers/gcode/write.ts';
import { planOf } from '../support/job.ts';
import { bytesOf } from '../support/proofSamples.ts';

const programs = planOf().jobs.map((job) => {
  const text = writeProgram(planMoves(job), { remarks: [], controller: job.machine.controller });
  return { name: job.program, text, intent: buildIntent(job, '0'.repeat(64)) };
});

describe('every program of the demo instrument', () => {
  it('is there: cut by router and by laser', () => {
    expect(programs.length).toBeGreaterThanOrEqual(6);
    expect(new Set(programs.map((p) => p.intent.tool.kind)).size).toBeGreaterThanOrEqual(2);
  });

  it.each(programs)('$name proves against the intent as it is written', ({ text, intent }) => {
    const parsed = parseIntent(JSON.stringify(intent));
    if (!parsed.ok) throw new Error(parsed.problems.join('\n'));
    const proof = prove(bytesOf(text), parsed.intent);
    expect(proof.checks.filter((c) => !c.passed)).toEqual([]);
    expect(proof.refusals).toEqual([]);
    expect(proof.passed).toBe(true);
  });

  it.each(programs)(
    '$name is refused when moved by 0.05 mm, and against any other’s intent',
    ({ name, text, intent }) => {
      const moved = text.replace(
        /X(-?[\d.]+)/g,
        (_, x: string) => `X${Number((Number(x) + 0.05).toFixed(4))}`,
      );
      expect(prove(bytesOf(moved), intent).passed).toBe(false);
      for (const other of programs.filter((p) => p.name !== name)) {
        expect(prove(bytesOf(text), other.intent).passed).toBe(false);
      }
    },
  );
});
