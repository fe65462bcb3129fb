import { spawnSync } from 'node:child_process';
import { readdirSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { Script } from 'node:vm';
import { crc32 } from 'node:zlib';
import { describe, expect, it } from 'vitest';
import { loadTool } from '../../src/cli/loadTool.ts';
import { emptyFolder, ROOT } from '../support/cli.ts';

const TEXT = '(function (require, url) { return { run: async (words) => words.length }; })';

function compiled(): Buffer {
  const data = new Script(TEXT).createCachedData();
  const checksum = Buffer.alloc(4);
  checksum.writeUInt32LE(crc32(data));
  return Buffer.concat([checksum, data]);
}

/** A folder with a tool, and beside it what is said to be its compiled text. */
function folderWith(bytes: Buffer | null, version = process.version): string {
  const folder = emptyFolder();
  writeFileSync(join(folder, 'tool-X.js'), TEXT);
  if (bytes !== null) writeFileSync(join(folder, `tool-X-${version}.compiled`), bytes);
  return folder;
}

function damaged(): Buffer {
  const bytes = compiled();
  for (let at = 100; at < bytes.length; at += 7) bytes[at] = (bytes[at] ?? 0) ^ 0x55;
  return bytes;
}

describe('the start of the tool', () => {
  it.each<[string, Buffer | null]>([
    ['whole', compiled()],
    ['missing', null],
    ['empty', Buffer.alloc(0)],
    ['cut short', compiled().subarray(0, 200)],
    ['damaged, which V8 itself does not see', damaged()],
    ['something else', Buffer.from('not what V8 made of the text')],
  ])('works when the compiled text is %s', async (_what, bytes) => {
    expect(await loadTool(folderWith(bytes), 'tool-X').run(['a', 'b'])).toBe(2);
  });

  it('passes over what another version of Node has left', async () => {
    expect(await loadTool(folderWith(damaged(), 'v0.0.0'), 'tool-X').run([])).toBe(0);
  });

  it('has a compiled text beside the bundle that this Node takes', () => {
    const dist = join(ROOT, 'dist');
    // Files of an earlier build may lie about for a while: the one that counts is named by the entry.
    const tool = /tool-[A-Z0-9]+/.exec(readFileSync(join(dist, 'main.js'), 'utf8'))?.[0] ?? '';
    const path = join(dist, `${tool}-${process.version}.compiled`);
    const text = join(dist, `${tool}.js`);
    const asked = `const { readFileSync } = require('node:fs');
      const cachedData = readFileSync(process.argv[1]).subarray(4);
      const script = new (require('node:vm').Script)(readFileSync(process.argv[2], 'latin1'), { cachedData });
      process.stdout.write(String(script.cachedDataRejected));`;
    // In a process of its own: the one that runs the tests has flags of its own.
    const { stdout } = spawnSync(process.execPath, ['-e', asked, path, text], { encoding: 'utf8' });
    expect(stdout).toBe('false');
  });

  it('holds ASCII alone, as the start reads it', () => {
    const dist = join(ROOT, 'dist');
    // Files of earlier builds stay for a while: the newest is the one that starts.
    const [name = ''] = readdirSync(dist)
      .filter((file) => /^tool-[A-Z0-9]+\.js$/.test(file))
      .sort((a, b) => statSync(join(dist, b)).mtimeMs - statSync(join(dist, a)).mtimeMs);
    const { stdout } = spawnSync(
      process.execPath,
      [
        '-e',
        'process.stdout.write(String(require("node:fs").readFileSync(process.argv[1]).every((b) => b < 128)))',
        join(dist, name),
      ],
      { encoding: 'utf8' },
    );
    expect(stdout).toBe('true');
  });
});
