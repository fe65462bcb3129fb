/** Wood taken or left where it should not be: looked for along the steps that differ, at their middles and just inside their edges. */
import type { Surface } from '../../../src/intent/types.ts';
import type { Step } from '../machine/types.ts';
import { type Box, boxOf, placeAt, planLength } from './reach.ts';
import { contains, nearestEdge } from './shape.ts';
import type { Damaged, Good, Harm, Meant } from './types.ts';
import { cutTo, surfaceAt } from './wood.ts';

/** Looked at this often along a step, mm. */
const SPACING = 0.4;
const MOST_LOOKS = 400;
/** A tab's height is met within this; nobody measures one closer, mm. */
const TAB_HEIGHT = 0.01;
/** So much of a tab's length at either end may be lost, mm. */
const TAB_ENDS = 0.03;
/** Sides of a tab may slope no flatter than one up in so many along. */
const TAB_SLOPE = 4;

/** Every place to look at, until one is bad. */
export function harmInWood(good: Good, damaged: Damaged, slack: number): Harm | null {
  const { head, tail } = damaged;
  const now = damaged.steps.slice(head, damaged.steps.length - tail);
  const before = good.cutting.steps.slice(head, good.cutting.steps.length - tail);
  return (
    tooLow(good, damaged, now, slack) ??
    first(now, (step) => alongStep(good, damaged, step, damaged.cutting.radius, slack)) ??
    first(before, (step) => alongStep(good, damaged, step, good.cutting.radius, slack))
  );
}

function first(steps: readonly Step[], look: (step: Step) => Harm | null): Harm | null {
  for (const step of steps) {
    const harm = step.rapid ? null : look(step);
    if (harm !== null) return harm;
  }
  return null;
}

function tooLow(good: Good, damaged: Damaged, steps: readonly Step[], slack: number): Harm | null {
  const { zMin } = good.intent.limits;
  return first(steps, (step) => {
    const low = Math.min(step.z0, step.z1);
    const isLow = low < zMin - slack && isNear(boxOf(step, damaged.cutting.radius), good.stock.box);
    return isLow ? geometric(`line ${step.line}: tip at ${low.toFixed(3)}, lowest allowed ${zMin}`) : null;
  });
}

function alongStep(good: Good, damaged: Damaged, step: Step, radius: number, slack: number): Harm | null {
  const inset = insetOf(good, radius, slack);
  const looks = Math.max(1, Math.min(MOST_LOOKS, Math.ceil(planLength(step) / SPACING)));
  for (let k = 0; k <= looks; k += 1) {
    for (const spot of aroundTool(step, k / looks, inset, k === 0, k === looks)) {
      const harm = harmAt(good, damaged, spot, slack);
      if (harm !== null) return harm;
    }
  }
  return null;
}

/** How far aside of the tool's middle is looked: just inside its edge; of a ball, where the ridge beside a pass stands. */
function insetOf(good: Good, radius: number, slack: number): number {
  if (!good.cutting.isBall) return Math.max(0, radius - wallTolerance(good) - slack);
  const cusp = Math.max(...good.meant.map(({ cut }) => cut.tolerance.cusp ?? 0));
  return Math.sqrt(Math.max(0, 2 * radius * cusp - cusp * cusp));
}

function isNear(a: Box, b: Box): boolean {
  return a.x0 <= b.x1 && a.x1 >= b.x0 && a.y0 <= b.y1 && a.y1 >= b.y0;
}

function wallTolerance(good: Good): number {
  return Math.max(...good.meant.map(({ cut }) => Math.max(cut.tolerance.wallOver, cut.tolerance.wallUnder)));
}

/** A place to look at, and how far from the tool's middle it lies. */
interface Spot {
  readonly x: number;
  readonly y: number;
  readonly aside: number;
}

/** The tool's middle and the edges of what it sweeps; ahead and behind at the ends. */
function aroundTool(step: Step, t: number, inset: number, isFirst: boolean, isLast: boolean): Spot[] {
  const { x, y } = placeAt(step, t);
  const nudge = t < 0.5 ? 1e-4 : -1e-4;
  const next = placeAt(step, t + nudge);
  const [dx, dy] = [(next.x - x) * Math.sign(nudge), (next.y - y) * Math.sign(nudge)];
  const length = Math.hypot(dx, dy);
  const [ux, uy] = length === 0 ? [1, 0] : [dx / length, dy / length];
  const spots: Spot[] = [{ x, y, aside: 0 }];
  const add = (vx: number, vy: number): void => {
    spots.push({ x: x + vx * inset, y: y + vy * inset, aside: inset });
  };
  add(-uy, ux);
  add(uy, -ux);
  if (isFirst || length === 0) add(-ux, -uy);
  if (isLast || length === 0) add(ux, uy);
  return spots;
}

function geometric(what: string): Harm {
  return { kind: 'geometric', what };
}

