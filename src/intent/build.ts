import { coneLength } from '../geometry/cone.ts';
import { circle, rectangle, reverse } from '../geometry/ring.ts';
import { surfaceHeight } from '../geometry/surface.ts';
import type { Ring, Vec } from '../geometry/types.ts';
import { envelopeOf } from '../machining/setup.ts';
import { WALL_TOLERANCE } from '../machining/tolerances.ts';
import type {
  BeamCutOperation,
  BeamJob,
  BeamLineOperation,
  BoreOperation,
  DrillOperation,
  Job,
  OutlineOperation,
  RouterJob,
  RouterOperation,
} from '../machining/types.ts';
import { RAPID_FLOOR } from '../units/rapidFloor.ts';
import { upToStep } from '../units/step.ts';
import { finishedBack, lowestOnBack, roughBack } from './backCuts.ts';
import { channelCut } from './channelCut.ts';
import { clearedGround, type EarlierTexts } from './clearedGround.ts';
import { PLANED_DEEP, planedCut } from './planedCut.ts';
import { pocketCut } from './pocketCut.ts';
import { regionOf, ringOf } from './regions.ts';
import { slotCut } from './slotCut.ts';
import { lowestOnLine, lowestOnSurface, scribedCut, surfaceCut } from './surfaceCuts.ts';
import type { BeamRun, Intent, IntentCut, IntentRegion, Tolerance } from './types.ts';
import { pathOf, understoodBy } from './understands.ts';

/** Room below the lowest meant floor for rounding, mm. */
const Z_SLACK = 0.02;

const LOCATED: Tolerance = {
  position: 0.002,
  wallOver: WALL_TOLERANCE,
  wallUnder: WALL_TOLERANCE,
  floorDeep: 0.02,
  floorShallow: 0.02,
  cusp: null,
};
const SLOT: Tolerance = { ...LOCATED, floorDeep: 0.03, floorShallow: 0 };
const THROUGH: Tolerance = { ...LOCATED, floorShallow: 0 };

/**
 * What a job's program is meant to do, from the job's features alone: no move is looked at. `earlier`: hashes of the programs
 * that it may rely on.
 */
export function buildIntent(job: Job, programSha256: string, earlier: EarlierTexts = new Map()): Intent {
  const { setup } = job;
  const common = {
    format: 1 as const,
    program: job.program,
    programSha256,
    units: 'mm' as const,
    order: job.order,
    after: job.after,
    toPart: {
      matrix: setup.lie?.toPart ?? shiftedBy(setup.shift),
      // Seen from above a part that lies on its top is the mirror of itself.
      mirrored: setup.lie !== undefined && setup.lie.kind !== 'edge',
      workZero: setup.workZero,
      ...(setup.lie?.kind === 'turned' ? { pins: setup.lie.pins } : {}),
    },
    stock: { region: regionOf(setup.stock.region), bottom: setup.stock.bottom, top: setup.stock.top },
    keepOuts: setup.keepOuts.map((k) => ({ name: k.name, region: [ringOf(rectangle(k))], z: k.z })),
  };
  if (job.kind === 'laser') return { ...common, ...beamPart(job) };
  const part = { ...routerPart(job), ...clearedGround(job, earlier) };
  return { ...common, ...part, ...(job.operations.length === 0 ? { limits: lookLimits(job) } : {}) };
}

function shiftedBy([x, y]: Vec): Intent['toPart']['matrix'] {
  return [
    [1, 0, 0, x],
    [0, 1, 0, y],
    [0, 0, 1, 0],
  ];
}

/** A program without cuts only looks: never below the clear height, the spindle never on. */
function lookLimits({ machine, feeds }: RouterJob): Intent['limits'] {
  const { clearHeight } = machine;
  return {
    clearHeight,
    rapidFloor: clearHeight,
    zMin: clearHeight,
    stepDown: 0,
    feed: [feeds.feed * 0.9, feeds.feed],
    plungeFeed: feeds.plunge,
    spindle: [0, 0],
  };
}

type Special = Pick<Intent, 'machine' | 'tool' | 'limits' | 'cuts' | 'end'>;

