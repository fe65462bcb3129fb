import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { fieldAsWritten, setFields } from '../../src/profile/yaml/setFields.ts';
import { textOf } from './bundled.ts';

const PARLOUR = textOf('profiles/tarn-parlour.yaml');

function changed(path: string, value: string, text = PARLOUR): string {
  const result = setFields(text, [{ path, value }]);
  if (!result.ok) throw new Error(result.problems.map((p) => p.problem).join(' '));
  return result.text;
}

const problemsOf = (path: string, value: string): string[] => {
  const result = setFields(PARLOUR, [{ path, value }]);
  return result.ok ? [] : result.problems.map((p) => p.problem);
};

describe('changing a field in a text', () => {
  it('changes its line and no other', () => {
    const after = changed('fingerboard.radius', '12 in').split('\n');
    const before = PARLOUR.split('\n');
    expect(after).toHaveLength(before.length);
    expect(after.filter((line, i) => line !== before[i])).toEqual(['  radius: 12 in']);
  });

  it('keeps the comment beside a value, and reaches into lists and one-line groups', () => {
    expect(changed('a', '2', 'a: 1 # why\nb: 3\n')).toBe('a: 2 # why\nb: 3\n');
    expect(changed('strings[1].setBack', '3.4')).toContain(
      'pitch: A2, gauge: 42 thou, make: wound, core: 16 thou, wrap: phosphor bronze, setBack: 3.4 }',
    );
    expect(changed('indexPins.frets', '[3, 17]')).toContain('  frets: [3, 17]');
  });

  it('adds a key in its group’s own manner', () => {
    expect(changed('g.c', '4', 'g:\n  a: 1\n  b: 2\n# tail\nh: 5\n')).toBe(
      'g:\n  a: 1\n  b: 2\n  c: 4\n# tail\nh: 5\n',
    );
    expect(changed('g.b', '2', 'g: { a: 1 }\n')).toBe('g: { a: 1, b: 2 }\n');
    expect(changed('c', '2', 'a: 1')).toBe('a: 1\nc: 2\n');
  });

  it('reads back what was set, whatever it is, and nothing else changes (yaml as the referee)', () => {
    const word = fc
      .string({ unit: 'grapheme-ascii', minLength: 1, maxLength: 30 })
      .filter((s) => s.trim() !== '' && !/[\r\n\0]/.test(s));
    fc.assert(
      fc.property(word, fc.constantFrom('name', 'fingerboard.wood', 'strings[2].pitch'), (value, path) => {
        const text = changed(path, value);
        const data = parse(text) as Record<string, unknown>;
        const old = parse(PARLOUR) as Record<string, unknown>;
        const steps = path.replace(/\[(\d)\]/g, '.$1').split('.');
        const at = (from: unknown): unknown =>
          steps.reduce((o, s) => (o as Record<string, unknown>)[s], from);
        const read = at(data);
        if (typeof read === 'string')
          expect(read).toBe(value.trim().replace(/^(["'])(.*)\1$/, (whole) => String(parse(whole))));
        let [a, b]: unknown[] = [data, old];
        for (const step of steps.slice(0, -1)) {
          a = (a as Record<string, unknown>)[step];
          b = (b as Record<string, unknown>)[step];
        }
        (a as Record<string, unknown>)[steps.at(-1) ?? ''] = null;
        (b as Record<string, unknown>)[steps.at(-1) ?? ''] = null;
        expect(data).toEqual(old);
      }),
    );
  });

  it('says what cannot be changed', () => {
    expect(problemsOf('fingerboard', '5')).toEqual(['fingerboard is a group: name a field in it.']);
    expect(problemsOf('strings[9].pitch', 'E2')).toEqual([
      'There is no strings[9].pitch in the file to begin from.',
    ]);
    expect(problemsOf('no/path', '5')).toEqual(['"no/path" is not a field\'s path.']);
    expect(problemsOf('name', 'two\nlines')).toEqual(['A value is one line of text.']);
    expect(problemsOf('name', '  ')).toHaveLength(1);
  });

  it('shows a field as it is written', () => {
    expect(fieldAsWritten(PARLOUR, 'fingerboard.radius')).toBe('16 in');
    expect(fieldAsWritten(PARLOUR, 'fingerboard')).toBeNull();
    expect(fieldAsWritten(PARLOUR, 'nothing.here')).toBeNull();
  });
});
