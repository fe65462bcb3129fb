// Bundles the tool into dist/: main.js, which answers at once what it can, and tool-HASH.js with all the rest, as one
// text that Node's vm module compiles. Beside it lies tool-HASH-VERSION.compiled, what V8 of this Node makes of the text:
// see src/cli/loadTool.ts. The hash is of the content, so text and compiled text never come from two builds.
import { spawnSync } from 'node:child_process';
import { existsSync, statSync } from 'node:fs';
import { mkdir, readdir, rename, rm, writeFile } from 'node:fs/promises';
import { basename, join } from 'node:path';
import { build } from 'esbuild';

/** Milliseconds. */
const STILL_NEEDED = 10 * 60 * 1000;

const OPTIONS = {
  outdir: 'dist',
  bundle: true,
  platform: 'node',
  target: 'node20',
  minify: true,
  charset: 'ascii',
  legalComments: 'linked',
  logLevel: 'warning',
  metafile: true,
};

/** All of the tool as the text of one function; modules loaded by `import()` are set up only when they are called for. */
async function buildTool() {
  const { metafile, outputFiles } = await build({
    ...OPTIONS,
    entryPoints: { tool: 'src/cli/run.ts' },
    entryNames: '[name]-[hash]',
    format: 'iife',
    globalName: 'tool',
    write: false,
    define: { 'import.meta.url': '__url' },
    alias: { 'string-width': './scripts/asciiWidth.mjs' },
    banner: { js: '(function (require, __url) {' },
    footer: { js: 'return tool;\n})' },
  });
  for (const { path, text } of outputFiles) await writeWhole(path, asAscii(text));
  return namesIn(metafile);
}

/** The start reads ASCII alone. esbuild leaves other characters in regular expressions, where an escape says the same. */
function asAscii(text) {
  return text.replace(/[^\0-\x7f]/g, (unit) => `\\u${unit.charCodeAt(0).toString(16).padStart(4, '0')}`);
}

/** Another build, or a program that runs, never sees half a file. */
async function writeWhole(path, text) {
  await writeFile(`${path}.${process.pid}`, text);
  await rename(`${path}.${process.pid}`, path);
}

async function buildMain(tool) {
  const { metafile } = await build({
    ...OPTIONS,
    entryPoints: ['src/cli/main.ts'],
    format: 'esm',
    splitting: true,
    define: { TOOL: JSON.stringify(tool) },
  });
  return namesIn(metafile);
}

function namesIn(metafile) {
  return Object.keys(metafile.outputs).map((path) => basename(path));
}

/** Runs the usual commands once in a process of its own and keeps what was compiled for them. */
function keepCompiled(tool) {
  const name = `${tool}-${process.version}.compiled`;
  const compiled = join('dist', name);
  if (existsSync(compiled)) return name;
  const args = ['scripts/keepCompiled.mjs', join('dist', `${tool}.js`), compiled];
  const { status } = spawnSync(process.execPath, args, { stdio: ['ignore', 'ignore', 'inherit'] });
  if (status !== 0) throw new Error(`keeping what was compiled ended with ${status}`);
  return name;
}

/** Files of earlier builds go only when they are old: a program that started, or another build, may still need them. */
async function clearOld(fresh) {
  for (const name of await readdir('dist')) {
    const path = join('dist', name);
    const found = statSync(path, { throwIfNoEntry: false });
    if (fresh.has(name) || found === undefined || Date.now() - found.mtimeMs < STILL_NEEDED) continue;
    await rm(path, { recursive: true, force: true });
  }
}

await mkdir('dist', { recursive: true });
const toolFiles = await buildTool();
const tool = basename(
  toolFiles.find((name) => name.endsWith('.js')),
  '.js',
);
const mainFiles = await buildMain(tool);
await clearOld(new Set([...toolFiles, ...mainFiles, keepCompiled(tool)]));
