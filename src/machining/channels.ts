import type { ChannelFeature } from '../parts/types.ts';
import type { Place, Planned } from './features.ts';
import { shifted } from './openings.ts';
import { noTool, type ToolNeed, toolsFor } from './tools.ts';
import type { ChannelOperation } from './types.ts';

/** Cutters for channels, as for outlines: thicker ones are hard to hold a small part against. */
const LARGEST = 6.35;
/** The cutter goes past the board's edge by this at least, so that no fin is left where the outline is cut. */
const PAST_EDGE = 0.1;

/** A channel along a part's edges by one cutter that is wider than it: the rest of its width runs in the waste. */
export function planChannels(channels: readonly ChannelFeature[], place: Place): Planned {
  const widest = Math.max(...channels.map((c) => c.width));
  const need: ToolNeed = {
    what: `the binding channel of ${place.part.title.toLowerCase()}`,
    kinds: ['flat'],
    least: widest + PAST_EDGE,
    most: LARGEST,
    reach: Math.max(...channels.map((c) => -c.floor.z)),
  };
  // The thinnest that one of a size may be must still reach the edge.
  const tool = toolsFor(need, place.router, place.shop).find(
    ({ diameter, tolerance }) => diameter - tolerance >= need.least,
  );
  if (tool === undefined) return { findings: [noTool(need, place.router, place.shop)] };
  const operations = channels.map(
    (channel): ChannelOperation => ({
      id: channel.id,
      feature: channel.id,
      kind: 'channel',
      ring: shifted(channel.ring, place),
      z: channel.floor.z,
    }),
  );
  return { work: [{ tool, operations }] };
}