function routerPart(job: RouterJob): Special {
  const { machine, tool, feeds } = job;
  const { controller } = machine;
  return {
    machine: {
      envelope: envelopeOf(job.setup, machine, job.below),
      rapid: controller.straightRapids ? 'straight' : 'anyOrder',
      ...pathOf(controller),
      maxFeed: machine.maxFeed,
      spindle: machine.spindle,
      ...(machine.spinUp > 0 ? { spinUp: machine.spinUp } : {}),
      understands: understoodBy(job),
    },
    tool: {
      id: tool.id,
      kind: tool.kind,
      diameter: tool.diameter,
      diameterRange: [tool.diameter - tool.tolerance, tool.diameter + tool.tolerance],
      tipAngle: tool.tipAngle === null ? null : (tool.tipAngle * 180) / Math.PI,
      cutLength: tool.cuttingLength,
      shank: { diameter: tool.shankDiameter, from: tool.cuttingLength },
      holder: machine.nut === null ? [] : [{ diameter: machine.nut.diameter, from: tool.stickOut }],
      kerf: null,
    },
    limits: {
      clearHeight: machine.clearHeight,
      rapidFloor: RAPID_FLOOR,
      travelHeight: machine.travelHeight,
      zMin: Math.min(...job.operations.map((o) => lowest(o, job))) - Z_SLACK,
      stepDown: feeds.stepDown,
      feed: [
        Math.min(feeds.feed, feeds.plunge, feeds.finish?.feed ?? feeds.feed) * 0.2,
        Math.max(
          feeds.feed,
          feeds.finish?.feed ?? 0,
          feeds.wall?.feed ?? 0,
          tool.kind === 'drill' ? feeds.plunge : 0,
        ),
      ],
      ...shavingPart(job),
      plungeFeed: feeds.plunge,
      spindle: [
        Math.max(feeds.rpm * 0.95, machine.spindle[0]),
        Math.min(feeds.rpm * 1.05, machine.spindle[1]),
      ],
    },
    cuts: job.operations.map((operation) => cutOf(operation, job)),
    end: {
      spindle: 'off',
      position: [0, 0, upToStep(machine.clearHeight, controller.units, controller.decimals)],
    },
  };
}

/** What is faster than the feed of a full cut shaves a wall, no more. */
function shavingPart({ feeds, operations }: RouterJob): Pick<Intent['limits'], 'shaving'> {
  const passes = [feeds.finish, feeds.wall].flatMap((pass) => (pass === null ? [] : [pass]));
  if (passes.every((pass) => pass.feed <= feeds.feed)) return {};
  const cusps = operations.map((o) => (o.kind === 'pocket' ? o.cusp : 0));
  return {
    shaving: { above: feeds.feed, width: Math.max(...passes.map((p) => p.width)) + Math.max(...cusps) },
  };
}

function cutOf(operation: RouterOperation, job: RouterJob): IntentCut {
  switch (operation.kind) {
    case 'slot':
      return { ...blankCut(operation), ...slotCut(operation, job), tolerance: SLOT };
    case 'bore':
      return boreCut(operation);
    case 'drill':
      return drillCut(operation);
    case 'pocket':
      return { ...blankCut(operation), kind: 'region', ...pocketCut(operation), tolerance: LOCATED };
    case 'outline':
      return outlineCut(operation, job);
    case 'channel':
      return { ...blankCut(operation), ...channelCut(operation), tolerance: LOCATED };
    case 'plane surface':
      return { ...blankCut(operation), ...planedCut(operation, job) };
    case 'rough surface':
    case 'finish surface':
      return { ...blankCut(operation), ...surfaceCut(operation, job) };
    case 'rough back':
      return { ...blankCut(operation), ...roughBack(operation, job) };
    case 'finish back':
      return { ...blankCut(operation), ...finishedBack(operation, job) };
    case 'scribe':
      return { ...blankCut(operation), ...scribedCut(operation) };
  }
}

function blankCut(operation: {
  readonly id: string;
  readonly feature: string;
}): Omit<IntentCut, 'kind' | 'floor' | 'tolerance'> {
  return {
    id: operation.id,
    feature: operation.feature,
    region: null,
    line: null,
    keep: null,
    beam: null,
    from: 'stockTop',
    through: false,
    mayCut: null,
    mayRemain: null,
    tabs: [],
  };
}

function boreCut(bore: BoreOperation): IntentCut {
  return {
    ...blankCut(bore),
    kind: 'region',
    region: [ringOf(circle(bore.at, bore.diameter / 2))],
    floor: { kind: 'plane', z: bore.z },
    through: bore.through,
    tolerance: bore.through ? THROUGH : LOCATED,
  };
}

function drillCut(drill: DrillOperation): IntentCut {
  return {
    ...blankCut(drill),
    kind: 'drill',
    region: [ringOf(circle(drill.at, drill.diameter / 2))],
    floor: { kind: 'plane', z: drill.z },
    through: drill.through,
    tolerance: drill.through ? THROUGH : LOCATED,
  };
}

