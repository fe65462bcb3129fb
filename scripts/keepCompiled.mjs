// Runs the bundled tool's commands on the bundled instrument and writes what V8 has compiled by then, for
// src/cli/loadTool.ts. Arguments: the tool's text, and the file to write.
import { mkdtempSync, readdirSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { pathToFileURL } from 'node:url';
import { Script } from 'node:vm';
import { crc32 } from 'node:zlib';

const [toolPath, compiledPath] = process.argv.slice(2).map((path) => resolve(path));
const script = new Script(readFileSync(toolPath, 'latin1'), { filename: toolPath });
const tool = script.runInThisContext()(createRequire(toolPath), pathToFileURL(toolPath).href);
const folder = mkdtempSync(join(tmpdir(), 'nutline-build-'));
// What they answer is for the tests to judge; a job that is refused has been compiled as far as it went.
try {
  const code = await tool.run(['make', '--out', folder]);
  if (code === 0) {
    const made = join(folder, readdirSync(folder)[0], 'programs');
    await tool.run(['prove', join(made, readdirSync(made)[0])]);
  }
  for (const command of ['strings', 'sheet', 'cutlist', 'check']) await tool.run([command]);
} finally {
  rmSync(folder, { recursive: true, force: true });
}
const compiled = script.createCachedData();
const checksum = Buffer.alloc(4);
checksum.writeUInt32LE(crc32(compiled));
// Two builds at a time may write the same file; each puts a whole one in place.
writeFileSync(`${compiledPath}.${process.pid}`, Buffer.concat([checksum, compiled]));
renameSync(`${compiledPath}.${process.pid}`, compiledPath);
