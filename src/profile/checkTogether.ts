/** Can this shop make this instrument? Only what the two files alone decide; the planning itself looks closer. */
import { errorFinding } from '../report/collect.ts';
import type { Finding } from '../report/finding.ts';
import {
  boardEnd,
  boardStart,
  edgeFall,
  fallAt,
  fretName,
  halfWidthAt,
  radiusAt,
  slotX,
  spaceX,
} from './boardShape.ts';
import { HAIR, mm, when } from './check.ts';
import { bridgeSheets } from './checkBridgeJigs.ts';
import { markerSize, narrowest, sizeKey } from './markerForm.ts';
import type {
  BeamSetting,
  Instrument,
  Laser,
  Machine,
  MaterialClass,
  Router,
  Shop,
  Tool,
  Work,
} from './types.ts';

/** An outline may be cut by any cutter. */
const THICKEST = 50;

/** A finding for each thing that the machine chosen for a work cannot do. */
export function checkTogether(instrument: Instrument, shop: Shop): Finding[] {
  const router = (work: keyof Work): Router | null => routerOf(machineFor(work, shop));
  const laser = (work: keyof Work): Laser | null => laserOf(machineFor(work, shop));
  return [
    ...withMachine(router('fretSlots'), (machine) => checkSlots(instrument, shop, machine)),
    ...withMachine(router('nutSeat'), (machine) => checkNutSeat(instrument, shop, machine)),
    ...withMachine(router('faceMarkers'), (machine) => checkPockets(instrument, shop, machine)),
    ...withMachine(router('indexPins'), (machine) => checkPinHoles(instrument, shop, machine)),
    ...withMachine(router('boardSurface'), (machine) => checkSurface(instrument, shop, machine)),
    ...withMachine(router('boardOutline'), (machine) => checkOutline(instrument, shop, machine)),
    ...withMachine(router('sideMarkers'), (machine) => checkSideHoles(instrument, shop, machine)),
    ...boardFits(instrument, shop),
    ...sheetWorks(instrument).flatMap((sheet) => [
      ...withMachine(laser(sheet.work), (machine) => checkBeam(sheet, machine)),
      ...withMachine(router(sheet.work), (machine) => checkSheet(sheet, shop, machine)),
    ]),
  ];
}

const machineFor = (work: keyof Work, shop: Shop): Machine | undefined =>
  shop.machines.find(({ id }) => id === shop.work[work]);

const routerOf = (machine: Machine | undefined): Router | null =>
  machine?.kind === 'router' ? machine : null;
const laserOf = (machine: Machine | undefined): Laser | null => (machine?.kind === 'laser' ? machine : null);

const withMachine = <M>(machine: M | null, run: (machine: M) => readonly Finding[]): readonly Finding[] =>
  machine === null ? [] : run(machine);

/** What a cut asks of its cutter. */
interface Need {
  readonly what: string;
  readonly kinds: readonly Tool['kind'][];
  readonly most: number;
  readonly deep: number;
  readonly path: string;
}

/** Says which of the two, width or length, no tool of the machine satisfies. */
function checkNeed(need: Need, shop: Shop, router: Router): readonly Finding[] {
  const held = shop.tools.filter((tool) => tool.machine === router.id && need.kinds.includes(tool.kind));
  const thin = held.filter((tool) => tool.diameter <= need.most + HAIR);
  if (thin.some((tool) => tool.cuttingLength >= need.deep - HAIR)) return [];
  const wanted = `a ${need.kinds.join(' or ')} of at most ${mm(need.most)} that cuts ${mm(need.deep)} deep`;
  const longest = thin.toSorted((a, b) => b.cuttingLength - a.cuttingLength)[0];
  const text =
    longest === undefined
      ? `${router.name} has no tool thin enough for ${need.what}.`
      : `No tool of ${router.name} that is thin enough for ${need.what} cuts deep enough; "${longest.name}" cuts ${mm(longest.cuttingLength)}.`;
  return [
    errorFinding(longest === undefined ? 'no-tool-thin-enough' : 'no-tool-long-enough', text, {
      where: { source: 'instrument', path: need.path },
      allowed: wanted,
      remedy: 'Add such a tool to the shop file, or give this work to another machine or to hand.',
    }),
  ];
}

