// Bundles src/cli/main.ts and each lazily loaded command into dist/, so that a start costs little.
import { mkdir, readdir, rm } from 'node:fs/promises';
import { basename, join } from 'node:path';
import { build } from 'esbuild';

const result = await build({
  entryPoints: ['src/cli/main.ts'],
  outdir: 'dist',
  bundle: true,
  splitting: true,
  format: 'esm',
  platform: 'node',
  target: 'node20',
  minify: true,
  legalComments: 'linked',
  logLevel: 'warning',
  metafile: true,
  // Some bundled CommonJS libraries still call require() for Node's own modules.
  banner: {
    js: "import { createRequire as __createRequire } from 'node:module'; const require = __createRequire(import.meta.url);",
  },
});

// Chunks of an earlier build go only now, so that a program running from dist/ never finds its parts missing.
const fresh = new Set(Object.keys(result.metafile.outputs).map((path) => basename(path)));
await mkdir('dist', { recursive: true });
for (const name of await readdir('dist'))
  if (!fresh.has(name)) await rm(join('dist', name), { recursive: true });
