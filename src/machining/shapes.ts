/**
 * Pockets of any shape: which cutter clears them, and which smaller one clears what it leaves.
 *
 * All pockets of one kind of work are cut by the same cutters. A cutter may leave corners, as far as its radius does not reach;
 * where the shop has one that reaches at least twice as far into them, it follows in a program of its own.
 */
import { type Area, areaSize, lengthRound } from '../geometry/area.ts';
import { areaOf, common, grown } from '../geometry/kernel/area.ts';
import { centresOf, lapCentresOf } from '../geometry/kernel/centres.ts';
import { ringFromPoints, translate } from '../geometry/ring.ts';
import type { Region } from '../geometry/types.ts';
import type { PocketFeature } from '../parts/types.ts';
import type { Tool } from '../profile/types.ts';
import type { Finding } from '../report/finding.ts';
import { clearedBy } from './cleared.ts';
import type { Place, Planned, ToolWork } from './features.ts';
import { chooseFeeds } from './feeds.ts';
import { type Leftover, largestCutter, leftBy } from './reach.ts';
import { chooseLaps, cuspFor, ENGAGEMENT, FEW_SHARES, finishesAtOnce } from './stepOver.ts';
import { toolsFor } from './tools.ts';
import type { Cleared, PocketOperation } from './types.ts';

/** Cutters for pockets, mm: thinner ones are for slots, thicker ones hard to hold a board against. */
const THINNEST = 0.5;
const THICKEST = 6.35;
/** Corners that leave less than this need no smaller cutter. Millimetres. */
const GOOD_CORNER = 0.05;
/** What may be left in the corners of a pocket that a part is cut for. Millimetres. */
const FITTED_CORNER = 0.01;
/** A smaller cutter must leave at most this share of what the larger one leaves in the corners. */
const WORTH_IT = 0.5;
/** A thicker cutter goes first where that saves more than a change of tools takes, minutes (common practice, no source). */
const CHANGE = 5;
/** Left on the walls for the finishing pass, of the cutter's radius, and at least, mm (common practice, no source). */
const ALLOWANCE = { share: 0.08, least: 0.03 };
/** Laps are about this far apart before the corners are known, of the diameter: for the estimate of time only. */
const USUAL_STEP = 0.36;

/** What one cutter does with all pockets. */
interface Fit {
  readonly tool: Tool;
  readonly left: readonly Leftover[];
  readonly gap: number;
  readonly corners: boolean;
}

/** Pockets of any shape by the thickest flat cutter that clears them but for corners, and a smaller one for those. */
export function planShapes(pockets: readonly PocketFeature[], place: Place): Planned {
  const depth = Math.max(...pockets.map((p) => -p.floor.z));
  const need = { what: '', kinds: ['flat' as const], least: THINNEST, most: THICKEST, reach: depth };
  const tools = toolsFor(need, place.router, place.shop);
  const fits = tools.flatMap((tool) => fitOf(tool, pockets, place) ?? []);
  const choice = chooseCutters(fits, pockets, place);
  if (choice === null)
    return pockets.length > 1 ? oneByOne(pockets, place) : tooNarrow(pockets, tools, place);
  const { main, rest } = choice;
  const rough = notClean(rest ?? main, pockets, place);
  if (rough.length > 0) return { findings: rough };
  const laps: KnownLaps = new Map();
  const work: ToolWork[] = [
    { tool: main.tool, operations: pockets.map((p, i) => mainOperation(p, i, main, rest, place, laps)) },
  ];
  if (rest !== null) work.push(restWork(pockets, main, rest, place, laps));
  return { work };
}

/** Where no cutter suits all pockets, each has its own. */
function oneByOne(pockets: readonly PocketFeature[], place: Place): Planned {
  const plans = pockets.map((pocket) => planShapes([pocket], place));
  const findings = plans.flatMap((p) => ('findings' in p ? p.findings : []));
  return findings.length > 0 ? { findings } : { work: plans.flatMap((p) => ('work' in p ? p.work : [])) };
}

/** A pocket that a part is cut for must be clean to its corners, or the part would sit on what is left there. */
function notClean({ tool, gap }: Fit, pockets: readonly PocketFeature[], { router }: Place): Finding[] {
  if (gap <= FITTED_CORNER) return [];
  return pockets.flatMap(({ id, fitted }): Finding[] => {
    if (fitted === undefined) return [];
    return [
      {
        code: 'corners-not-reached',
        severity: 'error',
        where: { source: 'shop', path: 'tools' },
        text: `The thinnest cutter of ${router.name} that suits ${id}, ${tool.diameter} mm, leaves ${gap.toFixed(2)} mm in its corners, and the part for it would not go in.`,
        allowed: `a flat cutter of at most ${(2 * fitted.corner).toFixed(2)} mm, twice the corners’ radius`,
        remedy: 'add such a cutter to the shop file, or state a larger faceMarkers.cornerRadius',
      },
    ];
  });
}

