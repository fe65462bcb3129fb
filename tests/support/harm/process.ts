/** Cut in a way that tool, wood or machine does not bear. */
import type { Intent } from '../../../src/intent/types.ts';
import type { Step } from '../machine/types.ts';
import { type Dive, dive, isSteep, newDive } from './dive.ts';
import { type Box, boxOf, placeAt, planLength } from './reach.ts';
import { contains, nearestEdge } from './shape.ts';
import type { Damaged, Good, Harm } from './types.ts';
import { endAt, surfaceAt, woodAt } from './wood.ts';

/** F and S words are written in whole numbers. */
const ROUNDING = 0.5;
/** A way down shorter than this is the rounding of an arc's end, mm. */
const LOST_IN_ROUNDING = 0.003;
/** A bite may exceed its limit by this, mm. */
const BITE = 0.001;
/** So many steps before the first that differs a plunge is looked for. */
const BEFORE = 20;
/** A flat cutter goes straight down into wood by no more than this, mm. */
const PLUNGE = 0.05;

function process(step: Step, what: string): Harm {
  return { kind: 'process', what: `line ${step.line}: ${what}` };
}

/** Whether the step goes below the top of the stock, over the stock. */
export function isInWood(good: Good, step: Step): boolean {
  const { top } = good.intent.stock;
  const highest = top.kind === 'cone' ? top.crest - top.below : top.z;
  return (
    Math.min(step.z0, step.z1) < highest - 1e-6 && meets(boxOf(step, good.cutting.radius), good.stock.box)
  );
}

function meets(a: Box, b: Box): boolean {
  return a.x0 <= b.x1 && a.x1 >= b.x0 && a.y0 <= b.y1 && a.y1 >= b.y0;
}

/** Speeds, feeds and modes of every cut; how long the spindle has turned at its speed before. */
export function harmInModes(good: Good, steps: readonly Step[]): Harm | null {
  for (const step of steps) {
    if (step.rapid || !isInWood(good, step)) continue;
    const harm = speedHarm(good, step) ?? feedHarm(good, step);
    if (harm !== null) return harm;
    if (step.stood < good.stood - 0.05) return process(step, `cut after ${step.stood} s of ${good.stood} s`);
  }
  return null;
}

function speedHarm({ intent }: Good, step: Step): Harm | null {
  const { speed } = step;
  if (speed === 0) return process(step, 'spindle off in wood');
  if (speed < 0) return process(step, 'spindle turns backward in wood');
  const good = isWithin(speed, intent.limits.spindle) && isWithin(speed, intent.machine.spindle);
  return good ? null : process(step, `S ${speed}`);
}

function feedHarm({ intent }: Good, step: Step): Harm | null {
  const { limits, machine } = intent;
  const { feed } = step;
  const slowest = Math.min(limits.feed[0], limits.plungeFeed);
  if (!isWithin(feed, [slowest, limits.feed[1]])) return process(step, `F ${feed}`);
  const down = downwardShare(step) * feed;
  if (down > limits.plungeFeed + ROUNDING) return process(step, `${down.toFixed(1)} mm/min downward`);
  const rounds = machine.path === 'exact' && machine.understands.exactPath && !step.exact;
  return rounds ? process(step, 'corners may be rounded') : null;
}

function isWithin(value: number, [low, high]: readonly [number, number]): boolean {
  return value >= low - ROUNDING && value <= high + ROUNDING;
}

/** Steepest share of the way that goes down. */
function downwardShare(step: Step): number {
  if (!(step.z1 < step.z0)) return 0;
  let most = 0;
  const looks = step.shape === 'line' || step.shape === 'flat arc' ? 1 : 16;
  for (let k = 0; k < looks; k += 1) {
    const [a, b] = [placeAt(step, k / looks), placeAt(step, (k + 1) / looks)];
    if (a.z - b.z < LOST_IN_ROUNDING) continue;
    const plan = looks === 1 ? planLength(step) : Math.hypot(b.x - a.x, b.y - a.y);
    most = Math.max(most, (a.z - b.z) / Math.hypot(plan, a.z - b.z));
  }
  return most;
}

