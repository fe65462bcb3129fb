import { formatMm } from '../units/format.ts';
import type { Check, Condition, Proof } from '../verify/removal/proof.ts';
import { checkWords } from './checkWords.ts';

/** A proof in lines for a person: the verdict, what was refused and where, what failed, and the worst figures. */
export function proofText(file: string, proof: Proof): string {
  const worst = worstOfEach(proof.checks);
  const measured = worst.filter((c) => !c.passed || c.limit > 0);
  const counted = worst.filter((c) => c.passed && !(c.limit > 0));
  const lines = [
    `${file}: ${proof.passed ? 'proven' : 'NOT proven: do not run it'}`,
    ...(proof.edited
      ? ['  The text is not the one that was written with its intent: it has been edited.']
      : []),
    ...(proof.onlyAfter ?? []).map(conditionLine),
    ...proof.refusals.map((r) => `  line ${r.line}: ${r.rule}: found ${r.found}; allowed ${r.allowed}`),
    ...measured.map(checkLine),
    ...(counted.length === 0 ? [] : [`  ok     nothing against: ${counted.map((c) => c.name).join(', ')}`]),
    `  cut ${formatMm(proof.cutLength, 0)} mm, travel ${formatMm(proof.rapidLength, 0)} mm`,
  ];
  return `${lines.join('\n')}\n`;
}

/** Under what condition the verdict holds. */
function conditionLine({ program, programSha256, checked }: Condition): string {
  const known = checked
    ? 'which was read too and clears what is counted with'
    : 'which was not at hand: prove it by itself, and compare its hash';
  return `  Only on the stock that ${program} leaves, ${known} (SHA-256 ${programSha256}). Do not run it before.`;
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
  const [x, y, z] = check.place ?? [];
  const place =
    x === undefined || y === undefined || z === undefined
      ? ''
      : ` at X${formatMm(x, 3)} Y${formatMm(y, 3)} Z${formatMm(z, 3)}`;
  const line = check.line === undefined || check.line === 0 ? '' : `, line ${check.line}`;
  const names = [check.cut, check.stage === undefined ? undefined : `tool ${check.stage} of the program`];
  const said = names.filter((name) => name !== undefined).join(', ');
  const cut = said === '' ? '' : ` (${said})`;
  return `  ${mark} ${check.name}${cut}: ${checkWords(check)}${place}${line}`;
}
