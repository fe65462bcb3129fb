import { segments } from '../geometry/ring.ts';
import type { PocketFeature } from '../parts/types.ts';
import { type Place, type Planned, planRoundPockets, type ToolWork } from './features.ts';
import { planShapes } from './shapes.ts';

/** Pockets: small round ones are drilled or bored, all others cleared lap by lap. */
export function planPockets(pockets: readonly PocketFeature[], place: Place): Planned {
  const round = pockets.filter(isRound);
  const shaped = pockets.filter((p) => !isRound(p));
  const plans = [
    round.length === 0 ? { work: [] } : planRoundPockets(round, place),
    shaped.length === 0 ? { work: [] } : planShapes(shaped, place),
  ];
  const findings = plans.flatMap((p) => ('findings' in p ? p.findings : []));
  if (findings.length > 0) return { findings };
  return { work: joinByTool(plans.flatMap((p) => ('work' in p ? p.work : []))) };
}

/** Wider round pockets than this are cleared as any other shape, so that no helix is run down for each ring. */
const WIDEST_BORE = 12;

function isRound({ region }: PocketFeature): boolean {
  const [first, second] = segments(region.outer);
  return (
    region.holes.length === 0 &&
    region.outer.length === 2 &&
    first?.kind === 'arc' &&
    second?.kind === 'arc' &&
    Math.abs(Math.abs(first.sweep) - Math.PI) < 1e-9 &&
    2 * first.radius <= WIDEST_BORE
  );
}

/** Work that one tool does in the same stage is one program; what a cutter left comes last. */
function joinByTool(work: readonly ToolWork[]): ToolWork[] {
  const joined: ToolWork[] = [];
  for (const item of work) {
    const i = joined.findIndex((w) => w.tool === item.tool && w.stage?.file === item.stage?.file);
    const same = joined[i];
    if (same === undefined) joined.push(item);
    else joined[i] = { ...same, operations: [...same.operations, ...item.operations] };
  }
  return [...joined.filter((w) => w.stage === undefined), ...joined.filter((w) => w.stage !== undefined)];
}