/** The machine's travel and what stands on its bed. */
export function harmOnBed(good: Good, steps: readonly Step[], slack: number): Harm | null {
  const { machine, tool } = good.intent;
  const { envelope } = machine;
  for (const step of steps) {
    const box = boxOf(step, 0);
    const out = Math.max(
      envelope.x[0] - box.x0,
      box.x1 - envelope.x[1],
      envelope.y[0] - box.y0,
      box.y1 - envelope.y[1],
      ...(tool.kind === 'beam'
        ? []
        : [envelope.z[0] - Math.min(step.z0, step.z1), Math.max(step.z0, step.z1) - envelope.z[1]]),
    );
    if (out > slack) return process(step, `${out.toFixed(3)} mm out of the machine's travel`);
    const hit = good.keepOuts.find(
      (k) => Math.min(step.z0, step.z1) < k.top && entersRegion(good, step, k.shape),
    );
    if (hit !== undefined) return process(step, 'into a clamp');
  }
  return null;
}

function entersRegion(good: Good, step: Step, shape: Good['stock']): boolean {
  if (!meets(boxOf(step, good.cutting.radius), shape.box)) return false;
  return pathsOf(good.intent, step).some((path) =>
    path.some(([x, y]) => contains(shape, x, y) || nearestEdge(shape, x, y).distance < good.cutting.radius),
  );
}

type Place = readonly [number, number, number];

/** The ways a step may take: a rapid's axes may run one after another. Places every 0.3 mm. */
function pathsOf(intent: Intent, step: Step): Place[][] {
  const straight = along(step);
  if (!step.rapid || intent.machine.rapid === 'straight') return [straight];
  const from: Place = [step.x0, step.y0, step.z0];
  const to: Place = [step.x1, step.y1, step.z1];
  const low = Math.min(step.z0, step.z1);
  const byX: Place[] = [from, [from[0], from[1], low], [to[0], from[1], low], [to[0], to[1], low], to];
  const byY: Place[] = [from, [from[0], from[1], low], [from[0], to[1], low], [to[0], to[1], low], to];
  return [straight, between(byX), between(byY)];
}

const EVERY = 0.3;

function along(step: Step): Place[] {
  const length = Math.hypot(planLength(step), step.z1 - step.z0);
  const count = Math.max(1, Math.min(4000, Math.ceil(length / EVERY)));
  return Array.from({ length: count + 1 }, (_, k) => {
    const { x, y, z } = placeAt(step, k / count);
    return [x, y, z] as const;
  });
}

function between(corners: readonly Place[]): Place[] {
  return corners.slice(1).flatMap((to, i) => {
    const from = corners[i] ?? to;
    const count = Math.max(
      1,
      Math.min(4000, Math.ceil(Math.hypot(to[0] - from[0], to[1] - from[1], to[2] - from[2]) / EVERY)),
    );
    return Array.from({ length: count + 1 }, (_, k): Place => {
      const t = k / count;
      return [
        from[0] + (to[0] - from[0]) * t,
        from[1] + (to[1] - from[1]) * t,
        from[2] + (to[2] - from[2]) * t,
      ];
    });
  });
}

/** Rapids that meet wood which still stands. */
export function harmByRapids(good: Good, damaged: Damaged, slack: number): Harm | null {
  const { steps } = damaged;
  for (let i = 0; i < steps.length; i += 1) {
    const step = steps[i];
    if (step === undefined || !step.rapid || !isInWood(good, step)) continue;
    if (step.x0 === step.x1 && step.y0 === step.y1 && step.z1 >= step.z0) continue;
    if (
      pathsOf(good.intent, step).some((path) =>
        path.some((place) => meetsWood(good, damaged, place, i, slack)),
      )
    )
      return process(step, 'a rapid through wood');
  }
  return null;
}

function meetsWood(good: Good, damaged: Damaged, [x, y, z]: Place, before: number, slack: number): boolean {
  const { radius, lift } = damaged.cutting;
  const spots = lift > 0 ? [0] : [0, 0.5, 0.95];
  return spots.some((share) =>
    (share === 0 ? [0] : [0, 1, 2, 3, 4, 5, 6, 7]).some((k) => {
      const angle = (k * Math.PI) / 4;
      const [px, py] = [x + share * radius * Math.cos(angle), y + share * radius * Math.sin(angle)];
      const end = z + lift + endAt(damaged.cutting, share * radius);
      return woodAt(good.intent, good.stock, damaged.cutting, px, py, before) > end + slack;
    }),
  );
}

