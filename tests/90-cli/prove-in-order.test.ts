/** Two programs for one pocket, as they lie on the disk: the smaller cutter goes on from what the larger one clears. */
import { mkdirSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { sha256 } from '../../src/app/hash.ts';
import { jobsByProgram, makePrograms } from '../../src/app/programs.ts';
import { emptyFolder, nutline } from '../support/cli.ts';
import { planPocketPart, SHAPES } from '../support/pocketShapes.ts';

const [first, rest] = makePrograms(
  jobsByProgram(planPocketPart([SHAPES.square], { cutters: [3.175, 0.6] }).jobs),
  'Test',
);
if (first === undefined || rest === undefined) throw new Error('the square has no second program');

let folder = '';

beforeAll(() => {
  folder = emptyFolder();
  for (const part of ['programs', 'intent']) mkdirSync(join(folder, part));
  for (const p of [first, rest]) {
    writeFileSync(join(folder, p.path), p.text);
    writeFileSync(join(folder, p.intentPath), p.intentText);
  }
  const programs = [first, rest].map(({ path, intentPath, intentText }) => ({
    path,
    intent: { path: intentPath, sha256: sha256(intentText) },
  }));
  writeFileSync(join(folder, 'manifest.json'), JSON.stringify({ programs }));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const prove = (program: { readonly path: string }, ...more: string[]) =>
  nutline(['prove', join(folder, program.path), ...more]);

/** Proves with a changed first program in the folder. */
function withFirst<T>(text: string, look: () => T): T {
  expect(text).not.toBe(first?.text);
  writeFileSync(join(folder, first?.path ?? ''), text);
  const seen = look();
  writeFileSync(join(folder, first?.path ?? ''), first?.text ?? '');
  return seen;
}

/** The last two fifths of the cutting lost, the end kept. */
function cutShort(text: string): string {
  const lines = text.trimEnd().split('\n');
  const end = lines.findLastIndex((line) => /G1/.test(line));
  return [...lines.slice(0, Math.floor(end * 0.6)), ...lines.slice(end + 1), ''].join('\n');
}

describe('nutline prove of both programs, in order', () => {
  it('proves the first by itself, and the second on what the first one leaves', () => {
    const one = prove(first);
    expect(one.code, one.out).toBe(0);
    expect(one.out).not.toContain('Only on the stock');
    const two = prove(rest);
    expect(two.code, two.out).toBe(0);
    expect(two.out).toContain(`Only on the stock that ${first.job.program} leaves, which was read too`);
    const said = JSON.parse(prove(rest, '--json').out) as Record<string, unknown>;
    expect(Object.keys(said)).toEqual([
      'passed',
      'program',
      'intentSha256',
      'onlyAfter',
      'checks',
      'refusals',
    ]);
    expect(said.onlyAfter).toEqual([
      { program: first.job.program, programSha256: sha256(first.text), checked: true },
    ]);
  });

  it('says the condition where the second alone is at hand', () => {
    const alone = prove(rest, '--intent', join(folder, rest.intentPath));
    expect(alone.code, alone.out).toBe(0);
    expect(alone.out).toContain('which was not at hand');
    expect(alone.out).toContain(sha256(first.text));
  });

  it.each([
    ['a level is not deep enough', (text: string) => text.replaceAll(/Z-2\b/g, 'Z-1.9'), 'floor shallow'],
    ['its end is lost', cutShort, 'wall undercut'],
  ] as const)('refuses a first one that leaves wood because %s, by its own proof', (_, damage, check) => {
    withFirst(damage(first.text), () => {
      const one = prove(first, '--json');
      expect(one.code).toBe(1);
      const { checks } = JSON.parse(one.out) as { checks: { name: string; passed: boolean }[] };
      const failed = checks.filter((c) => !c.passed).map((c) => c.name);
      expect(failed.length === 0 ? one.out : failed).toContain(check);
      const two = prove(rest);
      expect(two.code).toBe(1);
      expect(two.out).toContain('its text has another hash');
    });
  });

  it('refuses a first one whose intent is not the one that was written', () => {
    const path = join(folder, first.intentPath);
    writeFileSync(path, first.intentText.replace('"wallUnder": 0.01', '"wallUnder": 0.5'));
    const two = prove(rest);
    writeFileSync(path, first.intentText);
    expect(two.code).toBe(1);
    expect(two.err).toContain('is not the intent that manifest.json names');
  });

  it('says in the head of the second what must have run', () => {
    expect(rest.text.split('G')[0]).toContain(`ONLY AFTER ${first.job.program}`);
  });
});
