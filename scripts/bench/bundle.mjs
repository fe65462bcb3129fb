// Sources are TypeScript, which Node 20 cannot load: what is measured is bundled as the tool itself is.
import { dirname, join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { build } from 'esbuild';

export const root = dirname(dirname(dirname(fileURLToPath(import.meta.url))));

const REQUIRE =
  "import { createRequire as __createRequire } from 'node:module'; const require = __createRequire(import.meta.url);";

/**
 * Bundles a module, written out or by its exports, into a file that node can run: a classic script, as the tool's own bundle
 * is, when it is to be called `.cjs`. Node starts those sooner than modules.
 */
export async function bundleTo(outfile, contents) {
  const classic = outfile.endsWith('.cjs');
  await build({
    stdin: { contents, resolveDir: root, loader: 'ts', sourcefile: 'bench.ts' },
    outfile,
    bundle: true,
    minify: true,
    format: classic ? 'cjs' : 'esm',
    platform: 'node',
    target: 'node20',
    logLevel: 'warning',
    ...(classic ? {} : { banner: { js: REQUIRE } }),
  });
  return outfile;
}

/** The exports of a bundled module. */
export async function load(folder, name, contents) {
  return import(pathToFileURL(await bundleTo(join(folder, name), contents)).href);
}
