import { isInArea, pointOf } from '../geometry/area.ts';
import { type Clearance, clearanceBetween, clearanceOfBoundaries } from '../geometry/clearance.ts';
import { flatten } from '../geometry/ring.ts';
import { errorFinding } from '../report/collect.ts';
import type { Finding } from '../report/finding.ts';
import type { Board, Cut } from './types.ts';
import { mm, placeIn } from './words.ts';

/** Least wood between a pocket and its neighbours: less of it breaks out when a fret is pressed (common practice, no source). */
const WALL = 0.5;
/** Slack for numbers that were written to agree. */
const HAIR = 1e-6;

/** Wood between each pocket and all slots, all other pockets and the board's edge, as the shapes lie to each other. */
export function checkWalls(board: Board): Finding[] {
  const pockets = board.cuts.filter((cut) => cut.kind === 'pocket');
  const slots = board.cuts.filter((cut) => cut.kind === 'slot');
  return pockets.flatMap((pocket, i) => [
    ...[...slots, ...pockets.slice(i + 1)].flatMap((other) => thinWall(board, pocket, other)),
    ...nearEdge(board, pocket),
  ]);
}

function thinWall(board: Board, pocket: Cut, other: Cut): Finding[] {
  if (areFarApart(pocket, other)) return [];
  const { distance, at } = clearanceOfCuts(pocket, other);
  if (distance >= WALL - HAIR) return [];
  return [
    errorFinding(
      'wall-too-thin',
      distance === 0
        ? `${start(pocket.name)} runs into ${other.name}: ${placeIn(board.layout, board.instrument, at)}.`
        : `Between ${pocket.name} and ${other.name} ${mm(distance)} of wood is left: ${placeIn(board.layout, board.instrument, at)}.`,
      {
        where: { source: 'instrument', path: pocket.path },
        found: mm(distance),
        allowed: `at least ${mm(WALL)}`,
        remedy: 'A smaller marker, another place for it, or another shape.',
      },
    ),
  ];
}

function nearEdge(board: Board, pocket: Cut): Finding[] {
  const edge = flatten(board.layout.board.wood, 0.002);
  const isInside = isInArea([edge], pointOf(pocket.outline, 0));
  const { distance, at } = clearanceOfBoundaries(pocket.outline, edge);
  if (isInside && distance >= WALL - HAIR) return [];
  return [
    errorFinding(
      'pocket-near-edge',
      `${start(pocket.name)} ${isInside && distance > 0 ? `leaves ${mm(distance)} of wood to` : 'reaches over'} the board's edge: ${placeIn(board.layout, board.instrument, at)}.`,
      {
        where: { source: 'instrument', path: pocket.path },
        allowed: `at least ${mm(WALL)} of wood`,
        remedy: 'A smaller marker, or one nearer the centreline.',
      },
    ),
  ];
}

/** Least wood between two cuts; what stands on the island of a ring is measured to the island's edge. */
export function clearanceOfCuts(a: Cut, b: Cut): Clearance {
  const under = islandUnder(a, b) ?? islandUnder(b, a);
  return under ?? clearanceBetween(a.outline, b.outline);
}

function islandUnder(inner: Cut, outer: Cut): Clearance | null {
  const island = outer.islands.find((ring) => isInArea([ring], pointOf(inner.outline, 0)));
  return island === undefined ? null : clearanceOfBoundaries(inner.outline, island);
}

/** By their upright boxes, which is quick. */
export function areFarApart(a: Cut, b: Cut, room = WALL): boolean {
  const [p, q] = [boxOf(a), boxOf(b)];
  return p.x[0] - room > q.x[1] || q.x[0] - room > p.x[1] || p.y[0] - room > q.y[1] || q.y[0] - room > p.y[1];
}

function boxOf({ outline }: Cut): {
  readonly x: readonly [number, number];
  readonly y: readonly [number, number];
} {
  const xs = outline.map((p) => p[0]);
  const ys = outline.map((p) => p[1]);
  return { x: [Math.min(...xs), Math.max(...xs)], y: [Math.min(...ys), Math.max(...ys)] };
}

/** The start of a sentence. */
export function start(name: string): string {
  return name.charAt(0).toUpperCase() + name.slice(1);
}
