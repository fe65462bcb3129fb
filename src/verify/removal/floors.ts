/**
 * How much too high a floor is left.
 *
 * At each sample point the height left is the lowest tip over all pieces while the thinnest tool covers it, or, over a plane floor,
 * leaves it by no more than a wall may be short of: where a strip so narrow may stand whole, it may also stand lowered by a ramp. A
 * flat tool cannot follow a slope: on a curved floor the height is judged against what the thickest tool could reach, from the
 * places where the path goes, without cutting too deep anywhere under its end. On a plane floor that is the floor itself.
 */
import type { Surface } from '../../intent/types.ts';
import { at } from './at.ts';
import { cuttingNear } from './cutting.ts';
import { floorOf } from './depth.ts';
import { EXACT } from './finals.ts';
import type { Job } from './job.ts';
import { newSpan, type Piece, type Span, spanNear, xAt, yAt, zAt } from './piece.ts';
import { judge, newWorst, note } from './proof.ts';
import { isInside, type Region } from './rings.ts';
import { highestUnderDisc } from './surface.ts';
import type { RegionTarget } from './targets.ts';
import { blendOf } from './tool.ts';
import { pieceLine } from './where.ts';

/** Sample points of one region, about. */
const SAMPLES = 300;

/** Writes the check `floor shallow` of a region or hole. */
export function checkFloor(job: Job, target: RegionTarget): void {
  const floor = floorOf(job, target);
  // What is left farther from the path at full depth is found by `wall undercut`, at whatever height it stands.
  const reach = job.tool.least + (floor.kind === 'plane' ? target.cut.tolerance.wallUnder : 0);
  const look = { floor, reach, pieces: cuttingNear(job, target.region.box, reach), span: newSpan() };
  const worst = newWorst();
  for (const [x, y] of samplesOf(target.region)) {
    const left = heightLeft(job, look, x, y);
    if (left === null) continue;
    note(worst, left.tooHigh + blendOf(job.intent), [x, y, left.z], pieceLine(job.sweep, left.piece));
  }
  const limit = target.cut.through ? 0 : target.cut.tolerance.floorShallow;
  judge(job.ledger, 'floor shallow', worst, limit + EXACT, target.cut.id);
}

interface Left {
  readonly tooHigh: number;
  readonly z: number;
  readonly piece: Piece;
}

interface Look {
  readonly floor: Surface;
  /** A piece this near a point counts as cutting it, mm. */
  readonly reach: number;
  readonly pieces: readonly Piece[];
  readonly span: Span;
}

function heightLeft(job: Job, { floor, reach, pieces, span }: Look, x: number, y: number): Left | null {
  const { most, tip } = job.tool;
  let z = Number.POSITIVE_INFINITY;
  let reachable = Number.POSITIVE_INFINITY;
  let lowest: Piece | null = null;
  for (const piece of pieces) {
    spanNear(piece, x, y, reach, span);
    for (let k = 0; k < 2 * span.count; k += 1) {
      const t = at(span.at, k);
      const height = zAt(piece, t) + tip;
      if (height < z) {
        z = height;
        lowest = piece;
      }
      reachable = Math.min(reachable, highestUnderDisc(floor, xAt(piece, t), yAt(piece, t), most));
    }
  }
  return lowest === null ? null : { tooHigh: z - reachable, z, piece: lowest };
}

/** Points of a grid inside the region; for a region too thin for its grid, points along its middle. */
function samplesOf(region: Region): [number, number][] {
  const { minX, minY, maxX, maxY } = region.box;
  const [width, height] = [maxX - minX, maxY - minY];
  const across = Math.min(60, Math.max(3, Math.round(Math.sqrt((SAMPLES * width) / height))));
  const up = Math.min(120, Math.max(3, Math.round(SAMPLES / across)));
  const points: [number, number][] = [];
  for (let i = 0; i < across; i += 1) {
    for (let j = 0; j < up; j += 1) {
      const x = minX + (width * (i + 0.5)) / across;
      const y = minY + (height * (j + 0.5)) / up;
      if (isInside(region, x, y)) points.push([x, y]);
    }
  }
  return points.length > 0 ? points : alongEdges(region);
}

/** Middles between the middles of opposite sides. */
function alongEdges(region: Region): [number, number][] {
  const middles = region.edges.map((e): [number, number] => [(e.x0 + e.x1) / 2, (e.y0 + e.y1) / 2]);
  return middles.flatMap((a, i) =>
    middles.slice(i + 1).map((b): [number, number] => [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2]),
  );
}
