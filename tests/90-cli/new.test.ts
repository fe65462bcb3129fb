import { existsSync, mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { questionsFor, valueIn, wrongAnswer } from '../../src/app/newProfile.ts';
import { profileNames, textOf } from '../30-profile/bundled.ts';
import { emptyFolder, nutline } from '../support/cli.ts';

const instruments = profileNames().filter((name) =>
  textOf(`profiles/${name}`).startsWith('# yaml-language-server: $schema=schema/instrument.schema.json'),
);

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

  it.each(instruments)('begins from %s, and what it writes is good to make', (name) => {
    const path = join(folder, `from-${name}`);
    const from = name.replace('.yaml', '');
    const ran = nutline(['new', path, '--from', from, '--set', 'name=Fern Study']);
    expect(ran.err).toBe('');
    expect(ran.code).toBe(0);
    const text = readFileSync(path, 'utf8');
    const [, oldName = ''] = /^name: (.*)$/m.exec(textOf(`profiles/${name}`)) ?? [];
    expect(text).toContain(`# Fern Study: begun from ${oldName}.`);
    // Nothing of the paragraph that spoke of the old one is left, be it of one line or of three.
    expect(text.split('\n').slice(4, 5)).toEqual([expect.stringMatching(/^#?$/)]);
    expect(text).not.toContain('of our own invention');
    const checked = nutline(['check', path]);
    expect(checked.out + checked.err).toMatch(/good to make; nothing found/);
  });

  it('brings the drawings along that the profile names, and never writes over one', () => {
    const other = join(folder, 'with-drawing');
    mkdirSync(join(other, 'artwork'), { recursive: true });
    const drawing = join(other, 'artwork', 'reed.svg');
    const first = nutline(['new', join(other, 'one.yaml'), '--from', 'tarn-left', '--set', 'name=One']);
    expect(first.code).toBe(0);
    expect(first.out).toContain('reed.svg is the drawing that it names');
    expect(readFileSync(drawing, 'utf8')).toBe(textOf('profiles/artwork/reed.svg'));
    writeFileSync(drawing, 'mine\n');
    const second = nutline(['new', join(other, 'two.yaml'), '--from', 'tarn-left', '--set', 'name=Two']);
    expect(second.code).toBe(0);
    expect(second.out).toContain('reed.svg is another drawing and was left as it is');
    expect(readFileSync(drawing, 'utf8')).toBe('mine\n');
  });

  it('names what there is when asked to begin from something else', () => {
    const ran = nutline(['new', join(folder, 'none.yaml'), '--from', 'lute', '--set', 'name=X']);
    expect(ran.code).toBe(66);
    for (const name of instruments) expect(ran.err).toContain(name.replace('.yaml', ''));
    expect(ran.err).not.toContain('home-shop');
  });

  it('says what to do where there is no terminal', () => {
    const ran = nutline(['new', join(folder, 'asked.yaml')]);
    expect(ran.code).toBe(64);
    expect(ran.err).toContain('--set');
  });
});

describe('the questions', () => {
  const baseOf = (name: string) => ({ path: `profiles/${name}`, text: textOf(`profiles/${name}`) });
  const base = baseOf('tarn-parlour.yaml');

  it('ask for the two lengths of an instrument with two scales, for one length of any other', () => {
    const asked = (name: string): string[] =>
      questionsFor(baseOf(name))
        .map(({ path }) => path)
        .filter((path) => path.startsWith('scale.'));
    expect(asked('scree-baritone.yaml')).toEqual(['scale.bass', 'scale.treble']);
    for (const name of instruments.filter((n) => n !== 'scree-baritone.yaml'))
      expect(asked(name), name).toEqual(['scale.length']);
  });

  it.each(instruments)('have a default that stands, beginning from %s', (name) => {
    const from = baseOf(name);
    expect(questionsFor(from).length).toBeGreaterThan(12);
    for (const { path } of questionsFor(from)) {
      expect(wrongAnswer(from, [], { path, value: valueIn(from, path) }), path).toBeNull();
    }
  });

  it('refuse what the field refuses', () => {
    for (const { path, ask, because } of questionsFor(base)) {
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
