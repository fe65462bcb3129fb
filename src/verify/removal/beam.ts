/** What a beam does: every line and ring is burnt with its power and feed, as often as meant, and nothing else is. */
import { at } from './at.ts';
import { type Burn, checkRuns, type Run, runsOf } from './beamRuns.ts';
import type { Job } from './job.ts';
import { newPiece, newSpan, type Piece, planLength, spanNear, xAt, yAt } from './piece.ts';
import { checkBeamWord, checkPierce } from './pierce.ts';
import { breach, judge, judgeRule, keep, newRule, newWorst, note, type Worst } from './proof.ts';
import { loadPiece } from './sweep.ts';
import { feedOf, speedOf } from './tape.ts';
import type { LineTarget, Target } from './targets.ts';
import { pieceLine, piecePlace } from './where.ts';

/** Two paths this close burn one line. Millimetres. */
const SAME_LINE = 0.02;
/** Powers and feeds agree within this share: rounding of the text. */
const AGREES = 0.001;

/** Writes `line covered` of a marked line: the longest stretch without a mark, mm. */
export function checkLine(job: Job, target: LineTarget, finals: readonly Piece[]): void {
  const worst = newWorst();
  target.points.slice(1).forEach((to, i) => {
    noteGaps(worst, target, at(target.points, i), to, finals);
  });
  judge(job.ledger, 'line covered', worst, target.cut.tolerance.wallUnder, target.cut.id);
}

function noteGaps(
  worst: Worst,
  target: LineTarget,
  from: readonly [number, number],
  to: readonly [number, number],
  finals: readonly Piece[],
): void {
  const length = Math.hypot(to[0] - from[0], to[1] - from[1]);
  const [ux, uy] = [(to[0] - from[0]) / length, (to[1] - from[1]) / length];
  const off = (x: number, y: number): number => Math.abs((y - from[1]) * ux - (x - from[0]) * uy);
  const along = (x: number, y: number): number => (x - from[0]) * ux + (y - from[1]) * uy;
  const { position } = target.cut.tolerance;
  const spans = finals
    .filter((p) => !p.arc && off(p.x0, p.y0) <= position && off(p.x1, p.y1) <= position)
    .map((p) => [along(p.x0, p.y0), along(p.x1, p.y1)].sort((a, b) => a - b))
    .sort((a, b) => at(a, 0) - at(b, 0));
  let reached = 0;
  const gap = (start: number): void =>
    note(worst, start - reached, [from[0] + ux * reached, from[1] + uy * reached, 0], 0);
  for (const [start = 0, end = 0] of spans) {
    gap(Math.min(start, length));
    reached = Math.max(reached, end);
  }
  gap(length);
}

/** Writes `burnt as often as meant`, `beam power`, `beam feed` and how outlines are begun and ended. */
export function checkBurns(job: Job): void {
  const often = newRule(
    'burnt as often as meant',
    'every stretch is passed exactly as often as its cut says',
  );
  const power = newRule('beam power', 'the S word of the cut');
  const feed = newRule('beam feed', 'the feed of the cut');
  const burns = burnsOf(job);
  const runs = runsOf(burns);
  const runOf = new Map(runs.map((run) => [run.target as Target, run]));
  for (const burn of burns) {
    const { target, piece } = burn;
    const meant = target.cut.beam;
    if (meant === null) throw new Error(`beam cut ${target.cut.id} without its settings`);
    const line = pieceLine(job.sweep, piece);
    const place = piecePlace(piece, 0.5);
    const say = (rule: typeof often, good: boolean, found: string): void =>
      good ? keep(rule) : breach(job.ledger, rule, found, line, place);
    for (const count of passesOver(burn, burns, runOf.get(target)))
      say(often, count === meant.passes, `${count} times, ${target.cut.id} says ${meant.passes}`);
    const [s, f] = [speedOf(job.sweep.tape, piece.motion), feedOf(job.sweep.tape, piece.motion)];
    say(power, isPower(job, s, meant.power), `S ${s}, ${target.cut.id} says ${meant.power}`);
    say(feed, agrees(f, meant.feed, 0.5), `F ${f}, ${target.cut.id} says ${meant.feed}`);
  }
  for (const rule of [often, power, feed]) judgeRule(job.ledger, rule);
  checkRuns(job, runs);
  checkPierce(job, burns);
  checkBeamWord(job);
}

/** Half a step of a whole S word, or a twentieth of a per cent of full power where the S word has smaller steps. */
function isPower(job: Job, found: number, meant: number): boolean {
  return agrees(found, meant, Math.min(0.5, 0.0005 * job.intent.machine.spindle[1]));
}

function agrees(found: number, meant: number, step: number): boolean {
  return Math.abs(found - meant) <= meant * AGREES + step;
}

function burnsOf(job: Job): Burn[] {
  const burns: Burn[] = [];
  for (let i = 0; i < job.sweep.count; i += 1) {
    const owner = at(job.owner, i);
    if (owner < 0) continue;
    burns.push({ target: at(job.targets, owner), owner, piece: loadPiece(job.sweep, i, newPiece()) });
  }
  return burns;
}

/** Places along a burn are looked at no farther apart than this. Millimetres. */
const STEP = 0.5;

/**
 * How often each place of a burn is passed by burns of its own cut, itself included. The way in counts for nothing; what
 * runs on past the start comes on top of the rounds, and is held against them.
 */
function passesOver(burn: Burn, burns: readonly Burn[], run: Run | undefined): number[] {
  const own = run?.rounds ?? burns.filter((b) => b.owner === burn.owner);
  if (run?.wayIn?.includes(burn)) return [];
  const { piece } = burn;
  const length = planLength(piece);
  const count = Math.max(1, Math.ceil(length / STEP));
  return Array.from({ length: count }, (_, k) => {
    const t = (k + 0.5) / count;
    return passesAt(own, xAt(piece, t), yAt(piece, t));
  });
}

/**
 * Passes of a place: the length of all burns within a small disc about it, in diameters. So the short sides of a corner
 * count as one pass, and a way there and back as two.
 */
function passesAt(burns: readonly Burn[], x: number, y: number): number {
  const radius = 1.5 * SAME_LINE;
  const span = newSpan();
  let length = 0;
  for (const { piece } of burns) {
    spanNear(piece, x, y, radius, span);
    for (let k = 0; k < span.count; k += 1) {
      length += (at(span.at, 2 * k + 1) - at(span.at, 2 * k)) * planLength(piece);
    }
  }
  return Math.round(length / (2 * radius));
}
