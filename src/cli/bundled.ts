import { readdirSync, readFileSync } from 'node:fs';
import { basename } from 'node:path';
import { bundledPath } from './files.ts';

/** An instrument that the tool brings along. */
export interface BundledInstrument {
  /** Its file's name without the ending: what `--from` takes. */
  readonly id: string;
  /** What its file says of it first: name and kind. */
  readonly about: string;
}

/** Every bundled instrument, by file name; told from shops by the schema that the first line names. */
export function bundledInstruments(): BundledInstrument[] {
  return readdirSync(bundledPath(''))
    .filter((file) => file.endsWith('.yaml'))
    .sort()
    .flatMap((file) => {
      const text = readFileSync(bundledPath(file), 'utf8');
      if (!text.startsWith('# yaml-language-server: $schema=schema/instrument.schema.json')) return [];
      return [{ id: basename(file, '.yaml'), about: firstSentence(text) }];
    });
}

/** Of the first paragraph of the comment at the top. */
function firstSentence(text: string): string {
  const lines = text.split('\n').slice(1);
  const from = lines.findIndex((line) => /^# \S/.test(line));
  const length = lines.slice(from).findIndex((line) => !/^# \S/.test(line));
  const paragraph = lines
    .slice(from, from + length)
    .map((line) => line.slice(2))
    .join(' ');
  return /^.*?\.(?= |$)/.exec(paragraph)?.[0] ?? paragraph;
}
