import { makeSheet, type PrintedSheet } from '../../app/sheet.ts';
import { type Code, EXIT } from '../exit.ts';
import { bundledPath, readInput, shownPath } from '../files.ts';
import type { Words } from '../run.ts';
import { printFindings } from '../screen.ts';
import { besideOf, DEFAULT_PROFILE } from '../sources.ts';

/** `nutline sheet`: the numbers to mark and measure by. */
export function sheet(words: Words): Code {
  const path = words.profile ?? bundledPath(DEFAULT_PROFILE);
  const profile = { path: shownPath(path), text: readInput(path, 'The instrument file') };
  const result = makeSheet(profile, besideOf(path));
  printFindings(result.findings, { [profile.path]: profile.text });
  if (!result.ok) return EXIT.badInput;
  process.stdout.write(printed(result.value, words));
  return EXIT.done;
}

function printed(sheet: PrintedSheet, { json, as }: Words): string {
  if (json) return sheet.json;
  switch (as) {
    case 'markdown':
      return sheet.pages.markdown();
    case 'html':
      return sheet.pages.html();
    case 'csv':
      return sheet.pages.csv();
    default:
      return sheet.text;
  }
}
