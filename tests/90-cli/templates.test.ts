import { spawnSync } from 'node:child_process';
import { readdirSync, readFileSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { emptyFolder, nutline } from '../support/cli.ts';

const hasPoppler = spawnSync('pdfinfo', ['-v'], { stdio: 'ignore' }).error === undefined;
let folder = '';
beforeAll(() => {
  folder = emptyFolder();
});
afterAll(() => {
  rmSync(folder, { recursive: true, force: true });
});

describe('nutline templates', () => {
  it('writes one PDF and one SVG for each part and the layout, named in a manifest', () => {
    const ran = nutline(['templates', '--out', folder]);
    expect(ran.err).toBe('');
    expect(ran.code).toBe(0);
    const job = join(folder, 'tarn-parlour-templates');
    const names = readdirSync(job).sort();
    const neck = ['neck-plan', 'neck-side', 'neck-blank', 'headstock', 'head-veneer', 'head-template'];
    const joint = ['neck-joint', 'mortise-template', 'tenon-template'];
    const plates = ['neck-gauges', 'radius-block-plates', 'slot-template'];
    const bridge = ['bridge', 'bridge-plate', 'bridge-template', 'bridge-caul-plates', 'nut', 'saddle'];
    const gauges = ['stop-collars', 'pin-coupon'];
    const ids = ['fingerboard', 'layout', 'pin-template', ...plates, ...neck, ...joint, ...bridge, ...gauges];
    const pages = ['bench-sheets.pdf', 'order-of-work.pdf'];
    expect(names).toEqual(
      [...ids.flatMap((id) => [`${id}.pdf`, `${id}.svg`]), ...pages, 'manifest.json'].sort(),
    );
    const manifest = JSON.parse(readFileSync(join(job, 'manifest.json'), 'utf8')) as {
      files: { path: string; role: string }[];
    };
    expect(manifest.files.map((f) => f.path).sort()).toEqual(names.filter((n) => n !== 'manifest.json'));
    for (const { path, role } of manifest.files)
      expect(role).toBe(pages.includes(path) ? 'sheet' : 'template');
  });

  it.skipIf(!hasPoppler)('fits a roll on one page, and letter on as many as it needs', () => {
    const pagesOf = (paper: string): number => {
      const out = join(folder, paper.replace(/\W/g, ''));
      expect(nutline(['templates', '--out', out, '--paper', paper]).code).toBe(0);
      const info = spawnSync('pdfinfo', [join(out, 'tarn-parlour-templates', 'layout.pdf')], {
        encoding: 'utf8',
      }).stdout;
      return Number(/Pages:\s+(\d+)/.exec(info)?.[1]);
    };
    expect(pagesOf('roll 24 in')).toBe(1);
    expect(pagesOf('letter')).toBeGreaterThan(1);
  });

  it('refuses paper and bars that make no sense, and writes nothing', () => {
    for (const words of [
      ['--paper', 'parchment'],
      ['--paper', 'roll 20 mm'],
      ['--printed-bar', '80 mm'],
      ['--printed-bar', '99 mm x 99 mm x 99 mm'],
      ['--printed-bar', 'short'],
    ]) {
      const out = join(folder, 'none');
      const ran = nutline(['templates', '--out', out, ...words]);
      expect(ran.code, words.join(' ')).toBe(64);
      expect(ran.err).toContain('Allowed:');
      expect(() => readdirSync(out)).toThrow(/ENOENT/);
    }
  });
});
