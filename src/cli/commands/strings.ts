import { BAD_TUNING, makeStrings } from '../../app/strings.ts';
import { type Code, CommandFailure, EXIT } from '../exit.ts';
import { bundledPath, readInput, shownPath } from '../files.ts';
import type { Words } from '../run.ts';
import { printFindings } from '../screen.ts';
import { DEFAULT_PROFILE } from '../sources.ts';

/** `nutline strings`: tensions, tuning by fret, and where a saddle would go. */
export function strings(words: Words): Code {
  const path = words.profile ?? bundledPath(DEFAULT_PROFILE);
  const profile = { path: shownPath(path), text: readInput(path, 'The instrument file') };
  const result = makeStrings(profile, { notes: words.tuning, concertPitch: words.concertPitch });
  const aboutWords = result.findings.filter((f) => f.code === BAD_TUNING);
  if (aboutWords.length > 0) {
    const lines = aboutWords.map((f) => `${f.text} Allowed: ${f.allowed ?? ''}.`);
    throw new CommandFailure(EXIT.usage, lines.join('\n'));
  }
  printFindings(result.findings, { [profile.path]: profile.text });
  if (!result.ok) return EXIT.badInput;
  process.stdout.write(words.json ? result.value.json : result.value.text);
  return EXIT.done;
}
