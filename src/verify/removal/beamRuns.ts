/**
 * How a beam runs a closed outline: in from the waste, round as often as meant, and on past its start.
 *
 * The three are told apart by length alone, as their intent states them: the way in first, the stretch past the start last.
 */
import type { BeamRun } from '../../intent/types.ts';
import { at } from './at.ts';
import type { Job } from './job.ts';
import { type Piece, planLength, xAt, yAt } from './piece.ts';
import { pointToPrim } from './prim.ts';
import { breach, judgeRule, keep, newRule, type Rule } from './proof.ts';
import { boundaryDistance, pointToBoundary } from './rings.ts';
import type { SeparateTarget, Target } from './targets.ts';
import { pieceLine, piecePlace } from './where.ts';

/** A stretch that burns, and the cut it works on. */
export interface Burn {
  readonly target: Target;
  readonly owner: number;
  readonly piece: Piece;
}

/** The burns of one outline, in the order in which they are run; null where a part of it cannot be told from the rest. */
export interface Run {
  readonly target: SeparateTarget;
  readonly burns: readonly Burn[];
  readonly wayIn: readonly Burn[] | null;
  readonly rounds: readonly Burn[];
  readonly past: readonly Burn[] | null;
}

/** Lengths in the text are rounded by less than this. Millimetres. */
const LENGTH_SLACK = 0.02;
/** Ends of two stretches that meet lie this close. Millimetres. */
const MEETS = 0.005;
/** Farther than this is not measured. Millimetres. */
const FAR = 1000;

/** The runs of all outlines that a program burns. */
export function runsOf(burns: readonly Burn[]): Run[] {
  const owners = [...new Set(burns.map((burn) => burn.owner))];
  return owners.flatMap((owner) => {
    const own = burns.filter((burn) => burn.owner === owner);
    const { target } = at(own, 0);
    return target.kind === 'separate' ? [runOf(target, own)] : [];
  });
}

function runOf(target: SeparateTarget, burns: readonly Burn[]): Run {
  const { leadIn = 0, overCut = 0 } = meantBy(target);
  const first = countUpTo(burns, leadIn);
  const last = countUpTo([...burns].reverse(), overCut);
  return {
    target,
    burns,
    wayIn: first === null ? null : burns.slice(0, first),
    rounds: burns.slice(first ?? 0, burns.length - (last ?? 0)),
    past: last === null ? null : burns.slice(burns.length - last),
  };
}

function meantBy(target: SeparateTarget): Partial<BeamRun> {
  return target.cut.beam ?? {};
}

/** How many burns from the start are together as long as meant; null when none are. */
function countUpTo(burns: readonly Burn[], length: number): number | null {
  let sum = 0;
  for (let count = 0; count <= burns.length; count += 1) {
    if (Math.abs(sum - length) <= (length === 0 ? 0 : LENGTH_SLACK)) return count;
    const next = burns[count];
    if (next === undefined || sum > length) return null;
    sum += planLength(next.piece);
  }
  return null;
}

/** Writes `way in` and `past the start`, where outlines are burnt. */
export function checkRuns(job: Job, runs: readonly Run[]): void {
  if (runs.length === 0) return;
  const wayIn = newRule(
    'way in',
    'the beam comes on as far from the outline as meant, in the waste, and leaves the outline nowhere else',
  );
  const past = newRule('past the start', 'the beam runs past the start of an outline as far as meant');
  for (const run of runs) {
    checkWayIn(job, wayIn, run);
    checkPast(job, past, run);
  }
  judgeRule(job.ledger, wayIn);
  judgeRule(job.ledger, past);
}

function checkWayIn(job: Job, rule: Rule, run: Run): void {
  const { target, wayIn, rounds } = run;
  const first = at(run.burns, 0).piece;
  const { leadIn = 0 } = meantBy(target);
  const off = rounds.find((burn) => isOffOutline(job, target, burn.piece));
  if (wayIn === null) {
    tell(job, rule, first, `no way in of ${leadIn.toFixed(3)} mm to ${target.cut.id}`);
  } else if (off !== undefined) {
    tell(job, rule, off.piece, `a stretch off the outline of ${target.cut.id}`);
  } else if (!meets(wayIn.at(-1), rounds[0])) {
    tell(job, rule, first, `a way in that does not lead to ${target.cut.id}`);
  } else checkWaste(job, rule, run, wayIn);
}

/** No kept edge, its own or another's, comes nearer than half a kerf. */
function checkWaste(job: Job, rule: Rule, { target }: Run, wayIn: readonly Burn[]): void {
  const [first] = wayIn;
  if (first === undefined) {
    keep(rule);
    return;
  }
  // The scorched spot of half a kerf about where it comes on stays clear of the kerf along the outline.
  const start = pointToBoundary(target.ring, first.piece.x0, first.piece.y0, FAR);
  if (!(start >= 3 * job.tool.most - target.cut.tolerance.wallOver)) {
    tell(
      job,
      rule,
      first.piece,
      `the beam comes on ${start.toFixed(3)} mm from the edge of ${target.cut.id}`,
    );
  }
  const least = job.tool.most - target.cut.tolerance.wallOver;
  for (const { piece } of wayIn) {
    for (const other of job.targets) {
      if (other.kind !== 'separate') continue;
      const distance = boundaryDistance(other.ring, piece, FAR);
      if (distance >= least) keep(rule);
      else tell(job, rule, piece, `a way in ${distance.toFixed(3)} mm from the kept edge of ${other.cut.id}`);
    }
  }
}

function isOffOutline(job: Job, target: SeparateTarget, piece: Piece): boolean {
  return [
    [piece.x0, piece.y0],
    [piece.x1, piece.y1],
  ].some(([x = 0, y = 0]) => pointToBoundary(target.ring, x, y, FAR) > 2 * job.tool.most);
}

function checkPast(job: Job, rule: Rule, { target, past, rounds, burns }: Run): void {
  const last = at(burns, burns.length - 1).piece;
  const { overCut = 0 } = meantBy(target);
  const [start, end] = [rounds[0]?.piece, rounds.at(-1)];
  if (past === null) tell(job, rule, last, `no ${overCut.toFixed(3)} mm past the start of ${target.cut.id}`);
  else if (past.length === 0) keep(rule);
  else if (!meets(end, past[0]) || start === undefined || !goesOn(start, at(past, 0).piece)) {
    tell(job, rule, last, `a stretch that does not go on from the start of ${target.cut.id}`);
  } else keep(rule);
}

/** One burn ends where the next begins; also when there is no such pair. */
function meets(before: Burn | undefined, after: Burn | undefined): boolean {
  if (before === undefined || after === undefined) return true;
  return Math.hypot(before.piece.x1 - after.piece.x0, before.piece.y1 - after.piece.y0) <= MEETS;
}

/** A stretch starts where the rounds start, and runs along their first side. */
function goesOn(start: Piece, past: Piece): boolean {
  const [x, y] = [xAt(past, 0.5), yAt(past, 0.5)];
  return Math.hypot(start.x0 - past.x0, start.y0 - past.y0) <= MEETS && pointToPrim(x, y, start) <= MEETS;
}

function tell(job: Job, rule: Rule, piece: Piece, found: string): void {
  breach(job.ledger, rule, found, pieceLine(job.sweep, piece), piecePlace(piece, 0));
}
