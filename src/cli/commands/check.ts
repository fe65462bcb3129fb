import { checkJob } from '../../app/check.ts';
import { countFindings } from '../../report/collect.ts';
import { type Code, EXIT } from '../exit.ts';
import type { Words } from '../run.ts';
import { printFindings } from '../screen.ts';
import { readSources } from '../sources.ts';

/** `nutline check`: everything wrong with both files, and with what they ask of each other. */
export function check(words: Words): Code {
  const sources = readSources(words);
  const result = checkJob(sources);
  if (words.json) {
    process.stdout.write(
      `${JSON.stringify({ passed: result.passed, findings: result.findings, defaults: words.explain ? result.defaults : undefined }, null, 1)}\n`,
    );
    return result.passed ? EXIT.done : EXIT.badInput;
  }
  printFindings(result.findings, result.texts);
  if (words.explain) {
    for (const d of result.defaults) process.stdout.write(`${d.file}  ${d.path} = ${d.value}  (${d.why})\n`);
  }
  const what = `${sources.profile.path} with ${sources.shop.path}`;
  process.stdout.write(
    `${what}: ${result.passed ? 'good to make' : 'not yet'}; ${countFindings(result.findings)}.\n`,
  );
  return result.passed ? EXIT.done : EXIT.badInput;
}
