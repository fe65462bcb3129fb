/**
 * How the programs of a job see their parts, taken together: each frame is one in which a piece of wood can lie, and a part that
 * was turned over stands on pins in the very holes that an earlier program drilled.
 *
 * In: written programs and their intents. Out: checks. Places are read from the programs' text, never from what was meant. Millimetres.
 */
import type { Intent } from '../../intent/types.ts';
import { type RealCut, readCuts } from '../inlay/readCuts.ts';
import type { WrittenProgram } from '../inlay/types.ts';
import { at } from '../removal/at.ts';
import { boxOf, joinBoxes } from '../removal/prim.ts';
import { type Check, judge, newLedger, newWorst, note } from '../removal/proof.ts';

/** Of a located hole against the pin that is to stand in it; and of a pin's place on the table before and after the turning. */
const PLACED = 0.002;
/** Arithmetic only: lengths of directions, angles between them, and the sense of the frame. */
const RIGID = 1e-9;

type Point = readonly [number, number];

/** A hole as a program's text has it, and which program that was. */
interface RealHole {
  readonly program: string;
  readonly cut: RealCut;
  /** In the frame of its program. */
  readonly at: Point;
}

/**
 * For each program: `frame is rigid` and `mirrored as said`. For each pin that holds a part: `pin hole drilled before`, `pin in its
 * hole` and `pin stays in the table`, by how much at worst.
 */
export function proveFrames(programs: readonly WrittenProgram[]): Check[] {
  const intents = programs.flatMap(({ intent }) => ('stages' in intent ? intent.stages : [intent]));
  const wanted = new Set(intents.flatMap((intent) => intent.toPart.pins ?? []).map((pin) => pin.feature));
  const holes = wanted.size === 0 ? [] : programs.flatMap((program) => holesOf(program, wanted));
  const ledger = newLedger();
  for (const intent of intents) {
    const { program, toPart } = intent;
    const rigid = newWorst();
    note(rigid, bentBy(toPart.matrix), [0, 0, 0], 0);
    judge(ledger, 'frame is rigid', rigid, RIGID, program);
    const mirrored = newWorst();
    note(mirrored, isMirrored(toPart.matrix) === toPart.mirrored ? 0 : 1, [0, 0, 0], 0);
    judge(ledger, 'mirrored as said', mirrored, 0, program);
    checkPins(intent, holes, ledger);
  }
  return ledger.checks;
}

function checkPins(
  { program, toPart, after }: Intent,
  holes: readonly RealHole[],
  ledger: ReturnType<typeof newLedger>,
): void {
  const { pins } = toPart;
  if (pins === undefined) return;
  const [before, inHole, inTable] = [newWorst(), newWorst(), newWorst()];
  const found = pins.map((pin) => holes.find((hole) => hole.cut.feature === pin.feature));
  pins.forEach((pin, i) => {
    const hole = found[i];
    note(before, hole !== undefined && after.includes(hole.program) ? 0 : 1, [...pin.at, 0], 0);
    if (hole === undefined) return;
    note(inHole, apart(seen(toPart.matrix, pin.at), seen(hole.cut.matrix, hole.at)), [...pin.at, 0], 0);
    const [first, firstPin] = [found[0], pins[0]];
    if (first === undefined || firstPin === undefined) return;
    // The table and its axes stay where they are: from the first pin each other one lies as it did when the holes were drilled.
    const was: Point = [hole.at[0] - first.at[0], hole.at[1] - first.at[1]];
    const is: Point = [pin.at[0] - firstPin.at[0], pin.at[1] - firstPin.at[1]];
    note(inTable, apart(was, is), [...pin.at, 0], 0);
  });
  judge(ledger, 'pin hole drilled before', before, 0, program);
  judge(ledger, 'pin in its hole', inHole, PLACED, program);
  judge(ledger, 'pin stays in the table', inTable, PLACED, program);
}

/** Holes of some features where a program's text drills or bores them. */
function holesOf(written: WrittenProgram, wanted: ReadonlySet<string>): RealHole[] {
  const { program } = written.intent;
  return readCuts(written)
    .filter((cut) => wanted.has(cut.feature) && cut.runs.length > 0)
    .map((cut) => {
      const box = cut.runs.map(({ piece }) => boxOf(piece)).reduce(joinBoxes);
      return { program, cut, at: [(box.minX + box.maxX) / 2, (box.minY + box.maxY) / 2] };
    });
}

type Matrix = Intent['toPart']['matrix'];

/** A point on top of the stock, in the part's frame seen from above. */
function seen(matrix: Matrix, [x, y]: Point): Point {
  const [[a, b, , e], [c, d, , f]] = [at(matrix, 0), at(matrix, 1)];
  return [a * x + b * y + e, c * x + d * y + f];
}

const apart = (p: Point, q: Point): number => Math.hypot(p[0] - q[0], p[1] - q[1]);

/** How far a frame is from one that a piece of wood can lie in: square, of length 1, and right-handed. */
function bentBy(matrix: Matrix): number {
  const rows = [0, 1, 2].map((i) => at(matrix, i).slice(0, 3));
  const products = rows.flatMap((row, i) =>
    rows.slice(i).map((other, k) => Math.abs(dot(row, other) - (k === 0 ? 1 : 0))),
  );
  return Math.max(...products, Math.abs(determinant(rows) - 1));
}

const dot = (a: readonly number[], b: readonly number[]): number =>
  a.reduce((sum, v, i) => sum + v * (b[i] ?? Number.NaN), 0);

function determinant(rows: readonly (readonly number[])[]): number {
  const [[a = 0, b = 0, c = 0] = [], [d = 0, e = 0, f = 0] = [], [g = 0, h = 0, i = 0] = []] = rows;
  return a * (e * i - f * h) - b * (d * i - f * g) + c * (d * h - e * g);
}

/** Whether the part's picture, seen along the program's z, is its mirror: its top looks down. */
function isMirrored(matrix: Matrix): boolean {
  const [[a, b], [c, d]] = [at(matrix, 0), at(matrix, 1)];
  return a * d - b * c < -0.5;
}
