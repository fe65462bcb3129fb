import { parseProgramIntent } from '../intent/schema.ts';
import type { ProgramIntent } from '../intent/types.ts';
import { proveProgram, ranBefore } from '../verify/proveStages.ts';
import type { Ran } from '../verify/removal/clearedBefore.ts';
import type { Proof } from '../verify/removal/proof.ts';
import { sha256 } from './hash.ts';

export type ProvenFile =
  | { readonly ok: true; readonly proof: Proof; readonly program: string; readonly intentSha256: string }
  | { readonly ok: false; readonly problems: readonly string[] };

/** A program that ran earlier, and the text of its intent file. */
export interface EarlierFile {
  readonly bytes: Uint8Array;
  readonly intentText: string;
}

/** Finds an earlier program by its name; null where it is not at hand. */
export type FindEarlier = (program: string) => EarlierFile | null;

/**
 * Proves a program's bytes against an intent file's text; where it goes on from what earlier programs clear, on the stock that
 * those of them leave which are found.
 */
export function proveAgainst(
  program: Uint8Array,
  intentText: string,
  findEarlier: FindEarlier = () => null,
): ProvenFile {
  const parsed = parseProgramIntent(intentText);
  if (!parsed.ok) return { ok: false, problems: parsed.problems };
  const ran = programsBefore(parsed.intent).map((name) => ranOf(name, findEarlier(name)));
  const problems = ran.flatMap((one) => one.problems);
  if (problems.length > 0) return { ok: false, problems };
  const options = { programSha256: sha256(program), ran: ran.flatMap((one) => one.ran) };
  const proof = proveProgram(program, parsed.intent, options);
  return { ok: true, proof, program: parsed.intent.program, intentSha256: sha256(intentText) };
}

/** Names of the other programs whose cleared ground an intent counts with. */
function programsBefore(intent: ProgramIntent): string[] {
  const stages = 'stages' in intent ? intent.stages : [intent];
  const names = stages.flatMap(({ cleared }) => (cleared ?? []).map((ground) => ground.program));
  return [...new Set(names)].filter((name) => name !== intent.program);
}

function ranOf(name: string, earlier: EarlierFile | null): { problems: readonly string[]; ran: Ran[] } {
  if (earlier === null) return { problems: [], ran: [] };
  const parsed = parseProgramIntent(earlier.intentText);
  if (!parsed.ok) return { problems: parsed.problems.map((p) => `intent of ${name}: ${p}`), ran: [] };
  return { problems: [], ran: ranBefore(earlier.bytes, parsed.intent, sha256(earlier.bytes)) };
}
