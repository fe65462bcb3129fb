/** What a beam burns: where, how often, with what power and feed, and in what order. */
import type { Step } from '../machine/types.ts';
import { type Box, boxOf, placeAt, planLength } from './reach.ts';
import { contains, isNearEdge, nearestEdge } from './shape.ts';
import type { Damaged, Good, Harm } from './types.ts';

/** Powers and feeds agree within this share: rounding of the text. */
const AGREES = 0.001;
/** Two passes this close burn one line, mm. */
const SAME_LINE = 0.02;
/** Looked at this often along a burn, mm. */
const SPACING = 0.3;
/** Passes are not counted this near to an end of one, mm. */
const ENDS = 0.1;

export function isBurn(step: Step): boolean {
  return step.speed !== 0;
}

/** Modes of a beam, whatever it burns. */
export function harmInBeam(good: Good, steps: readonly Step[]): Harm | null {
  const meant = (good.intent.machine.understands.beamWord ?? 'M3') === 'M3' ? 1 : -1;
  for (const step of steps) {
    if (!isBurn(step)) continue;
    const say = (what: string): Harm => ({ kind: 'process', what: `line ${step.line}: ${what}` });
    if (step.rapid) return say('beam on in a rapid');
    if (Math.sign(step.speed) !== meant) return say('beam switched on by the other word');
  }
  return null;
}

/** Burns where none was meant, burns left out, burns made too often or otherwise than meant. */
export function harmInBurns(good: Good, damaged: Damaged, slack: number): Harm | null {
  const before = good.cutting.steps.filter(isBurn);
  const now = damaged.steps.filter(isBurn);
  const { head, tail, steps } = damaged;
  const changed = steps.slice(head, steps.length - tail).filter(isBurn);
  const removed = good.cutting.steps.slice(head, good.cutting.steps.length - tail).filter(isBurn);
  for (const step of changed) {
    const harm = strayHarm(good, step, before, now, slack);
    if (harm !== null) return harm;
  }
  for (const step of removed) {
    const harm = missingHarm(good, step, before, now, slack);
    if (harm !== null) return harm;
  }
  return looseHarm(good, now);
}

interface Look {
  readonly x: number;
  readonly y: number;
  readonly atEnd: boolean;
}

function looksAt(step: Step): Look[] {
  const length = planLength(step);
  const count = Math.max(2, Math.ceil(length / SPACING));
  return Array.from({ length: count + 1 }, (_, k) => {
    const { x, y } = placeAt(step, k / count);
    const along = (length * k) / count;
    return { x, y, atEnd: Math.min(along, length - along) < ENDS };
  });
}

/** Distance in plan from a point to a step. */
function distanceTo(step: Step, x: number, y: number): number {
  if (step.shape === 'flat arc') {
    const angle = Math.atan2(y - step.cb, x - step.ca);
    let round = (angle - step.a0) * Math.sign(step.turn);
    round -= 2 * Math.PI * Math.floor(round / (2 * Math.PI));
    if (round <= Math.abs(step.turn)) return Math.abs(Math.hypot(x - step.ca, y - step.cb) - step.radius);
    return Math.min(Math.hypot(x - step.x0, y - step.y0), Math.hypot(x - step.x1, y - step.y1));
  }
  const [dx, dy] = [step.x1 - step.x0, step.y1 - step.y0];
  const square = dx * dx + dy * dy;
  const t = square === 0 ? 0 : Math.min(1, Math.max(0, ((x - step.x0) * dx + (y - step.y0) * dy) / square));
  return Math.hypot(x - step.x0 - t * dx, y - step.y0 - t * dy);
}

const boxes = new WeakMap<Step, Box>();

function nearBurns(steps: readonly Step[], x: number, y: number, gap: number): Step[] {
  return steps.filter((step) => {
    const box = boxes.get(step) ?? boxOf(step, 0);
    boxes.set(step, box);
    if (x < box.x0 - gap || x > box.x1 + gap || y < box.y0 - gap || y > box.y1 + gap) return false;
    return distanceTo(step, x, y) <= gap;
  });
}

/** What a burn may be off by: a marked line lies where it is meant, but for its ends; an outline within its wall. */
function toleranceAt(good: Good, { x, y, atEnd }: Look, slack: number): number {
  const isLine = !atEnd && good.meant.some(({ cut }) => isOnLine(cut.line ?? [], x, y));
  const tolerances = good.meant.map(({ cut }) => (isLine ? cut.tolerance.position : cut.tolerance.wallOver));
  return Math.max(...tolerances) + slack;
}

function isOnLine(points: readonly (readonly [number, number])[], x: number, y: number): boolean {
  return points.slice(1).some((to, i) => {
    const from = points[i] ?? to;
    const [dx, dy] = [to[0] - from[0], to[1] - from[1]];
    const t = Math.min(1, Math.max(0, ((x - from[0]) * dx + (y - from[1]) * dy) / (dx * dx + dy * dy)));
    return Math.hypot(x - from[0] - t * dx, y - from[1] - t * dy) < 0.05;
  });
}

