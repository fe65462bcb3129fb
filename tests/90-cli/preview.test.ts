import { existsSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { emptyFolder, nutline, ROOT } from '../support/cli.ts';

/** The bundled instrument whose job is done soonest. */
const SMALL = join(ROOT, 'profiles/sedge-ukulele.yaml');

let folder = '';
beforeAll(() => {
  folder = emptyFolder();
});
afterAll(() => {
  rmSync(folder, { recursive: true, force: true });
});

describe('nutline preview', () => {
  it('writes the page, named in a manifest, and replaces it', () => {
    const words = ['preview', SMALL, '--out', folder];
    expect(nutline(words).code).toBe(0);
    const ran = nutline(words);
    expect([ran.code, ran.err]).toEqual([0, '']);
    const [job = ''] = readdirSync(folder);
    expect(readdirSync(join(folder, job)).sort()).toEqual(['manifest.json', 'preview.html']);
    expect(readFileSync(join(folder, job, 'preview.html'), 'utf8')).toContain('id="plan"');
  });

  it('writes one sheet as SVG and as PNG into files that are named', () => {
    const [svg, png] = [join(folder, 'slots.svg'), join(folder, 'slots.png')];
    const ran = nutline(['preview', SMALL, '--program', 'fingerboard-slots', '--svg', svg, `--png=${png}`]);
    expect([ran.code, ran.err]).toEqual([0, '']);
    expect(ran.out).toBe('slots.svg\nslots.png\n');
    expect(readFileSync(svg, 'utf8')).toMatch(/^<\?xml.*\n<svg [\s\S]*<title>fret slots, Fingerboard: /);
    const bytes = readFileSync(png);
    expect(bytes.subarray(1, 4).toString('latin1')).toBe('PNG');
    expect(bytes.readUInt32BE(16)).toBe(2100);
  });

  it('writes a picture of each sheet of a part when no file is named', () => {
    const out = join(folder, 'all');
    const ran = nutline(['preview', SMALL, '--part', 'fingerboard', '--svg', '--out', out, '--json']);
    expect(ran.code).toBe(0);
    const told = JSON.parse(ran.out) as { programs: string[]; unproven: string[]; files: string[] };
    expect(told.unproven).toEqual([]);
    const ours = told.programs.filter((name) => name.startsWith('fingerboard'));
    expect(ours.length).toBeGreaterThan(2);
    expect(told.files.length).toBe(ours.length);
    const [job = ''] = readdirSync(out);
    expect(readdirSync(join(out, job)).length).toBe(ours.length + 1);
  });

  it.each<[string, readonly string[], number, RegExp]>([
    [
      'an unknown program',
      ['--svg', '--program', 'nothing'],
      64,
      /no program nothing\. Allowed: a number or a name:\n {2}1 {2}fingerboard-/,
    ],
    ['an unknown part', ['--png', '--part', 'sail'], 64, /part named sail\. Allowed: Fingerboard; /],
    ['many sheets for one file', ['--png', 'x.png'], 64, /one sheet and \d+ are asked for[\s\S]*fret slots/],
    ['a profile taken for the file', ['--png', 'mine.yaml'], 64, /ends in \.png/],
    ['a choice for the page', ['--program', '1'], 64, /page holds every program/],
    ['a folder that is not there', ['--svg', 'no/where/x.svg', '--program', '1'], 73, /no such folder/],
  ])('answers %s in words, and writes nothing', (_what, words, code, said) => {
    const empty = emptyFolder();
    const ran = nutline(['preview', SMALL, ...words], empty);
    expect(ran.err).toMatch(said);
    expect([ran.code, ran.out]).toEqual([code, '']);
    expect(readdirSync(empty)).toEqual([]);
    rmSync(empty, { recursive: true });
  });

  it('says all that is wrong with a profile, and writes nothing', () => {
    const bad = join(folder, 'bad.yaml');
    writeFileSync(bad, readFileSync(SMALL, 'utf8').replace(/length: .*/, 'length: nonsense'));
    const ran = nutline(['preview', bad, '--out', join(folder, 'bad')]);
    expect(ran.code).toBe(65);
    expect(ran.err).toContain('bad.yaml');
    expect(existsSync(join(folder, 'bad'))).toBe(false);
  });
});