/** The deepest place of a slot is at the board's edge, where the surface has fallen away from the flat blank's top. */
function checkSlots(instrument: Instrument, shop: Shop, router: Router): readonly Finding[] {
  const { frets, fingerboard } = instrument;
  // A flat floor under a radiused top is as much deeper at the crest.
  const isDeeper = fingerboard.surfaceWhenSlotted === 'flat' || fingerboard.slotFloor === 'flat';
  const falls = [1, frets.count].map((fret) => edgeFall(instrument, slotX(instrument, fret)));
  const isPlaned =
    !Number.isFinite(fingerboard.radius) && machineFor('boardSurface', shop)?.kind === 'router';
  const thicker = isPlaned ? 0 : fingerboard.blankThickness - fingerboard.thickness;
  const above = thicker + (isDeeper ? Math.max(...falls) : 0);
  const need: Need = {
    what: `fret slots ${mm(frets.slotWidth)} wide`,
    kinds: ['flat'],
    most: frets.slotWidth,
    deep: above + frets.slotDepth,
    path: 'frets.slotWidth',
  };
  return checkNeed(need, shop, router);
}

function checkNutSeat(instrument: Instrument, shop: Shop, router: Router): readonly Finding[] {
  const { nut, fingerboard } = instrument;
  if (nut.seat === null) return [];
  const need: Need = {
    what: `the ${nut.seat.kind} of the nut`,
    kinds: ['flat'],
    most: nut.thickness + nut.seat.clearance,
    deep: fingerboard.blankThickness - fingerboard.thickness + nut.seat.depth,
    path: 'nut.seat.depth',
  };
  return checkNeed(need, shop, router);
}

function checkPockets(instrument: Instrument, shop: Shop, router: Router): readonly Finding[] {
  const { faceMarkers, fingerboard } = instrument;
  return faceMarkers.at.flatMap((marker, i) => {
    const { along, across } = markerSize(marker);
    const near = Math.max(0, (marker.count === 2 ? faceMarkers.spread / 2 : 0) - across / 2);
    const above =
      fingerboard.blankThickness -
      fingerboard.thickness +
      fallAt(radiusAt(instrument, spaceX(instrument, marker.fret)), near);
    const need: Need = {
      what: `the marker pocket at fret ${fretName(instrument.frets, marker.fret)}`,
      kinds: marker.shape === 'round' ? ['flat', 'drill'] : ['flat'],
      most: Math.min(along, narrowest(marker)) + faceMarkers.clearance,
      deep: above + faceMarkers.thickness - faceMarkers.proud,
      path: `faceMarkers.at[${i}].${sizeKey(marker, 'across')}`,
    };
    return checkNeed(need, shop, router);
  });
}

function checkPinHoles(instrument: Instrument, shop: Shop, router: Router): readonly Finding[] {
  if (instrument.indexPins.place === 'none') return [];
  const need: Need = {
    what: `index-pin holes of ${mm(instrument.indexPins.diameter)}`,
    kinds: ['flat', 'drill'],
    most: instrument.indexPins.diameter,
    deep: instrument.fingerboard.blankThickness,
    path: 'indexPins.diameter',
  };
  return checkNeed(need, shop, router);
}

function checkSideHoles({ sideMarkers }: Instrument, shop: Shop, router: Router): readonly Finding[] {
  if (sideMarkers.at.length === 0) return [];
  const need: Need = {
    what: `side markers of ${mm(sideMarkers.diameter)}`,
    kinds: ['flat', 'drill'],
    most: sideMarkers.diameter,
    deep: sideMarkers.depth,
    path: 'sideMarkers.diameter',
  };
  return checkNeed(need, shop, router);
}

/** A flat cutter takes most of it off, a ball cutter finishes; both as deep as the blank falls away at its edges. */
function checkSurface(instrument: Instrument, shop: Shop, router: Router): readonly Finding[] {
  const { fingerboard } = instrument;
  const planed = fingerboard.blankThickness - fingerboard.thickness;
  if (!Number.isFinite(fingerboard.radius)) return checkPlaning(planed, shop, router);
  const half = halfWidthAt(instrument, boardEnd(instrument)) + shop.allowances.sides;
  const ends = [boardStart(instrument), boardEnd(instrument)];
  const deep = planed + Math.max(...ends.map((x) => fallAt(radiusAt(instrument, x), half)));
  const kinds = new Set(['flat', shop.surfacing.finish] as const);
  return [...kinds].flatMap((kind) =>
    checkNeed(
      { what: "the board's radius", kinds: [kind], most: THICKEST, deep, path: 'fingerboard.radius' },
      shop,
      router,
    ),
  );
}

/** A flat board has no radius to work: one flat cutter planes a thicker blank. */
function checkPlaning(planed: number, shop: Shop, router: Router): readonly Finding[] {
  if (planed <= HAIR) return [];
  const path = 'fingerboard.blankThickness';
  return checkNeed(
    { what: 'planing the blank', kinds: ['flat'], most: THICKEST, deep: planed, path },
    shop,
    router,
  );
}

function checkOutline(instrument: Instrument, shop: Shop, router: Router): readonly Finding[] {
  const need: Need = {
    what: "the fingerboard's outline",
    kinds: ['flat'],
    most: THICKEST,
    deep: instrument.fingerboard.blankThickness + router.intoSpoilboard,
    path: 'fingerboard.blankThickness',
  };
  return checkNeed(need, shop, router);
}

