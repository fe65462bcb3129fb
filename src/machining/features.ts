import { coneLength } from '../geometry/cone.ts';
import { coneHeight } from '../geometry/coneSurface.ts';
import { bounds } from '../geometry/ring.ts';
import type { Vec } from '../geometry/types.ts';
import { between, distance } from '../geometry/vec.ts';
import type { Floor, HoleFeature, Part, PocketFeature, SlotFeature, Top } from '../parts/types.ts';
import type { Router, Shop, Tool } from '../profile/types.ts';
import type { Finding } from '../report/finding.ts';
import { shiftTop, toProgram } from './setup.ts';
import { noTool, type ToolNeed, toolsFor } from './tools.ts';
import type { BoreOperation, DrillOperation, RouterOperation, Setup, SlotOperation } from './types.ts';

/** Full diameter of a through drill below the stock, at least. */
const BREAK_THROUGH = 0.05;

/** A cutter needs this much way to ramp down in. */
const LEAST_WAY = 1;

/** Operations that one tool makes. */
export interface ToolWork {
  readonly tool: Tool;
  readonly operations: readonly RouterOperation[];
  /** Where one kind of work takes several programs that differ: its file's ending, its words, how the blank lies before it. */
  readonly stage?: { readonly file: string; readonly operation: string; readonly setup: Setup };
}

export type Planned = { readonly work: readonly ToolWork[] } | { readonly findings: readonly Finding[] };

/** Where operations are planned. */
export interface Place {
  readonly part: Part;
  readonly setup: Setup;
  readonly router: Router;
  readonly shop: Shop;
}

/** Slots by the widest flat cutter that is no wider than they are. */
export function planSlots(slots: readonly SlotFeature[], place: Place): Planned {
  const width = Math.min(...slots.map((s) => s.width));
  const need: ToolNeed = {
    what: slots.some((s) => s.work === 'nutSeat')
      ? `the nut’s seat, ${width} mm wide`
      : `fret slots ${width} mm wide`,
    kinds: ['flat'],
    least: width / 3,
    most: width,
    reach: Math.max(...slots.map((slot) => slotReach(slot, place.part.blank.top))),
  };
  const [tool] = toolsFor(need, place.router, place.shop);
  if (tool === undefined) return { findings: [noTool(need, place.router, place.shop)] };
  const short = slots.filter((slot) => wayIn(slot, tool) < LEAST_WAY);
  if (short.length > 0) return { findings: short.map((slot) => tooShort(slot, tool)) };
  const operations = slots.map(
    (slot): SlotOperation => ({
      id: slot.id,
      feature: slot.id,
      kind: 'slot',
      line: [toProgram(slot.line[0], place.setup.shift), toProgram(slot.line[1], place.setup.shift)],
      width: slot.width,
      floor: slot.floor.kind === 'plane' ? slot.floor : shiftTop(slot.floor, place.setup.shift),
      runOut: slot.runOut,
    }),
  );
  return { work: [{ tool, operations }] };
}

/** How far the cutter's centre goes from one end of a slot to the other: where it stops in the wood, a radius short of the end. */
function wayIn({ line: [from, to], runOut }: SlotFeature, tool: Tool): number {
  return distance(from, to) + runOut[0] + runOut[1] - tool.diameter;
}

function tooShort(slot: SlotFeature, tool: Tool): Finding {
  return {
    code: 'slot-too-short',
    severity: 'error',
    where: { source: 'instrument', path: 'frets' },
    text: `${slot.id} is ${distance(...slot.line).toFixed(2)} mm long: ${tool.name} cannot go down into it on a ramp.`,
    allowed: `at least ${(tool.diameter + LEAST_WAY).toFixed(2)} mm where both ends stop in the wood`,
    remedy: 'a longer slot, a thinner cutter, or fret slots by hand (work: in the shop file)',
  };
}

/** Deepest point of a slot below the blank's top as it then is: on a flat blank its ends, where the board falls away. */
function slotReach(slot: SlotFeature, top: Top): number {
  const [from, to] = slot.line;
  const length = Math.hypot(to[0] - from[0], to[1] - from[1]);
  const at = (way: number): Vec => between(from, to, way / length);
  const crossing = from[1] * to[1] < 0 ? [(length * from[1]) / (from[1] - to[1])] : [];
  return Math.max(
    ...[-slot.runOut[0], ...crossing, length + slot.runOut[1]]
      .map(at)
      .map(([x, y]) => topHeight(top, x, y) - topHeight(slot.floor, x, y)),
  );
}

function topHeight(top: Top | Floor, x: number, y: number): number {
  switch (top.kind) {
    case 'plane':
      return top.z;
    case 'cone':
      return coneHeight(top, x, y);
    case 'planed':
      return x < top.x[0] || x > top.x[1] ? top.z : top.floor;
    case 'worked':
      return x < top.x[0] || x > top.x[1] ? top.z : Math.min(top.z, coneHeight(top.cone, x, y));
  }
}

/** Round pockets: by a flat-ended drill of their very size, else bored by one flat cutter that fits them all. */
export function planRoundPockets(pockets: readonly PocketFeature[], place: Place): Planned {
  const depth = Math.max(...pockets.map((p) => -p.floor.z));
  const sizes = pockets.map((p) => diameterOf(p));
  const drilled = pockets.flatMap((p) => {
    const tool = drillFor(diameterOf(p), depth, true, place);
    return tool === undefined ? [] : [{ tool, operation: drillPocket(p, place.setup) }];
  });
  if (drilled.length === pockets.length) return groupByTool(drilled);
  const need: ToolNeed = {
    what: `round pockets of ${Math.min(...sizes)} mm`,
    kinds: ['flat'],
    least: 1,
    most: Math.min(...sizes) * 0.8,
    reach: depth,
  };
  const [tool] = toolsFor(need, place.router, place.shop);
  if (tool === undefined) return { findings: [noTool(need, place.router, place.shop)] };
  return { work: [{ tool, operations: pockets.map((p) => borePocket(p, place)) }] };
}

