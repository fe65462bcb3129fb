import type { Stringing } from '../stringing/types.ts';

/** Everything worked out about the strings, unrounded, for a script. */
export const stringsJson = (stringing: Stringing): string => `${JSON.stringify(stringing, null, 1)}\n`;
