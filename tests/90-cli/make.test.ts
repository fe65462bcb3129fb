import { createHash } from 'node:crypto';
import { cpSync, mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { emptyFolder, filesIn, nutline, type Ran, ROOT } from '../support/cli.ts';

let folder = '';
let made: Ran;
let files: Map<string, string>;

interface ManifestFile {
  path: string;
  role: string;
  sha256: string;
  bytes: number;
}
interface ManifestProgram {
  path: string;
  minutes: number;
  proof: {
    passed: boolean;
    tolerance: number;
    maxOvercut: number;
    maxUndercut: number;
    checks: { passed: boolean }[];
  };
  intent: { path: string; sha256: string };
}
interface Manifest {
  files: ManifestFile[];
  programs: ManifestProgram[];
  features: { id: string; madeBy: string[] }[];
  profile: { sha256: string };
  shop: { sha256: string; includes: { path: string; sha256: string }[] };
}

const sha = (data: string | Buffer): string => createHash('sha256').update(data).digest('hex');

beforeAll(() => {
  folder = emptyFolder();
  made = nutline(['make', '--out', folder]);
  files = filesIn(join(folder, 'tarn-parlour'));
});

afterAll(() => {
  rmSync(folder, { recursive: true, force: true });
});

describe('nutline make', () => {
  const manifest = (): Manifest => JSON.parse(files.get('manifest.json') ?? '') as Manifest;

  it('makes the default job and says what was made, how long it takes and where to look', () => {
    expect(made.err).toBe('');
    expect(made.code).toBe(0);
    expect(made.out).toMatch(/^Tarn Parlour: 32 programs and 23 drawings, all proven\.$/m);
    expect(made.out).toMatch(/machine time +[\d.]+ min/);
    expect(made.out).toContain('preview.html');
    expect(made.out).not.toContain('\u001b');
  });

  it('names every file with its hash and role, and nothing else lies in the folder', () => {
    const listed = manifest().files;
    expect([...listed.map((f) => f.path), 'manifest.json'].sort()).toEqual([...files.keys()].sort());
    for (const file of listed) {
      const bytes = readFileSync(join(folder, 'tarn-parlour', file.path));
      expect(sha(bytes), file.path).toBe(file.sha256);
      expect(bytes.length).toBe(file.bytes);
    }
    const roles = new Set(listed.map((f) => f.role));
    for (const role of [
      'program',
      'drawing',
      'preview',
      'cutlist',
      'sheet',
      'notes',
      'coordinates',
      'proof',
      'intent',
    ])
      expect(roles).toContain(role);
  });

  it('ties program, intent, profile and shop by hash', () => {
    const { programs, profile, shop } = manifest();
    expect(programs).toHaveLength(32);
    for (const program of programs) {
      const intentText = files.get(program.intent.path) ?? '';
      expect(sha(intentText)).toBe(program.intent.sha256);
      const intent = JSON.parse(intentText) as { programSha256: string; program: string };
      expect(intent.programSha256).toBe(sha(files.get(program.path) ?? ''));
      expect(program.path.endsWith(intent.program)).toBe(true);
      expect(program.proof.passed).toBe(true);
      expect(program.proof.checks.length).toBeGreaterThan(10);
      expect(program.proof.checks.every((c) => c.passed)).toBe(true);
      expect(program.proof.maxOvercut).toBeLessThanOrEqual(0.01);
      expect(program.proof.maxUndercut).toBeLessThanOrEqual(0.01);
      expect(program.minutes).toBeGreaterThan(0);
    }
    expect(profile.sha256).toBe(sha(readFileSync(join(ROOT, 'profiles/tarn-parlour.yaml'))));
    expect(shop.includes.map((i) => i.path.split('/').at(-1)).sort()).toEqual([
      'benchtop-router.yaml',
      'hand-tools.yaml',
      'sheet-laser.yaml',
    ]);
  });

  it('says of every feature who makes it, once', () => {
    const { features } = manifest();
    expect(features.length).toBeGreaterThan(60);
    for (const feature of features) expect(feature.madeBy, feature.id).toHaveLength(1);
  });

  it('writes the same bytes again, and leaves nothing beside the folder', () => {
    expect(nutline(['make', '--out', folder]).code).toBe(0);
    expect(filesIn(join(folder, 'tarn-parlour'))).toEqual(files);
    expect(readdirSync(folder)).toEqual(['tarn-parlour']);
  });

  it('holds no path of this machine and no name of the place it was made in', () => {
    for (const [path, text] of files) expect(text.includes(ROOT), path).toBe(false);
  });

  it('works for a left-handed instrument and for a shop without machines', () => {
    const own = emptyFolder();
    const text = readFileSync(join(ROOT, 'profiles/tarn-parlour.yaml'), 'utf8');
    writeFileSync(
      join(own, 'left.yaml'),
      text.replace('hand: right', 'hand: left').replace('Tarn Parlour', 'Left Tarn'),
    );
    const left = nutline(['make', join(own, 'left.yaml'), '--out', own]);
    expect(left.err).toBe('');
    expect(left.code).toBe(0);
    const hand = nutline(['make', '--shop', join(ROOT, 'profiles/hand-tools.yaml'), '--out', own]);
    expect(hand.code).toBe(0);
    expect(hand.out).toContain('saw-fret-slots');
    rmSync(own, { recursive: true, force: true });
  });
});

describe('the folder it writes', () => {
  it('is left as it was when the profile is wrong', () => {
    const own = emptyFolder();
    expect(nutline(['make', '--out', own]).code).toBe(0);
    const before = filesIn(own);
    const text = readFileSync(join(ROOT, 'profiles/tarn-parlour.yaml'), 'utf8');
    const wrong = join(own, 'wrong.yaml');
    writeFileSync(wrong, text.replace('length: 628', 'lenght: 628'));
    const ran = nutline(['make', wrong, '--out', own]);
    rmSync(wrong);
    expect(ran.code).toBe(65);
    expect(ran.err).toMatch(/wrong\.yaml:\d+:\d+: error: /);
    expect(ran.err).toContain('length');
    expect(filesIn(own)).toEqual(before);
    rmSync(own, { recursive: true, force: true });
  });

  // What a run killed at each of its steps leaves: which folders lie beside the target, and whether the target is there.
  it.each([
    ['while writing', ['new'], true],
    ['when the new folder is complete', ['ready'], true],
    ['between the two renames', ['ready', 'old'], false],
    ['after the second rename', ['old'], true],
    ['while putting the old one back', ['old'], false],
  ])('is made whole by the next run after one that was killed %s', (_when, left, targetThere) => {
    const own = emptyFolder();
    const target = join(own, 'tarn-parlour');
    expect(nutline(['make', '--out', own]).code).toBe(0);
    const whole = filesIn(target);
    for (const suffix of left) cpSync(target, join(own, `.tarn-parlour.${suffix}`), { recursive: true });
    if (!targetThere) rmSync(target, { recursive: true });
    writeFileSync(join(own, '.tarn-parlour.lock'), '999999999');
    const refused = nutline(['make', '--shop', join(own, 'none.yaml'), '--out', own]);
    expect(refused.code).toBe(66);
    expect(nutline(['make', '--out', own]).code).toBe(0);
    expect(readdirSync(own)).toEqual(['tarn-parlour']);
    expect(filesIn(target)).toEqual(whole);
    rmSync(own, { recursive: true, force: true });
  });

  it('is never replaced when it holds what a person put there or changed', () => {
    const own = emptyFolder();
    const target = join(own, 'tarn-parlour');
    mkdirSync(target);
    writeFileSync(join(target, 'my-notes.txt'), 'dear');
    const strange = nutline(['make', '--out', own]);
    expect(strange.code).toBe(73);
    expect(strange.err).toContain('my-notes.txt (not written by nutline)');
    expect(readFileSync(join(target, 'my-notes.txt'), 'utf8')).toBe('dear');
    rmSync(target, { recursive: true });
    expect(nutline(['make', '--out', own]).code).toBe(0);
    const program = join(target, 'programs/fingerboard-pins.nc');
    writeFileSync(program, `${readFileSync(program, 'utf8')}\n`);
    const edited = nutline(['make', '--out', own]);
    expect(edited.code).toBe(73);
    expect(edited.err).toContain('programs/fingerboard-pins.nc (changed since)');
    expect(readdirSync(own)).toEqual(['tarn-parlour']);
    rmSync(own, { recursive: true, force: true });
  });

  it('is not touched while another run writes it', () => {
    const own = emptyFolder();
    writeFileSync(join(own, '.tarn-parlour.lock'), String(process.pid));
    const ran = nutline(['make', '--out', own]);
    expect(ran.code).toBe(73);
    expect(ran.err).toContain('Another run is writing');
    expect(readdirSync(own)).toEqual(['.tarn-parlour.lock']);
    rmSync(own, { recursive: true, force: true });
  });

  it('cannot be made inside a file, and says so', () => {
    const own = emptyFolder();
    writeFileSync(join(own, 'file'), '');
    const ran = nutline(['make', '--out', join(own, 'file')]);
    expect(ran.code).toBe(73);
    expect(ran.err).toContain('cannot be written');
    rmSync(own, { recursive: true, force: true });
  });
});
