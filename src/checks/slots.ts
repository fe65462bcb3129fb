import { boardHeight } from '../geometry/boardSurface.ts';
import type { Vec } from '../geometry/types.ts';
import type { FretSlot, Layout } from '../layout/types.ts';
import { errorFinding, warningFinding } from '../report/collect.ts';
import type { Finding } from '../report/finding.ts';
import type { Board } from './types.ts';
import { mm, placeIn } from './words.ts';

const HAIR = 1e-6;

/** The floors of slots and their ends. */
export function checkSlots(board: Board): Finding[] {
  return [...checkFloors(board), ...checkEnds(board)];
}

/** Wood between the floor of each slot and the glue under the board, at the thinnest place of all slots. */
function checkFloors(board: Board): Finding[] {
  const { layout, instrument } = board;
  const { slotDepth, leastWoodBelow } = instrument.frets;
  const ends = layout.slotCuts.flatMap(({ id, line }) =>
    line.map((at) => ({ fret: labelOf(layout, id), at })),
  );
  const thinnest = ends
    .map((end) => ({ ...end, left: thicknessAt(board, end.at) - slotDepth }))
    .toSorted((a, b) => a.left - b.left)[0];
  if (thinnest === undefined || thinnest.left >= leastWoodBelow - HAIR) return [];
  return [
    errorFinding(
      'slot-too-deep',
      `At the end of the slot of fret ${thinnest.fret} the board is ${mm(thinnest.left + slotDepth)} thick; the slot ${thinnest.left <= 0 ? 'cuts through it' : `leaves ${mm(thinnest.left)} of wood`}: ${placeIn(layout, instrument, thinnest.at)}.`,
      {
        where: { source: 'instrument', path: 'frets.slotDepth' },
        found: mm(slotDepth),
        allowed: `at least ${mm(leastWoodBelow)} of wood (frets.leastWoodBelow)`,
        remedy: 'A thicker board, a shallower slot or a larger radius.',
      },
    ),
  ];
}

/** Of the finished board. */
function thicknessAt({ layout, instrument }: Board, [x, y]: Vec): number {
  return instrument.fingerboard.thickness + boardHeight(layout.board.surface, x, y);
}

/** Least wood between the end of a slot that stops short and the edge it must not break through (common practice, no source). */
const END_WALL = 1;

/** A slot that stops short of an edge needs wood behind its end: else it breaks out, or shows once the binding is on. */
function checkEnds(board: Board): Finding[] {
  const { layout } = board;
  const ends = layout.slotCuts.flatMap((cut) =>
    cut.line.flatMap((at, k) => {
      const left = cut.walls[k] ?? null;
      return left === null ? [] : [{ slot: slotOf(layout, cut.id), at, left }];
    }),
  );
  const worst = ends.toSorted((a, b) => a.left - b.left)[0];
  const isThin = worst !== undefined && worst.left < END_WALL - HAIR;
  return [...(isThin ? [breaksOut(board, worst)] : []), ...runsOut(board)];
}

interface BlindEnd {
  readonly slot: FretSlot;
  readonly at: Vec;
  readonly left: number;
}

function breaksOut({ layout, instrument }: Board, { slot, at, left }: BlindEnd): Finding {
  return errorFinding(
    'slot-breaks-edge',
    `The slot of fret ${slot.label} stops ${mm(left)} before the edge of the wood, measured along the slot: so thin a wall breaks out. It ends ${placeIn(layout, instrument, at)}.`,
    {
      where: { source: 'instrument', path: 'fingerboard.slotsStopShort' },
      found: mm(left),
      allowed: `at least ${mm(END_WALL)} of wood behind the end of a slot, along it`,
      remedy: 'Let the slots stop shorter, or run out at the edge (slotsStopShort: 0).',
    },
  );
}

/** The margin was asked for, but the binding is wider than it: the slot runs out at the edge of the wood all the same. */
function runsOut({ layout, instrument }: Board): Finding[] {
  const { slotsStopShort, binding } = instrument.fingerboard;
  if (binding === null || slotsStopShort === 0) return [];
  const open = layout.slotCuts.find((cut) =>
    cut.ends.some((end, k) => end === 'edge' && slotOf(layout, cut.id).ends[k] === 'edge'),
  );
  if (open === undefined) return [];
  return [
    warningFinding(
      'slot-runs-out-under-binding',
      `The slot of fret ${labelOf(layout, open.id)} runs out at the edge of the wood: the margin of ${mm(slotsStopShort)} ends inside the binding.`,
      {
        where: { source: 'instrument', path: 'fingerboard.slotsStopShort' },
        found: mm(slotsStopShort),
        allowed: `0, or at least ${mm(binding.width + END_WALL)} to stop in the wood`,
        remedy: 'Bind the board after slotting, or let the slots stop shorter.',
      },
    ),
  ];
}

function slotOf({ slots }: Layout, id: string): FretSlot {
  const slot = slots.find((other) => other.id === id);
  if (slot === undefined) throw new Error(`no slot ${id}`);
  return slot;
}

function labelOf(layout: Layout, id: string): string {
  return slotOf(layout, id).label;
}
