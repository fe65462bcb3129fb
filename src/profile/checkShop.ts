/** Does the shop hold together: names that refer to something, limits the right way round, tools that a machine holds? */
import type { Finding } from '../report/finding.ts';
import { mm, when } from './check.ts';
import { checkControl, checkPierce } from './checkControl.ts';
import { checkKeepOut } from './checkKeepOuts.ts';
import { doubtfulInShop as doubtful, wrongInShop as wrong } from './checkShopFields.ts';
import { didYouMean } from './suggest.ts';
import type { Laser, Machine, Router, Shop, StockItem, Tool, Work } from './types.ts';

/** Work that a beam cannot do: it has no depth. */
const NEEDS_DEPTH: readonly (keyof Work)[] = [
  'indexPins',
  'boardUnderside',
  'nutSeat',
  'faceMarkers',
  'boardSurface',
  'bindingChannel',
  'bridgeHoles',
  'saddleSlot',
  'sideMarkers',
];

/** Longest cutter in its own diameters that can be expected not to break (common practice, no source). */
const SLENDER = 10;

/** What is wrong or doubtful in a shop; findings carry field paths of the joined shop. */
export function checkShop(shop: Shop): Finding[] {
  return [
    ...repeated(
      shop.machines.map((machine) => machine.id),
      'machines',
      'machine',
    ),
    ...repeated(
      shop.tools.map((tool) => String(tool.id)),
      'tools',
      'tool',
    ),
    ...repeated(
      shop.stock.map((item) => item.id),
      'stock',
      'stock item',
    ),
    ...shop.machines.flatMap((machine, i) => checkMachine(machine, `machines[${i}]`)),
    ...shop.tools.flatMap((tool, i) => checkTool(tool, `tools[${i}]`, shop)),
    ...shop.stock.flatMap((item, i) => checkStock(item, `stock[${i}]`, shop)),
    ...shop.keepOuts.flatMap((box, i) => checkKeepOut(box, `keepOuts[${i}]`, shop)),
    ...checkWork(shop),
  ];
}

function repeated(ids: readonly string[], list: string, what: string): Finding[] {
  return ids.flatMap((id, i) =>
    when(ids.indexOf(id) < i, () =>
      wrong('id-twice', `${list}[${i}].id`, `There are two ${what}s with the id ${id}.`, {
        remedy: 'Give each its own; files that are included count too.',
      }),
    ),
  );
}

function checkMachine(machine: Machine, path: string): readonly Finding[] {
  const isHand = when(machine.id === 'hand', () =>
    wrong(
      'id-reserved',
      `${path}.id`,
      'No machine can be called "hand": the word stands for work without a machine.',
    ),
  );
  return [
    ...isHand,
    ...checkControl(machine.controller, `${path}.controller`),
    ...(machine.kind === 'router' ? checkRouter(machine, path) : checkLaser(machine, path)),
  ];
}

function checkRouter(router: Router, path: string): readonly Finding[] {
  return [
    ...when(router.spindle[0] > router.spindle[1], () =>
      wrong(
        'interval-reversed',
        `${path}.spindle`,
        `The spindle speed runs from ${router.spindle[0]} to ${router.spindle[1]} rpm.`,
        { allowed: 'the smaller number first; the same number twice for a spindle with one speed' },
      ),
    ),
    ...when(router.clearHeight >= router.travel.z, () =>
      wrong(
        'clear-height-too-high',
        `${path}.clearHeight`,
        `The tool cannot clear the stock by ${mm(router.clearHeight)}: the machine travels ${mm(router.travel.z)} in z.`,
        {
          allowed: `less than ${mm(router.travel.z)}`,
        },
      ),
    ),
    ...when(router.travelHeight > router.clearHeight, () =>
      wrong(
        'travel-height-too-high',
        `${path}.travelHeight`,
        `Travel between features (${mm(router.travelHeight)}) is higher than the clear height (${mm(router.clearHeight)}).`,
        { allowed: `${mm(router.clearHeight)} or less` },
      ),
    ),
  ];
}

function checkLaser(laser: Laser, path: string): readonly Finding[] {
  const tested = laser.settings.map((setting) => `${setting.materialClass} ${mm(setting.thickness)}`);
  return [
    ...tested.flatMap((name, i) =>
      when(tested.indexOf(name) < i, () =>
        wrong('setting-twice', `${path}.settings[${i}]`, `There are two settings for ${name}.`, {
          remedy: 'Keep the one that was tested last.',
        }),
      ),
    ),
    ...checkPierce(laser, path),
    ...laser.settings.flatMap(({ cut, mark }, i) =>
      [cut, mark].flatMap(({ speed }, k) =>
        when(speed > laser.maxFeed, () =>
          wrong(
            'speed-too-high',
            `${path}.settings[${i}].${k === 0 ? 'cut' : 'mark'}.speed`,
            `${speed} mm/min is faster than the machine's ${laser.maxFeed} mm/min.`,
          ),
        ),
      ),
    ),
  ];
}