/** Holes by a drill of their size, else bored by a flat cutter small enough. */
export function planHoles(holes: readonly HoleFeature[], place: Place): Planned {
  const planned = holes.map((hole) => planHole(hole, place));
  const findings = planned.flatMap((p) => ('code' in p ? [p] : []));
  return findings.length > 0 ? { findings } : groupByTool(planned.flatMap((p) => ('code' in p ? [] : [p])));
}

function planHole(hole: HoleFeature, place: Place): { tool: Tool; operation: RouterOperation } | Finding {
  const drill = drillFor(hole.diameter, hole.depth, false, place);
  if (drill !== undefined && clearsThrough(drill, hole, place.router)) {
    return { tool: drill, operation: drillHole(hole, place.setup) };
  }
  const [cutter] = toolsFor(holeNeed(hole, place.router), place.router, place.shop);
  if (cutter !== undefined) return { tool: cutter, operation: boreHole(hole, place) };
  return drill === undefined ? noToolForHole(hole, place) : pointTooLong(drill, hole, place.router);
}

function pointTooLong(drill: Tool, hole: HoleFeature, router: Router): Finding {
  const needed = coneLength(drill.diameter, drill.tipAngle) + BREAK_THROUGH;
  return {
    code: 'drill-point-too-long',
    severity: 'error',
    where: { source: 'shop', path: 'machines' },
    text: `To bring ${drill.name} out below ${hole.id} at full width, its point must go ${needed.toFixed(2)} mm into the board below; ${router.name} allows ${router.intoSpoilboard} mm.`,
    allowed: `intoSpoilboard of at least ${needed.toFixed(2)} mm`,
    remedy: 'put a sacrificial board under the work and raise intoSpoilboard, or drill these holes by hand',
  };
}

function holeNeed(hole: HoleFeature, router: Router): ToolNeed {
  return {
    what: `a hole of ${hole.diameter} mm (${hole.id})`,
    kinds: ['flat'],
    least: 0.8,
    most: hole.diameter * 0.8,
    reach: hole.depth + (hole.through ? router.intoSpoilboard : 0),
  };
}

function drillFor(diameter: number, reach: number, flatEnd: boolean, place: Place): Tool | undefined {
  return toolsFor(drillNeed(diameter, reach, flatEnd), place.router, place.shop)[0];
}

function drillNeed(diameter: number, reach: number, flatEnd: boolean): ToolNeed {
  return {
    what: `a hole of ${diameter} mm`,
    kinds: ['drill'],
    least: diameter - 0.01,
    most: diameter + 0.01,
    reach,
    flatEnd,
  };
}

/** A drill of the hole's size whose diameter is not known well enough says more than that no cutter fits either. */
function noToolForHole(hole: HoleFeature, { router, shop }: Place): Finding {
  const byDrill = noTool(drillNeed(hole.diameter, hole.depth, false), router, shop);
  return byDrill.code === 'no-tool-fits' ? noTool(holeNeed(hole, router), router, shop) : byDrill;
}

/** A through drill must bring its full diameter out below without its point going deeper than the board below allows. */
function clearsThrough(drill: Tool, hole: HoleFeature, router: Router): boolean {
  if (!hole.through) return true;
  return coneLength(drill.diameter, drill.tipAngle) + BREAK_THROUGH <= router.intoSpoilboard;
}

function groupByTool(list: readonly { tool: Tool; operation: RouterOperation }[]): Planned {
  const groups = new Map<Tool, RouterOperation[]>();
  for (const { tool, operation } of list) {
    groups.set(tool, [...(groups.get(tool) ?? []), operation]);
  }
  return { work: [...groups].map(([tool, operations]) => ({ tool, operations })) };
}

function diameterOf(pocket: PocketFeature): number {
  const { x } = bounds(pocket.region.outer);
  return x[1] - x[0];
}

function centreOf(pocket: PocketFeature): readonly [number, number] {
  const { x, y } = bounds(pocket.region.outer);
  return [(x[0] + x[1]) / 2, (y[0] + y[1]) / 2];
}

function borePocket(pocket: PocketFeature, { setup, shop }: Place): BoreOperation {
  return { ...drillPocket(pocket, setup), kind: 'bore', direction: shop.bores.direction };
}

function drillPocket(pocket: PocketFeature, setup: Setup): DrillOperation {
  return {
    id: pocket.id,
    feature: pocket.id,
    kind: 'drill',
    at: toProgram(centreOf(pocket), setup.shift),
    diameter: diameterOf(pocket),
    z: pocket.floor.z,
    through: false,
  };
}

function drillHole(hole: HoleFeature, setup: Setup): DrillOperation {
  return {
    id: hole.id,
    feature: hole.id,
    kind: 'drill',
    at: toProgram(hole.at, setup.shift),
    diameter: hole.diameter,
    z: -hole.depth,
    through: hole.through,
  };
}

function boreHole(hole: HoleFeature, { setup, shop }: Place): BoreOperation {
  return { ...drillHole(hole, setup), kind: 'bore', direction: shop.bores.direction };
}
