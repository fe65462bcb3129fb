import { segmentLength } from '../geometry/segment.ts';
import type { Segment } from '../geometry/types.ts';
import type { OutlineOperation, RouterJob } from '../machining/types.ts';
import { type Contour, contourOf, humpOf, type Profile, runTurn, sidesBeside } from './contour.ts';
import { passDepth, RAPID_FLOOR, rampLength } from './heights.ts';
import { finishOutline } from './outlineFinish.ts';
import type { Move } from './types.ts';

/**
 * Moves that cut a part free round its outline: a spiral that ramps down by one step at the start of each turn, so that
 * every place is cut one step deeper than the turn before, and a last stretch that cleans the last ramp. The cutter
 * climbs over the tabs; a skin is left level all round. What the spiral leaves along the outline a last pass takes off.
 * Clockwise round a kept part, so that a right-hand spindle climbs; the conventional way is counter-clockwise.
 */
export function outlineMoves(outline: OutlineOperation, job: RouterJob): Move[] {
  const path = contour(outline, job);
  const bottom = outline.skin === null ? outline.z - job.below : outline.z + outline.skin;
  const turns = Math.ceil(-bottom / passDepth(job) - 1e-9);
  const step = -bottom / turns;
  const ramp = rampLength(step);
  const start = path.sides[0]?.from;
  if (start === undefined) throw new Error(`${outline.id} has no path`);
  const moves: Move[] = [
    { kind: 'rapid', x: start[0], y: start[1] },
    { kind: 'rapid', z: RAPID_FLOOR },
    { kind: 'feed', z: 0, feed: job.feeds.plunge },
  ];
  const humps = outline.tabs.map((tab) => humpOf(tab, path, outline.z, job));
  let height = 0;
  for (let turn = 0; turn <= turns; turn += 1) {
    const profile: Profile = { from: -turn * step, to: Math.max(-(turn + 1) * step, bottom), ramp, humps };
    const length = turn === turns ? ramp : path.length;
    const run = runTurn(path, profile, length, height, job);
    moves.push(...run.moves);
    height = run.height;
  }
  return [
    ...moves,
    { kind: 'rapid', z: job.machine.clearHeight },
    ...(outline.finish === null ? [] : finishOutline(outline, outline.finish, bottom, job)),
  ];
}

/** The cutter's path, started after a corner of the longest straight side so that ramp and tabs stay apart. */
function contour(outline: OutlineOperation, job: RouterJob): Contour {
  return contourOf(rotateToLongest(sidesBeside(outline, job, outline.finish?.allowance ?? 0)));
}

function rotateToLongest(sides: readonly Segment[]): Segment[] {
  const lengths = sides.map((s) => (s.kind === 'line' ? segmentLength(s) : 0));
  const longest = lengths.indexOf(Math.max(...lengths));
  return [...sides.slice(longest), ...sides.slice(0, longest)];
}
