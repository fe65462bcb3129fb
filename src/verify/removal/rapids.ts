/** Rapids: never sideways low down or low away from the stock, never down into wood, never with a beam on. */
import { standsAt } from './ground.ts';
import type { Job } from './job.ts';
import { newPiece, type Piece } from './piece.ts';
import { linePrim } from './prim.ts';
import { breach, judgeRule, keep, newRule, type Rule } from './proof.ts';
import { boundaryDistance, isInside, type Region, signedDistance } from './rings.ts';
import { heightLeft, newPast, type Past, recall } from './stock.ts';
import { highestOf } from './surface.ts';
import { loadPiece } from './sweep.ts';
import { kindOf, speedOf } from './tape.ts';
import { pieceLine, piecePlace } from './where.ts';

/** Heights in the text are rounded by less than this. Millimetres. */
const ROUNDING = 1e-6;
/** Least height of the tip above the highest point of the stock when it moves sideways at rapid. Millimetres. */
const LEAST_AIR = 0.1;
/** Low travel keeps this near to the stock, where a tool runs out of it; farther off anything may stand on the bed. Millimetres. */
const BESIDE = 10;
/** Farther than this is not measured. Millimetres. */
const FAR = 20;

/** How low the tip may be in a rapid. */
interface Heights {
  /** Sideways inside a cut, and down. */
  readonly floor: number;
  /** Sideways over the stock and close beside it: lower things may stand there unnamed. */
  readonly travel: number;
  /** Sideways elsewhere, where anything may stand. */
  readonly clear: number;
}

/** Writes the check `rapids` of a cutter's program. */
export function checkRapids(job: Job): void {
  const heights = heightsOf(job);
  const rule = newRule(
    'rapids',
    `no rapid sideways below ${heights.travel} mm (${heights.floor} over a cut, ${heights.clear} more than ${BESIDE} mm from the stock), and none down below ${heights.floor} mm but into a place already cut`,
  );
  const past = newPast();
  const piece = newPiece();
  for (let i = 0; i < job.sweep.count; i += 1) {
    loadPiece(job.sweep, i, piece);
    if (kindOf(job.sweep.tape, piece.motion) !== 'rapid') continue;
    if (job.known?.calm[i] === 1) keep(rule);
    else lookAt(job, rule, heights, past, i, piece);
    if (job.hasty && rule.broken > 0) break;
  }
  judgeRule(job.ledger, rule);
}

/** The heights of the intent are themselves held against the stock: never at or below its highest point. */
function heightsOf({ intent: { limits, stock } }: Job): Heights {
  const floor = Math.max(limits.rapidFloor, highestOf(stock.top) + LEAST_AIR);
  const travel = Math.max(floor, limits.travelHeight ?? floor);
  return { floor, travel, clear: Math.max(travel, limits.clearHeight) };
}

function lookAt(job: Job, rule: Rule, heights: Heights, past: Past, i: number, piece: Piece): void {
  const line = pieceLine(job.sweep, piece);
  const sideways = piece.x0 !== piece.x1 || piece.y0 !== piece.y1;
  // Axes need not arrive together: a rapid in several axes may sink before it has moved aside, so its lowest end counts.
  const lowest = Math.min(piece.z0, piece.z1);
  const found = sideways
    ? sidewaysTooLow(job, heights, piece, lowest)
    : downTooLow(job, heights, past, i, piece);
  if (found === null) keep(rule);
  else breach(job.ledger, rule, found, line, piecePlace(piece, 1));
}

function sidewaysTooLow(job: Job, heights: Heights, piece: Piece, lowest: number): string | null {
  const z = `sideways at z ${lowest.toFixed(3)}`;
  if (lowest >= heights.clear - ROUNDING) return null;
  const corners = cornersOf(job, piece);
  const beside = corners.some(([x, y]) => !(signedDistance(job.stock, x, y, FAR) >= -BESIDE));
  if (beside) return `${z}, away from the stock`;
  if (lowest >= heights.travel - ROUNDING) return null;
  return lowest >= heights.floor - ROUNDING && isOverOneCut(job, corners, piece) ? null : z;
}

