import { existsSync } from 'node:fs';
import { dirname, join, posix, relative, resolve, sep } from 'node:path';
import { changedSources } from '../../app/changedSources.ts';
import { sha256 } from '../../app/hash.ts';
import { proofText } from '../../app/proofText.ts';
import { type EarlierFile, proveAgainst } from '../../app/proveFile.ts';
import { type Code, CommandFailure, EXIT } from '../exit.ts';
import { readBytes, readInput, shownPath } from '../files.ts';
import type { Words } from '../run.ts';
import { besideOf } from '../sources.ts';

/**
 * `nutline prove`: reads a program back and holds it against its intent. What it goes on from is looked up in the same job.
 */
export function proveFile(words: Words): Code {
  const file = words.file ?? '';
  const bytes = readBytes(file, 'The program');
  const made = words.intent === undefined ? findMade(file) : null;
  const intentPath = made?.intent.path ?? words.intent ?? '';
  const intentText = readInput(intentPath, 'The intent file');
  const result = proveAgainst(bytes, intentText, (name) => (made === null ? null : earlierIn(made, name)));
  if (!result.ok) {
    throw new CommandFailure(
      EXIT.badInput,
      `${shownPath(intentPath)} is not an intent file:\n${result.problems.map((p) => `  ${p}`).join('\n')}`,
    );
  }
  const { proof, program, intentSha256 } = result;
  if (words.profile !== undefined) refuseChanged(words.profile, file);
  if (made !== null) checkUnchanged(made.intent, intentSha256);
  if (words.json) {
    const { passed, onlyAfter, checks, refusals } = proof;
    // Only a program that goes on from what others clear has conditions.
    const conditions = onlyAfter === undefined ? {} : { onlyAfter };
    const said = { passed, program, intentSha256, ...conditions, checks, refusals };
    process.stdout.write(`${JSON.stringify(said, null, 1)}\n`);
  } else {
    process.stdout.write(proofText(shownPath(file), proof));
  }
  return proof.passed ? EXIT.done : EXIT.refused;
}

function checkUnchanged({ path, sha256 }: NamedIntent, found: string): void {
  if (sha256 === found) return;
  throw new CommandFailure(
    EXIT.refused,
    `${shownPath(path)} is not the intent that manifest.json names: it has been changed since the job was made, so it says nothing about what was meant. Make the job anew.`,
  );
}

interface NamedIntent {
  readonly path: string;
  readonly sha256: unknown;
}

/** A program of a made job: its manifest, its path as named there, and its intent. */
interface MadeProgram {
  readonly manifest: string;
  readonly path: string;
  readonly intent: NamedIntent;
}

/** The intent named for this program in the manifest of a folder above it. */
function findMade(file: string): MadeProgram {
  const manifest = manifestAbove(file);
  if (manifest !== null) return madeIn(manifest, relative(dirname(manifest), resolve(file)));
  throw new CommandFailure(
    EXIT.missingInput,
    `No manifest.json lies in a folder above ${shownPath(file)}; name the program's intent file with --intent.`,
  );
}

/** The nearest manifest in a folder above a file. */
function manifestAbove(file: string): string | null {
  let folder = dirname(resolve(file));
  for (;;) {
    const manifest = join(folder, 'manifest.json');
    if (existsSync(manifest)) return manifest;
    const above = dirname(folder);
    if (above === folder) return null;
    folder = above;
  }
}

/** A program proves only what its intent says; whether that still is what the profile wants, the hashes of the job tell. */
function refuseChanged(profile: string, file: string): void {
  const text = readInput(profile, 'The instrument file');
  const manifest = manifestAbove(file);
  const changed =
    manifest === null
      ? null
      : changedSources(readManifest(manifest), { profile: text, readBeside: besideOf(profile) });
  if (changed === null)
    throw new CommandFailure(
      EXIT.missingInput,
      `No manifest.json with hashes of a profile and its drawings lies in a folder above ${shownPath(file)}; leave --profile out.`,
    );
  if (changed.length > 0)
    throw new CommandFailure(
      EXIT.refused,
      `${shownPath(file)} was made from something else:\n${changed.map((line) => `  ${line}`).join('\n')}\nMake the job anew.`,
    );
}

interface ManifestPrograms {
  readonly programs?: readonly {
    readonly path?: unknown;
    readonly intent?: { readonly path?: unknown; readonly sha256?: unknown };
  }[];
}

function madeIn(manifest: string, below: string): MadeProgram {
  const path = below.split(sep).join('/');
  const intent = intentIn(manifest, path);
  if (intent !== null) return { manifest, path, intent };
  throw new CommandFailure(
    EXIT.missingInput,
    `${shownPath(manifest)} names no program ${path}; name its intent file with --intent.`,
  );
}

function intentIn(manifest: string, program: string): NamedIntent | null {
  const entry = readManifest(manifest).programs?.find((p) => p.path === program);
  const path = entry?.intent?.path;
  if (typeof path !== 'string') return null;
  return { path: join(dirname(manifest), path), sha256: entry?.intent?.sha256 };
}

/** Another program of the same job, in the same folder; null where it is not there. */
function earlierIn({ manifest, path }: MadeProgram, name: string): EarlierFile | null {
  const program = posix.join(posix.dirname(path), name);
  const intent = intentIn(manifest, program);
  const file = join(dirname(manifest), program);
  if (intent === null || !existsSync(file)) return null;
  const intentText = readInput(intent.path, `The intent file of ${name}`);
  checkUnchanged(intent, sha256(intentText));
  return { bytes: readBytes(file, 'The earlier program'), intentText };
}

function readManifest(path: string): ManifestPrograms {
  try {
    return JSON.parse(readInput(path, 'The manifest')) as ManifestPrograms;
  } catch (error) {
    if (error instanceof CommandFailure) throw error;
    throw new CommandFailure(
      EXIT.badInput,
      `${shownPath(path)} is not JSON; name the intent file with --intent.`,
    );
  }
}
