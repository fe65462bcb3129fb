import * as z from 'zod';
import { sha256 } from './hash.ts';

const hashed = z.object({ path: z.string(), sha256: z.string() });
const listed = z.object({ profile: hashed.extend({ drawings: z.array(hashed) }) });

/** A profile as it is now, and the drawings beside it. */
export interface SourcesNow {
  readonly profile: string;
  /** Text of a file as seen from the profile's folder; null when it cannot be read. */
  readonly readBeside: (name: string) => string | null;
}

/**
 * What of a job's profile and drawings is not what the manifest has hashes of, a sentence each; null where the manifest, as read from
 * its JSON, has no such hashes.
 */
export function changedSources(manifest: unknown, now: SourcesNow): string[] | null {
  const read = listed.safeParse(manifest);
  if (!read.success) return null;
  const { profile } = read.data;
  const own =
    sha256(now.profile) === profile.sha256 ? [] : [`${profile.path}, the profile, is not what it was.`];
  const drawings = profile.drawings.flatMap(({ path, sha256: was }) => {
    const text = now.readBeside(path);
    if (text === null) return [`${path}, a drawing, is not there any more.`];
    return sha256(text) === was ? [] : [`${path}, a drawing, is not what it was.`];
  });
  return [...own, ...drawings];
}