function downTooLow(job: Job, heights: Heights, past: Past, i: number, piece: Piece): string | null {
  if (!(piece.z1 < piece.z0) || piece.z1 >= heights.floor - ROUNDING) return null;
  return isCleared(job, past, i, piece) ? null : `down to z ${piece.z1.toFixed(3)} where nothing was cut`;
}

type Corner = readonly [x: number, y: number];

/** The corners of what a rapid may pass over in plan: its way, or the whole box where the axes need not arrive together. */
function cornersOf({ intent }: Job, { x0, y0, x1, y1 }: Piece): readonly Corner[] {
  const ends = [[x0, y0] as const, [x1, y1] as const];
  return intent.machine.rapid === 'straight' ? ends : [...ends, [x0, y1] as const, [x1, y0] as const];
}

/**
 * Over what one cut clears, rim and all: nothing is clamped there, but on an island, or beyond a wall, something may be. A surface
 * has neither, and is run past its ends. Round an outline a whole part lies in its box.
 */
function isOverOneCut(job: Job, corners: readonly Corner[], piece: Piece): boolean {
  return job.targets.some((target) => {
    const { box } = target;
    const isInBox = corners.every(
      ([x, y]) => x >= box.minX && x <= box.maxX && y >= box.minY && y <= box.maxY,
    );
    if (!isInBox) return false;
    if (target.kind === 'surface') return true;
    return target.kind === 'region' && isOverRegion(job, target.mayCut ?? target.region, corners, piece);
  });
}

/** The rim may be over a wall by this share of the radius: finishing passes touch walls, their text is rounded. */
const RIM = 0.95;

/** No side of what the rapid may pass over comes near a wall, and no island lies within. */
function isOverRegion(job: Job, region: Region, corners: readonly Corner[], piece: Piece): boolean {
  const rim = RIM * job.tool.usual;
  if (!corners.every(([x, y]) => isInside(region, x, y))) return false;
  if (corners.length === 2) return boundaryDistance(region, piece, job.tool.most) >= rim;
  const { x0, y0, x1, y1 } = piece;
  const sides = [
    linePrim(x0, y0, x1, y0),
    linePrim(x1, y0, x1, y1),
    linePrim(x1, y1, x0, y1),
    linePrim(x0, y1, x0, y0),
  ];
  return (
    sides.every((side) => boundaryDistance(region, side, job.tool.most) >= rim) &&
    !region.edges.some((e) => isBetween(e.x0, x0, x1) && isBetween(e.y0, y0, y1))
  );
}

function isBetween(value: number, a: number, b: number): boolean {
  return value > Math.min(a, b) && value < Math.max(a, b);
}

/** Whether all under the tool was cut away down to where it goes. */
function isCleared(job: Job, past: Past, i: number, piece: Piece): boolean {
  recall(job, past, i, piece, 2 * job.tool.most);
  const { usual, kind } = job.tool;
  const rim = kind === 'drill' ? 0 : 0.95 * usual;
  const looks = kind === 'drill' ? [0] : [0, 1, 2, 3, 4, 5, 6, 7];
  const enough = piece.z1 + ROUNDING;
  const { x0: x, y0: y } = piece;
  if (past.count === 0 && standsAt(job.cleared, x, y, Number.POSITIVE_INFINITY) > enough) return false;
  if (!(heightLeft(job, past, x, y, usual, enough) <= enough)) return false;
  return looks.every((k) => {
    const angle = (k * Math.PI) / 4;
    const height = heightLeft(job, past, x + rim * Math.cos(angle), y + rim * Math.sin(angle), usual, enough);
    return height <= enough;
  });
}

/** Writes the check `beam off in rapids`. */
export function checkBeamRapids(job: Job): void {
  const rule = newRule('beam off in rapids', 'the beam is off in every rapid');
  const piece = newPiece();
  for (let i = 0; i < job.sweep.count; i += 1) {
    loadPiece(job.sweep, i, piece);
    if (kindOf(job.sweep.tape, piece.motion) !== 'rapid') continue;
    const speed = speedOf(job.sweep.tape, piece.motion);
    if (speed !== 0)
      breach(job.ledger, rule, `S ${speed}`, pieceLine(job.sweep, piece), piecePlace(piece, 1));
    else keep(rule);
  }
  judgeRule(job.ledger, rule);
}
