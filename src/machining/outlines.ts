import type { OutlineFeature } from '../parts/types.ts';
import type { Finding } from '../report/finding.ts';
import { planCarried } from './carried.ts';
import type { Place, Planned } from './features.ts';
import { isCircle, openRound, shifted, widthOf } from './openings.ts';
import { placeTabs } from './tabs.ts';
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
  const need: ToolNeed = {
    what: `the outline of ${place.part.title.toLowerCase()}`,
    kinds: ['flat'],
    least: 1,
    most: Math.min(LARGEST, ...openings.map((o) => widthOf(o.ring) * 0.8)),
    reach: place.part.blank.thickness + place.router.intoSpoilboard,
  };
  const [tool] = toolsFor(need, place.router, place.shop);
  if (tool === undefined) return { findings: [noTool(need, place.router)] };
  const kept = outlines.filter((o) => o.keep === 'inside').map((o) => keepInside(o, place));
  const untabbed = kept.filter((o) => o.tabs.length === 0);
  if (untabbed.length > 0) return { findings: untabbed.map((o) => noRoomForTabs(o, place)) };
  const operations: RouterOperation[] = [...openings.map((o) => openRound(o, place)), ...kept];
  return { work: [{ tool, operations }] };
}

function keepInside(outline: OutlineFeature, place: Place): OutlineOperation {
  const ring = shifted(outline.ring, place);
  const { tabLength, tabHeight } = place.shop.holding;
  return {
    id: outline.id,
    feature: outline.id,
    kind: 'outline',
    ring,
    keep: 'inside',
    z: -place.part.blank.thickness,
    tabs: placeTabs(ring, tabLength, tabHeight),
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

function noRoomForTabs(operation: OutlineOperation, place: Place): Finding {
  const { tabLength } = place.shop.holding;
  return {
    code: 'no-room-for-tabs',
    severity: 'error',
    where: { source: 'shop', path: 'holding.tabLength' },
    text: `${operation.feature} has no two straight sides long enough for a holding tab of ${tabLength} mm, so nothing would hold it at its last cut.`,
    allowed: 'at least two tabs on straight sides',
    remedy: 'shorten holding.tabLength, or let a laser or the hand cut it',
  };
}
