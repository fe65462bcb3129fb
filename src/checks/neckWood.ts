/** The wood of the neck: does its blank hold the head, the heel, the scarf and the truss rod? */
import { clearanceBetween } from '../geometry/clearance.ts';
import { bounds, circle, flatten } from '../geometry/ring.ts';
import type { NeckLayout, RodCut } from '../layout/types.ts';
import type { Headstock, Instrument, NeckBlank } from '../profile/types.ts';
import { errorFinding, warningFinding } from '../report/collect.ts';
import type { Finding } from '../report/finding.ts';
import { formatShort } from '../units/format.ts';
import { widestHole } from './head.ts';
import type { Board } from './types.ts';
import { mm } from './words.ts';

const HAIR = 1e-6;
/** Least wood beside a pocket of the rod at the neck's edge, before the neck is carved (common practice, no source). */
const BESIDE_ROD = 4;

interface Neck {
  readonly neck: NeckLayout;
  readonly blank: NeckBlank;
  readonly instrument: Instrument;
}

/** What does not come out of the neck's blank, or leaves it too thin. */
export function checkNeckWood(board: Board): Finding[] {
  const { layout, instrument } = board;
  const { neck } = layout;
  const { neckBlank: blank, headstock } = instrument;
  if (neck === null || blank === null) return [];
  const all: Neck = { neck, blank, instrument };
  return [
    ...(headstock === null ? [] : headInBlank(all, headstock)),
    ...heelInBlank(all),
    ...widthInBlank(board, all),
    ...layout.rodCuts.flatMap((cut) => [...rodInNeck(all, cut), ...besideRod(board, cut)]),
    ...fillerInChannel(instrument),
    ...rodAtTuners(board),
    ...pinsPastNeck(board, neck),
  ];
}

function headInBlank(all: Neck, headstock: Headstock): Finding[] {
  return all.blank.build === 'scarf' ? scarfEnds(all) : headBreaksThrough(all, headstock);
}

/** The head of a neck in one piece falls length sin a, and is thickness cos a deep. */
function headBreaksThrough({ neck, blank }: Neck, headstock: Headstock): Finding[] {
  const length = neck.head?.length ?? 0;
  const deep = fallOfHead(length, headstock.thickness, headstock.angle);
  if (deep <= blank.thickness + HAIR) return [];
  const most = steepest(length, headstock.thickness, blank.thickness);
  return [
    errorFinding(
      'head-breaks-through-blank',
      `The head reaches ${mm(deep)} below the neck's plane: it breaks through a blank of ${mm(blank.thickness)}.`,
      {
        where: { source: 'instrument', path: 'headstock.angle' },
        found: degrees(headstock.angle),
        allowed: most === null ? 'no angle: the head is thicker than the blank' : `at most ${degrees(most)}`,
        remedy: 'a smaller angle, a thicker blank, or build: scarf',
      },
    ),
  ];
}

/** How deep a tilted head reaches below the neck's plane: length sin a + thickness cos a. */
export function fallOfHead(length: number, thickness: number, angle: number): number {
  return length * Math.sin(angle) + thickness * Math.cos(angle);
}

/** The greatest angle at which that is no more than `room`: length sin a + thickness cos a = R sin(a + b). */
function steepest(length: number, thickness: number, room: number): number | null {
  if (thickness > room) return null;
  return Math.asin(room / Math.hypot(length, thickness)) - Math.atan2(thickness, length);
}

/** The seam must surface before the heel and leave the shaft's back before the nut, or the joint is lost in the carving. */
function scarfEnds({ neck, blank }: Neck): Finding[] {
  const { scarf, breakX, joint, end } = neck;
  if (scarf === null) return [];
  const heel = joint === null ? end : joint - blank.heelLength;
  if (scarf.seamTop <= heel) return [];
  return [
    errorFinding(
      'scarf-runs-into-heel',
      `The seam of the scarf comes up ${mm(scarf.seamTop - breakX)} behind the nut, and the heel begins ${mm(heel - breakX)} behind it.`,
      {
        where: { source: 'instrument', path: 'headstock.angle' },
        remedy: 'a greater angle or a thinner head',
      },
    ),
  ];
}

function heelInBlank({ blank, instrument: { neckJoint } }: Neck): Finding[] {
  if (blank.heel !== 'one piece' || neckJoint === null) return [];
  const deep = neckJoint.heelDepth + neckJoint.boardAboveRim;
  if (deep <= blank.thickness + HAIR) return [];
  return [
    errorFinding(
      'heel-deeper-than-blank',
      `The heel reaches ${mm(deep)} below the board, and the blank is ${mm(blank.thickness)} thick.`,
      {
        where: { source: 'instrument', path: 'neckBlank.thickness' },
        allowed: `at least ${mm(deep)}`,
        remedy: 'a thicker blank, or heel: stacked',
      },
    ),
  ];
}

function widthInBlank({ layout }: Board, { neck, blank, instrument }: Neck): Finding[] {
  const head = neck.head === null ? 0 : widthOf(bounds(neck.head.outline).y);
  const { at0, slope } = layout.board.halfWidth;
  const heel = instrument.neckJoint?.heelWidthAtTop ?? 0;
  const widest = Math.max(head, heel, 2 * (at0 + slope * neck.end));
  if (widest <= blank.width + HAIR) return [];
  return [
    errorFinding(
      'neck-wider-than-blank',
      `Head, shaft and heel are up to ${mm(widest)} wide, and the blank is ${mm(blank.width)}.`,
      { where: { source: 'instrument', path: 'neckBlank.width' }, allowed: `at least ${mm(widest)}` },
    ),
  ];
}

const widthOf = ([from, to]: readonly [number, number]): number => to - from;

