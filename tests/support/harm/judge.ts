/** The judge: what a damaged program does, held against what the good one does and what was meant. */
import type { Intent } from '../../../src/intent/types.ts';
import { runProgram } from '../machine/run.ts';
import { type Left, type Run, type Step, TIDY, UNTIDY } from '../machine/types.ts';
import { harmInBeam, harmInBurns } from './beam.ts';
import { harmInPlace } from './located.ts';
import { harmInLook, isLook } from './look.ts';
import { harmByBites, harmByRapids, harmInModes, harmOnBed, isInWood } from './process.ts';
import { harmInWood } from './removal.ts';
import { areaOf, shapeOf } from './shape.ts';
import { type Damaged, type Good, type Harm, type Meant, SLACK } from './types.ts';
import { type Cutting, cuttingLike, cuttingOf } from './wood.ts';

/** Everything that stays the same for all damages of one program. */
export function goodOf(text: string, intent: Intent): Good {
  const run = runProgram(text, tidy(intent));
  if (run.stopped !== null) throw new Error(`${intent.program}: ${run.stopped}`);
  const bare: Good = {
    intent,
    text,
    stock: shapeOf(intent.stock.region),
    meant: intent.cuts.map(meantBy),
    cutting: cuttingFor(run.steps, intent),
    keepOuts: intent.keepOuts.map((k) => ({ shape: shapeOf(k.region), top: k.z[1] })),
    stood: 0,
    pauses: run.pauses,
  };
  const first = run.steps.find(
    (step) => !step.rapid && (intent.tool.kind === 'beam' || isInWood(bare, step)),
  );
  return { ...bare, stood: first?.stood ?? 0 };
}

function meantBy(cut: Intent['cuts'][number]): Meant {
  const ring = cut.keep === null ? null : shapeOf(cut.keep);
  return {
    cut,
    region: cut.region === null ? null : shapeOf(cut.region),
    may: cut.mayCut === null ? null : shapeOf(cut.mayCut.region),
    remain: cut.mayRemain === null ? null : shapeOf(cut.mayRemain.region),
    ring,
    keepsInside: ring !== null && areaOf(ring) > 0,
  };
}

function cuttingFor(steps: readonly Step[], { tool }: Intent): Cutting {
  const radius = (tool.kind === 'beam' ? (tool.kerf ?? tool.diameter) : tool.diameter) / 2;
  const tip =
    tool.tipAngle === null || tool.kind !== 'drill' ? 0 : radius / Math.tan((tool.tipAngle * Math.PI) / 360);
  return cuttingOf(steps, radius, tip, tool.kind === 'ball');
}

/** How a machine stands that was left as it should be. */
export function tidy(intent: Intent): Left {
  const { dwellUnit, lengthOffset } = intent.machine.understands;
  const highest = Math.min(intent.limits.clearHeight + 10, intent.machine.envelope.z[1]);
  const known = { dwell: dwellUnit === 'milliseconds' ? 0.001 : 1 };
  return { ...TIDY, ...known, lengthOf: lengthOffset === 'G43' ? -1 : 0, at: [1.5, 1.25, highest] };
}

/** The tool stands in the middle of the wood, and every mode is another. */
export function untidy(intent: Intent, { box }: Good['stock']): Left {
  const { lengthOffset } = intent.machine.understands;
  const low = intent.stock.bottom / 2;
  return {
    ...tidy(intent),
    ...UNTIDY,
    lengthOf: lengthOffset === 'none' ? 0 : -1,
    at: [(box.x0 + box.x1) / 2 + 0.123, (box.y0 + box.y1) / 2 + 0.321, low],
  };
}

/**
 * The harm a damaged text does, or null. `slack`: how far beyond its tolerance a figure must be to count, mm; larger ones
 * tell how bad a harm is.
 */