const BOARD_WORKS: readonly (keyof Work)[] = [
  'boardUnderside',
  'indexPins',
  'fretSlots',
  'nutSeat',
  'faceMarkers',
  'boardSurface',
  'bindingChannel',
  'boardOutline',
];

function boardFits(instrument: Instrument, shop: Shop): readonly Finding[] {
  const { ends, sides } = shop.allowances;
  const end = boardEnd(instrument);
  const length = end - boardStart(instrument) + 2 * ends;
  const width = 2 * (halfWidthAt(instrument, end) + sides);
  const machines = new Set(BOARD_WORKS.flatMap((work) => machineFor(work, shop) ?? []));
  return [...machines].flatMap((machine) => {
    const { x, y } = machine.kind === 'router' ? machine.travel : machine.bed;
    return when(length > x || width > y, () =>
      errorFinding(
        'board-larger-than-machine',
        `The blank of the fingerboard, ${mm(length)} by ${mm(width)}, is larger than ${machine.name} reaches.`,
        {
          where: {
            source: 'shop',
            path: `machines[${shop.machines.indexOf(machine)}].${machine.kind === 'router' ? 'travel' : 'bed'}`,
          },
          found: `${mm(x)} by ${mm(y)}`,
          allowed: `at least ${mm(length)} by ${mm(width)}`,
        },
      ),
    );
  });
}

/** A jig that is cut from a sheet. */
interface Sheet {
  readonly work: keyof Work;
  readonly path: string;
  readonly materialClass: MaterialClass;
  readonly thickness: number;
}

function sheetWorks(instrument: Instrument): Sheet[] {
  const { jigs, faceMarkers } = instrument;
  const { radiusBlock, pinTemplate, slotTemplate, sideMarkerTemplate: sides } = jigs;
  const sheet = (
    work: 'radiusBlock' | 'pinTemplate' | 'slotTemplate' | 'sideMarkerTemplate' | 'inlays',
    materialClass: MaterialClass,
    thickness: number,
  ): Sheet => ({
    work,
    path: work === 'inlays' ? 'faceMarkers.inlays' : `jigs.${work}`,
    materialClass,
    thickness,
  });
  const { inlays, thickness: thick } = faceMarkers;
  return [
    ...(inlays === null ? [] : [sheet('inlays', inlays.materialClass, thick)]),
    ...(radiusBlock === null
      ? []
      : [sheet('radiusBlock', radiusBlock.materialClass, radiusBlock.plateThickness)]),
    ...(pinTemplate === null ? [] : [sheet('pinTemplate', pinTemplate.materialClass, pinTemplate.thickness)]),
    ...(slotTemplate === null
      ? []
      : [sheet('slotTemplate', slotTemplate.materialClass, slotTemplate.thickness)]),
    ...bridgeSheets(instrument),
    ...(sides === null ? [] : [sheet('sideMarkerTemplate', sides.materialClass, sides.thickness)]),
  ];
}

function checkBeam({ path, materialClass, thickness }: Sheet, laser: Laser): readonly Finding[] {
  const tested = laser.settings.filter((setting) => setting.materialClass === materialClass);
  return when(!isTested(tested, thickness), () =>
    errorFinding(
      'no-tested-setting',
      `${laser.name} has no tested setting for ${materialClass} of ${mm(thickness)}.`,
      {
        where: { source: 'instrument', path },
        allowed:
          tested.map((setting) => `${materialClass} of ${mm(setting.thickness)}`).join(', ') ||
          `nothing in ${materialClass} is tested`,
        remedy: 'Cut a test piece, measure its kerf and add the setting, or choose a sheet that is tested.',
      },
    ),
  );
}

/** Tested itself, or between two that were and that need the same number of passes. */
function isTested(tested: readonly BeamSetting[], thickness: number): boolean {
  if (tested.some((setting) => Math.abs(setting.thickness - thickness) <= HAIR)) return true;
  const sorted = tested.toSorted((a, b) => a.thickness - b.thickness);
  const thinner = sorted.findLast((setting) => setting.thickness < thickness);
  const thicker = sorted.find((setting) => setting.thickness > thickness);
  return thinner !== undefined && thicker !== undefined && thinner.cut.passes === thicker.cut.passes;
}

function checkSheet(sheet: Sheet, shop: Shop, router: Router): readonly Finding[] {
  const need: Need = {
    what: `a sheet of ${mm(sheet.thickness)}`,
    kinds: ['flat'],
    most: THICKEST,
    deep: sheet.thickness + router.intoSpoilboard,
    path: sheet.path,
  };
  return checkNeed(need, shop, router);
}
