import { makeCutList } from '../../app/cutlist.ts';
import { sourceTexts } from '../../app/load.ts';
import { type Code, EXIT } from '../exit.ts';
import type { Words } from '../run.ts';
import { printFindings } from '../screen.ts';
import { readSources } from '../sources.ts';

/** `nutline cutlist`: what to saw from which stock. */
export function cutlist(words: Words): Code {
  const sources = readSources(words);
  const result = makeCutList(sources);
  printFindings(result.findings, sourceTexts(sources));
  if (!result.ok) return EXIT.badInput;
  const { plan, checks, markdown } = result.value;
  process.stdout.write(words.json ? `${JSON.stringify({ ...plan, checks }, null, 1)}\n` : markdown);
  return EXIT.done;
}
