/** Making, joining, counting and sorting findings. */
import type { Finding, Outcome, Severity } from './finding.ts';

/** What a finding carries besides its code, severity and sentence. */
export type FindingDetails = Pick<Finding, 'where' | 'found' | 'allowed' | 'remedy'>;

/** A finding that stops the work. */
export const errorFinding = (code: string, text: string, details: FindingDetails = {}): Finding => ({
  code,
  severity: 'error',
  text,
  ...details,
});

/** A finding that lets the work go on but should be looked at. */
export const warningFinding = (code: string, text: string, details: FindingDetails = {}): Finding => ({
  code,
  severity: 'warning',
  text,
  ...details,
});

/** A finding that only tells something. */
export const noteFinding = (code: string, text: string, details: FindingDetails = {}): Finding => ({
  code,
  severity: 'note',
  text,
  ...details,
});

/** Whether any of them stops the work. */
export const hasErrors = (findings: readonly Finding[]): boolean =>
  findings.some((finding) => finding.severity === 'error');

/** A result with its remarks, or the reasons why there is none. */
export function outcomeOf<T>(value: T, findings: readonly Finding[]): Outcome<T> {
  return hasErrors(findings) ? { ok: false, findings } : { ok: true, value, findings };
}

const RANK: Readonly<Record<Severity, number>> = { error: 0, warning: 1, note: 2 };

/** By file, line and column, then by weight; a finding without a place comes last. Stable. */
export function sortFindings(findings: readonly Finding[]): Finding[] {
  return [...findings].sort(
    (a, b) =>
      compare(a.where?.file ?? '\u{10ffff}', b.where?.file ?? '\u{10ffff}') ||
      compare(a.where?.line ?? Number.MAX_SAFE_INTEGER, b.where?.line ?? Number.MAX_SAFE_INTEGER) ||
      compare(a.where?.column ?? 0, b.where?.column ?? 0) ||
      RANK[a.severity] - RANK[b.severity],
  );
}

/** How many of each, in words. @example '2 errors, 1 warning' */
export function countFindings(findings: readonly Finding[]): string {
  const severities: readonly Severity[] = ['error', 'warning', 'note'];
  const counted = severities.flatMap((severity) => {
    const count = findings.filter((finding) => finding.severity === severity).length;
    return count === 0 ? [] : [`${count} ${severity}${count === 1 ? '' : 's'}`];
  });
  return counted.length === 0 ? 'nothing found' : counted.join(', ');
}

// By code unit, so that no locale has a say in the order.
function compare(a: string | number, b: string | number): number {
  if (a === b) return 0;
  return a < b ? -1 : 1;
}
