import { createHash } from 'node:crypto';
import {
  existsSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  renameSync,
  rmSync,
  statSync,
  writeFileSync,
} from 'node:fs';
import { dirname, join } from 'node:path';
import { CommandFailure, EXIT } from './exit.ts';
import { reasonOf, shownPath } from './files.ts';

export interface FileToWrite {
  readonly path: string;
  readonly bytes: Uint8Array;
}

/**
 * Replaces a folder by a new one as a whole. The new files are written beside it, read back, and only then swapped in by
 * two renames. Names of the helpers: `.NAME.new` (being written), `.NAME.ready` (complete and read back), `.NAME.old`.
 * A run killed anywhere leaves the old folder or a complete new one; `recoverFolder` puts either in place.
 */
export function replaceFolder(target: string, files: readonly FileToWrite[]): void {
  const beside = besides(target);
  try {
    makeFolder(dirname(target));
    lock(beside.lock, target);
  } catch (error) {
    if (error instanceof CommandFailure) throw error;
    throw new CommandFailure(EXIT.cannotWrite, `${shownPath(target)} cannot be written: ${reasonOf(error)}.`);
  }
  try {
    recoverFolder(target);
    refuseStrangers(target);
    writeAll(beside.fresh, files);
    readBack(beside.fresh, files);
    renameSync(beside.fresh, beside.ready);
    if (existsSync(target)) renameSync(target, beside.old);
    renameSync(beside.ready, target);
    rmSync(beside.old, { recursive: true, force: true });
  } catch (error) {
    rmSync(beside.fresh, { recursive: true, force: true });
    if (error instanceof CommandFailure) throw error;
    throw new CommandFailure(EXIT.cannotWrite, `${shownPath(target)} cannot be written: ${reasonOf(error)}.`);
  } finally {
    rmSync(beside.lock, { force: true });
  }
}

interface Manifest {
  readonly nutline?: unknown;
  readonly files?: readonly { readonly path: string; readonly sha256: string }[];
}

/**
 * Only a folder that this tool wrote, and that nobody has changed since, may be replaced: a person's notes, an edited program
 * or any other folder of that name is never deleted.
 */
function refuseStrangers(target: string): void {
  if (!existsSync(target)) return;
  const names = filesBelow(target);
  if (names.length === 0) return;
  const known = new Map(readManifest(target)?.files?.map((f) => [f.path, f.sha256]) ?? []);
  const foreign = names.filter((name) => name !== 'manifest.json' && !known.has(name));
  const edited = names.filter(
    (name) => known.has(name) && sha256(readFileSync(join(target, name))) !== known.get(name),
  );
  const kept = [
    ...foreign.map((n) => `${n} (not written by nutline)`),
    ...edited.map((n) => `${n} (changed since)`),
  ];
  if (kept.length === 0 && known.size > 0) return;
  const shown = kept.slice(0, 8).join(', ') + (kept.length > 8 ? ` and ${kept.length - 8} more` : '');
  throw new CommandFailure(
    EXIT.cannotWrite,
    `${shownPath(target)} holds what would be lost: ${shown}. Move it elsewhere, or write into another folder with --out.`,
  );
}

function readManifest(target: string): Manifest | null {
  try {
    return JSON.parse(readFileSync(join(target, 'manifest.json'), 'utf8')) as Manifest;
  } catch {
    // No manifest, or not one of ours: then every file there is a stranger, and is reported as one.
    return null;
  }
}

/** Tidies up after a run that was killed: whatever is left, `target` afterwards is the newest complete folder. */
export function recoverFolder(target: string): void {
  const beside = besides(target);
  rmSync(beside.fresh, { recursive: true, force: true });
  if (existsSync(beside.ready)) {
    if (existsSync(target)) rmSync(beside.ready, { recursive: true, force: true });
    else renameSync(beside.ready, target);
  } else if (existsSync(beside.old) && !existsSync(target)) {
    renameSync(beside.old, target);
  }
  rmSync(beside.old, { recursive: true, force: true });
}

/** Makes a folder and those above it one by one: Node's recursive form never returns on file systems such as /proc. */
function makeFolder(path: string): void {
  if (existsSync(path)) return;
  makeFolder(dirname(path));
  mkdirSync(path);
}

function besides(target: string): { fresh: string; ready: string; old: string; lock: string } {
  const name = (suffix: string): string =>
    join(dirname(target), `.${target.split(/[\\/]/).at(-1)}.${suffix}`);
  return { fresh: name('new'), ready: name('ready'), old: name('old'), lock: name('lock') };
}

/** One run at a time for a folder; a lock left by a run that no longer lives is taken over. */
function lock(path: string, target: string): void {
  const mine = String(process.pid);
  for (let attempt = 0; attempt < 2; attempt += 1) {
    try {
      writeFileSync(path, mine, { flag: 'wx' });
      return;
    } catch (error) {
      if (!(error instanceof Error && 'code' in error && error.code === 'EEXIST')) throw error;
      if (isAlive(Number(readFileSync(path, 'utf8')))) break;
      rmSync(path, { force: true });
    }
  }
  throw new CommandFailure(
    EXIT.cannotWrite,
    `Another run is writing ${shownPath(target)} just now. Wait until it ends, then try again.`,
  );
}

function isAlive(pid: number): boolean {
  if (!Number.isInteger(pid) || pid <= 0) return false;
  try {
    process.kill(pid, 0);
    return true;
  } catch (error) {
    return error instanceof Error && 'code' in error && error.code === 'EPERM';
  }
}

function writeAll(folder: string, files: readonly FileToWrite[]): void {
  mkdirSync(folder, { recursive: true });
  for (const file of files) {
    const path = join(folder, file.path);
    mkdirSync(dirname(path), { recursive: true });
    writeFileSync(path, file.bytes, { flag: 'wx' });
  }
}

/** What was proven is the bytes in memory; what is delivered is the bytes on the disk. They must be the same. */
function readBack(folder: string, files: readonly FileToWrite[]): void {
  for (const file of files) {
    const onDisk = readFileSync(join(folder, file.path));
    if (sha256(onDisk) !== sha256(file.bytes)) {
      throw new CommandFailure(
        EXIT.io,
        `${file.path} was not written as it was meant to be; the disk may be failing.`,
      );
    }
  }
  const found = filesBelow(folder).length;
  if (found !== files.length)
    throw new CommandFailure(EXIT.io, `${found} files were written instead of ${files.length}.`);
}

function filesBelow(folder: string): string[] {
  return readdirSync(folder, { recursive: true, encoding: 'utf8' })
    .filter((name) => statSync(join(folder, name)).isFile())
    .map((name) => name.split('\\').join('/'));
}

function sha256(bytes: Uint8Array): string {
  return createHash('sha256').update(bytes).digest('hex');
}
