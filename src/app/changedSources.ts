import { sha256 } from './hash.ts';

/** A profile as it is now, and the drawings beside it. */
export interface SourcesNow {
  readonly profile: string;
  /** Text of a file as seen from the profile's folder; null when it cannot be read. */
  readonly readBeside: (name: string) => string | null;
}

interface Hashed {
  readonly path: string;
  readonly sha256: string;
}

/**
 * What of a job's profile and drawings is not what the manifest has hashes of, a sentence each; null where the manifest, as read from
 * its JSON, has no such hashes.
 */
export function changedSources(manifest: unknown, now: SourcesNow): string[] | null {
  const profile = fieldOf(manifest, 'profile');
  const drawings = fieldOf(profile, 'drawings');
  if (!isHashed(profile) || !Array.isArray(drawings) || !drawings.every(isHashed)) return null;
  const own =
    sha256(now.profile) === profile.sha256 ? [] : [`${profile.path}, the profile, is not what it was.`];
  return [...own, ...drawings.flatMap((drawing) => changeOf(drawing, now))];
}

function changeOf({ path, sha256: was }: Hashed, { readBeside }: SourcesNow): string[] {
  const text = readBeside(path);
  if (text === null) return [`${path}, a drawing, is not there any more.`];
  return sha256(text) === was ? [] : [`${path}, a drawing, is not what it was.`];
}

function isHashed(value: unknown): value is Hashed {
  return typeof fieldOf(value, 'path') === 'string' && typeof fieldOf(value, 'sha256') === 'string';
}

function fieldOf(value: unknown, name: string): unknown {
  return typeof value === 'object' && value !== null ? Reflect.get(value, name) : undefined;
}