export function harmOf(good: Good, text: string, slack: number = SLACK): Harm | null {
  const run = runProgram(text, tidy(good.intent));
  const control = harmInControl(good, run) ?? harmFromState(good, text, run);
  if (control !== null) return control;
  if (isLook(good)) return harmOnBed(good, run.steps, slack) ?? harmInLook(good, run, slack);
  const fresh = freshSteps(good, run.steps);
  const damaged = lineUp(good, run.steps);
  const onBed = harmOnBed(good, fresh, slack);
  if (good.intent.tool.kind === 'beam') {
    return harmInBeam(good, fresh) ?? onBed ?? harmInPauses(good, run) ?? harmInBurns(good, damaged, slack);
  }
  return harmInModes(good, fresh) ?? onBed ?? harmOfShape(good, damaged, slack);
}

/** The harm of the good program itself, with every step looked at as if it were new; null unless the judge is wrong. */
export function harmOfGood(good: Good): Harm | null {
  if (isLook(good)) return harmOf(good, good.text);
  const { steps } = good.cutting;
  const nothing: Good = { ...good, cutting: { ...good.cutting, steps: [] } };
  const damaged = { steps, head: 0, tail: 0, cutting: good.cutting };
  return (
    harmOf(good, good.text) ??
    (good.intent.tool.kind === 'beam'
      ? harmInBurns(good, damaged, SLACK)
      : harmOfShape(nothing, damaged, SLACK))
  );
}

/** What another cutter than the one meant would do with the good program. */
export function harmOfTool(good: Good, intent: Intent, slack: number = SLACK): Harm | null {
  if (isLook(good)) return null;
  const { steps } = good.cutting;
  const cutting = cuttingFor(steps, intent);
  if (intent.tool.kind === 'beam') return harmOfKerf(good, cutting.radius, slack);
  return harmInWood(good, { steps, head: 0, tail: 0, cutting }, slack);
}

/** A kerf of another width moves every outline by half the difference; a marked line stays where it is. */
function harmOfKerf({ meant, cutting }: Good, radius: number, slack: number): Harm | null {
  const off = Math.abs(radius - cutting.radius);
  const hurt = meant.find(({ ring, cut }) => ring !== null && off > cut.tolerance.wallOver + slack);
  return hurt === undefined ? null : { kind: 'geometric', what: `${hurt.cut.id}: off by ${off.toFixed(4)}` };
}

function harmOfShape(good: Good, damaged: Damaged, slack: number): Harm | null {
  return (
    harmInWood(good, damaged, slack) ??
    harmInPlace(good, damaged, slack) ??
    harmByRapids(good, damaged, slack) ??
    harmByBites(good, damaged, slack)
  );
}

function control(what: string): Harm {
  return { kind: 'control', what };
}

/** A program ends within this of the place its intent names, mm. */
const AT_PLACE = 0.001;

function harmInControl(good: Good, run: Run): Harm | null {
  const { intent } = good;
  const isBeam = intent.tool.kind === 'beam';
  if (run.stopped !== null) return control(run.stopped);
  if (!run.ended) return control('no end');
  if (run.speed !== 0) return control('still on at the end');
  if (good.manyTools !== true && run.toolsNamed.some((tool) => tool !== intent.tool.id))
    return control(`tool ${run.toolsNamed.join(', ')}`);
  const off = run.at.map((value, k) =>
    isBeam && k === 2 ? 0 : Math.abs(value - (intent.end.position[k] ?? Number.NaN)),
  );
  if (!(Math.max(...off) <= AT_PLACE + SLACK)) return control(`ends at ${run.at.join(', ')}`);
  const { workOffset, lengthOffset } = intent.machine.understands;
  const offset = Number((workOffset ?? 'G54').slice(1));
  const length = lengthOffset === 'G43' ? intent.tool.id : 0;
  const other = run.steps.find((step) => step.offset !== offset || step.lengthOf !== length);
  return other === undefined ? null : control(`line ${other.line}: another origin`);
}

