import { mkdirSync, writeFileSync } from 'node:fs';
import { dirname, join, resolve } from 'node:path';
import { CommandFailure, EXIT } from './exit.ts';
import { readOptionalBytes, reasonOf, shownPath } from './files.ts';

/** Whose drawings they are, and for which profile. */
export interface CopiedFor {
  /** The profile that was begun from. */
  readonly from: string;
  /** The new profile. */
  readonly to: string;
}

/**
 * Drawings that a profile names, copied to where the new one looks for them. A file that is there already is never touched. Gives
 * one sentence for each drawing that was copied, or that has to be looked after by hand.
 */
export function copyArtwork(names: readonly string[], { from, to }: CopiedFor): string[] {
  return [...new Set(names)].flatMap((name) => {
    const source = resolve(dirname(from), name);
    const target = resolve(dirname(to), name);
    if (source === target) return [];
    const bytes = readOptionalBytes(source);
    if (bytes === null) return [`${name} is named there and was not found: it is not beside the new file.`];
    const there = readOptionalBytes(target);
    if (there !== null)
      return there.equals(bytes) ? [] : [`${shownPath(target)} is another drawing and was left as it is.`];
    if (!target.startsWith(join(resolve(dirname(to)), '/')))
      return [`${name} lies outside the new file's folder and was not copied.`];
    return [writeCopy(target, bytes)];
  });
}

function writeCopy(target: string, bytes: Uint8Array): string {
  try {
    mkdirSync(dirname(target), { recursive: true });
    writeFileSync(target, bytes, { flag: 'wx' });
  } catch (error) {
    throw new CommandFailure(
      EXIT.cannotWrite,
      `The drawing ${shownPath(target)} cannot be written: ${reasonOf(error)}.`,
    );
  }
  return `${shownPath(target)} is the drawing that it names.`;
}
