import { buildProgramIntent } from '../intent/buildProgram.ts';
import type { Finding } from '../report/finding.ts';
import { proveFrames } from '../verify/frames/proveFrames.ts';
import type { Check } from '../verify/removal/proof.ts';
import { file } from './file.ts';
import { sha256 } from './hash.ts';
import type { OutputFile, ProvenProgram } from './types.ts';

/** How parts that do not lie on their underside lie together. Null where every part does in every program. */
export function proveLies(programs: readonly ProvenProgram[]): readonly Check[] | null {
  const parts = new Set(
    programs.flatMap(({ jobs }) => jobs.flatMap((job) => (job.setup.lie === undefined ? [] : [job.part.id]))),
  );
  const concerned = programs.filter(
    ({ job }) => parts.has(job.part.id) && job.kind === 'router' && job.operations.length > 0,
  );
  if (concerned.length === 0) return null;
  return proveFrames(
    concerned.map(({ text, jobs }) => ({
      bytes: new TextEncoder().encode(text),
      intent: buildProgramIntent(jobs, sha256(text)),
    })),
  );
}

/** What to say of parts that would not lie as meant: nothing is written, and the fault is ours. */
export function unprovenLies(checks: readonly Check[] | null): Finding[] {
  const failed = checks?.filter((check) => !check.passed) ?? [];
  return failed.map((check) => ({
    code: 'set-up-not-proven',
    severity: 'error',
    text: `The set-up of ${check.cut} did not prove (${check.name}: ${check.value.toFixed(4)}), so nothing is written.`,
    allowed: String(check.limit),
    remedy: 'this is a fault of the tool',
  }));
}

/** The proof, for the folder. */
export function lieFiles(checks: readonly Check[] | null): OutputFile[] {
  if (checks === null) return [];
  const passed = checks.every((check) => check.passed);
  return [file('proof/set-ups.json', 'proof', `${JSON.stringify({ passed, checks }, null, 1)}\n`)];
}
