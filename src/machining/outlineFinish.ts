/** The last pass along an outline: how much it takes, how deep, and where it comes on. */
import { directionAt } from '../geometry/distance.ts';
import { offsetOutline } from '../geometry/kernel/outline.ts';
import { segments } from '../geometry/ring.ts';
import { pointOn, segmentLength } from '../geometry/segment.ts';
import type { Ring, Segment } from '../geometry/types.ts';
import { distance } from '../geometry/vec.ts';
import type { Shop, Tool } from '../profile/types.ts';
import type { OutlineFinish, OutlineLead, Tab } from './types.ts';

/** Left for the finishing pass, of the cutter's diameter, and at least, mm (common practice, no source). */
const ALLOWANCE = { share: 0.04, least: 0.03 };
/** Deepest single finishing pass, in cutter diameters (common practice, no source). */
export const DEEPEST_FINISH = 1.5;
/** The pass goes on past its beginning by this, so that no tag is left (common practice, no source). Millimetres. */
const OVERLAP = 1;
/** Radii of the arcs that are tried, of the cutter's radius. */
const RADII = [1, 0.5, 0.25];
/** Kept between an arc's end and a corner or the foot of a tab. Millimetres. */
const ROOM = 0.5;
/** Where on a side the arcs may lie, from its end. Millimetres. */
const FROM_END = 4;

/** What is left along outlines for a finishing pass; 0 for none. Millimetres. */
export function outlineAllowance(shop: Shop, tool: Tool): number {
  return shop.outlines.allowance ?? Math.max(ALLOWANCE.least, ALLOWANCE.share * tool.diameter);
}

/**
 * The finishing pass round a part; null where the shop wants none, or where the wider way of the passes before would not be one
 * closed path (a narrow bay), or where a corner goes in: the passes before leave more there than a shaving.
 */
export function finishRound(ring: Ring, tabs: readonly Tab[], tool: Tool, shop: Shop): OutlineFinish | null {
  const allowance = outlineAllowance(shop, tool);
  const radius = tool.diameter / 2;
  if (allowance === 0 || hasInnerCorner(ring, 2 * radius)) return null;
  const isOnePath = [radius, radius + allowance].every((by) => offsetOutline(ring, by).length === 1);
  if (!isOnePath) return null;
  return {
    allowance,
    stepDown: DEEPEST_FINISH * tool.diameter,
    lead: leadFor(ring, tabs, radius, allowance),
  };
}

/** Turns that go in by less than this are drawn smooth. Sine of the turn. */
const SMOOTH = 0.01;

/** Whether a counter-clockwise ring turns to the right at a corner, or in an arc of less than a radius. */
function hasInnerCorner(ring: Ring, least: number): boolean {
  const sides = segments(ring);
  return sides.some((side, i) => {
    if (side.kind === 'arc' && side.sweep < 0 && side.radius < least) return true;
    const next = sides[(i + 1) % sides.length] ?? side;
    const [[ax, ay], [bx, by]] = [directionAt(side, 1), directionAt(next, 0)];
    return ax * by - ay * bx < -SMOOTH;
  });
}

/** Arcs beside the longest side that has room for them between its ends and its tabs, the wider first; null where none has. */
function leadFor(ring: Ring, tabs: readonly Tab[], cutter: number, allowance: number): OutlineLead | null {
  const sides = [...segments(ring)].sort((a, b) => segmentLength(b) - segmentLength(a));
  for (const share of RADII) {
    const radius = share * cutter;
    // An arc of radius R has come as far as `allowance` to the side once it has run sqrt(2 R a - a^2) along it.
    const reach = Math.sqrt(2 * radius * allowance - allowance ** 2) + OVERLAP + ROOM;
    if (!(radius > allowance)) continue;
    for (const side of sides) {
      const at = placeOn(side, reach, tabs, cutter, allowance);
      if (at !== null) return { at, radius, overlap: OVERLAP };
    }
  }
  return null;
}

/** A place on a side with `reach` of it free on either hand. */
function placeOn(side: Segment, reach: number, tabs: readonly Tab[], cutter: number, allowance: number) {
  const length = segmentLength(side);
  if (length < 2 * reach || !isFlat(side, reach, allowance)) return null;
  const from = Math.max(reach, Math.min(FROM_END, length / 2));
  const places = [from, length - from, length / 2].map((along) => pointOn(side, along / length));
  const free = places.find((place) =>
    tabs.every((tab) => distance(tab.at, place) > tabReach(tab, cutter) + reach),
  );
  return free ?? null;
}

/** The way back from one arc's end to the other's is straight: it stays within the groove. */
function isFlat(side: Segment, reach: number, allowance: number): boolean {
  if (side.kind === 'line') return true;
  return (2 * reach) ** 2 / (8 * side.radius) < allowance / 2;
}

/** From a tab's middle to the foot of its slopes, as the cutter's centre meets them. */
function tabReach({ length, height, slope }: Tab, cutter: number): number {
  return length / 2 + cutter + height / slope;
}
