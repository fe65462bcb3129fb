import type { Router, Shop, Tool } from '../profile/types.ts';
import type { Finding } from '../report/finding.ts';
import { formatShort } from '../units/format.ts';
import { WALL_TOLERANCE } from './tolerances.ts';

/** What a feature needs of a tool. */
export interface ToolNeed {
  readonly what: string;
  readonly kinds: readonly Tool['kind'][];
  readonly least: number;
  readonly most: number;
  /** How deep the cutting edge must reach. */
  readonly reach: number;
  readonly flatEnd?: boolean;
  /** It cuts no wall: how well its diameter is known does not matter. */
  readonly noWalls?: boolean;
}

/** Of the tolerance of a wall kept for the rounding of the text. */
const ROUNDING = 0.0005;

/** Tools of a router that satisfy a need, thickest first. */
export function toolsFor(need: ToolNeed, router: Router, shop: Shop): Tool[] {
  return toolsOfSize(need, router, shop).filter((t) => t.tolerance <= mostTolerance(t, need) + 1e-9);
}

function toolsOfSize(need: ToolNeed, router: Router, shop: Shop): Tool[] {
  return shop.tools
    .filter((t) => t.machine === router.id && need.kinds.includes(t.kind))
    .filter((t) => t.diameter >= need.least - 1e-9 && t.diameter <= need.most + 1e-9)
    .filter((t) => t.cuttingLength >= need.reach - 1e-9)
    .filter((t) => !need.flatEnd || t.tipAngle === null)
    .sort((a, b) => b.diameter - a.diameter || a.id - b.id);
}

/**
 * How badly a tool's diameter may be known: half of it stands at each wall, and both walls have to be within their tolerance. A
 * drill makes its hole as wide as it is, so what it is off the hole's size counts as well.
 */
function mostTolerance({ kind, diameter }: Tool, need: ToolNeed): number {
  if (need.noWalls === true || kind === 'ball' || kind === 'vee') return Number.POSITIVE_INFINITY;
  const off = kind === 'drill' ? Math.abs(diameter - (need.least + need.most) / 2) : 0;
  return 2 * (WALL_TOLERANCE - ROUNDING) - off;
}

/** What to say when no tool fits. */
export function noTool(need: ToolNeed, router: Router, shop: Shop): Finding {
  const [vague] = toolsOfSize(need, router, shop);
  if (vague !== undefined) return toleranceTooWide(vague, need, shop);
  const size =
    need.least === need.most
      ? `${need.most.toFixed(3)} mm`
      : `${need.least.toFixed(3)} to ${need.most.toFixed(3)} mm`;
  return {
    code: 'no-tool-fits',
    severity: 'error',
    where: { source: 'shop', path: 'tools' },
    text: `No tool of ${router.name} fits ${need.what}.`,
    allowed: `a ${need.kinds.join(' or ')} of ${size}, cutting at least ${need.reach.toFixed(2)} mm deep`,
    remedy: 'add such a tool to the shop file, or let this work be done by hand (work: in the shop file)',
  };
}

function toleranceTooWide(tool: Tool, need: ToolNeed, shop: Shop): Finding {
  const most = Math.max(0, mostTolerance(tool, need));
  return {
    code: 'tool-tolerance-too-wide',
    severity: 'error',
    where: { source: 'shop', path: `tools[${shop.tools.indexOf(tool)}].tolerance` },
    text: `${tool.name} would fit ${need.what}, but its diameter is known to +/- ${mm(tool.tolerance)} only: its walls could not be proven to ${mm(WALL_TOLERANCE)}.`,
    allowed: `at most ${mm(most)}`,
    remedy:
      'cut a groove, measure it, and state the diameter and how far it may be off; or take a better cutter',
  };
}

const mm = (length: number): string => `${formatShort(length, 4)} mm`;
