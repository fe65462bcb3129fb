import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { Script } from 'node:vm';
import { crc32 } from 'node:zlib';
import { readOptionalBytes } from './files.ts';
import type { run } from './run.ts';

/** What the bundle gives out. */
export interface Tool {
  readonly run: typeof run;
}

/** Bytes of the checksum before what was compiled. */
const CHECKSUM = 4;

/**
 * The tool from its bundle, which the build writes beside this file under a name that changes with its content. Beside it
 * the build leaves what V8 made of that text, functions compiled: a short command would spend a fifth of its time making it
 * anew. The file is for the Node of the build and named after it; where there is none, and where V8's flags are others, V8
 * compiles as ever.
 */
export function loadTool(folder: string, name: string): Tool {
  const path = join(folder, `${name}.js`);
  const cachedData = compiledIn(join(folder, `${name}-${process.version}.compiled`));
  // The build writes ASCII alone; read as Latin-1 it needs no decoding and takes one byte a character.
  const script = new Script(readFileSync(path, 'latin1'), {
    filename: path,
    ...(cachedData === null ? {} : { cachedData }),
  });
  const wrapped: (require: NodeJS.Require, url: string) => Tool = script.runInThisContext();
  return wrapped(createRequire(path), pathToFileURL(path).href);
}

/** V8 trusts what it is given, so a file that is not whole is left alone: its checksum (CRC-32) stands before it. */
function compiledIn(path: string): Buffer | null {
  const bytes = readOptionalBytes(path);
  if (bytes === null || bytes.length <= CHECKSUM) return null;
  const compiled = bytes.subarray(CHECKSUM);
  return bytes.readUInt32LE(0) === crc32(compiled) ? compiled : null;
}
