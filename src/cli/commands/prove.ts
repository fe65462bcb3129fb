import { existsSync } from 'node:fs';
import { dirname, join, relative, resolve, sep } from 'node:path';
import { proofText } from '../../app/proofText.ts';
import { proveAgainst } from '../../app/proveFile.ts';
import { type Code, CommandFailure, EXIT } from '../exit.ts';
import { readBytes, readInput, shownPath } from '../files.ts';
import type { Words } from '../run.ts';

/** `nutline prove`: reads a program back and holds it against its intent. */
export function proveFile(words: Words): Code {
  const file = words.file ?? '';
  const bytes = readBytes(file, 'The program');
  const found = words.intent === undefined ? findIntent(file) : null;
  const intentPath = found?.path ?? words.intent ?? '';
  const result = proveAgainst(bytes, readInput(intentPath, 'The intent file'));
  if (!result.ok) {
    throw new CommandFailure(
      EXIT.badInput,
      `${shownPath(intentPath)} is not an intent file:\n${result.problems.map((p) => `  ${p}`).join('\n')}`,
    );
  }
  const { proof, program, intentSha256 } = result;
  if (found !== null && found.sha256 !== intentSha256) {
    throw new CommandFailure(
      EXIT.refused,
      `${shownPath(intentPath)} is not the intent that manifest.json names: it has been changed since the job was made, so it says nothing about what was meant. Make the job anew.`,
    );
  }
  if (words.json) {
    const { passed, onlyAfter = [], checks, refusals } = proof;
    const said = { passed, program, intentSha256, onlyAfter, checks, refusals };
    process.stdout.write(`${JSON.stringify(said, null, 1)}\n`);
  } else {
    process.stdout.write(proofText(shownPath(file), proof));
  }
  return proof.passed ? EXIT.done : EXIT.refused;
}

interface NamedIntent {
  readonly path: string;
  readonly sha256: unknown;
}

/** The intent named for this program in the manifest of a folder above it. */
function findIntent(file: string): NamedIntent {
  let folder = dirname(resolve(file));
  for (;;) {
    const manifest = join(folder, 'manifest.json');
    if (existsSync(manifest)) return intentIn(manifest, relative(folder, resolve(file)));
    const above = dirname(folder);
    if (above === folder) break;
    folder = above;
  }
  throw new CommandFailure(
    EXIT.missingInput,
    `No manifest.json lies in a folder above ${shownPath(file)}; name the program's intent file with --intent.`,
  );
}

interface ManifestPrograms {
  readonly programs?: readonly {
    readonly path?: unknown;
    readonly intent?: { readonly path?: unknown; readonly sha256?: unknown };
  }[];
}

function intentIn(manifest: string, below: string): NamedIntent {
  const wanted = below.split(sep).join('/');
  const entry = readManifest(manifest).programs?.find((p) => p.path === wanted);
  const path = entry?.intent?.path;
  if (typeof path === 'string') return { path: join(dirname(manifest), path), sha256: entry?.intent?.sha256 };
  throw new CommandFailure(
    EXIT.missingInput,
    `${shownPath(manifest)} names no program ${wanted}; name its intent file with --intent.`,
  );
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
