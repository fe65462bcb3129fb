import { formatMm } from '../units/format.ts';
import type { Check, Proof } from '../verify/removal/proof.ts';

/** A proof in lines for a person: the verdict, what was refused and where, the worst of each check. */
export function proofText(file: string, proof: Proof): string {
  const verdict = proof.passed ? 'proven' : 'NOT proven: do not run it';
  const edited = proof.edited
    ? '  The text is not the one that was written with its intent: it has been edited.\n'
    : '';
  const refusals = proof.refusals.map(
    (r) => `  line ${r.line}: ${r.rule}: found ${r.found}; allowed ${r.allowed}`,
  );
  const checks = worstOfEach(proof.checks).map(checkLine);
  const figures = `  cut ${formatMm(proof.cutLength, 0)} mm, travel ${formatMm(proof.rapidLength, 0)} mm`;
  return `${[`${file}: ${verdict}`, ...refusals, ...checks, figures].join('\n')}\n${edited}`;
}

/** Of each check, the worst cut: one that failed before one that passed, then the largest share of its limit. */
function worstOfEach(checks: readonly Check[]): Check[] {
  const worst = new Map<string, Check>();
  for (const check of checks) {
    const known = worst.get(check.name);
    if (known === undefined || weight(check) > weight(known)) worst.set(check.name, check);
  }
  return [...worst.values()];
}

function weight(check: Check): number {
  const share = check.limit === 0 ? check.value : check.value / Math.abs(check.limit);
  return (check.passed ? 0 : 1e6) + (Number.isFinite(share) ? share : 1e5);
}

function checkLine(check: Check): string {
  const mark = check.passed ? 'ok    ' : 'FAILED';
  const place =
    check.place === undefined
      ? ''
      : ` at X${check.place
          .map((v) => formatMm(v, 3))
          .join(' Y')
          .replace(/ Y([^Y]*)$/, ' Z$1')}`;
  const line = check.line === undefined || check.line === 0 ? '' : `, line ${check.line}`;
  const cut = check.cut === undefined ? '' : ` (${check.cut})`;
  return `  ${mark} ${check.name}${cut}: ${figure(check.value)}, limit ${figure(check.limit)}${place}${line}`;
}

function figure(value: number): string {
  return Number.isFinite(value) ? formatMm(value, 4) : String(value);
}
