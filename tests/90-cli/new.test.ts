import { existsSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { QUESTIONS, valueIn, wrongAnswer } from '../../src/app/newProfile.ts';
import { textOf } from '../30-profile/bundled.ts';
import { emptyFolder, nutline } from '../support/cli.ts';

let folder = '';
beforeAll(() => {
  folder = emptyFolder();
});
afterAll(() => {
  rmSync(folder, { recursive: true, force: true });
});

describe('nutline new', () => {
  it('writes a commented profile with what was set, which checks and makes', () => {
    const path = join(folder, 'fern.yaml');
    const ran = nutline([
      'new',
      path,
      '--set',
      'name=Fern Study',
      '--set',
      'scale.length=25 in',
      '--set',
      'hand=left',
    ]);
    expect(ran.err).toBe('');
    expect(ran.code).toBe(0);
    const text = readFileSync(path, 'utf8');
    expect(text).toContain('# Fern Study: begun from Tarn Parlour.');
    expect(text).toContain('  length: 25 in');
    expect(text.match(/^ *#/gm)?.length).toBeGreaterThan(40);
    expect(text).not.toContain('of our own invention');
    expect(nutline(['check', path]).code).toBe(0);
    const made = nutline(['make', path, '--out', join(folder, 'out')]);
    expect(made.code).toBe(0);
    expect(existsSync(join(folder, 'out', 'fern-study', 'manifest.json'))).toBe(true);
  });

  it('begins from any file, and from one it wrote', () => {
    const second = join(folder, 'second.yaml');
    const ran = nutline(['new', second, '--from', join(folder, 'fern.yaml'), '--set', 'name=Second']);
    expect(ran.code).toBe(0);
    expect(readFileSync(second, 'utf8')).toContain('# Second: begun from Fern Study.');
    expect(readFileSync(second, 'utf8')).not.toContain('# Fern Study:');
  });

  it('never writes over a file, nor half a one, nor a wrong one', () => {
    const there = join(folder, 'there.yaml');
    writeFileSync(there, 'mine\n');
    expect(nutline(['new', there, '--set', 'name=X']).code).toBe(73);
    expect(readFileSync(there, 'utf8')).toBe('mine\n');
    const wrong = join(folder, 'wrong.yaml');
    const refused = nutline(['new', wrong, '--set', 'scale.length=5']);
    expect(refused.code).toBe(65);
    expect(refused.err).toContain('scale.length');
    expect(nutline(['new', wrong, '--set', 'nonsense']).code).toBe(64);
    expect(nutline(['new', wrong, '--set', 'fingerboard=5']).code).toBe(64);
    expect(nutline(['new', wrong, '--from', 'no-such-instrument', '--set', 'name=X']).code).toBe(66);
    expect(existsSync(wrong)).toBe(false);
  });

  it('says what to do where there is no terminal', () => {
    const ran = nutline(['new', join(folder, 'asked.yaml')]);
    expect(ran.code).toBe(64);
    expect(ran.err).toContain('--set');
  });
});

describe('the questions', () => {
  const base = { path: 'profiles/tarn-parlour.yaml', text: textOf('profiles/tarn-parlour.yaml') };

  it('have a default that stands, and refuse what the field refuses', () => {
    for (const { path, ask, because } of QUESTIONS) {
      expect(`${ask} ${because}`.length).toBeGreaterThan(20);
      expect(valueIn(base, path), path).not.toBe('');
      expect(wrongAnswer(base, [], { path, value: valueIn(base, path) }), path).toBeNull();
    }
    expect(wrongAnswer(base, [], { path: 'scale.length', value: '5' })).toContain(
      'Allowed: 100 mm to 1500 mm',
    );
    expect(wrongAnswer(base, [], { path: 'frets.count', value: 'many' })).not.toBeNull();
  });
});
