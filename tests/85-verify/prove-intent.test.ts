/** The intent file's reader: exactly its shape, every problem with its place. */
import { describe, expect, it } from 'vitest';
import { parseIntent } from '../../src/intent/schema.ts';
import { SAMPLES, type SampleName } from '../support/proofSamples.ts';

function problemsOf(change: (intent: Record<string, unknown>) => void): string[] {
  const intent = JSON.parse(JSON.stringify(SAMPLES.pocket().intent));
  change(intent);
  const parsed = parseIntent(JSON.stringify(intent));
  return parsed.ok ? [] : parsed.problems;
}

describe('an intent file', () => {
  it.each(Object.keys(SAMPLES))('of %s comes back as it was', (name) => {
    const { intent } = SAMPLES[name as SampleName]();
    expect(parseIntent(JSON.stringify(intent))).toEqual({ ok: true, intent });
  });

  it.each<[string, (intent: Record<string, unknown>) => void, RegExp]>([
    ['an unknown field', (i) => Object.assign(i, { colour: 'red' }), /the file: .*colour/],
    ['a missing field', (i) => delete i.stock, /^stock: /],
    ['another format', (i) => Object.assign(i, { format: 2 }), /^format: /],
    ['inches', (i) => Object.assign(i, { units: 'in' }), /^units: /],
    ['no cuts', (i) => Object.assign(i, { cuts: [] }), /^cuts: /],
    [
      'a range upside down',
      (i) => Object.assign(i.limits as object, { feed: [900, 30] }),
      /^limits\.feed: the first may not exceed/,
    ],
    ['a tool without width', (i) => Object.assign(i.tool as object, { diameter: 0 }), /^tool\.diameter: /],
    ['a hash that is none', (i) => Object.assign(i, { programSha256: 'abc' }), /^programSha256: a SHA-256/],
    ['a text for a number', (i) => Object.assign(i.limits as object, { zMin: '-2' }), /^limits\.zMin: /],
    [
      'an unknown surface',
      (i) => Object.assign(i.stock as object, { top: { kind: 'sphere', z: 0 } }),
      /^stock\.top\.kind: /,
    ],
    [
      'one cut twice',
      (i) => (i.cuts as unknown[]).push((i.cuts as unknown[])[0]),
      /^cuts\[1\]\.id: pocket is the name of an earlier cut too/,
    ],
  ])('with %s is refused with its place', (_, change, expected) => {
    const problems = problemsOf(change);
    expect(problems).toHaveLength(1);
    expect(problems[0]).toMatch(expected);
  });

  it('names all problems at once', () => {
    const problems = problemsOf((i) => {
      delete i.end;
      Object.assign(i.limits as object, { stepDown: -1 });
    });
    expect(problems).toHaveLength(2);
  });

  it('that is no JSON is said to be none', () => {
    expect(parseIntent('{"format":1,')).toMatchObject({ ok: false });
    expect(parseIntent('null')).toMatchObject({ ok: false });
  });
});
