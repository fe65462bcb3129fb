/** A part cut free along its kept ring, but for its tabs or its skin. */
import { at } from './at.ts';
import { cuttingNear } from './cutting.ts';
import { EXACT } from './finals.ts';
import type { Job } from './job.ts';
import { writeLeft } from './leftover.ts';
import { lowestOf } from './lowest.ts';
import type { Piece } from './piece.ts';
import { type Prim, pointToPrim } from './prim.ts';
import { judge, newWorst, note } from './proof.ts';
import { leftAlong } from './ringCoverage.ts';
import { direction, signedDistance } from './rings.ts';
import { checkSkin } from './skin.ts';
import type { SeparateTarget } from './targets.ts';

/** Sides of a tab may slope no flatter than this: one up in so many along. */
const FLATTEST = 4;
/** A tab's height is looked at in such steps until it falls away. Millimetres. */
const STEP = 0.1;
/** Heights and lengths of tabs are met within this; nobody measures one closer. Millimetres. */
const TAB_SLACK = 0.01;

type Tab = SeparateTarget['cut']['tabs'][number];

/** Where a tab stands on the ring: along (ux, uy), with the waste toward (wx, wy). */
interface Stand {
  readonly tab: Tab;
  readonly x: number;
  readonly y: number;
  readonly ux: number;
  readonly uy: number;
  readonly wx: number;
  readonly wy: number;
}

/** Writes `wall undercut` (all round but for tabs), and what speaks of its tabs or its skin. */
export function checkSeparate(job: Job, target: SeparateTarget, finals: readonly Piece[]): void {
  const { wallUnder } = target.cut.tolerance;
  const stands = target.cut.tabs.map((tab) => standOf(target, tab));
  const free = (x: number, y: number, half: number): boolean =>
    stands.some((stand) => isOnTab(job, stand, x, y, half)) || mayRemain(target, x, y, half);
  writeLeft(
    job,
    target,
    'wall undercut',
    leftAlong(target.ring, free, finals, job.tool.least, wallUnder),
    wallUnder,
  );
  if (stands.length > 0) checkTabs(job, target, stands);
  if (!target.cut.through) checkSkin(job, target);
}

function standOf(target: SeparateTarget, tab: Tab): Stand {
  const [x, y] = tab.at;
  const distances = target.ring.edges.map((e) => pointToPrim(x, y, e));
  const edge: Prim = at(target.ring.edges, distances.indexOf(Math.min(...distances)));
  const [ux, uy] = edge.arc ? tangentAt(edge, x, y) : direction(edge, true);
  // The kept wood is on the left of its ring, whichever it is.
  return { tab, x, y, ux, uy, wx: uy, wy: -ux };
}

function tangentAt(edge: Prim, x: number, y: number): [number, number] {
  const distance = Math.hypot(x - edge.cx, y - edge.cy);
  const sense = Math.sign(edge.sweep);
  return [(-(y - edge.cy) * sense) / distance, ((x - edge.cx) * sense) / distance];
}

/** How far from its middle a tab may reach along the ring, its sloping sides included. */
function reachOf(job: Job, tab: Tab): number {
  return (tab.length + 2 * job.tool.most) / 2 + tab.height * FLATTEST;
}

function isOnTab(job: Job, s: Stand, x: number, y: number, half: number): boolean {
  const along = Math.abs((x - s.x) * s.ux + (y - s.y) * s.uy);
  const off = Math.abs((x - s.x) * s.wx + (y - s.y) * s.wy);
  const inside = Math.min(reachOf(job, s.tab) - along, job.tool.most - off);
  return inside >= half || (half < 0.001 && inside >= 0);
}

function mayRemain({ mayRemain: region }: SeparateTarget, x: number, y: number, half: number): boolean {
  return region !== null && signedDistance(region, x, y, half + 1) >= half;
}

function checkTabs(job: Job, target: SeparateTarget, stands: readonly Stand[]): void {
  const low = newWorst();
  const short = newWorst();
  const long = newWorst();
  for (const stand of stands) {
    const { thick, thin } = heightsOn(job, stand);
    const { tab, x, y } = stand;
    const most = reachOf(job, tab) + 2 * job.tool.most;
    const place = [x, y, job.intent.stock.bottom] as const;
    note(low, tab.height - Math.max(0, thick(0)), place, 0);
    // The thickest tool takes this much more of it at either end than the one it was planned for.
    const thicker = 2 * (job.tool.most - job.tool.usual);
    note(short, tab.length - thicker - extent(thick, tab.height - TAB_SLACK, most), place, 0);
    note(long, extent(thin, EXACT, most) - 2 * reachOf(job, tab), place, 0);
  }
  judge(job.ledger, 'tab height', low, TAB_SLACK, target.cut.id);
  judge(job.ledger, 'tab too short', short, TAB_SLACK, target.cut.id);
  judge(job.ledger, 'tab too long', long, TAB_SLACK, target.cut.id);
}

/** Height left above the stock's bottom at a distance along a tab's middle line. */
type HeightAlong = (along: number) => number;

/** What the thickest and what the thinnest tool leaves of a tab. */
function heightsOn(job: Job, s: Stand): { readonly thick: HeightAlong; readonly thin: HeightAlong } {
  const reach = reachOf(job, s.tab) + 2 * job.tool.most;
  const box = { minX: s.x - reach, maxX: s.x + reach, minY: s.y - reach, maxY: s.y + reach };
  const pieces = cuttingNear(job, box, job.tool.most);
  const left = (along: number, radius: number): number => {
    const x = s.x + s.ux * along + s.wx * job.tool.usual;
    const y = s.y + s.uy * along + s.wy * job.tool.usual;
    return lowestOf(pieces, x, y, radius, job) - job.intent.stock.bottom;
  };
  return { thick: (along) => left(along, job.tool.most), thin: (along) => left(along, job.tool.least) };
}

/** Length about the middle in which the height stays above a threshold; its ends by halving. */
function extent(height: HeightAlong, threshold: number, most: number): number {
  if (!(height(0) > threshold)) return 0;
  const end = (sense: number): number => {
    let inside = 0;
    while (inside < most && height(sense * (inside + STEP)) > threshold) inside += STEP;
    let outside = inside + STEP;
    while (outside - inside > STEP / 128) {
      const middle = (inside + outside) / 2;
      if (height(sense * middle) > threshold) inside = middle;
      else outside = middle;
    }
    return inside;
  };
  return end(1) + end(-1);
}
