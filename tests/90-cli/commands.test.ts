import { readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import description from '../../package.json' with { type: 'json' };
import { emptyFolder, nutline, ROOT } from '../support/cli.ts';

let folder = '';
beforeAll(() => {
  folder = emptyFolder();
  expect(nutline(['make', '--out', folder]).code).toBe(0);
});
afterAll(() => {
  rmSync(folder, { recursive: true, force: true });
});

describe('the command line', () => {
  it('tells its version and its commands, each with an example', () => {
    expect(nutline(['--version']).out).toBe(`${description.version}\n`);
    const help = nutline(['--help']);
    expect(help.code).toBe(0);
    for (const command of ['make', 'check', 'sheet', 'prove', 'cutlist']) {
      expect(help.out).toContain(`nutline ${command}`);
      const own = nutline([command, '--help']);
      expect(own.code).toBe(0);
      expect(own.out, command).toContain('Examples:');
    }
  });

  it.each([
    [['mak'], 64, 'make'],
    [[], 64, 'Name a command'],
    [['make', '--shopp', 'x'], 64, 'shopp'],
    [['prove'], 64, 'Not enough'],
    [['make', 'no-such.yaml'], 66, 'no-such.yaml cannot be read: there is no such file'],
    [['make', '--shop', 'no-such.yaml'], 66, 'The shop file no-such.yaml cannot be read'],
    [['prove', 'no-such.nc'], 66, 'The program no-such.nc cannot be read'],
    [['prove', 'package.json'], 66, 'manifest.json'],
    [['prove', 'package.json', '--intent', 'package.json'], 65, 'is not an intent file'],
  ] as [string[], number, string][])('answers %j with %d', (words, code, text) => {
    const ran = nutline(words);
    expect(ran.err).toContain(text);
    expect(ran.code).toBe(code);
    expect(ran.err).not.toContain('    at ');
  });
});

describe('nutline check', () => {
  it('finds nothing wrong with the bundled files, and lists what was filled in', () => {
    const plain = nutline(['check']);
    expect(plain.out).toContain('good to make; nothing found');
    expect(plain.code).toBe(0);
    expect(nutline(['check', '--explain']).out).toMatch(/concertPitch = 440 Hz {2}\(ISO 16:1975\)/);
    expect(JSON.parse(nutline(['check', '--json']).out)).toMatchObject({ passed: true, findings: [] });
  });

  const broken = join(ROOT, 'tests/30-profile/broken');
  const names = readdirSync(broken).filter((n) => n.endsWith('.yaml'));
  it('is tried on more than ten broken files', () => {
    expect(names.length).toBeGreaterThanOrEqual(10);
  });

  it.each(names)('answers %s with places and exit code 65, and writes nothing', (name) => {
    const out = emptyFolder();
    const flag =
      readFileSync(join(broken, name), 'utf8').includes('strings:') || !/shop|include|tool/.test(name)
        ? []
        : ['--shop'];
    const ran = nutline(['make', ...flag, join(broken, name), '--out', out]);
    expect(ran.code).toBe(65);
    expect(ran.err).toMatch(new RegExp(`${name.replace('.', '\\.')}:\\d+:\\d+: `));
    expect(ran.err).not.toContain('fault of the tool');
    expect(readdirSync(out)).toEqual([]);
    rmSync(out, { recursive: true, force: true });
  });
});

describe('nutline prove', () => {
  it('proves every program of the job as it lies on the disk', () => {
    const programs = join(folder, 'tarn-parlour/programs');
    for (const name of readdirSync(programs)) {
      const ran = nutline(['prove', join(programs, name)]);
      expect(ran.code, ran.out).toBe(0);
      expect(ran.out).toContain(`${name}: proven`);
    }
  });

  it('refuses an edited program, names the place, and prints the agreed JSON', () => {
    const path = join(folder, 'tarn-parlour/programs/fingerboard-markers.nc');
    const intent = join(folder, 'tarn-parlour/intent/fingerboard-markers.json');
    const edited = join(folder, 'edited.nc');
    const text = readFileSync(path, 'utf8');
    writeFileSync(
      edited,
      text.replaceAll(/X(\d+\.\d+)/g, (_, x: string) => `X${(Number(x) + 0.1).toFixed(4)}`),
    );
    const ran = nutline(['prove', edited, '--intent', intent, '--json']);
    expect(ran.code).toBe(1);
    const said = JSON.parse(ran.out) as {
      passed: boolean;
      program: string;
      intentSha256: string;
      checks: { name: string; passed: boolean; place?: number[] }[];
      refusals: unknown[];
    };
    expect(Object.keys(said)).toEqual(['passed', 'program', 'intentSha256', 'checks', 'refusals']);
    expect(said.passed).toBe(false);
    expect(said.program).toBe('fingerboard-markers.nc');
    const over = said.checks.find((c) => c.name === 'wall overcut' && !c.passed);
    expect(over?.place).toHaveLength(3);
    expect(nutline(['prove', edited, '--intent', intent]).out).toMatch(
      /NOT proven: do not run it[\s\S]*it has been edited/,
    );
  });

  it('refuses an intent that is not the one the manifest names', () => {
    const own = emptyFolder();
    expect(nutline(['make', '--out', own]).code).toBe(0);
    const intent = join(own, 'tarn-parlour/intent/fingerboard-markers.json');
    writeFileSync(intent, readFileSync(intent, 'utf8').replace('"wallOver": 0.01', '"wallOver": 0.5'));
    const ran = nutline(['prove', join(own, 'tarn-parlour/programs/fingerboard-markers.nc')]);
    expect(ran.code).toBe(1);
    expect(ran.err).toContain('is not the intent that manifest.json names');
    rmSync(own, { recursive: true, force: true });
  });

  it('lets a harmless edit through: comments, blank lines, spaces', () => {
    const path = join(folder, 'tarn-parlour/programs/fingerboard-pins.nc');
    const edited = join(folder, 'harmless.nc');
    writeFileSync(
      edited,
      readFileSync(path, 'utf8')
        .replaceAll('\n', '\n\n')
        .replaceAll(' Y', '   Y')
        .replace('(index-pin-1)', '(mine)'),
    );
    const ran = nutline([
      'prove',
      edited,
      '--intent',
      join(folder, 'tarn-parlour/intent/fingerboard-pins.json'),
    ]);
    expect(ran.code, ran.out).toBe(0);
  });
});

describe('nutline sheet and cutlist', () => {
  it('starts with the octave slot at half the scale and a sum check', () => {
    const [first, second] = nutline(['sheet']).out.split('\n');
    expect(first).toMatch(/^Slot 12 is half the scale: it lies 314\.00 mm/);
    expect(second).toMatch(/^Sum check: /);
  });

  it('prints the agreed JSON', () => {
    const sheet = JSON.parse(nutline(['sheet', '--json']).out) as {
      frets: Record<string, unknown>[];
      markers: unknown[];
      holes: unknown[];
    };
    expect(Object.keys(sheet.frets[0] ?? {})).toEqual(
      expect.arrayContaining(['n', 'cents', 'fromScaleZero', 'fromNutFace', 'fromPrevious', 'line', 'edges']),
    );
    expect(sheet.frets).toHaveLength(19);
    expect(sheet.markers.length).toBeGreaterThan(5);
    expect(sheet.holes.length).toBeGreaterThan(5);
  });

  it('prints a cut list with every piece placed and proven', () => {
    const plan = JSON.parse(nutline(['cutlist', '--json']).out) as {
      unplaced: unknown[];
      checks: { passed: boolean }[];
    };
    expect(plan.unplaced).toEqual([]);
    expect(plan.checks.length).toBeGreaterThan(5);
    expect(plan.checks.every((c) => c.passed)).toBe(true);
    expect(nutline(['cutlist']).out).toMatch(/^# Cut list/);
  });
});
