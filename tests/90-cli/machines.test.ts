/** The default instrument in the bundled shops whose controls understand other things. */
import { readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { emptyFolder, filesIn, nutline, type Ran } from '../support/cli.ts';
import { rs274Available, runRs274 } from '../support/rs274.ts';

interface Manifest {
  programs: { path: string; tool: { id: number }; tools?: { id: number }[]; intent: { path: string } }[];
  features: { id: string; madeBy: string[] }[];
}

const SHOPS = ['plain-router', 'tool-change-router'] as const;
const folders = new Map<string, string>();
const ran = new Map<string, Ran>();

function folderOf(shop: string): string {
  return join(folders.get(shop) ?? '', 'tarn-parlour');
}

function manifestOf(shop: string): Manifest {
  return JSON.parse(readFileSync(join(folderOf(shop), 'manifest.json'), 'utf8')) as Manifest;
}

beforeAll(() => {
  for (const shop of SHOPS) {
    folders.set(shop, emptyFolder());
    ran.set(shop, nutline(['make', '--shop', `profiles/${shop}.yaml`, '--out', folders.get(shop) ?? '']));
  }
});
afterAll(() => {
  for (const folder of folders.values()) rmSync(folder, { recursive: true, force: true });
});

describe.each(SHOPS)('%s', (shop) => {
  it('makes the whole job, all proven, every feature once', () => {
    expect(ran.get(shop)?.err).toBe('');
    expect(ran.get(shop)?.code).toBe(0);
    for (const { id, madeBy } of manifestOf(shop).features) expect(madeBy, id).toHaveLength(1);
  });

  it('proves each program again from its files, and refuses one that was edited', () => {
    const some = manifestOf(shop).programs.filter(({ path }) =>
      /fingerboard(-pins)?\.nc$|radius-block-plates\.nc$/.test(path),
    );
    expect(some).toHaveLength(2);
    for (const { path } of some) {
      const file = join(folderOf(shop), path);
      const proven = nutline(['prove', file]);
      expect(proven.out).toContain('proven');
      expect(proven.code, path).toBe(0);
    }
    const path = manifestOf(shop).programs.find((p) => /pin-template\.nc$/.test(p.path))?.path ?? '';
    const file = join(folderOf(shop), path);
    const text = readFileSync(file, 'utf8');
    writeFileSync(file, text.replace(/S\d{4,}/, 'S3000'));
    const refused = nutline(['prove', file]);
    writeFileSync(file, text);
    expect(refused.out).toContain('NOT proven');
    expect(refused.code).toBe(1);
  });

  const title = 'every program runs in the rs274 interpreter';
  it.skipIf(!rs274Available())(
    rs274Available() ? title : `${title} (SKIPPED: rs274 is not installed)`,
    () => {
      for (const { path } of manifestOf(shop).programs)
        expect(runRs274(readFileSync(join(folderOf(shop), path), 'utf8')).length).toBeGreaterThan(4);
    },
  );
});

describe('the plain router', () => {
  it('is told nothing its control does not know: inches, numbered lines of 80 characters, no arcs, no G49', () => {
    const files = [...filesIn(folderOf('plain-router'))].filter(([path]) => path.endsWith('.nc'));
    expect(files.length).toBeGreaterThan(5);
    for (const [path, text] of files) {
      const lines = text.split('\n').slice(0, -1);
      expect(lines[0]).toBe('%');
      expect(lines.at(-1)).toBe('%');
      expect(lines.at(-2)).toMatch(/^N\d+ M30$/);
      for (const line of lines.slice(1, -1)) {
        expect(line, path).toMatch(/^N\d+ /);
        expect(line.length).toBeLessThanOrEqual(80);
        if (!line.includes('(')) expect(line).not.toMatch(/G2 |G3 |G8[123]|G49|G61|G21/);
      }
      expect(text).toContain('G20 G17 G90 G94');
    }
  });
});

describe('the router that changes tools', () => {
  it('has one program for the board, with every tool in it, and its page names the program once', () => {
    const { programs } = manifestOf('tool-change-router');
    const board = programs.find((p) => p.path === 'programs/fingerboard.nc');
    expect(board?.tools?.length).toBeGreaterThan(2);
    const text = readFileSync(join(folderOf('tool-change-router'), 'programs/fingerboard.nc'), 'utf8');
    const changes = [...text.matchAll(/^T(\d+) M6$/gm)].map((m) => Number(m[1]));
    expect(changes).toEqual(board?.tools?.map((t) => t.id));
    const page = readFileSync(join(folderOf('tool-change-router'), 'START-HERE.md'), 'utf8');
    expect(page.match(/Run `fingerboard\.nc`/g)).toHaveLength(1);
    const preview = readFileSync(join(folderOf('tool-change-router'), 'preview.html'), 'utf8');
    expect(preview).toContain(`fingerboard.nc, tool 2 of ${changes.length}`);
  });
});
