import { createHash } from 'node:crypto';
import { copyFileSync, mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { ROOT } from '../30-profile/bundled.ts';
import { emptyFolder, nutline } from '../support/cli.ts';

const DRAWING = 'artwork/reed.svg';
let folder = '';
let profile = '';
let program = '';

beforeAll(() => {
  folder = emptyFolder();
  profile = join(folder, 'tarn-left.yaml');
  mkdirSync(join(folder, 'artwork'));
  copyFileSync(join(ROOT, 'profiles/tarn-left.yaml'), profile);
  copyFileSync(join(ROOT, 'profiles', DRAWING), join(folder, DRAWING));
  const made = nutline(['make', profile, '--out', folder, '--json']);
  expect(made.code, made.err).toBe(0);
  program = join(folder, 'tarn-parlour-left/programs/fingerboard-slots.nc');
}, 60_000);
afterAll(() => {
  rmSync(folder, { recursive: true, force: true });
});

const prove = () => nutline(['prove', program, '--profile', profile]);

/** Puts a file back as it was once something was tried with it. */
function withChanged(path: string, change: () => void, then: () => void): void {
  const before = readFileSync(path);
  change();
  then();
  writeFileSync(path, before);
}

describe('a drawing that a profile names', () => {
  it('stands in the manifest with its hash', () => {
    const manifest = JSON.parse(readFileSync(join(folder, 'tarn-parlour-left/manifest.json'), 'utf8')) as {
      profile: { drawings: unknown };
    };
    const sha256 = createHash('sha256')
      .update(readFileSync(join(folder, DRAWING)))
      .digest('hex');
    expect(manifest.profile.drawings).toEqual([{ path: DRAWING, sha256 }]);
  });

  it('and the profile are as they were: the program proves', () => {
    expect(prove().code).toBe(0);
  });

  it('has changed by one character: the program is refused, and the drawing named', () => {
    const path = join(folder, DRAWING);
    withChanged(
      path,
      () => writeFileSync(path, `${readFileSync(path, 'utf8')} `),
      () => {
        const ran = prove();
        expect(ran.code).toBe(1);
        expect(ran.err).toContain(`${DRAWING}, a drawing, is not what it was.`);
        expect(ran.err).not.toContain('the profile,');
        // Without the profile only the program is looked at, and that has not changed.
        expect(nutline(['prove', program]).code).toBe(0);
      },
    );
  });

  it('is gone, or the profile has changed: both are named', () => {
    const path = join(folder, DRAWING);
    withChanged(
      path,
      () => rmSync(path),
      () => {
        withChanged(
          profile,
          () => writeFileSync(profile, `${readFileSync(profile, 'utf8')}\n# a word more\n`),
          () => {
            const { code, err } = prove();
            expect(code).toBe(1);
            expect(err).toContain('tarn-left.yaml, the profile, is not what it was.');
            expect(err).toContain(`${DRAWING}, a drawing, is not there any more.`);
          },
        );
      },
    );
    expect(prove().code).toBe(0);
  });

  it('cannot be looked for without a manifest', () => {
    const alone = join(folder, 'alone.nc');
    const intent = join(folder, 'tarn-parlour-left/intent/fingerboard-slots.json');
    copyFileSync(program, alone);
    const ran = nutline(['prove', alone, '--intent', intent, '--profile', profile]);
    expect(ran.code).toBeGreaterThan(1);
    expect(ran.err).toContain('leave --profile out');
  });
});
