import { coneHeight, coneRadius } from '../geometry/coneSurface.ts';
import type { Cone, SurfaceFeature, Top } from '../parts/types.ts';
import type { Tool } from '../profile/types.ts';
import type { Finding } from '../report/finding.ts';
import { stepOf } from '../units/step.ts';
import type { Place, Planned, ToolWork } from './features.ts';
import { chooseFeeds } from './feeds.ts';
import { planedTop, planPlaning } from './planing.ts';
import { shiftTop, workedSetup } from './setup.ts';
import { noTool, type ToolNeed, toolsFor } from './tools.ts';
import type { FinishSurfaceOperation, RoughSurfaceOperation, Setup } from './types.ts';

/** The last passes go on past the board's ends by this, into waste. */
const PAST_END = 1;
/** Between the last cutter, where it turns, and the wood that stays at the blank's ends. */
const CLEAR_OF_LAND = 0.05;
/** Flat land left at each end of the blank: for clamps, and to touch Z off on when the middle is gone. */
const LEAST_LAND = 3;
/** Highest step between two level passes of the flat cutter (common practice, no source). */
const HIGHEST_STEP = 0.5;
/** Below this a step is hardly more than the rounding of the text. */
const LEAST_STEP = 0.05;
/** Thicker cutters ask more of a small machine than the work is worth (common practice, no source). */
const THICKEST = 12.7;
/** Room for the flat cutter's scatter and the rounding of the text, in what it may leave. */
const ROUGH_SLACK = 0.01;

/** Passes are set for ridges of this share of the height allowed: room for bounds. */
const CUSP_AIM = 0.95;
/** Lower ridges than this are not aimed at: passes would lie next to each other. */
const LEAST_AIM = 0.001;

type Radiused = SurfaceFeature & { readonly floor: Cone };

/** What the feature needs of its two tools, and how deep. */
interface Choice {
  readonly feature: Radiused;
  readonly floor: Cone;
  readonly deepest: number;
  readonly flat: Tool;
  /** For the last passes: a ball, or a flat one. */
  readonly last: Tool;
}

/**
 * A board's top: level passes by a flat cutter down to a stated allowance, then long passes by a ball cutter or a flat one. Where a
 * level pass would take less than the last cutter may, that one works alone.
 */
export function planSurfaces(features: readonly SurfaceFeature[], place: Place): Planned {
  const [feature, ...more] = features;
  if (feature === undefined || more.length > 0) throw new Error(`${features.length} surfaces on one part`);
  if (feature.floor.kind === 'plane') return planPlaning(feature, feature.floor.z, place);
  const radiused = { ...feature, floor: feature.floor };
  const floor = shiftTop(radiused.floor, place.setup.shift);
  const deepest = -lowestOn(radiused);
  const needs = [need('flat', deepest, place), need(place.shop.surfacing.finish, deepest, place)];
  const [flat, last] = needs.map((n) => toolsFor(n, place.router, place.shop)[0]);
  if (flat === undefined || last === undefined) {
    const missing = needs.filter(
      (n, i) => [flat, last][i] === undefined && needs[i - 1]?.kinds[0] !== n.kinds[0],
    );
    return { findings: missing.map((n) => noTool(n, place.router, place.shop)) };
  }
  const choice = { feature: radiused, floor, deepest, flat, last };
  const findings = [...landFindings(choice, place), ...cuspFindings(place), ...stepFindings(choice, place)];
  return findings.length > 0 ? { findings } : stages(choice, place);
}

function need(kind: 'flat' | 'ball', deepest: number, place: Place): ToolNeed {
  return {
    what: `the radius of ${place.part.title.toLowerCase()}`,
    kinds: [kind],
    least: 1,
    most: THICKEST,
    reach: deepest,
    // What it leaves is measured from above, not at a wall.
    noWalls: true,
  };
}

/** Lowest place of a floor within the feature: at its edges, where the radius is least. */
function lowestOn({ floor, box }: Radiused): number {
  const edge = Math.max(...box.y.map(Math.abs));
  return Math.min(...box.x.map((x) => coneHeight(floor, x, edge)));
}

