import { dirname, join, relative } from 'node:path';
import type { JobSources } from '../app/types.ts';
import { bundledPath, readInput, readOptional, shownPath } from './files.ts';
import type { Words } from './run.ts';

/** The instrument used when none is named. */
export const DEFAULT_PROFILE = 'tarn-parlour.yaml';
/** The shop used when none is named. */
export const DEFAULT_SHOP = 'home-shop.yaml';

/** Is told the path of every file that is read, found or not. */
type OnRead = (path: string) => void;

/** Gives the text of files beside a profile. */
export function besideOf(profile: string, onRead: OnRead = () => undefined): (name: string) => string | null {
  return (name) => readNoted(join(dirname(profile), name), onRead);
}

function readNoted(path: string, onRead: OnRead): string | null {
  onRead(path);
  return readOptional(path);
}

/** Reads the two files a command works on. */
export function readSources(words: Words, onRead: OnRead = () => undefined): JobSources {
  const profile = words.profile ?? bundledPath(DEFAULT_PROFILE);
  const shop = words.shop ?? bundledPath(DEFAULT_SHOP);
  onRead(profile);
  onRead(shop);
  const shown = shownPath(shop);
  return {
    profile: { path: shownPath(profile), text: readInput(profile, 'The instrument file') },
    shop: { path: shown, text: readInput(shop, 'The shop file') },
    readBeside: besideOf(profile, onRead),
    // Included names come as seen from where the shop file is shown to lie; the real folder may be another.
    readInclude: (name) => readNoted(join(dirname(shop), relative(dirname(shown), name)), onRead),
  };
}
