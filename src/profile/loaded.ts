/** A file that has been read, with the way back from every value to its place in the text. */
import type { Finding, Place } from '../report/finding.ts';
import type { FilledDefault } from './resolve/fill.ts';

/** One file whose text went into a result, for hashes and for showing lines. */
export interface SourceFile {
  /** As the loader was told, or as it is included. */
  readonly name: string;
  readonly text: string;
}

/** Where fields stand, and whether they are there at all. */
export interface Places {
  /** Where the field of that path stands; for a value that was filled in, the group it belongs to. */
  readonly place: (path: string) => Place;
  readonly has: (path: string) => boolean;
}

export interface Loaded<T> extends Places {
  readonly value: T;
  readonly file: string;
  /** The file itself first, then those it includes, in the order they were read. */
  readonly sources: readonly SourceFile[];
  /** Everything that was filled in, in the order of the sections. */
  readonly defaults: readonly FilledDefault[];
}

/** The values that the file does not give: path, value and why it is a sensible one. */
export const explainDefaults = <T>(loaded: Loaded<T>): readonly FilledDefault[] => loaded.defaults;

/** Gives findings that know only a field's path the file, line and column of that field. */
export function placeFindings(findings: readonly Finding[], { place, has }: Places): Finding[] {
  return findings.map((finding) => {
    const { where } = finding;
    if (where?.path === undefined || where.line !== undefined) return finding;
    const found = has(where.path) ? {} : { found: 'nothing; the default was taken' };
    return { ...found, ...finding, where: { ...place(where.path), ...where } };
  });
}
