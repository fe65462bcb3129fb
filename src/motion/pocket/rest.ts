/**
 * A corner that an earlier, thicker cutter left: a blunt one by strokes round it, to and fro, a sharp one from wall to wall and
 * back; then along its walls.
 *
 * The earlier program has run: the cutter goes down beside the corner, at plunge feed, where the ground has been cleared with
 * room. Where there is no such place, it comes down on a steep ramp through what should be clear.
 */
import {
  type Area,
  distanceToArea,
  figuresOf,
  footOn,
  lengthRound,
  type Polygon,
  stretchOf,
} from '../../geometry/area.ts';
import { fitWay } from '../../geometry/fit.ts';
import { areaOf, common, grown, less } from '../../geometry/kernel/area.ts';
import { centresOf, lapCentresOf } from '../../geometry/kernel/centres.ts';
import { type Spike, spikeWay } from '../../geometry/kernel/spikes.ts';
import { finely, strokeRound } from '../../geometry/kernel/strokes.ts';
import type { Segment, Vec } from '../../geometry/types.ts';
import { distance } from '../../geometry/vec.ts';
import type { PocketOperation } from '../../machining/types.ts';
import { finishesOf, levelsOf } from './levels.ts';
import { rampDown, wayLength } from './steepRamp.ts';
import { follow, hop, lineTo, runSides, START, setHeight, type Trace } from './trace.ts';

/** The finishing pass begins and ends this far before the corner besides the allowance, mm. */
const OVERLAP = 0.02;
/** A finished wall is fitted with arcs within this, mm. */
const FIT = 0.001;
/** A mouth narrower than this share of the radius has no room for a ramp. */
const SMALLEST_MOUTH = 0.3;
/** Pieces no longer round than this share of the radius are crumbs. */
const CRUMB = 0.2;
/** The cutter goes down with this much room round it, of its radius. */
const ROOM = 0.15;
/** Farther from the corner than this, in radii, is no place to go down. */
const FAR = 3;
/** Where the rim reaches into what is left by no more than this, hardly anything is cut, mm: regions are larger by a hair. */
const HARDLY = 0.02;
/** A shaving that reaches no farther in than the rim beyond this share of the radius may be deep. */
const RIM = 0.7;

/** Where the cutter goes down in cleared ground: beside the start of a way, and beside its end. */
type Entries = readonly [Vec, Vec];

/** How a corner is cut. */
export type Rest =
  | {
      /** Run to and fro; the walls follow at each level, or once the corner is down where that is a shaving. */
      readonly kind: 'to and fro';
      readonly way: readonly Vec[];
      readonly entries: Entries;
      readonly walls: readonly Segment[];
      readonly finish: PocketOperation['finish'];
    }
  | {
      /** From wall to wall and out again; the walls follow at each level. */
      readonly kind: 'passes';
      readonly spike: Spike;
      readonly way: readonly Vec[];
      /** Null: there is no cleared ground with room, and the cutter comes down on a ramp along the mouth. */
      readonly entries: Entries | null;
      readonly walls: readonly Segment[];
    };

/** How a corner is cut; null where what is left is no simple corner, so that it is cleared as any other shape. */
export function restOf(pocket: PocketOperation, radius: number, grain: number): Rest | null {
  if (pocket.around === null) return null;
  const cleared = less(areaOf(pocket.whole), areaOf(pocket.region));
  const inset = centresOf(pocket.whole, null, radius, radius + pocket.allowance);
  const base = common(grown(cleared, -radius, grain), inset);
  const centres = lapCentresOf(pocket.whole, pocket.region, radius, pocket.allowance);
  const [corner, ...more] = figuresOf(less(centres, base)).filter(
    ([outer = []]) => lengthRound(outer) > CRUMB * radius,
  );
  if (corner === undefined || corner.length !== 1 || more.length > 0) return null;
  const place = { pocket, corner: corner[0] ?? [], base, radius, grain };
  return byStrokes(place) ?? byPasses(place);
}

