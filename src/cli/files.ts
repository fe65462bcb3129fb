import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { basename, dirname, isAbsolute, join, relative } from 'node:path';
import { fileURLToPath } from 'node:url';
import { CommandFailure, EXIT } from './exit.ts';

/** Files the tool brings along lie beside the folder of the running program. */
export function bundledPath(name: string): string {
  return join(dirname(fileURLToPath(import.meta.url)), '..', 'profiles', name);
}

/** The face that pages of paper are set in, as its package brings it. */
export function pageFonts(): { regular: Uint8Array; bold: Uint8Array } {
  const { resolve } = createRequire(import.meta.url);
  const face = (name: string): Uint8Array => readFileSync(resolve(`dejavu-fonts-ttf/ttf/${name}.ttf`));
  return { regular: face('DejaVuSansCondensed'), bold: face('DejaVuSansCondensed-Bold') };
}

/** What turns pictures into pixels, with the face their text is set in, as the packages bring them. */
export function picturePainter(): { engine: Uint8Array; faces: Uint8Array[]; face: string } {
  const { resolve } = createRequire(import.meta.url);
  const { regular, bold } = pageFonts();
  const engine = readFileSync(resolve('@resvg/resvg-wasm/index_bg.wasm'));
  return { engine, faces: [regular, bold], face: 'DejaVu Sans Condensed' };
}

/** Text of an input file; a missing or unreadable one ends the command. */
export function readInput(path: string, what: string): string {
  try {
    return readFileSync(path, 'utf8');
  } catch (error) {
    throw new CommandFailure(
      EXIT.missingInput,
      `${what} ${shownPath(path)} cannot be read: ${reasonOf(error)}.`,
    );
  }
}

/** Bytes of an input file; a missing or unreadable one ends the command. */
export function readBytes(path: string, what: string): Uint8Array {
  try {
    return readFileSync(path);
  } catch (error) {
    throw new CommandFailure(
      EXIT.missingInput,
      `${what} ${shownPath(path)} cannot be read: ${reasonOf(error)}.`,
    );
  }
}

/** Text of a file that another one names, or null when it cannot be read; who named it says so, with the line. */
export function readOptional(path: string): string | null {
  try {
    return readFileSync(path, 'utf8');
  } catch {
    return null;
  }
}

/** Bytes of a file that may be missing; null when it cannot be read. */
export function readOptionalBytes(path: string): Buffer | null {
  try {
    return readFileSync(path);
  } catch {
    return null;
  }
}

/** A path as it is shown and recorded: relative where it lies below the present folder, else its name alone. */
export function shownPath(path: string): string {
  const below = relative(process.cwd(), path);
  return below.startsWith('..') || isAbsolute(below) ? basename(path) : below;
}

/** The system's reason in a few words. */
export function reasonOf(error: unknown): string {
  const code = error instanceof Error && 'code' in error ? String(error.code) : '';
  const known: Record<string, string> = {
    ENOENT: 'there is no such file',
    EACCES: 'permission is denied',
    EISDIR: 'it is a folder',
    ENOTDIR: 'a part of its path is not a folder',
    ENOSPC: 'the disk is full',
    EROFS: 'the disk is read-only',
    EPERM: 'permission is denied',
  };
  return known[code] ?? (error instanceof Error ? error.message : String(error));
}
