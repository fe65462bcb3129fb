/** The skin left under a cut that frees a part but for it: nowhere thinner or thicker than meant. */
import { cuttingNear } from './cutting.ts';
import { EXACT } from './finals.ts';
import type { Job } from './job.ts';
import { lowestOf } from './lowest.ts';
import { boxOf, type Prim } from './prim.ts';
import { judge, newWorst, note, type Worst } from './proof.ts';
import { pointToBoundary } from './rings.ts';
import type { SeparateTarget } from './targets.ts';

/** Looked at so often along the ring, mm; a plunge between two looks is found by `floor deep`. */
const EVERY = 0.5;
/** Places across the cut, from the kept edge into the waste, in radii of the tool. */
const ACROSS = [0.1, 1, 1.9] as const;
/** In a corner that turns inward a place may lie nearer to the ring's other side than to its own: the cutter's middle never went there. */
const OWN_SIDE = 0.01;

/** Writes `skin too thin` (the thickest tool, everywhere across the cut) and `skin too thick` (under the tool's middle). */
export function checkSkin(job: Job, target: SeparateTarget): void {
  const thin = newWorst();
  const thick = newWorst();
  for (const edge of target.ring.edges) lookAlongEdge(job, target, edge, thin, thick);
  const { floorDeep, floorShallow } = target.cut.tolerance;
  judge(job.ledger, 'skin too thin', thin, floorDeep + EXACT, target.cut.id);
  judge(job.ledger, 'skin too thick', thick, floorShallow + EXACT, target.cut.id);
}

function lookAlongEdge(job: Job, target: SeparateTarget, edge: Prim, thin: Worst, thick: Worst): void {
  const { most, least, usual } = job.tool;
  const pieces = cuttingNear(job, boxOf(edge), 4 * most);
  const floor = target.cut.floor.kind === 'plane' ? target.cut.floor.z : Number.NaN;
  for (const stand of standsOn(edge)) {
    for (const share of ACROSS) {
      const off = share * usual;
      const [x, y] = [stand.x + stand.wx * off, stand.y + stand.wy * off];
      if (pointToBoundary(target.ring, x, y, 2 * most) < off - OWN_SIDE) continue;
      note(thin, floor - lowestOf(pieces, x, y, most, job), [x, y, floor], 0);
      if (share === 1) note(thick, lowestOf(pieces, x, y, least, job) - floor, [x, y, floor], 0);
    }
  }
}

/** A point of the ring, with the waste toward (wx, wy): the kept wood is on the left of its ring, whichever it is. */
interface Stand {
  readonly x: number;
  readonly y: number;
  readonly wx: number;
  readonly wy: number;
}

function standsOn(edge: Prim): Stand[] {
  const length = edge.arc
    ? edge.radius * Math.abs(edge.sweep)
    : Math.hypot(edge.x1 - edge.x0, edge.y1 - edge.y0);
  const count = Math.max(1, Math.ceil(length / EVERY));
  return Array.from({ length: count }, (_, i) => standAt(edge, (i + 0.5) / count, length));
}

function standAt(e: Prim, t: number, length: number): Stand {
  if (!e.arc) {
    const [ux, uy] = [(e.x1 - e.x0) / length, (e.y1 - e.y0) / length];
    return { x: e.x0 + (e.x1 - e.x0) * t, y: e.y0 + (e.y1 - e.y0) * t, wx: uy, wy: -ux };
  }
  const angle = e.a0 + e.sweep * t;
  const [cosine, sine] = [Math.cos(angle), Math.sin(angle)];
  const sense = Math.sign(e.sweep);
  return { x: e.cx + e.radius * cosine, y: e.cy + e.radius * sine, wx: cosine * sense, wy: sine * sense };
}
