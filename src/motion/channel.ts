import type { ChannelOperation, RouterJob } from '../machining/types.ts';
import { outlineMoves } from './outline.ts';
import type { Move } from './types.ts';

/** Moves that cut a channel outside of its wall: those of an outline that leaves everything below the floor as it is. */
export function channelMoves({ id, feature, ring, z }: ChannelOperation, job: RouterJob): Move[] {
  const { bottom } = job.setup.stock;
  return outlineMoves(
    {
      kind: 'outline',
      id,
      feature,
      direction: 'climb',
      finish: null,
      ring,
      keep: 'inside',
      z: bottom,
      tabs: [],
      skin: z - bottom,
    },
    job,
  );
}
