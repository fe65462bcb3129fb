import { parseProgramIntent } from '../intent/schema.ts';
import { proveProgram } from '../verify/proveStages.ts';
import type { Proof } from '../verify/removal/proof.ts';
import { sha256 } from './hash.ts';

export type ProvenFile =
  | { readonly ok: true; readonly proof: Proof; readonly program: string; readonly intentSha256: string }
  | { readonly ok: false; readonly problems: readonly string[] };

/** Proves a program's bytes against an intent file's text. */
export function proveAgainst(program: Uint8Array, intentText: string): ProvenFile {
  const parsed = parseProgramIntent(intentText);
  if (!parsed.ok) return { ok: false, problems: parsed.problems };
  const proof = proveProgram(program, parsed.intent, { programSha256: sha256(program) });
  return { ok: true, proof, program: parsed.intent.program, intentSha256: sha256(intentText) };
}
