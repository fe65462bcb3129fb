import type { Intent, IntentCut } from '../intent/types.ts';
import type { Job } from '../machining/types.ts';
import type { Part } from '../parts/types.ts';
import type { Check } from '../verify/removal/proof.ts';
import type { PreviewCut, PreviewDatum, PreviewEnd, PreviewFigure } from '../writers/html/types.ts';
import type { ProvenProgram } from './types.ts';

/** What one tool does in a program. */
export interface ToolWork {
  readonly job: Job;
  readonly intent: Intent;
  readonly bytes: Uint8Array;
  /** Whether a line of the program is this tool's. */
  readonly counts: (line: number) => boolean;
  /** In words, for the name of the sheet; empty when the program has one tool. */
  readonly tool: string;
  /** Which tool of the program, from 0. */
  readonly number: number;
}

/** What is meant to be cut, with what the proof found of each and which lines cut it. */
export function cutsOf(program: ProvenProgram, part: ToolWork): PreviewCut[] {
  const work = new Map(program.work[part.number]?.map(({ cut, runs }) => [cut, runs]));
  return part.intent.cuts.map((cut) => ({
    id: cut.id,
    kind: cut.kind,
    rings: cut.region ?? cut.keep ?? [],
    line: cut.line,
    floor: cut.floor,
    through: cut.through,
    allowed: cut.mayCut?.region ?? [],
    left: cut.mayRemain?.region ?? [],
    tabs: cut.tabs,
    wayIn: cut.beam?.leadIn ?? 0,
    figures: figuresOf(program, part, cut),
    runs: work.get(cut.id) ?? [],
  }));
}

/** Figures of one cut with a measure; of the program (`cut` left out) those that failed. */
export function figuresOf(
  { proof }: ProvenProgram,
  { number }: ToolWork,
  cut: IntentCut | undefined,
): PreviewFigure[] {
  const ours = proof.checks.filter((c) => c.cut === cut?.id && (c.stage ?? 1) === number + 1);
  return ours.filter((c) => cut !== undefined || !c.passed).map(figureOf);
}

function figureOf({ name, passed, value, limit, place, line }: Check): PreviewFigure {
  return { name, passed, value, limit, place: place ?? null, line: line ?? null };
}

/** Radii of the cutting end, at both ends of what it may really measure. */
export function endOf({ tool }: Intent): PreviewEnd {
  const [low, high] = tool.diameterRange;
  const usual = tool.kind === 'beam' ? (tool.kerf ?? tool.diameter) : tool.diameter;
  return { kind: tool.kind, least: low / 2, usual: usual / 2, most: high / 2, tipAngle: tool.tipAngle };
}

/** Whether a part's frame is the instrument's, with x from scale zero. */
export function isFromScaleZero(part: Part): boolean {
  return part.datum.includes('scale zero');
}

/** Where a part's own zero lies in the program, and what it is called. With the nut face at scale zero that is the nut line. */
export function datumOf({ part, setup }: Job, nutFace: number): PreviewDatum {
  const [x, y] = setup.shift;
  const zero = nutFace === 0 ? 'from the nut line' : 'from scale zero';
  const words = isFromScaleZero(part)
    ? ([zero, 'from the centreline'] as const)
    : (["from the part's zero along x", "from the part's zero along y"] as const);
  return { at: [-x || 0, -y || 0], words };
}
