/** Do the boxes that no tool may enter guard something: a part and a machine that there are, a place that programs leave free? */
import type { Finding } from '../report/finding.ts';
import { mm, when } from './check.ts';
import { doubtfulInShop as doubtful, upward, wrongInShop as wrong } from './checkShopFields.ts';
import { didYouMean } from './suggest.ts';
import type { Interval, KeepOut, Machine, Router, Shop, Work } from './types.ts';

/** Parts that programs are made for, with the work that is done on each; a keep-out names one of them. */
const WORKS_ON: Readonly<Record<string, readonly (keyof Work)[]>> = {
  fingerboard: [
    'indexPins',
    'boardUnderside',
    'fretSlots',
    'nutSeat',
    'faceMarkers',
    'boardSurface',
    'bindingChannel',
    'boardOutline',
  ],
  'fingerboard-edge': ['sideMarkers'],
  'fingerboard-turned': ['boardUnderside'],
  'radius-block-plates': ['radiusBlock'],
  'pin-template': ['pinTemplate'],
  'slot-template': ['slotTemplate'],
  'side-marker-template': ['sideMarkerTemplate'],
  'neck-blank': ['neckBlank'],
  'neck-blank-on-face': ['neckBack'],
  headstock: ['headstock'],
  'head-veneer': ['headVeneer'],
  'head-template': ['headTemplate'],
  'neck-gauges': ['neckGauges'],
  'mortise-template': ['jointTemplates'],
  'tenon-template': ['jointTemplates'],
};

/** What is wrong or doubtful in one keep-out. */
export function checkKeepOut(box: KeepOut, path: string, shop: Shop): readonly Finding[] {
  return [
    ...upward(box.x, `${path}.x`, 'side in x'),
    ...upward(box.y, `${path}.y`, 'side in y'),
    ...upward(box.z, `${path}.z`, 'side in z'),
    ...checkPart(box, path),
    ...checkMachine(box, path, shop),
    ...standsOn(box, shop).flatMap((machine) =>
      machine.kind === 'router' ? overWorkZero(box, path, machine) : [],
    ),
  ];
}

function checkPart(box: KeepOut, path: string): readonly Finding[] {
  const parts = Object.keys(WORKS_ON);
  const remedy = didYouMean(box.part, parts);
  return when(!parts.includes(box.part), () =>
    wrong(
      'no-such-part',
      `${path}.part`,
      `No program is made for a part called "${box.part}", so this box would guard nothing.`,
      { allowed: parts.join(', '), ...(remedy === undefined ? {} : { remedy }) },
    ),
  );
}

function checkMachine(box: KeepOut, path: string, shop: Shop): readonly Finding[] {
  const ids = shop.machines.map(({ id }) => id);
  const { machine } = box;
  if (machine !== null && !ids.includes(machine)) {
    const remedy = didYouMean(machine, ids);
    return [
      wrong(
        'no-such-machine',
        `${path}.machine`,
        `There is no machine called "${machine}" for ${said(box)}.`,
        {
          allowed: ids.join(', ') || 'there is no machine in this shop',
          ...(remedy === undefined ? {} : { remedy }),
        },
      ),
    ];
  }
  const machines = standsOn(box, shop);
  const kinds = new Set(machines.map(({ kind }) => kind));
  return [
    ...when(machine !== null && machines.length === 0 && box.part in WORKS_ON, () =>
      doubtful(
        'keep-out-guards-nothing',
        `${path}.machine`,
        `No work on the part ${box.part} is given to ${machine}, so ${said(box)} guards nothing there.`,
        { remedy: 'Name the machine that works on the part, or leave machine out for every one.' },
      ),
    ),
    ...when(kinds.size > 1, () =>
      doubtful(
        'keep-out-in-two-frames',
        path,
        `A router and a laser both work on the part ${box.part}, each from a work zero of its own: ${said(box)} cannot stand in the same place of both.`,
        {
          allowed: `machine: ${machines.map(({ id }) => id).join(' or ')}`,
          remedy: 'Say with machine: on which one it stands; write it twice when it stands on both.',
        },
      ),
    ),
  ];
}

/** Machines that work on the part while the box stands there. */
function standsOn(box: KeepOut, shop: Shop): Machine[] {
  const who = (WORKS_ON[box.part] ?? []).map((work) => shop.work[work]);
  return shop.machines.filter(({ id }) => who.includes(id) && (box.machine === null || box.machine === id));
}

/** Programs begin and end above the work zero, at the clear height. */
function overWorkZero(box: KeepOut, path: string, router: Router): readonly Finding[] {
  const covers = ([from, to]: Interval): boolean => from <= 0 && 0 <= to;
  return when(covers(box.x) && covers(box.y) && box.z[1] > router.clearHeight, () =>
    wrong(
      'keep-out-over-work-zero',
      path,
      `${said(box)} stands over the work zero and reaches ${mm(box.z[1])} up: there every program ends, with the tip ${mm(router.clearHeight)} above the wood.`,
      {
        allowed: `X0 Y0 free, or nothing there above ${mm(router.clearHeight)} (clearHeight)`,
        remedy:
          'Clamp the blank elsewhere, or correct the box; the work zero has to be touched there as well.',
      },
    ),
  );
}

const said = (box: KeepOut): string => `"${box.name}"`;
