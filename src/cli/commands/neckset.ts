import { BAD_MEASURE, makeNeckSet } from '../../app/neckSet.ts';
import { type Code, CommandFailure, EXIT } from '../exit.ts';
import { bundledPath, readInput, shownPath } from '../files.ts';
import type { Words } from '../run.ts';
import { printFindings } from '../screen.ts';
import { DEFAULT_PROFILE } from '../sources.ts';

/** `nutline neckset`: the neck's angle, and what to take off the heel. */
export function neckset(words: Words): Code {
  const path = words.profile ?? bundledPath(DEFAULT_PROFILE);
  const profile = { path: shownPath(path), text: readInput(path, 'The instrument file') };
  const result = makeNeckSet(profile, { straightedge: words.straightedge, aim: words.aim });
  const aboutWords = result.findings.filter((f) => f.code === BAD_MEASURE);
  if (aboutWords.length > 0) {
    const lines = aboutWords.map((f) => `${f.text} Allowed: ${f.allowed ?? ''}.`);
    throw new CommandFailure(EXIT.usage, lines.join('\n'));
  }
  printFindings(result.findings, { [profile.path]: profile.text });
  if (!result.ok) return EXIT.badInput;
  process.stdout.write(words.json ? result.value.json : result.value.text);
  return EXIT.done;
}
