import { directionAt, distanceToRing, stepFrom } from '../geometry/distance.ts';
import type { Segment, Vec } from '../geometry/types.ts';
import { add, scale, subtract } from '../geometry/vec.ts';
import type { OutlineFinish, OutlineLead, OutlineOperation, RouterJob } from '../machining/types.ts';
import { contourOf, humpOf, runTurn, sidesBeside } from './contour.ts';
import { atWallFeed, RAPID_FLOOR } from './heights.ts';
import { firstStretch, fromNearest } from './round.ts';
import { runSegment } from './run.ts';
import type { Move } from './types.ts';

/** Halvings that find where a lead leaves the groove: to far below a written digit. */
const HALVINGS = 40;

/**
 * Moves of the last passes along an outline, at the feed for so thin a shaving: down into the groove that is cut already, on to
 * the outline in an arc, once round and a little on, and off again in an arc, at each of a few levels. Without room for arcs the
 * cutter comes straight across from the groove.
 */
export function finishOutline(
  outline: OutlineOperation,
  finish: OutlineFinish,
  bottom: number,
  plain: RouterJob,
): Move[] {
  const job = atWallFeed(plain);
  const beside = sidesBeside(outline, job, 0);
  const sides = finish.lead === null ? beside : fromNearest(beside, finish.lead.at);
  const path = contourOf([...sides, ...firstStretch(sides, finish.lead?.overlap ?? 0)]);
  const humps = outline.tabs.map((tab) => humpOf(tab, contourOf(sides), outline.z, job));
  const { on, off } = waysOf(outline, finish, path.sides, job);
  const count = Math.ceil(-bottom / finish.stepDown - 1e-9);
  const moves: Move[] = [
    { kind: 'rapid', x: on.from[0], y: on.from[1] },
    { kind: 'rapid', z: RAPID_FLOOR },
  ];
  for (let k = 1; k <= count; k += 1) {
    const z = k === count ? bottom : (bottom * k) / count;
    if (k > 1) moves.push({ kind: 'feed', x: on.from[0], y: on.from[1], feed: plain.feeds.feed });
    moves.push({ kind: 'feed', z, feed: job.feeds.plunge });
    moves.push(...runSegment(on, z, 0, job));
    moves.push(...runTurn(path, { from: z, to: z, ramp: 1, humps }, path.length, z, job).moves);
    moves.push(...runSegment(off, z, 0, job));
  }
  return [...moves, { kind: 'rapid', z: job.machine.clearHeight }];
}

/** From the middle of the groove on to the path, and from the path back to the middle of the groove. */
function waysOf(
  outline: OutlineOperation,
  finish: OutlineFinish,
  sides: readonly Segment[],
  job: RouterJob,
): { readonly on: Segment; readonly off: Segment } {
  const [first, last] = [sides[0], sides.at(-1)];
  if (first === undefined || last === undefined) throw new Error(`${outline.id} has no path`);
  const toWaste = (along: Vec): Vec => wasteSide(outline, along);
  const [start, end] = [directionAt(first, 0), directionAt(last, 1)];
  if (finish.lead === null) {
    const on = stepFrom(first.from, toWaste(start), finish.allowance);
    const off = stepFrom(last.to, toWaste(end), finish.allowance);
    return { on: { kind: 'line', from: on, to: first.from }, off: { kind: 'line', from: last.to, to: off } };
  }
  const reach = job.tool.diameter / 2 + finish.allowance;
  const arc = (at: Vec, along: Vec, sense: 1 | -1): Segment =>
    leadArc(outline, finish.lead as OutlineLead, at, along, toWaste(along), reach, sense);
  return { on: arc(first.from, start, -1), off: arc(last.to, end, 1) };
}

/** The kept wood lies to the right of a climbing cutter's way, to the left of the other; the waste on the other side. */
function wasteSide({ direction }: OutlineOperation, [dx, dy]: Vec): Vec {
  return direction === 'climb' ? [-dy, dx] : [dy, -dx];
}

/** An arc that touches the path at a point and runs before it (-1) or after it (1), in the waste as far as the groove's middle. */
function leadArc(
  outline: OutlineOperation,
  { radius }: OutlineLead,
  at: Vec,
  along: Vec,
  toWaste: Vec,
  reach: number,
  sense: 1 | -1,
): Segment {
  const centre = stepFrom(at, toWaste, radius);
  const pointAt = (angle: number): Vec =>
    add(
      subtract(centre, scale(toWaste, radius * Math.cos(angle))),
      scale(along, sense * radius * Math.sin(angle)),
    );
  let [near, far] = [0, Math.PI / 2];
  for (let i = 0; i < HALVINGS; i += 1) {
    const middle = (near + far) / 2;
    if (distanceToRing(outline.ring, pointAt(middle)) < reach) near = middle;
    else far = middle;
  }
  // Seen from the arc's centre it turns the way the waste lies: to the left of a climbing cutter.
  const turn = outline.direction === 'climb' ? near : -near;
  const away = pointAt(near);
  return sense === 1
    ? { kind: 'arc', from: at, to: away, centre, radius, sweep: turn }
    : { kind: 'arc', from: away, to: at, centre, radius, sweep: turn };
}
