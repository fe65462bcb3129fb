/** From what the shop files say together to the whole shop: every default filled in. */
import { radiansFromDegrees } from '../../units/convert.ts';
import type { GivenShop } from '../schema/shop.ts';
import type { Laser, Machine, Router, Shop, StockItem, Tool, Work } from '../types.ts';
import { resolveBeam } from './beam.ts';
import { resolveLaserControl, resolveRouterControl } from './controller.ts';
import { type Fill, PRACTICE } from './fill.ts';
import { resolveMilling } from './milling.ts';

type Given = Omit<GivenShop, 'include' | 'units'>;
type GivenMachine = NonNullable<GivenShop['machines']>[number];
type GivenRouter = Extract<GivenMachine, { kind: 'router' }>;
type GivenLaser = Extract<GivenMachine, { kind: 'laser' }>;
type GivenTool = NonNullable<GivenShop['tools']>[number];
type GivenStock = NonNullable<GivenShop['stock']>[number];

/** Accelerations assumed when a shop states none, mm/s^2. */
const ROUTER_ACCELERATION = { xy: 200, z: 100 } as const;
const LASER_ACCELERATION = 800;
/** Sudden changes of velocity assumed when a shop states none, mm/min. */
const JUNCTION_SPEED = { router: 300, laser: 600 } as const;
/** Between features, above the stock, when a shop says nothing, mm. */
const TRAVEL_HEIGHT = 1.5;
/** Shank between collet and cutting edges when a shop says nothing, mm. */
const SHANK_SHOWING = 10;

/** The shop that the given parts make. */
export function resolveShop(given: Given, fill: Fill): Shop {
  const machines = (given.machines ?? []).map((machine, i) =>
    resolveMachine(machine, `machines[${i}]`, fill),
  );
  const routers = machines.filter((machine) => machine.kind === 'router');
  const tools = (given.tools ?? []).map((tool, i) => resolveTool(tool, `tools[${i}]`, routers, fill));
  return {
    name: fill.plain('name', given.name, 'workshop', 'the shop has no name'),
    currency: fill.plain('currency', given.currency, 'EUR', 'no currency is named'),
    machines,
    tools,
    stock: (given.stock ?? []).map((item, i) => resolveStock(item, `stock[${i}]`, fill)),
    keepOuts: (given.keepOuts ?? []).map((box) => ({ ...box, machine: box.machine ?? null })),
    allowances: resolveAllowances(given.allowances, fill),
    holding: resolveHolding(given.holding, fill),
    turning: {
      pinDiameter: fill.length(
        'turning.pinDiameter',
        given.turning?.pinDiameter,
        2,
        `the shank of a drill of that size is a pin (${PRACTICE})`,
      ),
      pinDepth: fill.length(
        'turning.pinDepth',
        given.turning?.pinDepth,
        6,
        `three times the usual pin, so that it stands upright (${PRACTICE})`,
      ),
    },
    surfacing: resolveSurfacing(given.surfacing, fill),
    ...resolveMilling(given, fill),
    scribing: {
      lineWidth: fill.length(
        'scribing.lineWidth',
        given.scribing?.lineWidth,
        0.2,
        `a knife's point still finds it and no more is cut than a scraper takes off (${PRACTICE})`,
      ),
    },
    work: resolveWork(given.work, machines, fill),
  };
}

function resolveMachine(machine: GivenMachine, path: string, fill: Fill): Machine {
  return machine.kind === 'router' ? resolveRouter(machine, path, fill) : resolveLaser(machine, path, fill);
}

function resolveRouter(router: GivenRouter, path: string, fill: Fill): Router {
  const { maxFeed, rapid } = router;
  const asFast = `${maxFeed.xy} and ${maxFeed.z} mm/min`;
  const clearHeight = fill.length(`${path}.clearHeight`, router.clearHeight, 5, PRACTICE);
  return {
    ...router,
    name: fill.plain(`${path}.name`, router.name, router.id, 'named by its id'),
    spinUp: fill.plain(
      `${path}.spinUp`,
      router.spinUp,
      5,
      'seconds, enough for most spindles; see its manual',
    ),
    rapid: fill.shown(
      `${path}.rapid`,
      rapid,
      maxFeed,
      asFast,
      'no faster than the fastest feed; only for the time estimate',
    ),
    acceleration: fill.shown(
      `${path}.acceleration`,
      router.acceleration,
      ROUTER_ACCELERATION,
      `${ROUTER_ACCELERATION.xy} and ${ROUTER_ACCELERATION.z} mm/s^2`,
      `a careful figure for a small router (${PRACTICE}); only for the time estimate: see its control's settings`,
    ),
    junctionSpeed: fill.shown(
      `${path}.junctionSpeed`,
      router.junctionSpeed,
      JUNCTION_SPEED.router,
      `${JUNCTION_SPEED.router} mm/min`,
      `a sudden step most small machines take (${PRACTICE}); only for the time estimate`,
    ),
    clearHeight,
    travelHeight: fill.length(
      `${path}.travelHeight`,
      router.travelHeight,
      Math.min(TRAVEL_HEIGHT, clearHeight),
      `above chips (${PRACTICE}): whatever stands higher on the stock is named under keepOuts`,
    ),
    intoSpoilboard: fill.length(`${path}.intoSpoilboard`, router.intoSpoilboard, 0.3, PRACTICE),
    nut: fill.shown(
      `${path}.nut`,
      router.nut,
      null,
      'not stated',
      'measure its width over the corners and its length: until then no proof knows whether it meets wood or clamps',
    ),
    controller: resolveRouterControl(router.controller, `${path}.controller`, fill),
  };
}