function fitOf(tool: Tool, pockets: readonly PocketFeature[], place: Place): Fit | null {
  const allowance = allowanceOf(tool, place);
  const left = pockets.flatMap(({ region }) => {
    const centres = centresOf(region, null, tool.diameter / 2, tool.diameter / 2 + allowance);
    return grown(centres, -ALLOWANCE.least).length === 0 ? [] : (leftBy(region, tool.diameter / 2) ?? []);
  });
  if (left.length < pockets.length) return null;
  const gap = Math.max(...left.map((l) => l.gap));
  return { tool, left, gap, corners: left.every((l) => l.corners) };
}

function allowanceOf(tool: Tool, { shop }: Place): number {
  return shop.pockets.allowance ?? Math.max(ALLOWANCE.least, (ALLOWANCE.share * tool.diameter) / 2);
}

interface Choice {
  readonly main: Fit;
  readonly rest: Fit | null;
}

/** `fits`: thickest first. */
function chooseCutters(fits: readonly Fit[], pockets: readonly PocketFeature[], place: Place): Choice | null {
  const good = pockets.some((p) => p.fitted !== undefined) ? FITTED_CORNER : GOOD_CORNER;
  const complete = fits.find((f) => f.gap <= good);
  const single = complete ?? fits.find((f) => f.corners);
  const [thickest] = fits;
  if (single === undefined || thickest === undefined) return null;
  if (complete !== undefined) {
    return { main: complete, rest: null, ...(thickerFirst(fits, complete, pockets, place) ?? {}) };
  }
  const thinner = fits.slice(fits.indexOf(single) + 1);
  return { main: single, rest: thinner.find((f) => f.gap <= WORTH_IT * single.gap && f.corners) ?? null };
}

function thickerFirst(
  fits: readonly Fit[],
  complete: Fit,
  pockets: readonly PocketFeature[],
  place: Place,
): Choice | null {
  const alone = minutesOf(
    complete,
    pockets.map((p) => p.region),
    pockets,
    place,
  );
  for (const main of fits.slice(0, fits.indexOf(complete))) {
    const first = minutesOf(
      main,
      pockets.map((p) => p.region),
      pockets,
      place,
    );
    const after = main.left.reduce(
      (sum, l, i) =>
        sum +
        minutesOf(
          complete,
          l.pieces.map(regionOfPiece),
          l.pieces.flatMap(() => pockets[i] ?? []),
          place,
        ),
      0,
    );
    if (alone - first - after > CHANGE) return { main, rest: complete };
  }
  return null;
}

/** About how long a cutter takes for regions, each to the depth of its pocket: laps over feed, level by level. */
function minutesOf(
  { tool }: Fit,
  regions: readonly Region[],
  pockets: readonly PocketFeature[],
  place: Place,
): number {
  const feeds = chooseFeeds(tool, place.part.materialClass, place.router);
  return regions.reduce((sum, region, i) => {
    const area = areaOf(region);
    const around = area.reduce((length, p) => length + lengthRound(p), 0);
    const way = areaSize(area) / (USUAL_STEP * tool.diameter) + around / 2;
    const levels = Math.ceil(-(pockets[i]?.floor.z ?? 0) / feeds.stepDown - 1e-9);
    return sum + (way * levels) / feeds.feed;
  }, 0);
}

function mainOperation(
  pocket: PocketFeature,
  i: number,
  main: Fit,
  rest: Fit | null,
  place: Place,
  laps: KnownLaps,
): PocketOperation {
  const whole = shifted(pocket.region, place);
  return {
    ...operationFor(main.tool, whole, null, place, laps),
    id: pocket.id,
    feature: pocket.id,
    z: pocket.floor.z,
    cleared: null,
    left: leftFor(main, i, rest !== null, place, isFreeForm(pocket) && rest !== null ? TIP_SLACK : GAP_SLACK),
  };
}

function restWork(
  pockets: readonly PocketFeature[],
  main: Fit,
  rest: Fit,
  place: Place,
  laps: KnownLaps,
): ToolWork {
  const operations = pockets.flatMap((pocket, i) =>
    (main.left[i]?.pieces ?? []).map((piece, k): PocketOperation => {
      const region = shifted(regionOfPiece(common(areaOf(pocket.region), piece)), place);
      const decided = operationFor(rest.tool, shifted(pocket.region, place), region, place, laps);
      return {
        ...decided,
        id: `rest-of-${pocket.id}-${k + 1}`,
        feature: `rest-of-${pocket.id}-${k + 1}`,
        z: pocket.floor.z,
        cleared: clearedFor(pocket, decided, main.tool),
        left: leftFor(rest, i, false, place),
      };
    }),
  );
  const operation = 'what the larger cutter left of the pockets';
  return { tool: rest.tool, operations, stage: { file: 'rest', operation, setup: place.setup } };
}

/** What the earlier cutter has cleared within reach of this one. */
function clearedFor({ id, floor }: PocketFeature, { whole, around }: Decided, main: Tool): Cleared | null {
  const regions = around === null ? [] : clearedBy(whole, around, main).map(regionOfPiece);
  return regions.length === 0 ? null : { by: id, regions, z: floor.z + CLEARED_SLACK };
}

type Decided = Pick<
  PocketOperation,
  'kind' | 'region' | 'whole' | 'around' | 'engagement' | 'allowance' | 'direction' | keyof DecidedLaps
