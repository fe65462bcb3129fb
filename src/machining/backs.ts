/**
 * The back of a neck on a router: its blank lies on its face, is cleared level by level by a flat cutter and gone over lengthwise by a
 * ball. A level is left under it all round, which holds the wood beside the neck and is taken off by hand.
 */
import { shaftBack } from '../carving/shaftBack.ts';
import { rectangle } from '../geometry/ring.ts';
import type { Box } from '../geometry/types.ts';
import type { NeckBackFeature, Part } from '../parts/types.ts';
import type { KeepOut, Router, Shop, Tool } from '../profile/types.ts';
import type { Finding } from '../report/finding.ts';
import { formatShort } from '../units/format.ts';
import { stepOf } from '../units/step.ts';
import { type BackSizes, backSizes } from './backSizes.ts';
import { chooseFeeds } from './feeds.ts';
import type { Unordered } from './programOrder.ts';
import { fits } from './setup.ts';
import { noTool, type ToolNeed, toolsFor } from './tools.ts';
import type { RouterOperation, Setup } from './types.ts';

/** Left under the neck and beside it, above the table. Millimetres. */
const LEFT_UNDER = 2;
/** Of the ramps at both ends: steeper ones would be plunges. */
const RAMP = (40 * Math.PI) / 180;
/** Thicker cutters ask more of a small machine than the work is worth; thinner ones bend too far (common practice, no source). */
const THICKEST = 12.7;
const THINNEST = 3;
/** Of the ridges allowed, passes are set for this share: room for the rounding of the text and for a proof that bounds them. */
const CUSP_AIM = 0.85;
/** Above the head, which stands up while the neck lies on its face, and beside it. */
const OVER_HEAD = 5;
const BESIDE_HEAD = 3;

/** What a keep-out names for what stands beside the neck's blank while it lies on its face. */
export const onItsFace = (part: Part): string => `${part.id}-on-face`;

/** Programs of both cutters, or what is wrong. */
export function planBack(
  [feature, ...more]: readonly NeckBackFeature[],
  part: Part,
  router: Router,
  shop: Shop,
): { readonly jobs: readonly Unordered[] } | { readonly findings: readonly Finding[] } {
  if (feature === undefined || more.length > 0) throw new Error('a blank has one neck in it');
  const { thickness, box } = part.blank;
  const need = (kind: 'flat' | 'ball'): ToolNeed => ({
    what: 'the back of the neck',
    kinds: [kind],
    least: THINNEST,
    most: THICKEST,
    reach: thickness - LEFT_UNDER,
    noWalls: true,
  });
  const [flat, ball] = [toolsFor(need('flat'), router, shop)[0], toolsFor(need('ball'), router, shop)[0]];
  if (flat === undefined || ball === undefined) {
    const missing = [flat === undefined ? need('flat') : null, ball === undefined ? need('ball') : null];
    return { findings: missing.flatMap((n) => (n === null ? [] : [noTool(n, router, shop)])) };
  }
  const lying = { end: box.x[1], thickness, least: LEFT_UNDER, rise: Math.tan(RAMP) };
  const back = shaftBack(feature.shaft, lying);
  const setup = makeSetup(feature, part, router, shop.keepOuts);
  const over = overHead(feature, router);
  const findings = [...placeFindings(setup, over, part), ...endFindings(back.ramps.x, part)];
  if (findings.length > 0) return { findings };
  const half = Math.max(...box.y.map(Math.abs));
  const sizes = backSizes({
    back,
    allowance: shop.surfacing.allowance,
    flatBite: chooseFeeds(flat, part.materialClass, router).stepDown,
    ballBite: chooseFeeds(ball, part.materialClass, router).stepDown,
    ballDiameter: ball.diameter,
    radius: (flat.diameter + flat.tolerance) / 2,
    scatter: flat.tolerance / 2,
    halfBlank: half,
  });
  if (sizes === null) return { findings: [tooWeak(ball, shop)] };
  const [from, to] = sizes.finish.ramps.x;
  if (to - from < 2 * thickness) return { findings: [tooShort(to - from, part)] };
  return { jobs: jobsOf({ part, router: over, shop, setup, sizes, flat, ball, half, feature }) };
}

interface Ground {
  readonly part: Part;
  readonly router: Router;
  readonly shop: Shop;
  readonly setup: Setup;
  readonly sizes: BackSizes;
  readonly flat: Tool;
  readonly ball: Tool;
  readonly half: number;
  readonly feature: NeckBackFeature;
}

function jobsOf({ part, router, shop, setup, sizes, flat, ball, half, feature }: Ground): Unordered[] {
  const { rough, finish, step, atOnce, left, corner, roughed } = sizes;
  const { cusp } = shop.surfacing;
  const { units, decimals } = router.controller;
  const job = (tool: Tool, stage: string, words: string, lies: Setup, operation: RouterOperation) => ({
    kind: 'router' as const,
    program: `${part.id}-back-${stage}.nc`,
    part,
    operation: words,
    setup: lies,
    machine: router,
    tool,
    feeds: chooseFeeds(tool, part.materialClass, router, [operation]),
    below: 0,
    operations: [operation],
  });
  const box = ([a, b]: readonly [number, number]): Box => ({ x: [a, b], y: [-half, half] });
  const worked: Setup = { ...setup, stock: { ...setup.stock, top: roughed } };
  const id = feature.id;
  return [
    job(flat, 'rough', 'back, level passes', setup, {
      kind: 'rough back',
      id: `rough-${id}`,
      feature: `rough-${id}`,
      box: box(rough.ramps.x),
      back: rough,
      step,
      atOnce,
      left,
      corner,
    }),
    job(ball, 'finish', 'back, finishing passes', worked, {
      kind: 'finish back',
      id,
      feature: id,
      box: box(finish.ramps.x),
      back: finish,
      cusp,
      aim: CUSP_AIM * cusp - stepOf(units, decimals),
    }),
  ];
}

