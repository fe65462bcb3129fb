import type { LineFeature } from '../parts/types.ts';
import type { Router, Shop, Tool } from '../profile/types.ts';
import type { Place, ToolWork } from './features.ts';
import { toProgram } from './setup.ts';
import type { ScribeOperation } from './types.ts';

/** How deep a vee cutter goes for a line of a width at the surface: width / (2 tan(half the included angle)). */
export function scribingDepth(width: number, tipAngle: number): number {
  return width / (2 * Math.tan(tipAngle / 2));
}

/**
 * Lines cut by the router's sharpest vee cutter, or null when it has none that is wide and long enough: an error of the work
 * zero's height changes the width of a sharp groove least.
 */
export function planLines(lines: readonly LineFeature[], place: Place): ToolWork | null {
  const width = place.shop.scribing.lineWidth;
  const [tool] = veesFor(width, place.router, place.shop);
  if (tool?.tipAngle == null || lines.length === 0) return null;
  const depth = scribingDepth(width, tool.tipAngle);
  const operations = lines.map(
    (line): ScribeOperation => ({
      id: line.id,
      feature: line.id,
      kind: 'scribe',
      points: line.points.map((p) => toProgram(p, place.setup.shift)),
      width,
      depth,
    }),
  );
  return { tool, operations, stage: { file: 'lines', operation: 'scribed lines', setup: place.setup } };
}

function veesFor(width: number, router: Router, shop: Shop): Tool[] {
  return shop.tools
    .filter((t) => t.machine === router.id && t.kind === 'vee' && t.tipAngle !== null)
    .filter((t) => width < t.diameter / 2 && scribingDepth(width, t.tipAngle ?? 0) <= t.cuttingLength)
    .sort((a, b) => (a.tipAngle ?? 0) - (b.tipAngle ?? 0) || a.id - b.id);
}
