/**
 * Whether earlier programs clear what a later one counts with: their paths, read back, are held against the ground that its intent
 * says is clear, with the thinnest cutter that they may have.
 */
import type { ClearedGround, Intent } from '../../intent/types.ts';
import { leftOf } from './coverage.ts';
import { belowPlane, EXACT } from './finals.ts';
import { breach, type Condition, judge, judgeRule, keep, type Ledger, newRule } from './proof.ts';
import { regionOf } from './rings.ts';
import { copyPiece, piecesNear, type Sweep } from './sweep.ts';
import { kindOf } from './tape.ts';
import { toolOf } from './tool.ts';

/** The work of one tool that ran before: an earlier program, or the same one before a change of tools. */
export interface Ran {
  readonly program: string;
  /** Hash of the program's text; null for the same program. */
  readonly programSha256: string | null;
  readonly intent: Intent;
  readonly sweep: Sweep;
}

/** At most this much may stand in ground that is said to be clear, sideways, mm: what a wall may be short of. */
const LEFT = 0.01;

/**
 * Writes the checks `after the right program` and `cleared before` of each ground whose program is among those that ran. Gives the
 * conditions under which the rest of the proof holds.
 */
export function checkClearedBefore(intent: Intent, ran: readonly Ran[], ledger: Ledger): Condition[] {
  const ground = intent.cleared ?? [];
  if (ground.length === 0) return [];
  const rule = newRule(
    'after the right program',
    'an earlier program of the same blank and work zero, its text the one named by its hash',
  );
  const conditions = new Map<string, Condition>();
  for (const one of ground) {
    const known = ran.filter((r) => r.program === one.program);
    const problem = problemOf(intent, one, known);
    if (problem !== null) breach(ledger, rule, `${one.program}: ${problem}`, 0, null);
    else keep(rule);
    const maker = known.find((r) => r.intent.cuts.some((cut) => cut.id === one.cut));
    const isChecked = problem === null && maker !== undefined && checkGround(one, maker, ledger);
    if (one.programSha256 === null) continue;
    const before = conditions.get(one.program)?.checked ?? true;
    conditions.set(one.program, {
      program: one.program,
      programSha256: one.programSha256,
      checked: before && isChecked,
    });
  }
  judgeRule(ledger, rule);
  return [...conditions.values()];
}

/** What is wrong with the naming of an earlier program; null where nothing is, or where its text is not at hand. */
function problemOf(intent: Intent, one: ClearedGround, known: readonly Ran[]): string | null {
  const isSame = one.programSha256 === null;
  if (isSame !== (one.program === intent.program))
    return isSame ? 'named without a hash' : 'named with its own hash';
  if (!isSame && !intent.after.includes(one.program)) return 'not among the programs that run before';
  const [first] = known;
  if (first === undefined) return isSame ? 'relies on an earlier tool that there is not' : null;
  if (first.programSha256 !== one.programSha256) return `its text has another hash, ${first.programSha256}`;
  if (!known.some((r) => r.intent.cuts.some((cut) => cut.id === one.cut))) return `has no cut ${one.cut}`;
  return known.every((r) => isSameFrame(r.intent, intent)) ? null : 'set up from another work zero';
}

function isSameFrame(a: Intent, b: Intent): boolean {
  return JSON.stringify(a.toPart) === JSON.stringify(b.toPart);
}

/** Gives whether it is clear. */
function checkGround(
  { region: rings, z, cut }: ClearedGround,
  { intent, sweep }: Ran,
  ledger: Ledger,
): boolean {
  const tool = toolOf(intent);
  if (typeof tool === 'string') throw new Error(`${intent.program}, which proved, has ${tool}`);
  const region = regionOf(rings);
  const deep = piecesNear(sweep, region.box, 2 * tool.most)
    .map((i) => copyPiece(sweep, i))
    .filter((piece) => kindOf(sweep.tape, piece.motion) !== 'rapid')
    .flatMap((piece) => belowPlane(piece, z + EXACT - tool.tip));
  const left = leftOf(region, null, deep, tool.least, LEFT);
  const [x, y] = left.place;
  const worst = { value: left.value + sweep.bound, place: [x, y, z] as const, line: 0, seen: left.seen };
  judge(ledger, 'cleared before', worst, LEFT, cut);
  return worst.value <= LEFT;
}