function outlineCut(outline: OutlineOperation, job: RouterJob): IntentCut {
  const { bottom } = job.setup.stock;
  if (outline.skin !== null)
    return {
      ...blankCut(outline),
      kind: 'separate',
      keep: keptRegion(outline),
      floor: { kind: 'plane', z: bottom + outline.skin },
      tolerance: LOCATED,
    };
  return {
    ...blankCut(outline),
    kind: 'separate',
    keep: keptRegion(outline),
    floor: { kind: 'plane', z: bottom },
    through: true,
    tabs: outline.tabs.map((tab) => ({ at: tab.at, length: tab.length, height: tab.height })),
    tolerance: THROUGH,
  };
}

function beamPart(job: BeamJob): Special {
  const { machine } = job;
  const powers = [job.cut.s, job.mark.s];
  const feeds = [job.cut.feed, job.mark.feed];
  return {
    machine: {
      envelope: { x: [0, machine.bed.x], y: [0, machine.bed.y], z: [0, 0] },
      rapid: machine.controller.straightRapids ? 'straight' : 'anyOrder',
      ...pathOf(machine.controller),
      maxFeed: { xy: machine.maxFeed, z: machine.maxFeed },
      spindle: [0, machine.fullPower],
      understands: understoodBy(job),
    },
    tool: {
      id: 0,
      kind: 'beam',
      diameter: job.kerf,
      diameterRange: [job.kerf, job.kerf],
      tipAngle: null,
      cutLength: -job.setup.stock.bottom,
      shank: null,
      holder: [],
      kerf: job.kerf,
    },
    limits: {
      clearHeight: 0,
      rapidFloor: 0,
      zMin: 0,
      stepDown: -job.setup.stock.bottom,
      feed: [Math.min(...feeds), Math.max(...feeds)],
      plungeFeed: Math.max(...feeds),
      spindle: [Math.min(...powers), Math.max(...powers)],
    },
    cuts: job.operations.map((o) => (o.kind === 'beam line' ? lineCut(o, job) : beamCut(o, job))),
    end: { spindle: 'off', position: [0, 0, 0] },
  };
}

function lineCut(line: BeamLineOperation, job: BeamJob): IntentCut {
  return {
    ...blankCut(line),
    kind: 'line',
    line: line.points,
    floor: { kind: 'plane', z: 0 },
    beam: { power: job.mark.s, feed: job.mark.feed, passes: 1 },
    tolerance: LOCATED,
  };
}

function beamCut(cut: BeamCutOperation, job: BeamJob): IntentCut {
  return {
    ...blankCut(cut),
    kind: 'separate',
    keep: keptRegion(cut),
    floor: { kind: 'plane', z: job.setup.stock.bottom },
    through: true,
    beam: beamRunOf(cut, job),
    tolerance: THROUGH,
  };
}

function beamRunOf(cut: BeamCutOperation, { cut: run }: BeamJob): BeamRun {
  return {
    power: run.s,
    feed: run.feed,
    passes: run.passes,
    ...(run.pierce > 0 ? { pierce: run.pierce } : {}),
    ...(cut.leadIn === null ? {} : { leadIn: cut.leadIn.length }),
    ...(run.overCut > 0 ? { overCut: run.overCut } : {}),
  };
}

/** A counter-clockwise ring keeps what it encloses; a clockwise one, a hole, keeps what lies outside it. */
function keptRegion(outline: { readonly ring: Ring; readonly keep: 'inside' | 'outside' }): IntentRegion {
  return [ringOf(outline.keep === 'inside' ? outline.ring : reverse(outline.ring))];
}

/** Deepest point of the tool that an operation has a reason for. */
function lowest(operation: RouterOperation, job: RouterJob): number {
  switch (operation.kind) {
    case 'slot': {
      const { floor } = operation;
      if (floor.kind === 'plane') return floor.z - SLOT.floorDeep;
      const end = Math.max(...operation.line.map((p) => Math.abs(p[1]))) + Math.max(...operation.runOut);
      return floor.crest - floor.below + surfaceHeight(Math.min(...floor.R), end) - SLOT.floorDeep;
    }
    case 'drill': {
      const { diameter, tipAngle } = job.tool;
      const tip = coneLength(diameter, tipAngle);
      return operation.through ? operation.z - job.below : operation.z - tip - LOCATED.floorDeep;
    }
    case 'bore':
      return operation.through ? operation.z - job.below : operation.z - LOCATED.floorDeep;
    case 'pocket':
      return operation.z - LOCATED.floorDeep;
    case 'outline':
      return operation.skin === null
        ? operation.z - job.below
        : operation.z + operation.skin - LOCATED.floorDeep;
    case 'plane surface':
      return operation.z - PLANED_DEEP;
    case 'channel':
      return operation.z - LOCATED.floorDeep;
    case 'rough surface':
    case 'finish surface':
      return lowestOnSurface(operation, job);
    case 'rough back':
    case 'finish back':
      return lowestOnBack(operation);
    case 'scribe':
      return lowestOnLine(operation);
  }
}
