import { buildProgramIntent } from '../intent/buildProgram.ts';
import type { Part } from '../parts/types.ts';
import type { Finding } from '../report/finding.ts';
import type { BuyRow } from '../sheet/types.ts';
import { formatShort } from '../units/format.ts';
import { provePairs } from '../verify/inlay/provePairs.ts';
import type { InlayPairs } from '../verify/inlay/types.ts';
import type { Check } from '../verify/removal/proof.ts';
import type { Design } from './design.ts';
import { file } from './file.ts';
import { sha256 } from './hash.ts';
import { hashesOf } from './programs.ts';
import type { OutputFile, ProvenProgram } from './types.ts';

/** The gap between part and pocket may differ from what was asked by this anywhere. Millimetres. */
const TOLERANCE = 0.02;

/** Which parts go into which pockets, and what came out when each was laid into its own. */
export interface InlayProof {
  readonly pairs: InlayPairs;
  readonly checks: readonly Check[];
}

/** Lays every inlay into its pocket, both as their programs cut them. Null where no pair has both its programs. */
export function proveInlays(made: Design, programs: readonly ProvenProgram[]): InlayProof | null {
  const cut = new Set(programs.flatMap((p) => p.intents.flatMap((i) => i.cuts.map((c) => c.feature))));
  const pairs = made.parts
    .flatMap((part) => part.features)
    .flatMap((feature) => {
      if (feature.kind !== 'outline' || feature.fits === undefined) return [];
      const { pocket, ...rest } = feature.fits;
      return cut.has(feature.id) && cut.has(pocket) ? [{ pocket, part: feature.id, ...rest }] : [];
    });
  if (pairs.length === 0) return null;
  const wanted: InlayPairs = { format: 1, units: 'mm', tolerance: TOLERANCE, pairs };
  const names = new Set(pairs.flatMap((p) => [p.pocket, p.part]));
  const concerned = programs.filter((p) =>
    p.intents.some((i) => i.cuts.some((c) => names.has(c.feature) || c.feature.startsWith('rest-of-'))),
  );
  const written = concerned.map((p) => ({
    bytes: new TextEncoder().encode(p.text),
    intent: buildProgramIntent(p.jobs, sha256(p.text), hashesOf(programs)),
  }));
  return { pairs: wanted, checks: provePairs(wanted, written) };
}

/** What to say of pairs that do not meet as asked: nothing is written, and the fault is ours. */
export function unprovenInlays(proof: InlayProof | null): Finding[] {
  const failed = proof?.checks.filter((check) => !check.passed) ?? [];
  return failed.map((check) => ({
    code: 'inlay-not-proven',
    severity: 'error',
    text: `The part for ${check.cut} does not fit its pocket (${check.name} by ${check.value.toFixed(4)} mm at ${check.place?.map((v) => v.toFixed(3)).join(', ') ?? 'no place'}), so nothing is written.`,
    allowed: `${check.limit} mm`,
    remedy: 'this is a fault of the tool',
  }));
}

/** The pairs and their proof, for the folder. */
export function inlayFiles(proof: InlayProof | null): OutputFile[] {
  if (proof === null) return [];
  const text = (value: unknown): string => `${JSON.stringify(value, null, 1)}\n`;
  const passed = proof.checks.every((check) => check.passed);
  return [
    file('intent/inlay-pairs.json', 'intent', text(proof.pairs)),
    file('proof/inlay-pairs.json', 'proof', text({ passed, checks: proof.checks })),
  ];
}

/** Pieces of material that inlays are cut from: bought as they are. */
export function inlayPieces(parts: readonly Part[]): BuyRow[] {
  const pieces = parts.filter(
    (part) => part.bought === true && part.features.some((f) => f.work === 'inlays'),
  );
  const [first] = pieces;
  if (first === undefined) return [];
  const { box, thickness } = first.blank;
  const size = [box.x[1] - box.x[0], box.y[1] - box.y[0], thickness]
    .map((v) => formatShort(v, 2))
    .join(' x ');
  return [
    {
      what: `pieces for inlays, ${first.material}`,
      amount: String(pieces.length),
      note: `${size} mm each, flat and of even thickness: measure it; buy one more for a slip`,
    },
  ];
}
