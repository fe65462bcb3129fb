import type { ChannelOperation } from '../machining/types.ts';
import { ringOf } from './regions.ts';
import type { IntentCut } from './types.ts';

/** Of a channel: one cutter's width outside of its wall, level all round and not through. */
export function channelCut(channel: ChannelOperation): Pick<IntentCut, 'kind' | 'keep' | 'floor'> {
  return { kind: 'separate', keep: [ringOf(channel.ring)], floor: { kind: 'plane', z: channel.z } };
}
