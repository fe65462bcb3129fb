import { join } from 'node:path';
import { sourceTexts } from '../../app/load.ts';
import { type Made, makeJob } from '../../app/make.ts';
import type { Finding } from '../../report/finding.ts';
import { formatMm } from '../../units/format.ts';
import { type Code, EXIT } from '../exit.ts';
import { shownPath } from '../files.ts';
import { startProgress } from '../progress.ts';
import { replaceFolder } from '../replaceFolder.ts';
import type { Words } from '../run.ts';
import { printFindings } from '../screen.ts';
import { readSources } from '../sources.ts';

/** `nutline make`: the whole job, written only when all of it proves. */
export function make(words: Words): Code {
  const sources = readSources(words);
  const progress = startProgress();
  const result = makeJob(sources, progress.step);
  progress.end();
  printFindings(result.findings, sourceTexts(sources));
  if (!result.ok) return codeOf(result.findings);
  const made = result.value;
  const folder = join(words.out ?? 'out', made.slug);
  replaceFolder(folder, made.files);
  process.stdout.write(words.json ? summaryJson(made, folder) : summary(made, folder));
  return EXIT.done;
}

/** Files that say something wrong are bad input; files that are right but cannot be made or proven are a refusal. */
function codeOf(findings: readonly Finding[]): Code {
  const errors = findings.filter((f) => f.severity === 'error');
  return errors.some((f) => f.where?.file !== undefined) ? EXIT.badInput : EXIT.refused;
}

function summary(made: Made, folder: string): string {
  const where = shownPath(folder);
  const width = Math.max(...made.programs.map((p) => p.path.length), 0);
  const programs = made.programs.map(({ path, job, proof, time }) => {
    const over = formatMm(Math.max(proof.maxOvercut, 0), 4);
    const under = formatMm(Math.max(proof.maxUndercut, 0), 4);
    const minutes = `${formatMm(time.minutes, 1)} min`.padStart(9);
    const touchesNothing = job.operations.length === 0;
    const found = touchesNothing ? 'touches nothing' : `at most ${over} mm over, ${under} mm under`;
    return `  ${path.padEnd(width)} ${minutes}  proven: ${found}  (${job.machine.id})`;
  });
  const minutes = made.programs.reduce((sum, p) => sum + p.time.minutes, 0);
  const count = (role: string): number => made.files.filter((f) => f.role === role).length;
  return `${[
    `${made.instrument}: ${made.programs.length} programs and ${count('drawing')} drawings, all proven.`,
    ...programs,
    `  ${'machine time'.padEnd(width)} ${`${formatMm(minutes, 1)} min`.padStart(9)}`,
    ...(made.handSteps.length === 0 ? [] : [`By hand: ${made.handSteps.join(', ')}.`]),
    `${made.files.length} files in ${where}`,
    `Start with ${join(where, 'START-HERE.md')}; look at ${join(where, 'preview.html')} before you cut.`,
  ].join('\n')}\n`;
}

function summaryJson(made: Made, folder: string): string {
  const programs = made.programs.map(({ path, proof, time }) => ({
    path,
    passed: proof.passed,
    maxOvercut: proof.maxOvercut,
    maxUndercut: proof.maxUndercut,
    minutes: time.minutes,
  }));
  const files = made.files.map((f) => f.path);
  return `${JSON.stringify({ folder: shownPath(folder), manifest: 'manifest.json', programs, files }, null, 1)}\n`;
}
