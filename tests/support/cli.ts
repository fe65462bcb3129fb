import { spawnSync } from 'node:child_process';
import { mkdtempSync, readdirSync, readFileSync, statSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, relative } from 'node:path';

export const ROOT = join(import.meta.dirname, '../..');

export interface Ran {
  readonly code: number | null;
  readonly out: string;
  readonly err: string;
}

/** Runs the bundled command as a user would, in a folder of its own unless told otherwise. */
export function nutline(words: readonly string[], cwd = ROOT): Ran {
  const result = spawnSync(process.execPath, [join(ROOT, 'dist/main.js'), ...words], {
    cwd,
    encoding: 'utf8',
  });
  return { code: result.status, out: result.stdout, err: result.stderr };
}

/** A new empty folder under the system's temporary one. */
export function emptyFolder(): string {
  return mkdtempSync(join(tmpdir(), 'nutline-test-'));
}

/** Every file below a folder with its text, by path with forward slashes. */
export function filesIn(folder: string): Map<string, string> {
  const names = readdirSync(folder, { recursive: true, encoding: 'utf8' }).sort();
  const files = names.map((name) => join(folder, name)).filter((path) => statSync(path).isFile());
  return new Map(
    files.map((path) => [relative(folder, path).split('\\').join('/'), readFileSync(path, 'utf8')]),
  );
}