function strayHarm(
  good: Good,
  step: Step,
  before: readonly Step[],
  now: readonly Step[],
  slack: number,
): Harm | null {
  for (const look of looksAt(step)) {
    const { x, y, atEnd } = look;
    const near = nearBurns(before, x, y, toleranceAt(good, look, slack));
    if (near.length === 0 && contains(good.stock, x, y) && !isWayIn(good, x, y, slack))
      return { kind: 'geometric', what: `line ${step.line}: burnt at ${x.toFixed(3)}, ${y.toFixed(3)}` };
    if (atEnd || near.length === 0) continue;
    if (!near.some((b) => agrees(step.speed, b.speed) && agrees(step.feed, b.feed)))
      return { kind: 'process', what: `line ${step.line}: S ${step.speed} F ${step.feed}` };
    const harm = countHarm(good, x, y, before, now);
    if (harm !== null) return harm;
  }
  return null;
}

/** The way to an outline through the waste beside it: no nearer to any kept edge than half a kerf, no farther than it is long. */
function isWayIn(good: Good, x: number, y: number, slack: number): boolean {
  const rings = good.meant.flatMap(({ ring, keepsInside, cut }) => {
    if (ring === null) return [];
    return [{ keepsInside, cut, inside: contains(ring, x, y), distance: nearestEdge(ring, x, y).distance }];
  });
  if (rings.some((r) => r.distance < good.cutting.radius - r.cut.tolerance.wallOver - slack)) return false;
  const isNear = (r: (typeof rings)[number]): boolean =>
    r.distance <= (r.cut.beam?.leadIn ?? 0) + good.cutting.radius + slack;
  // An opening is waste, whatever part it is cut out of.
  if (rings.some((r) => !r.keepsInside && r.inside))
    return rings.some((r) => !r.keepsInside && r.inside && isNear(r));
  return rings.every((r) => !(r.keepsInside && r.inside)) && rings.some((r) => r.keepsInside && isNear(r));
}

function agrees(a: number, b: number): boolean {
  return Math.abs(a - b) <= Math.abs(b) * AGREES + 0.5;
}

function countHarm(
  good: Good,
  x: number,
  y: number,
  before: readonly Step[],
  now: readonly Step[],
): Harm | null {
  const [was, is] = [passesAt(good, before, x, y), passesAt(good, now, x, y)];
  if (was === null || is === null || was === 0 || is === was) return null;
  return { kind: 'process', what: `burnt ${is} times instead of ${was} at ${x.toFixed(3)}, ${y.toFixed(3)}` };
}

/** How often a place is passed; null near the end of a step, and where an outline runs on past its start. */
function passesAt(good: Good, steps: readonly Step[], x: number, y: number): number | null {
  const near = nearBurns(steps, x, y, ENDS);
  if (near.some((b) => Math.min(Math.hypot(x - b.x0, y - b.y0), Math.hypot(x - b.x1, y - b.y1)) <= ENDS))
    return null;
  const past = Math.max(0, ...good.meant.map(({ cut }) => cut.beam?.overCut ?? 0));
  const isPast =
    past > 0 && steps.some((b, k) => isLast(steps, k) && Math.hypot(x - b.x1, y - b.y1) <= past + ENDS);
  return isPast ? null : near.filter((b) => distanceTo(b, x, y) <= SAME_LINE).length;
}

/** Whether the beam goes off after a burn. */
function isLast(steps: readonly Step[], k: number): boolean {
  const [step, next] = [steps[k], steps[k + 1]];
  return step !== undefined && (next === undefined || next.x0 !== step.x1 || next.y0 !== step.y1);
}

/** A burn that the good program made beside a ring or on a line, and that is not made now. */
function missingHarm(
  good: Good,
  step: Step,
  before: readonly Step[],
  now: readonly Step[],
  slack: number,
): Harm | null {
  for (const look of looksAt(step)) {
    const { x, y, atEnd } = look;
    const tolerance = toleranceAt(good, look, slack);
    const isAskedFor = good.meant.some(
      ({ ring, cut }) =>
        isOnLine(cut.line ?? [], x, y) ||
        (ring !== null && isNearEdge(ring, x, y, good.cutting.radius + 0.05)),
    );
    if (!isAskedFor) continue;
    const near = nearBurns(now, x, y, tolerance);
    if (near.length === 0)
      return { kind: 'geometric', what: `not burnt at ${x.toFixed(3)}, ${y.toFixed(3)}` };
    if (atEnd) continue;
    const harm = countHarm(good, x, y, before, now);
    if (harm !== null) return harm;
  }
  return null;
}

/** Nothing is burnt inside a part that was cut loose before. */
function looseHarm(good: Good, now: readonly Step[]): Harm | null {
  const radius = good.cutting.radius;
  for (const { ring, cut, keepsInside } of good.meant) {
    if (ring === null || cut.tabs.length > 0 || !keepsInside) continue;
    const isAlong = (step: Step): boolean => {
      const { x, y } = placeAt(step, 0.5);
      return !contains(ring, x, y) && nearestEdge(ring, x, y).distance <= radius + 0.05;
    };
    const last = now.findLastIndex(isAlong);
    const off = now.findIndex((step, k) => {
      const { x, y } = placeAt(step, 0.5);
      return k > last && last >= 0 && contains(ring, x, y);
    });
    if (off >= 0) return { kind: 'process', what: `${cut.id} was loose before all inside it was cut` };
  }
  return null;
}