interface Place {
  readonly pocket: PocketOperation;
  /** Places of the centre in the corner, and in what is cleared. */
  readonly corner: Polygon;
  readonly base: Area;
  readonly radius: number;
  readonly grain: number;
}

function byStrokes({ pocket, corner, base, radius, grain }: Place): Rest | null {
  const bound = { radius, grain, step: pocket.stepOver, engagement: pocket.engagement };
  const stroke = strokeRound(corner, base, bound);
  if (stroke === null) return null;
  const way = trimmed(stroke.way, pocket, radius);
  const entries = entriesFor(pocket, way, radius);
  if (entries === null) return null;
  const walls = wallsOf(pocket, stroke, radius);
  const finish = isShaving(walls, way, base, radius) ? 'at full depth' : 'at each level';
  return { kind: 'to and fro', way, entries, walls, finish };
}

function byPasses({ pocket, corner, base, radius, grain }: Place): Rest | null {
  const spike = spikeWay(corner, base, { radius, grain, left: radius / 2, out: 'other wall' });
  if (spike === null) return null;
  const way = trimmed(spike.way, pocket, radius);
  const entries = entriesFor(pocket, way, radius);
  if (entries === null && wayLength(spike.mouth) < SMALLEST_MOUTH * radius) return null;
  const walls = wallsOf(pocket, spike, radius);
  return { kind: 'passes', spike, way: entries === null ? spike.way : way, entries, walls };
}

/** A way without its ends along which the cutter hardly reaches into what is left. */
function trimmed(way: readonly Vec[], { region }: PocketOperation, radius: number): readonly Vec[] {
  const left = areaOf(region);
  const points = finely(way, radius / 8);
  const cuts = points.map((p) => distanceToArea(left, p) < radius - HARDLY);
  const [first, last] = [cuts.indexOf(true), cuts.lastIndexOf(true)];
  return first < 0 ? way : points.slice(Math.max(0, first - 1), last + 2);
}

/** Places beside both ends of a way at which the cutter stands in cleared ground with room; null where there are none near. */
function entriesFor(
  { cleared }: PocketOperation,
  way: readonly Vec[],
  radius: number,
): readonly [Vec, Vec] | null {
  const roomy = grown((cleared?.regions ?? []).flatMap(areaOf), -(1 + ROOM) * radius);
  const beside = (end: Vec | undefined): Vec | null => {
    if (end === undefined) return null;
    const feet = roomy.map((ring) => footOn(ring, end)).sort((a, b) => a.distance - b.distance);
    const [nearest] = feet;
    return nearest !== undefined && nearest.distance < FAR * radius ? nearest.at : null;
  };
  const [start, end] = [beside(way[0]), beside(way.at(-1))];
  return start === null || end === null ? null : [start, end];
}

/** Whether all that a pass along the walls meets after a way is a narrow strip under the cutter's rim. */
function isShaving(walls: readonly Segment[], way: readonly Vec[], base: Area, radius: number): boolean {
  const been = finely(way, radius / 16);
  const isCut = (p: Vec): boolean =>
    been.some((q) => distance(p, q) < radius - HARDLY / 2) || distanceToArea(base, p) < radius - HARDLY / 2;
  const places = walls.flatMap((side) => finely([side.from, side.to], radius / 8));
  return places.every(([x, y]) =>
    Array.from({ length: 8 }, (_, k) => (k * Math.PI) / 4).every((angle) =>
      isCut([x + RIM * radius * Math.cos(angle), y + RIM * radius * Math.sin(angle)]),
    ),
  );
}