/**
 * How much more a level pass leaves on a cone than on a cylinder: it clears outside a straight line, and the places where the floor
 * meets the level, |y| = sqrt(2 R f), bow away from it by the share 2 sqrt(mean R) / (sqrt R0 + sqrt R1) - 1 of |y| at most.
 */
function leftOnCone({ floor, box }: Radiused): number {
  const edge = Math.max(...box.y.map(Math.abs));
  const [from, to] = box.x.map((x) => coneRadius(floor, x));
  if (from === undefined || to === undefined || from === to) return 0;
  const share = (2 * Math.sqrt((from + to) / 2)) / (Math.sqrt(from) + Math.sqrt(to)) - 1;
  const least = Math.min(from, to);
  return (2 * share * edge * edge) / Math.sqrt(least * least - edge * edge);
}

/** How far past the board's ends wood is cleared. */
function runOutOf(last: Tool): number {
  return PAST_END + (last.diameter + last.tolerance) / 2 + CLEAR_OF_LAND;
}

function landFindings({ feature, last }: Choice, { part }: Place): Finding[] {
  const end = Math.min(feature.box.x[0] - part.blank.box.x[0], part.blank.box.x[1] - feature.box.x[1]);
  const least = runOutOf(last) + LEAST_LAND;
  if (end >= least) return [];
  return [
    {
      code: 'no-land-at-ends',
      severity: 'error',
      where: { source: 'shop', path: 'allowances.ends' },
      text: `Working the radius with ${last.name} clears ${runOutOf(last).toFixed(2)} mm past the board’s ends and leaves ${(end - runOutOf(last)).toFixed(2)} mm of flat blank there, too little to clamp and to touch off on.`,
      allowed: `at least ${least.toFixed(2)} mm`,
      remedy:
        'leave more waste at the ends, take a thinner cutter for the last passes, or let the hand do this work (work: in the shop file)',
    },
  ];
}

/** A share of what is allowed, less what the last digit of a height can change. */
function aimFor(cusp: number, { router: { controller } }: Place): number {
  return CUSP_AIM * cusp - stepOf(controller.units, controller.decimals);
}

function cuspFindings(place: Place): Finding[] {
  const { cusp } = place.shop.surfacing;
  if (aimFor(cusp, place) >= LEAST_AIM) return [];
  const { units, decimals } = place.router.controller;
  const least = (LEAST_AIM + stepOf(units, decimals)) / CUSP_AIM;
  return [
    {
      code: 'ridges-finer-than-text',
      severity: 'error',
      where: { source: 'shop', path: 'surfacing.cusp' },
      text: `Ridges of ${cusp} mm are finer than ${place.router.name} is told heights: ${decimals} digits after the point, in ${units}.`,
      allowed: `at least ${(Math.ceil(least * 1000) / 1000).toFixed(3)} mm`,
      remedy: 'allow higher ridges, or write more digits (controller.decimals) if the control reads them',
    },
  ];
}

/** A level pass lies out by this much for other reasons than its tool: rounding, and the bow of a cone. Millimetres. */
const OUT_BESIDES = 0.02;

/** A flat cutter whose diameter is not known well leaves more than its steps: half the ridge must be left for them. */
function stepFindings({ feature, last }: Choice, place: Place): Finding[] {
  if (last.kind !== 'flat') return [];
  const edge = Math.max(...feature.box.y.map(Math.abs));
  const radius = Math.min(...feature.box.x.map((x) => coneRadius(feature.floor, x)));
  const slope = edge / Math.sqrt(radius * radius - edge * edge);
  const lost = slope * (last.tolerance / 2 + OUT_BESIDES);
  const { cusp } = place.shop.surfacing;
  if (aimFor(cusp, place) >= 2 * lost) return [];
  return [
    {
      code: 'ridges-finer-than-cutter',
      severity: 'error',
      where: { source: 'shop', path: 'surfacing.cusp' },
      text: `Ridges of ${cusp} mm are finer than level passes of ${last.name} can be set: it is known to +/- ${last.tolerance} mm, and the board falls away by ${slope.toFixed(3)} for each mm at its edge.`,
      allowed: `at least ${(Math.ceil(((2 * lost) / CUSP_AIM + 0.001) * 1000) / 1000).toFixed(3)} mm`,
      remedy: 'allow higher ridges, or let a ball cutter make the last passes (surfacing: finish: ball)',
    },
  ];
}

