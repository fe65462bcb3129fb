// Sources are TypeScript, which Node 20 cannot load: what is measured is bundled as the tool itself is.
import { dirname, join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { build } from 'esbuild';

export const root = dirname(dirname(dirname(fileURLToPath(import.meta.url))));

/** Bundles a module, written out or by its exports, into a file that node can run. */
export async function bundleTo(outfile, contents) {
  await build({
    stdin: { contents, resolveDir: root, loader: 'ts', sourcefile: 'bench.ts' },
    outfile,
    bundle: true,
    minify: true,
    format: 'esm',
    platform: 'node',
    target: 'node20',
    logLevel: 'warning',
    banner: {
      js: "import { createRequire as __createRequire } from 'node:module'; const require = __createRequire(import.meta.url);",
    },
  });
  return outfile;
}

/** The exports of a bundled module. */
export async function load(folder, name, contents) {
  return import(pathToFileURL(await bundleTo(join(folder, name), contents)).href);
}