function resolveLaser(laser: GivenLaser, path: string, fill: Fill): Laser {
  return {
    ...laser,
    name: fill.plain(`${path}.name`, laser.name, laser.id, 'named by its id'),
    rapid: fill.plain(
      `${path}.rapid`,
      laser.rapid,
      laser.maxFeed,
      'no faster than the fastest feed; only for the time estimate',
    ),
    acceleration: fill.shown(
      `${path}.acceleration`,
      laser.acceleration,
      LASER_ACCELERATION,
      `${LASER_ACCELERATION} mm/s^2`,
      `a careful figure for a light head (${PRACTICE}); only for the time estimate: see its control's settings`,
    ),
    junctionSpeed: fill.shown(
      `${path}.junctionSpeed`,
      laser.junctionSpeed,
      JUNCTION_SPEED.laser,
      `${JUNCTION_SPEED.laser} mm/min`,
      `a sudden step most light heads take (${PRACTICE}); only for the time estimate`,
    ),
    settings: laser.settings.map((setting, i) => resolveBeam(setting, `${path}.settings[${i}]`, fill)),
    controller: resolveLaserControl(laser.controller, `${path}.controller`, fill),
  };
}

function resolveTool(tool: GivenTool, path: string, routers: readonly Router[], fill: Fill): Tool {
  const size = `${tool.diameter} mm ${tool.kind}`;
  return {
    ...tool,
    name: fill.plain(`${path}.name`, tool.name, size, 'named by its size'),
    tolerance: fill.length(
      `${path}.tolerance`,
      tool.tolerance,
      0.01,
      'a sound cutter in a sound collet: measure a test cut',
    ),
    flutes: fill.plain(`${path}.flutes`, tool.flutes, 2, PRACTICE),
    stickOut: fill.length(
      `${path}.stickOut`,
      tool.stickOut,
      tool.cuttingLength + SHANK_SHOWING,
      `the cutting edges and ${SHANK_SHOWING} mm of shank outside the collet (${PRACTICE}): measure it, shorter is stiffer`,
    ),
    tipAngle: tipAngleOf(tool, path, fill),
    stepDownShare: tool.stepDownShare ?? null,
    chipLoad: tool.chipLoad ?? null,
    machine: fill.plain(`${path}.machine`, tool.machine, routers[0]?.id ?? '', 'the first router'),
  };
}

function tipAngleOf(tool: GivenTool, path: string, fill: Fill): number | null {
  switch (tool.kind) {
    case 'drill':
      return orFlat(
        fill.angle(
          `${path}.tipAngle`,
          tool.tipAngle,
          radiansFromDegrees(118),
          'the usual point of a twist drill',
        ),
      );
    case 'vee':
      return fill.angle(`${path}.tipAngle`, tool.tipAngle, radiansFromDegrees(60), PRACTICE);
    case 'flat':
    case 'ball':
      return tool.tipAngle === undefined ? null : orFlat(tool.tipAngle);
  }
}

/** Half a turn is no point at all. */
function orFlat(angle: number): number | null {
  return angle < Math.PI - 1e-9 ? angle : null;
}

function resolveStock(item: GivenStock, path: string, fill: Fill): StockItem {
  const shared = {
    id: item.id,
    kind: item.kind,
    material: item.material,
    materialClass: item.materialClass,
    length: item.length,
    count: fill.plain(`${path}.count`, item.count, 1, 'one is on hand'),
    price: item.price ?? null,
  };
  if (item.kind === 'stick')
    return { ...shared, width: item.diameter, thickness: item.diameter, grain: 'length' };
  const usual = item.kind === 'board' ? 'length' : 'none';
  const why = item.kind === 'board' ? 'a board has its grain along its length' : 'a sheet is cut either way';
  const grain = fill.plain(`${path}.grain`, item.grain, usual, why);
  return { ...shared, width: item.width, thickness: item.thickness, grain };
}

