import { distanceToPolygon, isInArea } from '../geometry/area.ts';
import { flatten } from '../geometry/ring.ts';
import type { Layout } from '../layout/types.ts';
import type { ChannelFeature } from './types.ts';

/** Chords that stand for arcs when the channel's width is measured. Millimetres. */
const CHORD = 0.002;

/** The channel that binding is let into; its floor is level. `crest`: height of the finished board's crest. */
export function channelFeatures({ board }: Layout, crest: number): ChannelFeature[] {
  const { channel, outline, wood } = board;
  if (channel === null) return [];
  const wall = flatten(channel.ring, CHORD);
  // What lies within the wall is kept, as the middle of an end that only the sides' channels run out at.
  const cut = flatten(outline, CHORD).filter((p) => !isInArea([wall], p));
  const width = Math.max(...cut.map((p) => distanceToPolygon(wall, p))) + CHORD;
  return [
    {
      id: 'binding-channel',
      work: 'bindingChannel',
      kind: 'channel',
      ring: channel.ring,
      floor: { kind: 'plane', z: crest - channel.below },
      width,
      top: wood,
    },
  ];
}
