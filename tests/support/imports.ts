import { dirname, join } from 'node:path';

export interface SourceFile {
  readonly path: string;
  readonly text: string;
}

export interface Import {
  readonly from: string;
  readonly typeOnly: boolean;
}

/** Who may import whom, as in DEVELOPERS.md. `name:t` allows types only. Packages and node modules are named too. */
const ALLOWED: Readonly<Record<string, readonly string[]>> = {
  units: ['fraction.js'],
  report: [],
  spacing: [],
  geometry: ['units'],
  'geometry/lettering': ['geometry', 'hersheytext'],
  'geometry/kernel': ['geometry', 'makerjs', 'clipper2-ts'],
  profile: ['units', 'report', 'spacing', 'zod', 'yaml', 'leven', 'fraction.js'],
  artwork: ['units', 'report', 'geometry', 'geometry/kernel', 'profile:t', 'svg-pathdata', 'dxf-parser'],
  physics: ['units'],
  carving: ['geometry'],
  layout: ['units', 'carving', 'spacing', 'geometry', 'physics', 'report', 'profile:t'],
  bridge: ['units', 'geometry', 'report', 'layout:t', 'profile:t'],
  neck: ['units', 'report', 'layout:t', 'profile:t'],
  wire: ['units', 'geometry', 'layout:t', 'profile:t'],
  checks: ['units', 'report', 'geometry', 'carving', 'wire', 'layout:t', 'profile:t'],
  stringing: ['units', 'report', 'physics', 'layout:t', 'profile:t'],
  sheet: [
    'units',
    'geometry',
    'carving',
    'wire',
    'layout:t',
    'profile:t',
    'physics:t',
    'stringing:t',
    'bridge:t',
    'neck:t',
  ],
  order: ['units', 'sheet', 'bridge:t', 'neck:t', 'profile:t'],
  parts: [
    'units',
    'report',
    'geometry',
    'geometry/kernel',
    'carving',
    'geometry/lettering',
    'layout:t',
    'profile:t',
  ],
  machining: ['units', 'report', 'geometry', 'carving', 'geometry/kernel', 'parts:t', 'profile:t'],
  motion: [
    'units',
    'report',
    'geometry',
    'carving',
    'geometry/kernel',
    'machining:t',
    'parts:t',
    'profile:t',
  ],
  timing: ['verify:t'],
  intent: ['units', 'geometry', 'carving', 'machining', 'parts:t', 'zod'],
  drawing: ['units', 'geometry', 'carving', 'layout:t', 'parts:t', 'profile:t'],
  cutlist: ['units', 'report', 'parts:t', 'profile:t'],
  'writers/gcode': ['units', 'motion:t', 'profile:t'],
  'writers/dxf': ['units', 'geometry', 'drawing:t', 'dxf-writer'],
  'writers/svg': ['units', 'geometry', 'drawing:t', 'sheet:t'],
  'writers/pdf': ['units', 'geometry', 'geometry/lettering', 'writers/svg', 'drawing:t', 'sheet:t', 'pdfkit'],
  'writers/html': ['units', 'writers/svg', 'drawing:t', 'sheet:t'],
  'writers/png': ['@resvg/resvg-wasm'],
  'writers/csv': [
    'units',
    'wire:t',
    'sheet:t',
    'layout:t',
    'parts:t',
    'profile:t',
    'cutlist:t',
    'csv-stringify',
  ],
  'writers/notes': [
    'units',
    'layout:t',
    'parts:t',
    'profile:t',
    'machining:t',
    'cutlist:t',
    'sheet:t',
    'markdown-table',
  ],
  verify: ['report:t', 'intent:t', 'parts:t', 'profile:t', 'cutlist:t', 'flatbush', 'polyclip-ts'],
  app: ['*', 'node:crypto'],
  cli: ['app', 'report', 'units', 'yargs', '@inquirer/prompts', 'node:*'],
};

/** Every import and re-export of a file. */
export function importsOf(file: SourceFile): Import[] {
  const pattern =
    /^\s*(?:import|export)\s+(type\s+)?(?:[^'"`;]*?\sfrom\s+)?['"]([^'"]+)['"]|\bimport\(\s*['"]([^'"]+)['"]\s*\)/gm;
  return [...file.text.matchAll(pattern)].map((m) => ({
    from: m[2] ?? m[3] ?? '',
    typeOnly: m[1] !== undefined,
  }));
}

/** Sentences for every import that goes against the table. */
export function violations(files: readonly SourceFile[]): string[] {
  return files.flatMap((file) => {
    const layer = layerOf(file.path);
    return importsOf(file).flatMap((imported) => {
      const problem = problemOf(file, layer, imported);
      return problem === null ? [] : [`${file.path}: ${problem}`];
    });
  });
}

/** `src/writers/gcode/write.ts` belongs to `writers/gcode`; all of verify is one layer. */
function layerOf(path: string): string {
  const [, first = '', second = ''] = path.split('/');
  const deep = `${first}/${second}`;
  return deep in ALLOWED ? deep : first;
}

function problemOf(file: SourceFile, layer: string, imported: Import): string | null {
  const allowed = ALLOWED[layer];
  if (allowed === undefined) return `layer ${layer} is not in the table`;
  const target = imported.from.startsWith('.')
    ? layerOf(join(dirname(file.path), imported.from))
    : imported.from;
  if (target === layer || allowed.includes(target)) return null;
  if (imported.from.startsWith('.') && allowed.includes('*') && target !== 'cli') return null;
  if (!imported.from.startsWith('.') && allowsPackage(allowed, target)) return null;
  if (allowed.includes(`${target}:t`)) {
    return imported.typeOnly ? null : `${layer} may import ${target} for its types only`;
  }
  return `${layer} may not import ${target}`;
}

function allowsPackage(allowed: readonly string[], name: string): boolean {
  return allowed.some(
    (a) => name === a || name.startsWith(`${a}/`) || (a === 'node:*' && name.startsWith('node:')),
  );
}