/** A cut of the rod must end in the neck and leave wood under it. */
function rodInNeck({ neck, blank, instrument }: Neck, cut: RodCut): Finding[] {
  const rod = instrument.trussRod;
  const [from, to] = bounds(cut.ring).x;
  const isAdjuster = cut.id === 'truss-rod-adjuster';
  // An adjuster in the body may come out of the neck's end; the rod itself may not.
  const past = to - (isAdjuster ? (rod?.adjuster?.access ?? 0) : 0) - neck.end;
  const under = woodAt(neck, blank, instrument, from) - cut.depth;
  const path = isAdjuster || cut.id === 'truss-rod-anchor' ? `trussRod.${endOf(cut)}` : 'trussRod';
  return [
    ...(past > HAIR
      ? [
          errorFinding('rod-longer-than-neck', `The rod ends ${mm(past)} past the end of the neck.`, {
            where: { source: 'instrument', path: 'trussRod.length' },
            found: mm(rod?.length ?? 0),
            allowed: `at most ${mm((rod?.length ?? 0) - past)}`,
            remedy: 'a shorter rod, or a neck that goes on farther past the joint (neckBlank.pastJoint)',
          }),
        ]
      : []),
    ...(under < blank.leastUnderRod - HAIR
      ? [
          errorFinding(
            'too-little-under-rod',
            `The rod's ${nameOf(cut)} leaves ${mm(under)} of wood below it.`,
            {
              where: { source: 'instrument', path: `${path}.depth` },
              found: mm(cut.depth),
              allowed: `at least ${mm(blank.leastUnderRod)} of wood, before the neck is carved`,
              remedy: 'a shallower channel or a thicker blank',
            },
          ),
        ]
      : []),
  ];
}

/** `anchor` or `adjuster`: also the field that it comes from. */
const endOf = ({ id }: Pick<RodCut, 'id'>): string => id.replace(/^truss-rod-/, '');

const nameOf = ({ id }: RodCut): string =>
  id === 'truss-rod-channel' ? 'channel' : `${endOf({ id })} pocket`;

/**
 * Wood below the neck's plane at x, before carving. Before the break the head falls away under that plane, and its back lies
 * thickness / cos a below its face.
 */
function woodAt({ breakX }: NeckLayout, blank: NeckBlank, { headstock }: Instrument, x: number): number {
  if (headstock === null || x >= breakX) return blank.thickness;
  return headstock.thickness / Math.cos(headstock.angle) + (breakX - x) * Math.tan(headstock.angle);
}

/** Wood on both sides of a pocket, in the board's taper. */
function besideRod({ layout }: Board, cut: RodCut): Finding[] {
  const { x, y } = bounds(cut.ring);
  const { at0, slope } = layout.board.halfWidth;
  const beside = Math.min(...x.map((at) => at0 + slope * at)) - y[1];
  if (beside >= BESIDE_ROD - HAIR) return [];
  return [
    errorFinding(
      'too-little-beside-rod',
      `The rod's ${nameOf(cut)} leaves ${mm(beside)} of wood beside it.`,
      {
        where: {
          source: 'instrument',
          path: cut.id === 'truss-rod-channel' ? 'trussRod.width' : `trussRod.${endOf(cut)}.width`,
        },
        allowed: `at least ${mm(BESIDE_ROD)}`,
      },
    ),
  ];
}

function fillerInChannel({ trussRod }: Instrument): Finding[] {
  if (trussRod?.filler === undefined || trussRod.filler < trussRod.depth) return [];
  return [
    errorFinding('filler-fills-channel', 'The strip over the rod leaves no room for the rod.', {
      where: { source: 'instrument', path: 'trussRod.filler' },
      found: mm(trussRod.filler),
      allowed: `less than ${mm(trussRod.depth)}, the depth of the channel`,
    }),
  ];
}

/** What is cut for the rod beyond the nut keeps clear of the tuners. */
function rodAtTuners({ layout, instrument }: Board): Finding[] {
  const { headstock } = instrument;
  const head = layout.neck?.head ?? null;
  if (head === null || headstock === null) return [];
  const wall = headstock.tuners.leastEdge;
  return layout.rodCuts.flatMap((cut) =>
    head.posts.flatMap((post): Finding[] => {
      const hole = flatten(circle(post.at, widestHole(headstock) / 2), 0.002);
      const gap = clearanceBetween(flatten(cut.ring, 0.002), hole).distance;
      if (gap >= wall - HAIR) return [];
      return [
        errorFinding(
          'rod-at-tuner',
          `The rod's ${nameOf(cut)} leaves ${mm(gap)} of wood to the tuner hole of string ${post.string}.`,
          {
            where: { source: 'instrument', path: 'trussRod.from' },
            allowed: `at least ${mm(wall)}`,
            remedy: 'a rod that begins nearer to the body, or a first post farther from the nut',
          },
        ),
      ];
    }),
  );
}

/** A pin past the end of the neck holds nothing there. */
function pinsPastNeck({ layout, instrument: { indexPins } }: Board, { end }: NeckLayout): Finding[] {
  return layout.indexPins.flatMap(({ at, diameter }, i): Finding[] => {
    const past = at[0] + diameter / 2 + indexPins.leastWall - end;
    if (past <= HAIR) return [];
    return [
      warningFinding('index-pin-past-neck', `Index pin ${i + 1} finds no wood of the neck below it.`, {
        where: { source: 'instrument', path: `indexPins.frets[${i}]` },
        remedy: 'a fret nearer to the nut, so that board and neck have the same two holes',
      }),
    ];
  });
}

const degrees = (angle: number): string => `${formatShort((angle * 180) / Math.PI, 2)} deg`;
