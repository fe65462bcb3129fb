import { makeSheet } from '../../app/sheet.ts';
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
  process.stdout.write(words.json ? result.value.json : result.value.text);
  return EXIT.done;
}
