import type { Finding } from '../report/finding.ts';
import { renderFindings } from '../report/render.ts';

/** Findings go to the error stream, so that a table printed beside them stays clean. */
export function printFindings(findings: readonly Finding[], texts: Readonly<Record<string, string>>): void {
  if (findings.length === 0) return;
  process.stderr.write(`${renderFindings(findings, texts)}\n`);
}