function checkTool(tool: Tool, path: string, shop: Shop): readonly Finding[] {
  const routers = shop.machines.filter((machine) => machine.kind === 'router').map(({ id }) => id);
  const remedy = didYouMean(tool.machine, routers);
  return [
    ...when(!routers.includes(tool.machine), () =>
      wrong('no-such-machine', `${path}.machine`, `No router called "${tool.machine}" holds this tool.`, {
        allowed: routers.join(', ') || 'there is no router in this shop',
        ...(remedy === undefined ? {} : { remedy }),
      }),
    ),
    ...checkNutHolds(tool, path, shop),
    ...when(tool.tolerance * 2 >= tool.diameter, () =>
      wrong('tolerance-too-wide', `${path}.tolerance`, 'The tolerance is as large as the tool.'),
    ),
    ...when(tool.stickOut < tool.cuttingLength, () =>
      wrong(
        'stick-out-too-short',
        `${path}.stickOut`,
        `The tool reaches ${mm(tool.stickOut)} out of the collet, less than its cutting edges are long: the collet would grip the edges.`,
        { allowed: `at least ${mm(tool.cuttingLength)}` },
      ),
    ),
    ...when(tool.kind === 'vee' && tool.tipAngle === null, () =>
      wrong('no-tip-angle', `${path}.tipAngle`, 'A vee cutter needs its tip angle.'),
    ),
    ...when(tool.kind !== 'drill' && tool.cuttingLength > SLENDER * tool.diameter, () =>
      doubtful(
        'slender-tool',
        `${path}.cuttingLength`,
        `A cutter of ${mm(tool.diameter)} that cuts ${mm(tool.cuttingLength)} deep bends and breaks easily.`,
        {
          remedy: `Check its data sheet; ${SLENDER} diameters is long.`,
        },
      ),
    ),
  ];
}

function checkNutHolds(tool: Tool, path: string, shop: Shop): readonly Finding[] {
  const router = shop.machines.find((machine) => machine.id === tool.machine);
  const nut = router?.kind === 'router' ? router.nut : null;
  return when(nut !== null && nut.diameter <= tool.shankDiameter, () =>
    wrong(
      'nut-narrower-than-shank',
      `${path}.shankDiameter`,
      `A shank of ${mm(tool.shankDiameter)} does not go through a collet nut of ${mm(nut?.diameter ?? 0)}.`,
      { remedy: `Measure both: the shank, and the nut over its corners (nut.diameter of ${tool.machine}).` },
    ),
  );
}

function checkStock(item: StockItem, path: string, shop: Shop): readonly Finding[] {
  const { trim } = shop.allowances;
  const least = item.kind === 'stick' ? item.length : Math.min(item.length, item.width);
  return [
    ...when(least <= 2 * trim, () =>
      wrong('stock-trimmed-away', path, `Trimming ${mm(trim)} off each edge leaves nothing of ${item.id}.`, {
        remedy: 'Correct its size, or allowances.trim.',
      }),
    ),
    ...when(item.kind === 'board' && item.grain === 'none', () =>
      doubtful('board-without-grain', path, `${item.id} is a board, yet its grain is said not to matter.`),
    ),
    ...when(item.kind === 'board' && item.width > item.length, () =>
      doubtful(
        'board-wider-than-long',
        path,
        `${item.id} is wider than it is long; length runs with the grain.`,
      ),
    ),
  ];
}

function checkWork(shop: Shop): readonly Finding[] {
  const ids = [...new Set(shop.machines.map(({ id }) => id))];
  const works = Object.entries(shop.work) as [keyof Work, string][];
  return works.flatMap(([work, who]) => {
    const machine = shop.machines.find(({ id }) => id === who);
    const remedy = didYouMean(who, [...ids, 'hand']);
    if (machine === undefined) {
      return when(who !== 'hand', () =>
        wrong('no-such-machine', `work.${work}`, `There is no machine called "${who}".`, {
          allowed: [...ids, 'hand'].join(', '),
          ...(remedy === undefined ? {} : { remedy }),
        }),
      );
    }
    return when(machine.kind === 'laser' && NEEDS_DEPTH.includes(work), () =>
      wrong('work-needs-depth', `work.${work}`, 'A laser cuts to no set depth, so it cannot do this work.', {
        allowed: 'a router, or hand',
      }),
    );
  });
}
