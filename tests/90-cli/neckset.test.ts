import { readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { parlourWith } from '../30-profile/bundled.ts';
import { emptyFolder, nutline } from '../support/cli.ts';

let folder = '';
beforeAll(() => {
  folder = emptyFolder();
});
afterAll(() => {
  rmSync(folder, { recursive: true, force: true });
});

describe('nutline neckset', () => {
  it('prints what is aimed at for the default instrument, without a complaint', () => {
    const ran = nutline(['neckset']);
    expect(ran.code).toBe(0);
    expect(ran.err).toBe('');
    expect(ran.out).toMatch(/^neck angle, head back +0\.8\d deg$/m);
    expect(ran.out).toContain('Nothing was measured');
  });

  it('says what to take off, the same in either unit', () => {
    const metric = nutline(['neckset', '--straightedge', '8.5 mm', '--aim', '1 mm treble', '--json']);
    const inches = nutline([
      'neckset',
      '--straightedge',
      `${(8.5 / 25.4).toFixed(9)} in`,
      '--aim',
      `${(1 / 25.4).toFixed(9)} in treble`,
      '--json',
    ]);
    const removal = (text: string): number[] =>
      Object.values((JSON.parse(text) as { work: { removal: Record<string, number> } }).work.removal);
    expect(removal(metric.out)).toHaveLength(4);
    removal(inches.out).forEach((off, i) => {
      expect(off).toBeCloseTo(removal(metric.out)[i] ?? 0, 6);
    });
    const page = nutline(['neckset', '--straightedge', '8.5 mm', '--aim', '1 mm bass']);
    expect(page.out).toContain('more off the bass cheek');
    expect(page.out).toContain('more toward the cap');
  });

  it('refuses words that are no measure, and an aim alone', () => {
    for (const words of [
      ['--straightedge', 'low'],
      ['--straightedge', '900 mm'],
      ['--aim', '1 mm treble'],
      ['--straightedge', '8 mm', '--aim', 'left'],
      ['--straightedge', '8 mm', '--aim', '1 mm'],
      ['--straightedge', '8 mm', '--aim=-1 mm bass'],
    ]) {
      const ran = nutline(['neckset', ...words]);
      expect(ran.code, words.join(' ')).toBe(64);
      expect(ran.out).toBe('');
      expect(ran.err).toContain('Allowed:');
    }
  });

  it('is written by make where the profile says enough', () => {
    const out = join(folder, 'out');
    expect(nutline(['make', '--out', out]).code).toBe(0);
    expect(readFileSync(join(out, 'tarn-parlour', 'neckset.txt'), 'utf8')).toBe(nutline(['neckset']).out);
    expect(readFileSync(join(out, 'tarn-parlour', 'index.html'), 'utf8')).toContain('neckset.txt');
  });

  it('says what a profile without a joint lacks', () => {
    const path = join(folder, 'none.yaml');
    const text = parlourWith();
    writeFileSync(
      path,
      text
        .replace(/^neckJoint:\n(?: .*\n)+/m, '')
        .replace(/^ {2}bridgeCaul:\n/m, '  bridgeCaul:\n    radius: 8000\n'),
    );
    const ran = nutline(['neckset', path]);
    expect(ran.code).toBe(65);
    expect(ran.err).toContain('Add a section neckJoint');
    expect(nutline(['check', path]).code).toBe(0);
  });

  it('refuses a joint past the last fret at its line', () => {
    const path = join(folder, 'past.yaml');
    writeFileSync(path, parlourWith(['neckJoint:\n  fret: 12', 'neckJoint:\n  fret: 22']));
    const ran = nutline(['check', path]);
    expect(ran.code).toBe(65);
    expect(ran.err).toContain('neckJoint.fret');
  });
});
