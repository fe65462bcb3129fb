import { chordCount, pointOn, segmentLength } from '../geometry/segment.ts';
import type { Segment } from '../geometry/types.ts';
import type { RouterJob } from '../machining/types.ts';
import { CHORD_SAGITTA, feedOnSlope } from './heights.ts';
import type { Move } from './types.ts';

/** Runs along a side to its end at height `z`, having fallen by `fall` on the way; arcs stay arcs where the control has them. */
export function runSegment(side: Segment, z: number, fall: number, job: RouterJob): Move[] {
  const feed = feedOnSlope(job, segmentLength(side), fall);
  if (side.kind === 'line') return [{ kind: 'feed', x: side.to[0], y: side.to[1], z, feed }];
  if (job.machine.controller.arcPlanes.includes('xy')) {
    return [
      {
        kind: 'arc',
        plane: 'xy',
        clockwise: side.sweep < 0,
        to: { x: side.to[0], y: side.to[1], z },
        centre: { x: side.centre[0], y: side.centre[1], z },
        feed,
      },
    ];
  }
  const count = chordCount(side, CHORD_SAGITTA);
  const chordFeed = feedOnSlope(job, segmentLength(side) / count, fall / count);
  return Array.from({ length: count }, (_, i) => {
    const share = (i + 1) / count;
    const [x, y] = pointOn(side, share);
    return { kind: 'feed', x, y, z: z + fall * (1 - share), feed: chordFeed };
  });
}
