/** A program that only looks: round the stock's corners above it, spindle off, touching nothing. */
import type { Intent } from '../../intent/types.ts';
import type { Job } from './job.ts';
import { newPiece, steepness } from './piece.ts';
import { pointToPrim } from './prim.ts';
import { breach, judge, judgeRule, keep, newRule, newWorst, note } from './proof.ts';
import { highestOf } from './surface.ts';
import { loadPiece } from './sweep.ts';
import { feedOf, kindOf, speedOf } from './tape.ts';
import { pieceLine, piecePlace } from './where.ts';

/** A corner counts as passed when the tool's middle comes this near. Millimetres. */
const AT_CORNER = 0.01;
/** Least height of the tip above the highest point of the stock. Millimetres. */
const LEAST_AIR = 0.5;
/** Feeds are written in whole or tenth mm/min: half a unit is let pass. */
const FEED_ROUNDING = 0.5;

/**
 * Whether an intent means a program that only looks: no cuts, and a cutter that may never go below the clear
 * height. An intent whose cuts were lost keeps a lower limit and is refused.
 */
export function onlyLooks({ cuts, limits, tool }: Intent): boolean {
  return cuts.length === 0 && limits.zMin === limits.clearHeight && tool.kind !== 'beam';
}

/** Writes `spindle never on`, `above the stock`, `corners passed`, `walking feed` and `tool`. */
export function checkLook(job: Job): void {
  checkStill(job);
  checkAbove(job);
  checkCorners(job);
  checkPace(job);
  checkTool(job);
}

/** The machine may have been left with the spindle on: it must be turned off, and never on. */
function checkStill(job: Job): void {
  const rule = newRule('spindle never on', 'M5, and no M3 or M4 at all');
  const { tape } = job.sweep;
  const { words } = tape.result;
  for (const word of ['M3', 'M4'])
    if (words.includes(word)) breach(job.ledger, rule, word, 0, null);
    else keep(rule);
  if (words.includes('M5')) keep(rule);
  else breach(job.ledger, rule, 'no M5', 0, null);
  for (let m = 0; m < tape.count; m += 1) {
    if (speedOf(tape, m) === 0) keep(rule);
    else breach(job.ledger, rule, `S ${speedOf(tape, m)}`, 0, null);
  }
  judgeRule(job.ledger, rule);
}

/** The clear height of the intent is itself held against the stock. */
function checkAbove(job: Job): void {
  const top = highestOf(job.intent.stock.top);
  const low = newWorst();
  const piece = newPiece();
  for (let i = 0; i < job.sweep.count; i += 1) {
    loadPiece(job.sweep, i, piece);
    note(low, top - Math.min(piece.z0, piece.z1), piecePlace(piece, 1), pieceLine(job.sweep, piece));
  }
  judge(job.ledger, 'above the stock', low, -LEAST_AIR);
}

/** Every corner of the stock is passed over at feed, where the way is known to be straight. */
function checkCorners(job: Job): void {
  const missed = newWorst();
  const piece = newPiece();
  for (const [x, y] of job.intent.stock.region.flat()) {
    let nearest = Number.POSITIVE_INFINITY;
    for (let i = 0; i < job.sweep.count; i += 1) {
      loadPiece(job.sweep, i, piece);
      if (kindOf(job.sweep.tape, piece.motion) !== 'feed') continue;
      nearest = Math.min(nearest, pointToPrim(x, y, piece));
    }
    note(missed, nearest, [x, y, job.intent.limits.clearHeight], 0);
  }
  judge(job.ledger, 'corners passed', missed, AT_CORNER);
}

function checkPace(job: Job): void {
  const { limits, machine } = job.intent;
  const [low, high] = limits.feed;
  const pace = newRule('walking feed', `${low} to ${high} mm/min, within the machine's`);
  const piece = newPiece();
  for (let i = 0; i < job.sweep.count; i += 1) {
    loadPiece(job.sweep, i, piece);
    const line = pieceLine(job.sweep, piece);
    if (kindOf(job.sweep.tape, piece.motion) === 'rapid') continue;
    const feed = feedOf(job.sweep.tape, piece.motion);
    const most =
      steepness(piece) > 0 ? Math.min(high, machine.maxFeed.z) : Math.min(high, machine.maxFeed.xy);
    if (feed >= low - FEED_ROUNDING && feed <= most + FEED_ROUNDING) keep(pace);
    else breach(job.ledger, pace, `F ${feed}`, line, piecePlace(piece, 1));
  }
  judgeRule(job.ledger, pace);
}

function checkTool({ intent, sweep, ledger }: Job): void {
  const rule = newRule('tool', `tool ${intent.tool.id}, or none named`);
  const others = sweep.tape.result.tools.filter((tool) => tool !== intent.tool.id);
  for (const tool of others) breach(ledger, rule, `T${tool}`, 0, null);
  if (others.length === 0) keep(rule);
  judgeRule(ledger, rule);
}