function harmAt(good: Good, damaged: Damaged, spot: Spot, slack: number): Harm | null {
  const { intent } = good;
  const { x, y } = spot;
  if (!contains(good.stock, x, y)) return null;
  const top = surfaceAt(intent.stock.top, x, y);
  const now = Math.min(top, cutTo(damaged.cutting, x, y, damaged.steps.length));
  const was = Math.min(top, cutTo(good.cutting, x, y, good.cutting.steps.length));
  if (Math.abs(now - was) <= 1e-6) return null;
  const place = `at ${x.toFixed(3)}, ${y.toFixed(3)}`;
  let isAllowed = now >= top || now >= was - slack;
  for (const meant of good.meant) {
    const found =
      meant.ring === null ? byRegion(good, meant, spot, now, slack) : byRing(good, meant, x, y, now, slack);
    if (found === 'allowed') isAllowed = true;
    else if (found !== null) return geometric(`${meant.cut.id}: ${found} ${place}`);
  }
  return isAllowed ? null : geometric(`cut to ${now.toFixed(3)} where ${was.toFixed(3)} was meant ${place}`);
}

/** Null when the place is none of this cut's business. */
function byRegion(good: Good, meant: Meant, spot: Spot, now: number, slack: number): string | null {
  const { cut, region, may, remain } = meant;
  const { x, y } = spot;
  if (region === null) return null;
  const inside = contains(region, x, y);
  if (!inside && !(may !== null && contains(may, x, y))) return null;
  const { tolerance, through } = cut;
  const floor = through ? good.intent.stock.bottom : surfaceAt(cut.floor, x, y);
  if (!through && now < floor - tolerance.floorDeep - slack) return `${(floor - now).toFixed(4)} too deep`;
  const mayStay = !inside || (remain !== null && contains(remain, x, y));
  const reached = through ? floor : reachedFloor(good, cut.floor, spot) + tolerance.floorShallow;
  if (!mayStay && now > reached + slack) return `${(now - floor).toFixed(4)} left on the floor`;
  return 'allowed';
}

/**
 * A round cutter reaches less far along near its edge: as low as it may go with its outer edge on the floor, it leaves a sloping
 * floor higher beside the wall than in the middle.
 */
function reachedFloor({ cutting }: Good, floor: Surface, { x, y, aside }: Spot): number {
  if (cutting.isBall) return surfaceAt(floor, x, y);
  const lost = cutting.radius - Math.sqrt(Math.max(0, cutting.radius ** 2 - aside ** 2));
  return surfaceAt(floor, x, Math.sign(y) * Math.max(0, Math.abs(y) - lost));
}

function byRing(good: Good, meant: Meant, x: number, y: number, now: number, slack: number): string | null {
  const { ring, cut, keepsInside } = meant;
  if (ring === null || contains(ring, x, y) === keepsInside) return null;
  const { radius } = good.cutting;
  if (!isInBox(ring.box, x, y, 3 * radius + slack)) return null;
  const { distance, ux, uy } = nearestEdge(ring, x, y);
  // The waste beside an outline: the path may stand off by a cutter's width, as it does at a sharp corner.
  if (distance > 3 * radius + slack) return null;
  const { bottom, skin } = floorOf(good, cut, x, y);
  if (skin !== null && distance <= 2 * radius && now < bottom - skin.thinner - slack)
    return `${(bottom - now).toFixed(3)} of the skin cut away`;
  let inReach = false;
  for (const tab of cut.tabs) {
    const along = Math.abs((x - tab.at[0]) * ux + (y - tab.at[1]) * uy);
    if (Math.hypot(x - tab.at[0], y - tab.at[1]) > tab.length + 2 * radius + tab.height * TAB_SLOPE) continue;
    // A tab bridges what the cutter clears beside the part; farther off may lie what was cleared about the next part.
    const isTab = distance <= 2 * radius && along <= tab.length / 2 - TAB_ENDS - slack;
    if (isTab && now < bottom + tab.height - TAB_HEIGHT - slack)
      return `a tab ${(now - bottom).toFixed(3)} high`;
    if (along <= tab.length / 2 + radius + tab.height * TAB_SLOPE + slack) inReach = true;
  }
  const mustGo = !inReach && distance <= 1.01 * radius;
  return mustGo && now > bottom + (skin?.thicker ?? 0) + slack
    ? `${(now - bottom).toFixed(3)} left beside the part`
    : 'allowed';
}

/** How far down an outline goes: through the stock, or to the skin that holds the part, by how much that may be off. */
function floorOf(
  { intent }: Good,
  { through, floor, tolerance }: Meant['cut'],
  x: number,
  y: number,
): { bottom: number; skin: { thinner: number; thicker: number } | null } {
  if (through) return { bottom: intent.stock.bottom, skin: null };
  const skin = { thinner: tolerance.floorDeep, thicker: tolerance.floorShallow };
  return { bottom: surfaceAt(floor, x, y), skin };
}

function isInBox(box: Box, x: number, y: number, gap: number): boolean {
  return x >= box.x0 - gap && x <= box.x1 + gap && y >= box.y0 - gap && y <= box.y1 + gap;
}
