import { clearanceOfBoundaries } from '../geometry/clearance.ts';
import { flatten } from '../geometry/ring.ts';
import { errorFinding } from '../report/collect.ts';
import type { Finding } from '../report/finding.ts';
import type { Board, Cut } from './types.ts';
import { areFarApart, clearanceOfCuts, start } from './walls.ts';
import { mm, placeIn } from './words.ts';

/** Least wood between the hole of a side marker and what it must not break into. */
const SIDE_WALL = 0.3;
const HAIR = 1e-6;

/** Each index pin against slots, pockets, the truss rod and the edge: it may lie only in what is meant to hide it. */
export function checkPins(board: Board): Finding[] {
  const { layout, instrument, cuts } = board;
  const wall = instrument.indexPins.leastWall;
  const edge: Cut = { ...EDGE, outline: flatten(layout.board.wood, 0.002) };
  const rod = layout.rodCuts.map(({ id, ring }) => ({ ...ROD, id, outline: flatten(ring, 0.002) }));
  const below =
    layout.rodClearance === null ? [] : [{ ...CLEARANCE, outline: flatten(layout.rodClearance.ring, 0.002) }];
  return layout.indexPins.flatMap(({ id, under }) => {
    const pin = cuts.find((cut) => cut.id === id);
    if (pin === undefined) throw new Error(`no cut ${id}`);
    const others = cuts.filter((c) => (c.kind === 'slot' || c.kind === 'pocket') && c.id !== under);
    return [
      ...[...others, ...rod, ...below].flatMap((other) => tooNear(board, pin, other, wall)),
      ...tooNear(board, pin, edge, wall),
    ];
  });
}

const EDGE = {
  id: 'edge',
  kind: 'pocket',
  islands: [],
  name: 'the edge of the board',
  path: 'indexPins.offset',
} as const;
const ROD = {
  id: 'rod',
  kind: 'pocket',
  islands: [],
  name: "the truss rod's channel",
  path: 'indexPins.offset',
} as const;

const CLEARANCE = { ...ROD, id: 'clearance', name: 'the pocket over the truss rod' } as const;

/** Each side marker's hole against slots, pockets and pins whose depth it reaches. */
export function checkSideHoles(board: Board): Finding[] {
  const holes = board.cuts.filter((cut) => cut.kind === 'side hole');
  const others = board.cuts.filter((cut) => cut.kind !== 'side hole');
  return holes.flatMap((hole) =>
    others
      .filter((other) => reaches(board, other))
      .flatMap((other) => tooNear(board, hole, other, SIDE_WALL)),
  );
}

/** Whether a cut goes down to the upper side of the side markers' holes; a pin's hole goes right through. */
function reaches({ instrument }: Board, { kind }: Cut): boolean {
  const { below, diameter } = instrument.sideMarkers;
  const upper = below - diameter / 2 - SIDE_WALL;
  if (kind === 'slot') return instrument.frets.slotDepth > upper;
  if (kind === 'pocket') return instrument.faceMarkers.thickness - instrument.faceMarkers.proud > upper;
  return true;
}

function tooNear(board: Board, hole: Cut, other: Cut, wall: number): Finding[] {
  if (other.id !== EDGE.id && areFarApart(hole, other, wall)) return [];
  const gap =
    other.id === EDGE.id ? clearanceOfBoundaries(hole.outline, other.outline) : clearanceOfCuts(hole, other);
  if (gap.distance >= wall - HAIR) return [];
  const left = gap.distance === 0 ? 'goes into' : `leaves ${mm(gap.distance)} of wood to`;
  return [
    errorFinding(
      hole.kind === 'pin' ? 'pin-too-near' : 'side-hole-too-near',
      `${start(hole.name)} ${left} ${other.name}: ${placeIn(board.layout, board.instrument, gap.at)}.`,
      {
        where: { source: 'instrument', path: hole.path },
        found: mm(gap.distance),
        allowed: `at least ${mm(wall)}`,
        remedy:
          hole.kind === 'pin'
            ? 'Another fret, another offset, a thinner pin or another kind of place.'
            : 'A smaller spread, a thinner rod or a shallower hole.',
      },
    ),
  ];
}
