import type { OutputFile, Role } from './types.ts';

/** A file of text, of no part and no operation. */
export function file(path: string, role: Role, text: string): OutputFile {
  return { path, role, part: null, operation: null, bytes: new TextEncoder().encode(text) };
}