>;

/** What was decided about laps, by the shape of what they clear: many markers are alike. */
type KnownLaps = Map<string, DecidedLaps>;

type DecidedLaps = Pick<PocketOperation, 'stepOver' | 'rounding' | 'cusp' | 'finish'>;

function operationFor(
  tool: Tool,
  whole: Region,
  part: Region | null,
  place: Place,
  laps: KnownLaps,
): Decided {
  const allowance = allowanceOf(tool, place);
  const centres = lapCentresOf(whole, part, tool.diameter / 2, allowance);
  const shape = `${tool.id} ${part === null} ${shapeOf(centres)}`;
  const walls = part === null ? centresOf(whole, null, tool.diameter / 2, tool.diameter / 2) : null;
  const known = laps.get(shape) ?? decideLaps(centres, walls, tool, allowance);
  laps.set(shape, known);
  return {
    kind: 'pocket',
    region: part ?? whole,
    whole,
    around: part === null ? null : aroundOf(whole, part, tool),
    engagement: ENGAGEMENT,
    allowance,
    direction: place.shop.pockets.direction,
    ...known,
  };
}

/** `walls`: where the finishing pass goes, of a whole pocket; null of what is left of one. */
function decideLaps(centres: Area, walls: Area | null, tool: Tool, allowance: number): DecidedLaps {
  const radius = tool.diameter / 2;
  const atOnce = walls !== null && finishesAtOnce(centres, walls, radius, allowance);
  const cusp = atOnce ? cuspFor(centres, radius, allowance) : 0.04 * radius;
  const laps = chooseLaps(centres, radius, cusp, walls === null ? FEW_SHARES : undefined);
  return { ...laps, cusp, finish: atOnce ? 'at full depth' : 'at each level' };
}

/** The same text for areas that differ by a shift only, to a thousandth of a millimetre. */
function shapeOf(area: Area): string {
  const [x0, y0] = area[0]?.[0] ?? [0, 0];
  return area
    .map((p) => p.map(([x, y]) => `${(x - x0).toFixed(3)},${(y - y0).toFixed(3)}`).join(' '))
    .join(';');
}

/** As far as the cutter reaches while it works on a part of a pocket, going down beside it included. */
function aroundOf(whole: Region, part: Region, tool: Tool): Region {
  const near = grown(areaOf(part), 1.5 * tool.diameter + 2 * tool.tolerance);
  return regionOfPiece(common(areaOf(whole), near));
}

function leftFor(
  fit: Fit,
  i: number,
  follows: boolean,
  place: Place,
  slack = GAP_SLACK,
): PocketOperation['left'] {
  const left = fit.left[i];
  if (left === undefined || left.pieces.length === 0) return null;
  return {
    regions: left.pieces.map((piece) => shifted(regionOfPiece(piece), place)),
    // The thinnest such cutter leaves its radius' difference more.
    gap: left.gap + fit.tool.tolerance / 2 + slack,
    follows,
  };
}

/** Artwork has more sides than any named shape. */
function isFreeForm({ region }: PocketFeature): boolean {
  return region.outer.length > MOST_SIDES;
}

/** A notched block has ten corners, each with an arc: twenty sides. */
const MOST_SIDES = 20;

/**
 * In the curved tips of artwork a cutter ends a little short of where the chords let it. What it leaves there is the next one's,
 * within the same region, and is proven to be gone after that. Millimetres.
 */
const TIP_SLACK = 0.02;

/** Chords and the rounding of the text. Millimetres. */
const GAP_SLACK = 0.005;

/** What may stand on a cleared floor: the rounding of its height in coarse units, and a hair. Millimetres. */
const CLEARED_SLACK = 0.015;

function regionOfPiece(piece: Leftover['pieces'][number]): Region {
  const [outer = [], ...holes] = piece;
  return { outer: ringFromPoints(outer), holes: holes.map((hole) => ringFromPoints(hole)) };
}

function shifted({ outer, holes }: Region, { setup }: Place): Region {
  const by = [-setup.shift[0], -setup.shift[1]] as const;
  return { outer: translate(outer, by), holes: holes.map((hole) => translate(hole, by)) };
}

function tooNarrow(pockets: readonly PocketFeature[], tools: readonly Tool[], place: Place): Planned {
  const have = tools.map((t) => `${t.diameter} mm`).join(', ');
  return {
    findings: pockets.map((pocket): Finding => {
      const largest = largestCutter(pocket.region);
      const size = largest.toFixed(2);
      return {
        code: 'pocket-too-narrow',
        severity: 'error',
        where: { source: 'shop', path: 'tools' },
        text: `No flat cutter of ${place.router.name} clears ${pocket.id}: ${have === '' ? 'none cuts so deep' : `it has ${have}`}.`,
        allowed:
          largest < THINNEST
            ? `the largest that fits would be ${size} mm, thinner than any used for pockets`
            : `a flat cutter of at most ${size} mm, cutting at least ${(-pocket.floor.z).toFixed(2)} mm deep`,
        remedy: 'add such a cutter to the shop file, widen the pocket, or let this work be done by hand',
      };
    }),
  };
}