function resolveAllowances(given: Given['allowances'], fill: Fill): Shop['allowances'] {
  const length = (key: keyof Shop['allowances'], fallback: number, why: string): number =>
    fill.length(`allowances.${key}`, given?.[key], fallback, why);
  return {
    ends: length('ends', 8, `room to clamp or screw outside the part (${PRACTICE})`),
    sides: length('sides', 4, `room for the cutter beside the part (${PRACTICE})`),
    between: length('between', 5, `room for the cutter and a bridge of material (${PRACTICE})`),
    sawKerf: length('sawKerf', 1.5, `a fine saw (${PRACTICE})`),
    trim: length('trim', 2, `to a clean edge (${PRACTICE})`),
  };
}

function resolveHolding(given: Given['holding'], fill: Fill): Shop['holding'] {
  return {
    by: fill.plain(
      'holding.by',
      given?.by,
      'tabs',
      `they hold at the bottom, whatever the thickness (${PRACTICE})`,
    ),
    skin: fill.length(
      'holding.skin',
      given?.skin,
      0.4,
      `a knife goes through it, and a sheet that is a little thinner still has some (${PRACTICE})`,
    ),
    tabLength: fill.length('holding.tabLength', given?.tabLength, 6, PRACTICE),
    tabHeight: fill.length('holding.tabHeight', given?.tabHeight, 0.8, PRACTICE),
  };
}

function resolveSurfacing(given: Given['surfacing'], fill: Fill): Shop['surfacing'] {
  return {
    finish: fill.plain(
      'surfacing.finish',
      given?.finish,
      'ball',
      `its ridges are round and the passes have the same width everywhere (${PRACTICE})`,
    ),
    cusp: fill.length(
      'surfacing.cusp',
      given?.cusp,
      0.02,
      `ridges that a few strokes of a sanding block take off (${PRACTICE})`,
    ),
    allowance: fill.length(
      'surfacing.allowance',
      given?.allowance,
      0.3,
      `enough that the last passes never meet the marks of the level ones (${PRACTICE})`,
    ),
  };
}

function resolveWork(given: Given['work'], machines: readonly Machine[], fill: Fill): Work {
  const router = machines.find((machine) => machine.kind === 'router')?.id;
  const laser = machines.find((machine) => machine.kind === 'laser')?.id;
  const board = (key: keyof Work): string =>
    fill.plain(
      `work.${key}`,
      given?.[key],
      router ?? 'hand',
      router === undefined ? 'there is no router' : 'work on the board goes to the first router',
    );
  const flat = (key: keyof Work): string =>
    fill.plain(`work.${key}`, given?.[key], laser ?? router ?? 'hand', flatWhy(laser, router));
  const neck = (key: keyof Work): string =>
    fill.plain(
      `work.${key}`,
      given?.[key],
      router ?? 'hand',
      router === undefined ? 'there is no router' : 'flat work on the neck goes to the first router',
    );
  return {
    indexPins: board('indexPins'),
    boardUnderside: fill.plain(
      'work.boardUnderside',
      given?.boardUnderside,
      'hand',
      'the blank has to be turned over on pins: a router does it only where one is named',
    ),
    fretSlots: board('fretSlots'),
    nutSeat: board('nutSeat'),
    faceMarkers: board('faceMarkers'),
    inlays: board('inlays'),
    boardSurface: fill.plain(
      'work.boardSurface',
      given?.boardSurface,
      'hand',
      'the radius is planed and sanded by hand unless a router is named',
    ),
    bindingChannel: board('bindingChannel'),
    boardOutline: board('boardOutline'),
    sideMarkers: fill.plain(
      'work.sideMarkers',
      given?.sideMarkers,
      'hand',
      'a board has to be set up on edge for them: a router drills them only where one is named',
    ),
    radiusBlock: flat('radiusBlock'),
    pinTemplate: flat('pinTemplate'),
    slotTemplate: flat('slotTemplate'),
    sideMarkerTemplate: flat('sideMarkerTemplate'),
    neckBlank: neck('neckBlank'),
    headstock: neck('headstock'),
    headVeneer: neck('headVeneer'),
    headTemplate: flat('headTemplate'),
    neckGauges: flat('neckGauges'),
    neckBack: fill.plain(
      'work.neckBack',
      given?.neckBack,
      'hand',
      'the back is carved by hand, to gauges, unless a router is named',
    ),
    bridgeHoles: board('bridgeHoles'),
    saddleSlot: board('saddleSlot'),
    bridgeOutline: board('bridgeOutline'),
    bridgePlate: board('bridgePlate'),
    bridgeJigs: flat('bridgeJigs'),
    jointTemplates: flat('jointTemplates'),
  };
}

function flatWhy(laser: string | undefined, router: string | undefined): string {
  if (laser !== undefined) return 'flat jigs go to the first laser';
  return router === undefined ? 'there is no machine' : 'there is no laser';
}
