import { dirname, join, relative } from 'node:path';
import type { JobSources } from '../app/types.ts';
import { bundledPath, readInput, readOptional, shownPath } from './files.ts';
import type { Words } from './run.ts';

/** The instrument used when none is named. */
export const DEFAULT_PROFILE = 'tarn-parlour.yaml';
/** The shop used when none is named. */
export const DEFAULT_SHOP = 'home-shop.yaml';

/** Gives the text of files beside a profile. */
export function besideOf(profile: string): (name: string) => string | null {
  return (name) => readOptional(join(dirname(profile), name));
}

/** Reads the two files a command works on. */
export function readSources(words: Words): JobSources {
  const profile = words.profile ?? bundledPath(DEFAULT_PROFILE);
  const shop = words.shop ?? bundledPath(DEFAULT_SHOP);
  const shown = shownPath(shop);
  return {
    profile: { path: shownPath(profile), text: readInput(profile, 'The instrument file') },
    shop: { path: shown, text: readInput(shop, 'The shop file') },
    readBeside: besideOf(profile),
    // Included names come as seen from where the shop file is shown to lie; the real folder may be another.
    readInclude: (name) => readOptional(join(dirname(shop), relative(dirname(shown), name))),
  };
}
