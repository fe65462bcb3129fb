import type { Router, Shop, Tool } from '../profile/types.ts';
import type { Finding } from '../report/finding.ts';

/** What a feature needs of a tool. */
export interface ToolNeed {
  readonly what: string;
  readonly kinds: readonly Tool['kind'][];
  readonly least: number;
  readonly most: number;
  /** How deep the cutting edge must reach. */
  readonly reach: number;
  readonly flatEnd?: boolean;
}

/** Tools of a router that satisfy a need, thickest first. */
export function toolsFor(need: ToolNeed, router: Router, shop: Shop): Tool[] {
  return shop.tools
    .filter((t) => t.machine === router.id && need.kinds.includes(t.kind))
    .filter((t) => t.diameter >= need.least - 1e-9 && t.diameter <= need.most + 1e-9)
    .filter((t) => t.cuttingLength >= need.reach - 1e-9)
    .filter((t) => !need.flatEnd || t.tipAngle === null)
    .sort((a, b) => b.diameter - a.diameter || a.id - b.id);
}

/** What to say when no tool fits. */
export function noTool(need: ToolNeed, router: Router): Finding {
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