function stages(choice: Choice, place: Place): Planned {
  const { allowance, cusp } = place.shop.surfacing;
  const { feature, floor, deepest, flat, last } = choice;
  const bite = chooseFeeds(last, place.part.materialClass, place.router).stepDown;
  const flatStep = chooseFeeds(flat, place.part.materialClass, place.router).stepDown;
  const bow = leftOnCone(feature);
  const step = Math.min(HIGHEST_STEP, flatStep, bite - allowance - bow - 2 * ROUGH_SLACK);
  const alone = deepest <= Math.min(bite, allowance + HIGHEST_STEP);
  if (!alone && step < LEAST_STEP) return { findings: [lastTooWeak(choice, bite, place)] };
  const base = { box: shiftBox(choice, place), floor, runOut: runOutOf(last) };
  const finish: FinishSurfaceOperation = {
    id: feature.id,
    feature: feature.id,
    kind: 'finish surface',
    ...base,
    past: PAST_END,
    cusp,
    aim: aimFor(cusp, place),
  };
  if (alone) return { work: [stage(last, finish, 'finish', place.setup)] };
  const rough: RoughSurfaceOperation = {
    id: `rough-${feature.id}`,
    feature: `rough-${feature.id}`,
    kind: 'rough surface',
    ...base,
    allowance,
    step,
    left: step + bow + ROUGH_SLACK,
  };
  const x = [base.box.x[0] - base.runOut, base.box.x[1] + base.runOut] as const;
  const cone = { ...floor, below: floor.below - allowance - rough.left };
  const roughed: Top = { kind: 'worked', z: 0, x, cone };
  return {
    work: [
      stage(flat, rough, 'rough', place.setup),
      stage(last, finish, 'finish', workedSetup(place.setup, roughed)),
    ],
  };
}

function stage(
  tool: Tool,
  operation: RoughSurfaceOperation | FinishSurfaceOperation,
  name: 'rough' | 'finish',
  setup: Setup,
): ToolWork {
  const words = name === 'rough' ? 'radius, level passes' : 'radius, finishing passes';
  return { tool, operations: [operation], stage: { file: name, operation: words, setup } };
}

function shiftBox({ feature: { box } }: Choice, { setup: { shift } }: Place): SurfaceFeature['box'] {
  return { x: [box.x[0] - shift[0], box.x[1] - shift[0]], y: [box.y[0] - shift[1], box.y[1] - shift[1]] };
}

function lastTooWeak({ last }: Choice, bite: number, { shop }: Place): Finding {
  return {
    code: last.kind === 'ball' ? 'ball-cutter-too-weak' : 'flat-cutter-too-weak',
    severity: 'error',
    where: { source: 'shop', path: 'surfacing.allowance' },
    text: `${last.name} may take ${bite.toFixed(2)} mm in one pass, which leaves no room for an allowance of ${shop.surfacing.allowance} mm and the steps of the level passes.`,
    allowed: `an allowance of at most ${Math.max(0, bite - 2 * ROUGH_SLACK - LEAST_STEP).toFixed(2)} mm`,
    remedy: 'leave a smaller allowance, take a thicker or shorter cutter, or state its stepDownShare',
  };
}

/** The blank's top, in the part frame, once the last passes are done; ridges may still stand. */
export function topAfter({ box, floor }: SurfaceFeature, cusp: number): Top {
  if (floor.kind === 'plane') return planedTop(box, floor.z);
  return {
    kind: 'worked',
    z: 0,
    x: [box.x[0] - PAST_END, box.x[1] + PAST_END],
    cone: { ...floor, below: floor.below - cusp },
  };
}