/** The wall round a corner, from a little before it to a little after. */
function wallsOf(
  pocket: PocketOperation,
  { leaves, joins }: Pick<Spike, 'leaves' | 'joins'>,
  radius: number,
): Segment[] {
  const lines = centresOf(pocket.whole, null, radius, radius);
  const off = (line: Polygon): number => footOn(line, leaves).distance + footOn(line, joins).distance;
  const [line] = [...lines].sort((a, b) => off(a) - off(b));
  if (line === undefined) throw new Error(`${pocket.id} has no wall`);
  const round = lengthRound(line);
  const from = footOn(line, leaves).along;
  const length = ahead(footOn(line, joins).along - from, round);
  // What is left thins out along the walls, beyond the mouth.
  const touched = pocket.region.outer.flatMap(({ x, y }) => {
    const foot = footOn(line, [x, y]);
    return foot.distance < radius + FIT
      ? [ahead(foot.along - from - length / 2 + round / 2, round) - round / 2]
      : [];
  });
  const half = length / 2;
  const [start, end] = [Math.min(-half, ...touched), Math.max(half, ...touched)];
  const middle = from + half + round;
  return fitWay(stretchOf(line, middle + start - OVERLAP, middle + end + OVERLAP), FIT);
}

/** A distance along a closed line, counted forward. */
function ahead(along: number, round: number): number {
  return along - Math.floor(along / round) * round;
}

/** Cuts a corner level by level, down to the floor of its pocket. */
export function cutRest(trace: Trace, pocket: PocketOperation, rest: Rest): void {
  const levels = levelsOf(pocket, trace.job);
  const at = levels.map((z, k) => ({ z, above: k === 0 ? START : (levels[k - 1] ?? 0) }));
  if (rest.kind === 'to and fro') cutToAndFro(trace, pocket, rest, at);
  else for (const level of at) passThrough(trace, rest, level);
}

interface Height {
  readonly above: number;
  readonly z: number;
}

function passThrough(trace: Trace, rest: Rest & { kind: 'passes' }, { above, z }: Height): void {
  if (rest.entries === null) comeDownOnRamp(trace, rest.spike, above, z);
  else goDownBeside(trace, rest.entries[0], above, z);
  follow(trace, rest.way);
  runSides(trace, rest.walls);
}

/** Down in cleared ground: straight, or on a slant from a place close by at which the cutter stands on the level above. */
function goDownBeside(trace: Trace, down: Vec, above: number, z: number): void {
  const away = distance(trace.at, down);
  if (Math.abs(trace.z - above) < 1e-9 && away < trace.job.tool.diameter) {
    if (away > 1e-9) follow(trace, [trace.at, down], z);
  } else hop(trace, down, above);
  setHeight(trace, z);
}

function comeDownOnRamp(trace: Trace, { joins, mouth }: Spike, above: number, z: number): void {
  const isNear = Math.abs(trace.z - above) < 1e-9 && distance(trace.at, joins) < trace.job.tool.diameter / 2;
  if (isNear) lineTo(trace, joins);
  else hop(trace, joins, above);
  rampDown(trace, mouth, z);
}

function cutToAndFro(
  trace: Trace,
  pocket: PocketOperation,
  rest: Rest & { kind: 'to and fro' },
  levels: readonly Height[],
): void {
  const { way, entries, walls, finish } = rest;
  // How deep the cutter has gone down beside either end.
  const deepest: [number, number] = [START, START];
  let side: 0 | 1 = 0;
  for (const { above, z } of levels) {
    goDownBeside(trace, entries[side], above, z);
    deepest[side] = z;
    follow(trace, side === 0 ? way : [...way].reverse());
    side = side === 0 ? 1 : 0;
    if (finish === 'at full depth') continue;
    if (side === 0) comeDownBeside(trace, entries[1], deepest[1], z);
    runSides(trace, walls);
    side = 0;
  }
  if (finish !== 'at full depth') return;
  for (const z of finishesOf(pocket, trace.job)) {
    comeDownBeside(trace, entries[1], deepest[1], z);
    runSides(trace, walls);
  }
}

/** Over to a place in cleared ground and down: at rapid no deeper than the cutter has been there, then at plunge feed. */
function comeDownBeside(trace: Trace, to: Vec, deepest: number, z: number): void {
  hop(trace, to, Math.max(z, deepest));
  setHeight(trace, z);
}
