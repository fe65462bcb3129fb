import type { OutlineFeature } from '../parts/types.ts';
import type { Tool } from '../profile/types.ts';
import type { Finding } from '../report/finding.ts';
import { partsTooClose } from './apart.ts';
import { planCarried } from './carried.ts';
import type { Place, Planned } from './features.ts';
import { type Holding, holdingOf } from './holding.ts';
import { isCircle, openRound, shifted, widthOf } from './openings.ts';
import { finishRound, outlineAllowance } from './outlineFinish.ts';
import { noTool, type ToolNeed, toolsFor } from './tools.ts';
import type { OutlineOperation, RouterOperation } from './types.ts';

/** Largest cutter used on an outline: more is hard to hold a small part against. */
const LARGEST = 6.35;

/** Outlines by the thickest cutter that fits all openings; openings first, so that a part is held until its last cut. */
export function planOutlines(outlines: readonly OutlineFeature[], place: Place): Planned {
  if (outlines.some((o) => o.carried !== undefined)) return planCarried(outlines, place);
  const openings = outlines.filter((o) => o.keep === 'outside');
  const odd = openings.filter((o) => !isCircle(o.ring));
  if (odd.length > 0) return { findings: odd.map((o) => openingNotRound(o)) };
  const kept = outlines.filter((o) => o.keep === 'inside');
  const holding = holdingOf(
    kept.map((o) => shifted(o.ring, place)),
    place,
  );
  if ('code' in holding) return { findings: [holding] };
  const thickness = place.part.blank.thickness;
  const isThrough = openings.length > 0 || holding.skin === null;
  const need: ToolNeed = {
    what: `the outline of ${place.part.title.toLowerCase()}`,
    kinds: ['flat'],
    least: 1,
    most: Math.min(
      LARGEST,
      ...openings.map((o) => widthOf(o.ring) * 0.8),
      ...kept.flatMap(({ inner }) => (inner === undefined ? [] : [2 * inner])),
    ),
    reach: isThrough ? thickness + place.router.intoSpoilboard : thickness - (holding.skin ?? 0),
  };
  const [tool] = toolsFor(need, place.router, place.shop);
  if (tool === undefined) return { findings: [noTool(need, place.router, place.shop)] };
  const close = partsTooClose(
    kept.map((o) => o.ring),
    tool.diameter + tool.tolerance + outlineAllowance(place.shop, tool),
    place.part.title,
  );
  if (close !== null) return { findings: [close] };
  const operations: RouterOperation[] = [
    ...openings.map((o) => openRound(o, place)),
    ...kept.map((o, i) => keepInside(o, holding, i, tool, place)),
  ];
  return { work: [{ tool, operations }] };
}

function keepInside(
  outline: OutlineFeature,
  holding: Holding,
  i: number,
  tool: Tool,
  place: Place,
): OutlineOperation {
  const ring = shifted(outline.ring, place);
  const tabs = holding.tabs[i] ?? [];
  return {
    id: outline.id,
    feature: outline.id,
    kind: 'outline',
    direction: place.shop.outlines.direction,
    finish: finishRound(ring, tabs, tool, place.shop),
    ring,
    keep: 'inside',
    z: -place.part.blank.thickness,
    tabs,
    skin: holding.skin,
  };
}

function openingNotRound(outline: OutlineFeature): Finding {
  return {
    code: 'opening-not-round',
    severity: 'error',
    text: `The opening ${outline.id} is not round; the router cuts round openings only.`,
    allowed: 'round openings on a router; any on a laser',
    remedy: 'let a laser or the hand do this work (work: in the shop file)',
  };
}