/**
 * The blank turned over end for end: its face down, its body end at x = 0 of the program, its edges to both sides of y = 0. The head,
 * once it is glued on, stands up past the far end.
 */
function makeSetup(
  { head }: NeckBackFeature,
  part: Part,
  router: Router,
  keepOuts: readonly KeepOut[],
): Setup {
  const { box, thickness } = part.blank;
  const length = box.x[1] - box.x[0];
  const mm = (value: number): string => `${formatShort(value, 2)} mm`;
  const named = keepOuts.filter(
    (k) => k.part === onItsFace(part) && (k.machine === null || k.machine === router.id),
  );
  return {
    workZero: `the blank turned over end for end, its face down on a flat board; X0 on its body end, sawn square ${mm(length)} from the back of the nut, Y0 halfway between its long edges, Z0 on its back, which now is up; the head lies to the right`,
    shift: [0, 0],
    lie: {
      kind: 'on its face',
      toPart: [
        [-1, 0, 0, box.x[1]],
        [0, 1, 0, 0],
        [0, 0, -1, -thickness],
      ],
    },
    stock: {
      region: { outer: rectangle({ x: [0, length], y: box.y }), holes: [] },
      bottom: -thickness,
      top: { kind: 'plane', z: 0 },
    },
    keepOuts: head === null ? named : [...named, headBox(head, part, router)],
  };
}

/** All that is past the foot of the head, as wide as the machine can reach: heads are wider than the blank. */
function headBox(head: NonNullable<NeckBackFeature['head']>, part: Part, router: Router): KeepOut {
  const { box, thickness } = part.blank;
  const from = box.x[1] - head.until - BESIDE_HEAD;
  return {
    name: 'the head of the neck',
    part: onItsFace(part),
    machine: null,
    x: [from, from + router.travel.x],
    y: [-router.travel.y / 2, router.travel.y / 2],
    z: [-thickness, Math.max(0, head.rise)],
  };
}

/** The same router, clear of the head wherever it may come from. */
function overHead({ head }: NeckBackFeature, router: Router): Router {
  if (head === null) return router;
  return { ...router, clearHeight: Math.max(router.clearHeight, head.rise + OVER_HEAD) };
}

const WHERE = { source: 'shop', path: 'work.neckBack' } as const;

function placeFindings(setup: Setup, router: Router, part: Part): Finding[] {
  if (fits(setup, router)) return [];
  const { x } = part.blank.box;
  return [
    {
      code: 'blank-too-large-for-machine',
      severity: 'error',
      where: WHERE,
      text: `The neck’s blank on its face, ${(x[1] - x[0]).toFixed(1)} mm long, with its head up to ${router.clearHeight.toFixed(1)} mm above it, does not fit ${router.name}.`,
      allowed: `${router.travel.x} by ${router.travel.y} by ${router.travel.z} mm with room around it`,
      remedy: 'carve it by hand (work.neckBack: hand), or let a larger machine do it',
    },
  ];
}

/** Wood that stays at both ends, for the clamps. */
const LEAST_END = 12;

function endFindings([from, to]: readonly [number, number], part: Part): Finding[] {
  const length = part.blank.box.x[1] - part.blank.box.x[0];
  const least = Math.min(from, length - to);
  if (least >= LEAST_END) return [];
  return [
    {
      code: 'no-land-at-ends',
      severity: 'error',
      where: { source: 'instrument', path: 'neckShape' },
      text: `The carved back comes to ${least.toFixed(1)} mm of an end of the neck’s blank, too little to clamp.`,
      allowed: `at least ${LEAST_END} mm`,
      remedy:
        'let the carved back begin farther from the nut or end before the heel (from, to), or carve it by hand',
    },
  ];
}

function tooShort(length: number, part: Part): Finding {
  return {
    code: 'neck-back-too-short',
    severity: 'error',
    where: { source: 'instrument', path: 'neckShape' },
    text: `Between its ramps ${length.toFixed(1)} mm of the neck’s back would be carved: not worth a program.`,
    allowed: `at least ${2 * part.blank.thickness} mm`,
    remedy: 'carve it by hand (work.neckBack: hand)',
  };
}

function tooWeak(ball: Tool, { surfacing }: Shop): Finding {
  return {
    code: 'ball-cutter-too-weak',
    severity: 'error',
    where: { source: 'shop', path: 'surfacing.allowance' },
    text: `${ball.name} may not take in one pass what level passes leave on the sides of the neck with an allowance of ${surfacing.allowance} mm.`,
    allowed: 'a smaller allowance, or a stronger ball cutter',
    remedy: 'leave less (surfacing.allowance), take a thicker or shorter cutter, or state its stepDownShare',
  };
}
