import { segments } from '../geometry/ring.ts';
import { pointOn, segmentLength } from '../geometry/segment.ts';
import type { Ring, Segment } from '../geometry/types.ts';
import type { Tab } from './types.ts';

/** A straight side gets one more tab for each of this length. */
const TAB_SPACING = 180;

/** Slope at which the cutter climbs over a tab and comes down from it (common practice, no source). */
const SLOPE = Math.tan((15 * Math.PI) / 180);

/** Of a side's length that must stay free of tabs at both ends, besides the tab itself: room to ramp and turn. */
const FREE_ENDS = 12;

/**
 * Tabs on the straight sides, evenly spaced and clear of the corners. Sides too short for a tab get none; at least two
 * tabs in all or an empty list.
 */
export function placeTabs(ring: Ring, length: number, height: number): Tab[] {
  const tabs = segments(ring)
    .filter((side) => side.kind === 'line' && segmentLength(side) >= length + 2 * FREE_ENDS)
    .flatMap((side) => tabsOn(side, length, height));
  return tabs.length >= 2 ? tabs : [];
}

function tabsOn(side: Segment, length: number, height: number): Tab[] {
  const count = Math.max(1, Math.round(segmentLength(side) / TAB_SPACING));
  return Array.from({ length: count }, (_, i) => ({
    at: pointOn(side, (i + 0.5) / count),
    length,
    height,
    slope: SLOPE,
  }));
}
