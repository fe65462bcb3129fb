import { readdirSync, readFileSync } from 'node:fs';
import { dirname, join, relative } from 'node:path';
import { describe, expect, it } from 'vitest';
import { importsOf, violations } from '../support/imports.ts';

const root = join(import.meta.dirname, '../..');

function sources(): { path: string; text: string }[] {
  return readdirSync(join(root, 'src'), { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile() && entry.name.endsWith('.ts'))
    .map((entry) => join(entry.parentPath, entry.name))
    .map((path) => ({ path: relative(root, path), text: readFileSync(path, 'utf8') }))
    .sort((a, b) => (a.path < b.path ? -1 : 1));
}

describe('the layers', () => {
  const files = sources();

  it('are all there to be looked at', () => {
    expect(files.length).toBeGreaterThan(60);
    expect(files.flatMap((f) => importsOf(f)).length).toBeGreaterThan(200);
  });

  it('import only what lies below them', () => {
    expect(violations(files)).toEqual([]);
  });

  it.each([
    [
      'src/layout/x.ts',
      "import { planJobs } from '../machining/planJobs.ts';",
      'layout may not import machining',
    ],
    [
      'src/verify/removal/x.ts',
      "import { add } from '../../geometry/vec.ts';",
      'verify may not import geometry',
    ],
    [
      'src/verify/gcode/x.ts',
      "import type { Move } from '../../motion/types.ts';",
      'verify may not import motion',
    ],
    ['src/layout/x.ts', "import { z } from 'zod';", 'layout may not import zod'],
    ['src/geometry/x.ts', "import makerjs from 'makerjs';", 'geometry may not import makerjs'],
    [
      'src/writers/html/x.ts',
      "import DxfWriter from 'dxf-writer';",
      'writers/html may not import dxf-writer',
    ],
    ['src/app/x.ts', "import { readFileSync } from 'node:fs';", 'app may not import node:fs'],
    [
      'src/parts/x.ts',
      "import { layOut } from '../layout/layOut.ts';",
      'parts may import layout for its types only',
    ],
    ['src/units/x.ts', "export { add } from '../geometry/vec.ts';", 'units may not import geometry'],
  ])('a planted violation in %s is found', (path, text, message) => {
    expect(violations([{ path, text }]).map((v) => v.slice(v.indexOf(': ') + 2))).toEqual([message]);
  });

  it('have no cycles between files', () => {
    const graph = new Map(
      files.map((f) => [
        f.path,
        importsOf(f)
          .filter((i) => i.from.startsWith('.') && !i.typeOnly)
          .map((i) => relative(root, join(root, dirname(f.path), i.from))),
      ]),
    );
    expect(cycleIn(graph)).toEqual([]);
  });

  it('write the length of an inch in one folder of the product, and once more in the proof', () => {
    const holders = files.filter((f) => /\b25\.4\b/.test(f.text.replace(/\/\*[\s\S]*?\*\/|\/\/.*/g, '')));
    const folders = new Set(holders.map((f) => f.path.split('/').slice(0, 2).join('/')));
    expect([...folders].sort()).toEqual(['src/units', 'src/verify']);
  });

  it('keep files short enough to read', () => {
    const long = files.filter((f) => f.text.split('\n').length > 400).map((f) => f.path);
    expect(long).toEqual([]);
  });
});

/** The first cycle found, as a list of paths, or an empty list. */
function cycleIn(graph: ReadonlyMap<string, readonly string[]>): string[] {
  const done = new Set<string>();
  const walk = (path: string, trail: readonly string[]): string[] => {
    if (trail.includes(path)) return [...trail.slice(trail.indexOf(path)), path];
    if (done.has(path)) return [];
    for (const next of graph.get(path) ?? []) {
      const found = walk(next, [...trail, path]);
      if (found.length > 0) return found;
    }
    done.add(path);
    return [];
  };
  for (const path of graph.keys()) {
    const found = walk(path, []);
    if (found.length > 0) return found;
  }
  return [];
}
