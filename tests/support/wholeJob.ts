/** Whole jobs of bundled files, with some of their text changed, in memory. */
import { dirname, join } from 'node:path';
import { type Made, makeJob } from '../../src/app/make.ts';
import type { Finding } from '../../src/report/finding.ts';
import { profileNames, readProject, textOf } from '../30-profile/bundled.ts';

/** A text to be found in a file, and what takes its place. */
export type TextChange = readonly [from: string, to: string];

/** The bundled instruments, by file. */
export const instrumentFiles = (): string[] =>
  profileNames().filter((name) =>
    textOf(`profiles/${name}`).startsWith('# yaml-language-server: $schema=schema/instrument.schema.json'),
  );

/** A bundled file with changes; a text that is not there is a mistake of the test. */
export function changed(name: string, ...changes: readonly TextChange[]): string {
  return changes.reduce(
    (text, [from, to]) => {
      if (!text.includes(from)) throw new Error(`${name} does not say: ${from}`);
      return text.replaceAll(from, to);
    },
    textOf(`profiles/${name}`),
  );
}

export interface WholeJob {
  readonly made: Made;
  readonly findings: readonly Finding[];
  readonly manifest: Manifest;
  readonly text: (path: string) => string;
}

export interface Manifest {
  readonly programs: readonly {
    readonly path: string;
    readonly machine: string;
    readonly operation: string;
    readonly proof: { readonly passed: boolean };
  }[];
  readonly features: readonly {
    readonly id: string;
    readonly kind: string;
    readonly madeBy: readonly string[];
  }[];
  readonly profile: { readonly path: string; readonly sha256: string };
  readonly artwork?: readonly { readonly path: string; readonly sha256: string }[];
}

/** Makes an instrument in a shop, both given as texts; fails the test when that cannot be. */
export function wholeJob(profile: string, shop: string): WholeJob {
  const result = makeJob({
    profile: { path: 'instrument.yaml', text: profile },
    shop: { path: 'profiles/shop.yaml', text: shop },
    readInclude: readProject,
    readBeside: (name) => readProject(join(dirname('profiles/instrument.yaml'), name)),
  });
  if (!result.ok) throw new Error(result.findings.map((f) => f.text).join('\n'));
  const text = (path: string): string => {
    const file = result.value.files.find((f) => f.path === path);
    if (file === undefined) throw new Error(`no file ${path}`);
    return new TextDecoder().decode(file.bytes);
  };
  const manifest = JSON.parse(text('manifest.json')) as Manifest;
  return { made: result.value, findings: result.findings, manifest, text };
}
