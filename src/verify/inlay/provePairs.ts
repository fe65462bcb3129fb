/** Lays every part, as its program cut it, into its pocket, as its programs cut that, and measures the gap all round. */
import Flatbush from 'flatbush';
import { at } from '../removal/at.ts';
import { pointToPrim } from '../removal/prim.ts';
import { type Check, judge, newLedger, newWorst, note } from '../removal/proof.ts';
import { type CutAway, cutAwayBy, depthAt, type Point, wallsOf } from './cutWalls.ts';
import { type RealCut, readCuts } from './readCuts.ts';
import type { InlayPair, InlayPairs, WrittenProgram } from './types.ts';

/**
 * Two checks for each pair: `gap too narrow` and `gap too wide`, each by how much at its worst place, in the frame of the pocket's
 * part. Both walls are looked at from the other, at the stated diameters of the cutters. A point of the other wall may lie half a step
 * along it from the nearest place: at a gap of 0.025 mm that reads 0.0005 mm more than it is.
 */
export function provePairs(wanted: InlayPairs, programs: readonly WrittenProgram[]): Check[] {
  const cuts = programs.flatMap(readCuts);
  return wanted.pairs.flatMap((pair) => provePair(pair, wanted.tolerance, cuts));
}

function provePair(pair: InlayPair, tolerance: number, cuts: readonly RealCut[]): Check[] {
  const pocketCuts = cuts.filter((c) => isOfPocket(c.feature, pair.pocket));
  const pocket = cutAwayBy(pocketCuts.flatMap((c) => c.runs));
  const toFrame = (cut: RealCut | undefined, points: readonly Point[]): Point[] =>
    cut === undefined ? [] : points.map((p) => moved(cut, p));
  const walls = toFrame(pocketCuts[0], wallsOf(pocket));
  const edges = cuts
    .filter((c) => c.feature === pair.part || pair.openings.includes(c.feature))
    .flatMap((c) => toFrame(c, edgesOf(c)).map((p) => intoPocket(pair, p)));
  const narrow = newWorst();
  const wide = newWorst();
  const take = ([x, y]: Point, gap: number): void => {
    note(narrow, pair.gap - gap, [x, y, 0], 0);
    note(wide, gap - pair.gap, [x, y, 0], 0);
  };
  measure(edges, walls, (p, gap) => take(p, isInside(pocketCuts[0], pocket, p) ? gap : -gap));
  measure(walls, edges, take);
  const ledger = newLedger();
  judge(ledger, 'gap too narrow', narrow, tolerance, pair.pocket);
  judge(ledger, 'gap too wide', wide, tolerance, pair.pocket);
  return ledger.checks;
}

/** What a larger cutter left of a pocket is a feature of its own, named for it. */
function isOfPocket(feature: string, pocket: string): boolean {
  return feature === pocket || new RegExp(`^rest-of-${pocket}-\\d+$`).test(feature);
}

/** The walls of one outline's cut that face what is kept; the other side of the cut is waste. */
function edgesOf({ target, runs, radius }: RealCut): Point[] {
  const walls = wallsOf(cutAwayBy(runs));
  const edges =
    target.kind === 'separate' ? target.ring.edges : target.kind === 'line' ? [] : target.region.edges;
  return walls.filter(([x, y]) => Math.min(...edges.map((edge) => pointToPrim(x, y, edge))) < radius);
}

/** Distance from each point to the nearest of the others. */
function measure(
  points: readonly Point[],
  others: readonly Point[],
  take: (p: Point, gap: number) => void,
): void {
  if (others.length === 0) return;
  const index = new Flatbush(others.length);
  for (const [x, y] of others) index.add(x, y, x, y);
  index.finish();
  for (const p of points) {
    const nearest = at(others, index.neighbors(p[0], p[1], 1)[0] ?? 0);
    take(p, Math.hypot(p[0] - nearest[0], p[1] - nearest[1]));
  }
}

function moved({ matrix }: RealCut, [x, y]: Point): Point {
  const [[a, b, , e], [c, d, , f]] = [at(matrix, 0), at(matrix, 1)];
  return [a * x + b * y + e, c * x + d * y + f];
}

/** Programs only shift their parts: what the pocket's frame adds is taken off again. */
function isInside(cut: RealCut | undefined, pocket: CutAway, [x, y]: Point): boolean {
  if (cut === undefined) return false;
  const [ox, oy] = moved(cut, [0, 0]);
  return depthAt(pocket, x - ox, y - oy) > 0;
}

function intoPocket({ toPocket: { from, quarters, to } }: InlayPair, [x, y]: Point): Point {
  let [dx, dy] = [x - from[0], y - from[1]];
  for (let k = 0; k < ((quarters % 4) + 4) % 4; k += 1) [dx, dy] = [-dy, dx];
  return [to[0] + dx, to[1] + dy];
}
