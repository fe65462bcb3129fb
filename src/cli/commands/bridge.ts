import { makeBridge } from '../../app/bridge.ts';
import { type Code, EXIT } from '../exit.ts';
import { bundledPath, readInput, shownPath } from '../files.ts';
import type { Words } from '../run.ts';
import { printFindings } from '../screen.ts';
import { DEFAULT_PROFILE } from '../sources.ts';

/** `nutline bridge`: where the bridge goes, and the numbers of saddle, nut and pins. */
export function bridge(words: Words): Code {
  const path = words.profile ?? bundledPath(DEFAULT_PROFILE);
  const profile = { path: shownPath(path), text: readInput(path, 'The instrument file') };
  const result = makeBridge(profile);
  printFindings(result.findings, { [profile.path]: profile.text });
  if (!result.ok) return EXIT.badInput;
  process.stdout.write(words.json ? result.value.json : result.value.text);
  return EXIT.done;
}
