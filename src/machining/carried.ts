import { translate } from '../geometry/ring.ts';
import type { OutlineFeature } from '../parts/types.ts';
import type { Place, Planned } from './features.ts';
import { isCircle, openRound, widthOf } from './openings.ts';
import { noTool, type ToolNeed, toolsFor } from './tools.ts';
import type { OutlineOperation, RouterOperation } from './types.ts';

/** Largest cutter for parts that only glue holds: a thicker one pushes harder (common practice, no source). */
const LARGEST = 2;
/** Thinner ones are for slots. */
const THINNEST = 0.5;
/** Wood or shell left standing between the cuts of two neighbours. Millimetres. */
const RIM = 0.3;
/** Of a round opening, the widest cutter that still clears it by going round. */
const BORE_SHARE = 0.8;

/**
 * Outlines of parts that are glued to a carrier, by the thickest cutter that reaches into all their corners and passes between
 * them; openings first. No tabs: the carrier holds what comes free, slugs included.
 */
export function planCarried(outlines: readonly OutlineFeature[], place: Place): Planned {
  const openings = outlines.filter((o) => o.keep === 'outside');
  const need: ToolNeed = {
    what: `the outlines of ${place.part.title.toLowerCase()}`,
    kinds: ['flat'],
    least: THINNEST,
    most: Math.min(LARGEST, ...outlines.map(mostFor)),
    reach: place.part.blank.thickness + place.router.intoSpoilboard,
  };
  const [tool] = toolsFor(need, place.router, place.shop);
  if (tool === undefined) return { findings: [noTool(need, place.router, place.shop)] };
  const operations: RouterOperation[] = [
    ...openings.map((o) => (isCircle(o.ring) ? openRound(o, place) : cutAlong(o, place))),
    ...outlines.filter((o) => o.keep === 'inside').map((o) => cutAlong(o, place)),
  ];
  return { work: [{ tool, operations }] };
}

/** Twice its corners' radius, and no more than there is between two parts. */
function mostFor({ ring, keep, carried }: OutlineFeature): number {
  if (carried === undefined) throw new Error('an outline without a carrier');
  const round = keep === 'outside' && isCircle(ring) ? widthOf(ring) * BORE_SHARE : Number.POSITIVE_INFINITY;
  const corners = carried.corner === null ? Number.POSITIVE_INFINITY : 2 * carried.corner;
  return Math.min(carried.between - RIM, round, corners);
}

function cutAlong({ id, ring, keep }: OutlineFeature, { setup, part, shop }: Place): OutlineOperation {
  const { shift } = setup;
  return {
    id,
    feature: id,
    kind: 'outline',
    direction: shop.outlines.direction,
    finish: null,
    ring: translate(ring, [-shift[0], -shift[1]]),
    keep,
    z: -part.blank.thickness,
    tabs: [],
    skin: null,
  };
}
