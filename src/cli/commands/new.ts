import { existsSync, writeFileSync } from 'node:fs';
import { dirname, relative } from 'node:path';
import {
  BAD_CHANGE,
  beginProfile,
  type Change,
  questionsFor,
  valueIn,
  wrongAnswer,
} from '../../app/newProfile.ts';
import type { SourceText } from '../../app/types.ts';
import { bundledInstruments } from '../bundled.ts';
import { copyArtwork } from '../copyArtwork.ts';
import { type Code, CommandFailure, EXIT } from '../exit.ts';
import { bundledPath, readInput, reasonOf, shownPath } from '../files.ts';
import type { Words } from '../run.ts';
import { printFindings } from '../screen.ts';
import { DEFAULT_PROFILE } from '../sources.ts';

/** `nutline new`: a commented profile of one's own, begun from another. */
export async function newProfile(words: Words): Promise<Code> {
  const target = words.file ?? '';
  if (existsSync(target)) {
    throw new CommandFailure(EXIT.cannotWrite, `${shownPath(target)} is there already; nothing was changed.`);
  }
  const from = placeOf(words.from ?? (words.set === undefined ? await askBase() : undefined));
  const base: SourceText = { path: shownPath(from), text: readInput(from, 'The instrument to begin from') };
  const changes = words.set === undefined ? await askAll(base) : words.set.map(readChange);
  const begun = beginProfile(base, changes, schemaFrom(target));
  const aboutWords = begun.findings.filter((f) => f.code === BAD_CHANGE);
  if (aboutWords.length > 0) {
    const lines = aboutWords.map((f) => `${f.text} Allowed: ${f.allowed ?? ''}.`);
    throw new CommandFailure(EXIT.usage, lines.join('\n'));
  }
  printFindings(begun.findings, {});
  if (!begun.ok) return EXIT.badInput;
  try {
    writeFileSync(target, begun.value.text, { flag: 'wx' });
  } catch (error) {
    throw new CommandFailure(EXIT.cannotWrite, `${shownPath(target)} cannot be written: ${reasonOf(error)}.`);
  }
  for (const line of copyArtwork(begun.value.artwork, { from, to: target }))
    process.stdout.write(`${line}\n`);
  process.stdout.write(
    `${shownPath(target)} describes ${begun.value.name}. Read it through, measure what is marked MEASURE, then:\n  nutline check ${shownPath(target)} --explain\n`,
  );
  return EXIT.done;
}

/** A bundled instrument is named without its ending; anything else is a path. */
function placeOf(from: string | undefined): string {
  if (from === undefined) return bundledPath(DEFAULT_PROFILE);
  const isName = !/[/\\.]/.test(from);
  const bundled = bundledPath(`${from}.yaml`);
  if (isName && existsSync(bundled)) return bundled;
  if (existsSync(from)) return from;
  const names = bundledInstruments().map(({ id }) => id);
  throw new CommandFailure(
    EXIT.missingInput,
    `There is no instrument ${from} to begin from. Allowed: a file, or one of ${names.join(', ')}.`,
  );
}

function readChange(written: string): Change {
  const at = written.indexOf('=');
  if (at < 1) {
    throw new CommandFailure(
      EXIT.usage,
      `--set "${written}" names no value. Allowed: PATH=VALUE, as scale.length=640.`,
    );
  }
  return { path: written.slice(0, at).trim(), value: written.slice(at + 1).trim() };
}

/** Without a terminal nobody can answer: --set has to say what differs. */
function needTerminal(): void {
  if (process.stdin.isTTY && process.stdout.isTTY) return;
  throw new CommandFailure(
    EXIT.usage,
    'There is no terminal to ask in. Say what differs with --set, as --set name=Fern --set scale.length=640.',
  );
}

/** Which of the bundled instruments is nearest to the one that is meant. */
async function askBase(): Promise<string> {
  needTerminal();
  const { select } = await import('@inquirer/prompts');
  return select({
    message: 'Instrument to begin from',
    default: DEFAULT_PROFILE.replace('.yaml', ''),
    choices: bundledInstruments().map(({ id, about }) => ({ value: id, name: about })),
  });
}

async function askAll(base: SourceText): Promise<Change[]> {
  needTerminal();
  const { input } = await import('@inquirer/prompts');
  process.stdout.write(
    `Enter keeps what ${base.path} has. Lengths may carry a unit: 25 in, 3/16 in, 0.6 mm.\n`,
  );
  const answers: Change[] = [];
  for (const { path, ask, because } of questionsFor(base)) {
    const value = await input({
      message: `${ask} (${because})`,
      default: valueIn(base, path),
      validate: (answer) => wrongAnswer(base, answers, { path, value: answer }) ?? true,
    });
    answers.push({ path, value });
  }
  return answers;
}

/** What an editor's first line names, as seen from the new file. */
function schemaFrom(target: string): string {
  return relative(dirname(target), bundledPath('schema/instrument.schema.json')).split('\\').join('/');
}