/** From another state the same must come out, and the first steps must meet no wood. */
function harmFromState(good: Good, text: string, run: Run): Harm | null {
  const left = untidy(good.intent, good.stock);
  const start = tidy(good.intent).at;
  const other = runProgram(text, left);
  if (other.stopped !== null) return control(`as the machine was left: ${other.stopped}`);
  const differs = run.steps.findIndex((step, k) => !isSameFrom(step, start, other.steps[k], left.at));
  if (differs >= 0 || other.steps.length !== run.steps.length)
    return control('depends on how the machine was left');
  if (good.intent.tool.kind === 'beam') return null;
  const unplaced = other.steps.findIndex((step) => step.x0 !== left.at[0] && step.y0 !== left.at[1]);
  const steps = other.steps.slice(0, Math.max(0, unplaced));
  return harmByRapids(
    good,
    { steps, head: 0, tail: 0, cutting: { ...good.cutting, steps: [], loose: null } },
    SLACK,
  );
}

/** The same step, but for axes that still stand where the machine was left. */
function isSameFrom(a: Step, startA: Left['at'], b: Step | undefined, startB: Left['at']): boolean {
  if (b === undefined || a.rapid !== b.rapid || a.shape !== b.shape || a.lengthOf !== b.lengthOf)
    return false;
  if (a.speed !== b.speed || a.exact !== b.exact || a.offset !== b.offset) return false;
  if (Math.abs(a.feed - b.feed) > 1e-6) return false;
  const isPlaced = (p: number, q: number, k: 0 | 1 | 2): boolean =>
    Math.abs(p - q) < 1e-6 || (p === startA[k] && q === startB[k]);
  return isPlaced(a.x1, b.x1, 0) && isPlaced(a.y1, b.y1, 1) && isPlaced(a.z1, b.z1, 2);
}

/** Standing still with the beam on burns a hole; so long as meant and where meant it pierces. */
function harmInPauses(good: Good, run: Run): Harm | null {
  const burning = run.pauses.filter((pause) => pause.speed !== 0);
  const meant = good.pauses.filter((pause) => pause.speed !== 0);
  const isSame =
    burning.length === meant.length &&
    burning.every(
      (pause, k) => Math.abs(pause.seconds - (meant[k]?.seconds ?? 0)) <= 0.1 * pause.seconds + 0.01,
    );
  return isSame ? null : { kind: 'process', what: 'the beam stands still otherwise than meant' };
}

function lineUp(good: Good, steps: readonly Step[]): Damaged {
  const isBeam = good.intent.tool.kind === 'beam';
  const { head, tail } = ends(
    good.cutting.steps,
    steps,
    (a, b) => isSameWay(a, b) && (!isBeam || isSameWork(a, b)),
  );
  return { steps, head, tail, cutting: cuttingLike(good.cutting, steps, head, tail) };
}

/** The steps that differ in any way from those of the good program. */
function freshSteps(good: Good, steps: readonly Step[]): readonly Step[] {
  const { head, tail } = ends(good.cutting.steps, steps, (a, b) => isSameWay(a, b) && isSameWork(a, b));
  return steps.slice(head, steps.length - tail);
}

/** How many steps at the start and at the end are the same. */
function ends(
  before: readonly Step[],
  now: readonly Step[],
  isSame: (a: Step, b: Step) => boolean,
): { head: number; tail: number } {
  const most = Math.min(before.length, now.length);
  const same = (i: number, j: number): boolean => {
    const [a, b] = [before[i], now[j]];
    return a !== undefined && b !== undefined && isSame(a, b);
  };
  let head = 0;
  while (head < most && same(head, head)) head += 1;
  let tail = 0;
  while (tail < most - head && same(before.length - 1 - tail, now.length - 1 - tail)) tail += 1;
  return { head, tail };
}

function isSameWork(a: Step, b: Step): boolean {
  return a.feed === b.feed && a.speed === b.speed && a.exact === b.exact && a.stood === b.stood;
}

function isSameWay(a: Step, b: Step): boolean {
  return (
    a.rapid === b.rapid &&
    a.shape === b.shape &&
    a.x0 === b.x0 &&
    a.y0 === b.y0 &&
    a.z0 === b.z0 &&
    a.x1 === b.x1 &&
    a.y1 === b.y1 &&
    a.z1 === b.z1 &&
    a.ca === b.ca &&
    a.cb === b.cb &&
    a.turn === b.turn
  );
}
