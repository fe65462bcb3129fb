import type { Finding } from '../report/finding.ts';
import type { Check } from '../verify/removal/proof.ts';
import { checkWords } from './checkWords.ts';
import type { ProvenProgram } from './types.ts';

/** A check that fails for what the shop file says, and what can be done about it. */
interface Cause {
  readonly check: string;
  readonly code: string;
  readonly path: string;
  readonly remedy: string;
}

const CAUSES: readonly Cause[] = [
  {
    check: 'keep-outs',
    code: 'tool-meets-keep-out',
    path: 'keepOuts',
    remedy:
      'move the clamp and write its new place, clamp lower, or let the tool reach further out of its collet (stickOut)',
  },
  {
    check: 'shank and holder clear',
    code: 'holder-meets-wood',
    path: 'tools',
    remedy: 'let the tool reach further out of its collet (stickOut), or take one with longer cutting edges',
  },
  {
    check: 'envelope',
    code: 'beyond-travel',
    path: 'machines',
    remedy:
      'correct the machine’s travel, or let another machine or the hand do this work (work: in the shop file)',
  },
];

/** No more than this many things are said of one program. */
const SAID = 5;

/** What to say of a program that did not prove: nothing is written. */
export function unproven({ proof, path }: ProvenProgram): Finding[] {
  if (proof.passed) return [];
  const failed = proof.checks.filter((c) => !c.passed);
  const refusals = proof.refusals.map(
    (r) => `line ${r.line}: ${r.rule}, found ${r.found}, allowed ${r.allowed}`,
  );
  const said = [...refusals, ...failed.filter((c) => !isRefused(c, proof.refusals)).map(sentenceOf)];
  const cause = CAUSES.find((c) => failed.some((check) => check.name === c.check));
  return [
    {
      code: cause?.code ?? 'program-not-proven',
      severity: 'error',
      ...(cause === undefined ? {} : { where: { source: 'shop', path: cause.path } }),
      text: `${path} did not prove, so nothing is written: ${said.slice(0, SAID).join('; ')}.`,
      remedy:
        cause?.remedy ??
        'this is a fault of the tool or a shop file it cannot serve; the lines above say where',
    },
  ];
}

/** A check of a rule whose breaches are listed by line already. */
function isRefused(check: Check, refusals: ProvenProgram['proof']['refusals']): boolean {
  return refusals.some((r) => r.rule === check.name.replaceAll(' ', '-'));
}

function sentenceOf(check: Check): string {
  return `${check.name}: ${checkWords(check)}${check.cut === undefined ? '' : ` at ${check.cut}`}`;
}
