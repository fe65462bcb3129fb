import { existsSync, writeFileSync } from 'node:fs';
import { dirname, join, resolve } from 'node:path';
import { sourceTexts } from '../../app/load.ts';
import {
  BAD_CHOICE,
  type LookedAt,
  makePage,
  makePictures,
  type Picture,
  pictureFiles,
} from '../../app/pictures.ts';
import type { Outcome } from '../../report/finding.ts';
import { type Code, CommandFailure, EXIT } from '../exit.ts';
import { picturePainter, reasonOf, shownPath } from '../files.ts';
import { replaceFolder } from '../replaceFolder.ts';
import type { Words } from '../run.ts';
import { printFindings } from '../screen.ts';
import { readSources } from '../sources.ts';

const FORMATS = ['svg', 'png'] as const;
type Format = (typeof FORMATS)[number];

/** `nutline preview`: the programs to look at, as a page, as pictures, or as a page that follows the files. */
export async function preview(words: Words): Promise<Code> {
  const formats = FORMATS.filter((format) => words[format] !== undefined);
  for (const format of formats) checkEnding(format, words[format] ?? '');
  if (words.live === true) {
    refuseChoices(words, formats);
    // Loaded only here: nothing else serves anything.
    const { live } = await import('./live.ts');
    return live(words);
  }
  if (words.port !== undefined) throw new CommandFailure(EXIT.usage, '--port says where --live serves.');
  if (formats.length === 0) return writePage(words);
  const read = new Set<string>();
  const sources = readSources(words, (path) => read.add(resolve(path)));
  const { program, part } = words;
  const into = formats.map((format) => words[format]).find((name) => name !== '');
  const asked = { program, part, inches: words.inches ?? false, formats, into };
  const result = await makePictures(sources, asked, picturePainter);
  const aboutWords = result.findings.filter((f) => f.code === BAD_CHOICE);
  if (aboutWords.length > 0) {
    throw new CommandFailure(
      EXIT.usage,
      aboutWords.map((f) => `${f.text} Allowed: ${f.allowed ?? ''}`).join('\n'),
    );
  }
  printFindings(result.findings, sourceTexts(sources));
  if (!result.ok) return EXIT.badInput;
  for (const format of formats) {
    if (!read.has(resolve(words[format] ?? ''))) continue;
    throw new CommandFailure(
      EXIT.cannotWrite,
      `${shownPath(words[format] ?? '')} is one of the files that the drawing is made from; nothing was written.`,
    );
  }
  return writePictures(result.value, formats, words);
}

/** The picture's file may be left out; a profile that was taken for it is not. */
function checkEnding(format: Format, name: string): void {
  if (name === '' || name.toLowerCase().endsWith(`.${format}`)) return;
  throw new CommandFailure(
    EXIT.usage,
    `--${format} ${name} names no file that ends in .${format}. Name the instrument before it, or write --${format}=FILE; left out, each sheet gets a file of its own.`,
  );
}

function refuseChoices(words: Words, formats: readonly Format[]): void {
  if (formats.length > 0)
    throw new CommandFailure(EXIT.usage, '--live serves a page; it writes no pictures.');
  if (words.program === undefined && words.part === undefined && words.inches !== true) return;
  throw new CommandFailure(
    EXIT.usage,
    'The page holds every program and both units; --program, --part and --inches choose for --svg and --png.',
  );
}

function writePage(words: Words): Code {
  refuseChoices(words, []);
  const sources = readSources(words);
  const result: Outcome<LookedAt & { readonly files: Parameters<typeof replaceFolder>[1] }> =
    makePage(sources);
  printFindings(result.findings, sourceTexts(sources));
  if (!result.ok) return EXIT.badInput;
  const folder = join(words.out ?? 'out', result.value.slug);
  replaceFolder(folder, result.value.files);
  return told(result.value, [join(shownPath(folder), 'preview.html')], words);
}

function writePictures(
  made: LookedAt & { readonly pictures: readonly Picture[] },
  formats: readonly Format[],
  words: Words,
): Code {
  const named = formats.filter((format) => words[format] !== '');
  const written = named.map((format) => writeOne(made.pictures, format, words[format] ?? ''));
  const rest = formats.filter((format) => words[format] === '');
  if (rest.length > 0) {
    const folder = join(words.out ?? 'out', made.slug);
    const pictures = made.pictures.map((p) => ({
      ...p,
      svg: rest.includes('svg') ? p.svg : null,
      png: rest.includes('png') ? p.png : null,
    }));
    const files = pictureFiles(pictures, made.instrument);
    replaceFolder(folder, files);
    const paths = files.map((f) => f.path).filter((path) => path !== 'manifest.json');
    written.push(...paths.map((path) => join(shownPath(folder), path)));
  }
  return told(made, written, words);
}

function writeOne([picture]: readonly Picture[], format: Format, path: string): string {
  try {
    writeFileSync(path, picture?.[format] ?? '');
  } catch (error) {
    const isLost = !existsSync(dirname(path));
    throw new CommandFailure(
      EXIT.cannotWrite,
      `The picture ${shownPath(path)} cannot be written: ${isLost ? 'there is no such folder' : reasonOf(error)}.`,
    );
  }
  return shownPath(path);
}

/** Programs that do not prove are drawn all the same, but the answer is not a good one. */
function told({ instrument, programs, unproven }: LookedAt, files: readonly string[], words: Words): Code {
  if (words.json) {
    process.stdout.write(`${JSON.stringify({ instrument, programs, unproven, files }, null, 1)}\n`);
  } else {
    process.stdout.write(`${files.join('\n')}\n`);
    if (unproven.length > 0) process.stderr.write(`Not proven, so not to be cut: ${unproven.join(', ')}.\n`);
  }
  return unproven.length > 0 ? EXIT.refused : EXIT.done;
}
