import { join } from 'node:path';
import { sourceTexts } from '../../app/load.ts';
import { BAD_PAPER, makeTemplates } from '../../app/templates.ts';
import { type Code, CommandFailure, EXIT } from '../exit.ts';
import { pageFonts, shownPath } from '../files.ts';
import { replaceFolder } from '../replaceFolder.ts';
import type { Words } from '../run.ts';
import { printFindings } from '../screen.ts';
import { readSources } from '../sources.ts';

/** `nutline templates`: paper to lay on the wood. */
export async function templates(words: Words): Promise<Code> {
  const sources = readSources(words);
  const result = await makeTemplates(
    sources,
    { paper: words.paper, printedBar: words.printedBar },
    pageFonts(),
  );
  const aboutWords = result.findings.filter((f) => f.code === BAD_PAPER);
  if (aboutWords.length > 0) {
    const lines = aboutWords.map((f) => `${f.text} Allowed: ${f.allowed ?? ''}.`);
    throw new CommandFailure(EXIT.usage, lines.join('\n'));
  }
  printFindings(result.findings, sourceTexts(sources));
  if (!result.ok) return EXIT.badInput;
  const folder = join(words.out ?? 'out', result.value.slug);
  replaceFolder(folder, result.value.files);
  const paths = result.value.files.map((f) => f.path);
  const shown = shownPath(folder);
  process.stdout.write(
    words.json
      ? `${JSON.stringify({ folder: shown, files: paths }, null, 1)}\n`
      : `${paths.filter((p) => p.endsWith('.svg')).length} templates at 1:1 in ${shown}, as PDF on sheets and as SVG; bench-sheets.pdf and order-of-work.pdf to work down.\nPrint without fitting to the page, then measure both bars on every sheet. A printer that is off: --printed-bar.\n`,
  );
  return EXIT.done;
}