/** Bites deeper than the plan allows, straight plunges and a cutter that is too short, where something differs. */
export function harmByBites(good: Good, damaged: Damaged, slack: number): Harm | null {
  const { steps, head, tail } = damaged;
  const boxes = boxesOfChanges(good, damaged);
  const all = boxes.reduce(joined, NOWHERE);
  const state = newDive();
  // A plunge may have begun before the first step that differs.
  for (let i = Math.max(0, head - BEFORE); i < steps.length; i += 1) {
    const step = steps[i];
    if (step === undefined) continue;
    if (i < head) {
      dive(good.intent, state, step, isSteep(step) ? biteAt(good, damaged, step, 1, i) : 0);
      continue;
    }
    if (step.rapid || !isInWood(good, step)) {
      dive(good.intent, state, step, 0);
      continue;
    }
    const box = boxOf(step, 2 * good.cutting.radius);
    const isChanged = i < steps.length - tail;
    if (!isChanged && !(meets(all, box) && boxes.some((changed) => meets(changed, box)))) continue;
    const harm = biteHarm(good, damaged, step, i, slack) ?? diveHarm(good, damaged, state, step, i, slack);
    if (harm !== null) return harm;
  }
  return null;
}

/** Short plunges one below the other are one long one. */
function diveHarm(
  good: Good,
  damaged: Damaged,
  state: Dive,
  step: Step,
  i: number,
  slack: number,
): Harm | null {
  const { limits, tool } = good.intent;
  const depth = dive(good.intent, state, step, isSteep(step) ? biteAt(good, damaged, step, 1, i) : 0);
  if (!isSteep(step)) return null;
  if (depth > limits.stepDown + BITE + slack) return process(step, `a plunge of ${depth.toFixed(4)}`);
  return tool.kind === 'flat' && depth > PLUNGE + slack
    ? process(step, `straight down ${depth.toFixed(3)} in several`)
    : null;
}

const NOWHERE: Box = { x0: Infinity, y0: Infinity, x1: -Infinity, y1: -Infinity };

function joined(a: Box, b: Box): Box {
  return {
    x0: Math.min(a.x0, b.x0),
    y0: Math.min(a.y0, b.y0),
    x1: Math.max(a.x1, b.x1),
    y1: Math.max(a.y1, b.y1),
  };
}

function boxesOfChanges({ cutting }: Good, { steps, head, tail }: Damaged): Box[] {
  const now = steps.slice(head, steps.length - tail);
  const before = cutting.steps.slice(head, cutting.steps.length - tail);
  // A rapid that is straight up or down may have been what ended a plunge.
  return [...now, ...before]
    .filter((step) => !step.rapid || planLength(step) === 0)
    .map((step) => boxOf(step, cutting.radius));
}

function biteHarm(good: Good, damaged: Damaged, step: Step, i: number, slack: number): Harm | null {
  const { limits, stock, tool } = good.intent;
  const { radius } = damaged.cutting;
  const looks = Math.max(1, Math.min(200, Math.ceil(planLength(step) / (2 * radius))));
  const steep = isSteep(step);
  for (let k = 0; k <= looks; k += 1) {
    const { x, y, z } = placeAt(step, k / looks);
    const bite = biteAt(good, damaged, step, k / looks, i);
    if (bite > limits.stepDown + BITE + slack) return process(step, `a bite of ${bite.toFixed(4)}`);
    if (steep && tool.kind === 'flat' && bite > PLUNGE + slack)
      return process(step, `straight down ${bite.toFixed(3)}`);
    const depth = surfaceAt(stock.top, x, y) - z - damaged.cutting.lift;
    if (depth > tool.cutLength + slack)
      return process(step, `${depth.toFixed(3)} deep, the cutter is too short`);
  }
  return null;
}

/** How deep the tool bites at `t` of a step into what the steps before it left: in its middle, ahead and to both sides. */
function biteAt(good: Good, damaged: Damaged, step: Step, t: number, i: number): number {
  const { x, y, z } = placeAt(step, t);
  const { radius, lift } = damaged.cutting;
  const bite = (px: number, py: number): number =>
    woodAt(good.intent, good.stock, damaged.cutting, px, py, i) -
    z -
    lift -
    endAt(damaged.cutting, Math.hypot(px - x, py - y));
  if (good.intent.tool.kind === 'drill') return bite(x, y);
  const nudge = t < 0.5 ? 1e-3 : -1e-3;
  const next = placeAt(step, t + nudge);
  const heading = Math.atan2((next.y - y) * Math.sign(nudge), (next.x - x) * Math.sign(nudge));
  const plunges = planLength(step) === 0;
  let most = bite(x, y);
  for (let k = plunges ? -4 : -2; k <= (plunges ? 3 : 2); k += 1) {
    const angle = heading + (k * Math.PI) / 4;
    most = Math.max(most, bite(x + 0.7 * radius * Math.cos(angle), y + 0.7 * radius * Math.sin(angle)));
  }
  return most;
}
