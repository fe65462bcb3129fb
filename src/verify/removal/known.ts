/** What of an earlier proof holds for a path that is nearly the same. */
import { at } from './at.ts';
import { type Job, type Known, UNKNOWN } from './job.ts';
import type { Offset } from './located.ts';
import { newPiece } from './piece.ts';
import { type Box, boxesNear, boxOf } from './prim.ts';
import { isSameWay, loadPiece, motionOf, type Sweep } from './sweep.ts';
import { feedOf, kindOf, speedOf } from './tape.ts';

/** With more pieces that differ than this, looking at all anew takes no longer. */
const MOST_DIFFERENCES = 400;

/** Compares the paths from both ends; null when too little is the same. */
export function knownFrom(before: Job, offsets: readonly (readonly Offset[])[], sweep: Sweep): Known | null {
  // The bound of chords is added to every figure of a path.
  if (sweep.bound !== before.sweep.bound) return null;
  const most = Math.min(before.sweep.count, sweep.count);
  let head = 0;
  while (head < most && isSame(before.sweep, head, sweep, head)) head += 1;
  let tail = 0;
  while (
    tail < most - head &&
    isSame(before.sweep, before.sweep.count - 1 - tail, sweep, sweep.count - 1 - tail)
  )
    tail += 1;
  const boxes = [...boxesOf(before.sweep, head, tail), ...boxesOf(sweep, head, tail)];
  if (boxes.length > MOST_DIFFERENCES) return null;
  const differs = (box: Box, gap: number): boolean => boxes.some((b) => boxesNear(box, b, gap));
  const gap = widest(before);
  const owner = new Int32Array(sweep.count).fill(UNKNOWN);
  const calm = new Uint8Array(sweep.count);
  const noFaster = new Uint8Array(sweep.count);
  const piece = newPiece();
  for (let i = 0; i < sweep.count; i += 1) {
    const number = i < head ? i : i - sweep.count + before.sweep.count;
    if (i >= head && i < sweep.count - tail) continue;
    owner[i] = at(before.owner, number);
    noFaster[i] = feedAt(sweep, i) <= feedAt(before.sweep, number) ? 1 : 0;
    calm[i] = differs(boxOf(loadPiece(sweep, i, piece)), gap) ? 0 : 1;
  }
  return {
    owner,
    calm,
    noFaster,
    offsets: before.targets.map((target, k) => (differs(target.box, gap) ? null : at(offsets, k))),
  };
}

/** No check of a piece or a cut looks farther than this for other pieces. Millimetres. */
function widest({ tool, intent }: Job): number {
  const parts = [...(intent.tool.shank === null ? [] : [intent.tool.shank]), ...intent.tool.holder];
  const reach = intent.cuts.flatMap((cut) => cut.tabs.map((tab) => tab.length + 8 * tab.height));
  return Math.max(4 * tool.most, ...parts.map((part) => part.diameter), ...reach);
}

/** The same way, at feed or at rapid alike, with beam or spindle on or off alike. */
function isSame(a: Sweep, i: number, b: Sweep, j: number): boolean {
  if (!isSameWay(a, i, b, j)) return false;
  const [m, n] = [motionOf(a, i), motionOf(b, j)];
  const rapid = kindOf(a.tape, m) === 'rapid';
  return rapid === (kindOf(b.tape, n) === 'rapid') && speedOf(a.tape, m) > 0 === speedOf(b.tape, n) > 0;
}

function feedAt(sweep: Sweep, i: number): number {
  return feedOf(sweep.tape, motionOf(sweep, i));
}

function boxesOf(sweep: Sweep, head: number, tail: number): Box[] {
  const piece = newPiece();
  return Array.from({ length: sweep.count - tail - head }, (_, k) =>
    boxOf(loadPiece(sweep, head + k, piece)),
  );
}
