/** What a beam does: every line and ring is burnt with its power and feed, as often as meant, and nothing else is. */
import { at } from './at.ts';
import type { Job } from './job.ts';
import { newPiece, type Piece, planLength, xAt, yAt } from './piece.ts';
import { pointToPrim } from './prim.ts';
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

/** Writes `burnt as often as meant`, `beam power` and `beam feed`. */
export function checkBurns(job: Job): void {
  const often = newRule(
    'burnt as often as meant',
    'every stretch is passed exactly as often as its cut says',
  );
  const power = newRule('beam power', 'the S word of the cut');
  const feed = newRule('beam feed', 'the feed of the cut');
  const burns = burnsOf(job);
  for (const burn of burns) {
    const { target, piece } = burn;
    const meant = target.cut.beam;
    if (meant === null) throw new Error(`beam cut ${target.cut.id} without its settings`);
    const line = pieceLine(job.sweep, piece);
    const place = piecePlace(piece, 0.5);
    const say = (rule: typeof often, good: boolean, found: string): void =>
      good ? keep(rule) : breach(job.ledger, rule, found, line, place);
    const count = passesAt(burn, burns);
    say(often, count === meant.passes, `${count} times, ${target.cut.id} says ${meant.passes}`);
    const [s, f] = [speedOf(job.sweep.tape, piece.motion), feedOf(job.sweep.tape, piece.motion)];
    say(power, agrees(s, meant.power), `S ${s}, ${target.cut.id} says ${meant.power}`);
    say(feed, agrees(f, meant.feed), `F ${f}, ${target.cut.id} says ${meant.feed}`);
  }
  for (const rule of [often, power, feed]) judgeRule(job.ledger, rule);
}

function agrees(found: number, meant: number): boolean {
  return Math.abs(found - meant) <= meant * AGREES + 0.5;
}

interface Burn {
  readonly target: Target;
  readonly owner: number;
  readonly piece: Piece;
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

/** How often the middle of a burn is passed by burns of its own cut, itself included. */
function passesAt(burn: Burn, burns: readonly Burn[]): number {
  const [x, y] = [xAt(burn.piece, 0.5), yAt(burn.piece, 0.5)];
  return burns.filter((b) => b.owner === burn.owner && passes(b.piece, x, y)).length;
}

function passes(piece: Piece, x: number, y: number): boolean {
  return planLength(piece) > 0 && pointToPrim(x, y, piece) <= SAME_LINE;
}
