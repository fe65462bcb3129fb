/** The pieces of a program's path, in blocks of numbers, with an index in plan. */
import Flatbush from 'flatbush';
import { at } from './at.ts';
import { newPiece, type Piece } from './piece.ts';
import { type Box, boxOf } from './prim.ts';
import type { Tape } from './tape.ts';
import * as tapes from './tape.ts';

const STRIDE = 16;
/** Arcs that lean out of an upright plane are cut into chords that leave them by at most this, mm. */
const CHORD_SAGITTA = 0.0001;

export interface Sweep {
  readonly tape: Tape;
  data: Float64Array;
  count: number;
  /** Pieces made of chords are off their arc by up to this; 0 when there are none. */
  bound: number;
  index: Flatbush | null;
}

/** Pieces of every motion whose both ends are known. A missing axis may be taken as 0 (a beam has no z). */
export function sweepOf(tape: Tape, flat: boolean): Sweep {
  const sweep: Sweep = {
    tape,
    data: new Float64Array(STRIDE * (tape.count + 16)),
    count: 0,
    bound: 0,
    index: null,
  };
  for (let m = 0; m < tape.count; m += 1) {
    const kind = tapes.kindOf(tape, m);
    if (kind === 'dwell' || !isPlaced(tape, m, flat)) continue;
    if (kind !== 'arc') addLine(sweep, m, flat);
    else if (tapes.planeOf(tape, m) === 'xy') addPlanArc(sweep, m, flat);
    else addUprightArc(sweep, m);
  }
  sweep.index = indexOf(sweep);
  return sweep;
}

function isPlaced(tape: Tape, m: number, flat: boolean): boolean {
  if (!flat) return tapes.isKnown(tape, m);
  return [0, 1].every(
    (axis) => Number.isFinite(tapes.fromAxis(tape, m, axis)) && Number.isFinite(tapes.toAxis(tape, m, axis)),
  );
}

function indexOf(sweep: Sweep): Flatbush | null {
  if (sweep.count === 0) return null;
  const index = new Flatbush(sweep.count);
  const piece = newPiece();
  for (let i = 0; i < sweep.count; i += 1) {
    const box = boxOf(loadPiece(sweep, i, piece));
    index.add(box.minX, box.minY, box.maxX, box.maxY);
  }
  index.finish();
  return index;
}

/** Numbers of the pieces whose box comes within `gap` of a box, in the order they are run. */
export function piecesNear(sweep: Sweep, box: Box, gap: number): number[] {
  if (sweep.index === null) return [];
  const found = sweep.index.search(box.minX - gap, box.minY - gap, box.maxX + gap, box.maxY + gap);
  return found.sort((a, b) => a - b);
}

/** Fills in the piece of a number. */
export function loadPiece(sweep: Sweep, i: number, into: Piece): Piece {
  const { data } = sweep;
  const k = i * STRIDE;
  const shape = at(data, k);
  into.arc = shape === 1;
  into.upright = shape === 2 || shape === 3;
  into.alongX = shape === 3;
  into.x0 = at(data, k + 1);
  into.y0 = at(data, k + 2);
  into.z0 = at(data, k + 3);
  into.x1 = at(data, k + 4);
  into.y1 = at(data, k + 5);
  into.z1 = at(data, k + 6);
  into.cx = at(data, k + 7);
  into.cy = at(data, k + 8);
  into.radius = at(data, k + 9);
  into.a0 = at(data, k + 10);
  into.sweep = at(data, k + 11);
  into.uc = at(data, k + 12);
  into.uz = at(data, k + 13);
  into.side = at(data, k + 14);
  into.motion = at(data, k + 15);
  return into;
}

/** Number of the motion that a piece belongs to. */
export function motionOf(sweep: Sweep, i: number): number {
  return at(sweep.data, i * STRIDE + 15);
}

/** Whether two pieces run the same way, number by number. */
export function isSameWay(a: Sweep, i: number, b: Sweep, j: number): boolean {
  for (let k = 0; k < 15; k += 1) {
    if (a.data[i * STRIDE + k] !== b.data[j * STRIDE + k]) return false;
  }
  return true;
}

/** A copy of the piece of a number. */
export function copyPiece(sweep: Sweep, i: number): Piece {
  return loadPiece(sweep, i, newPiece());
}

function store(sweep: Sweep, p: Piece): void {
  if ((sweep.count + 1) * STRIDE > sweep.data.length) {
    const grown = new Float64Array(sweep.data.length * 2);
    grown.set(sweep.data);
    sweep.data = grown;
  }
  const shape = p.arc ? 1 : p.upright ? (p.alongX ? 3 : 2) : 0;
  const values = [
    shape,
    p.x0,
    p.y0,
    p.z0,
    p.x1,
    p.y1,
    p.z1,
    p.cx,
    p.cy,
    p.radius,
    p.a0,
    p.sweep,
    p.uc,
    p.uz,
    p.side,
    p.motion,
  ];
  sweep.data.set(values, sweep.count * STRIDE);
  sweep.count += 1;
}

function ends(tape: Tape, m: number, flat: boolean): Piece {
  const piece = newPiece();
  const z = (value: number): number => (flat && Number.isNaN(value) ? 0 : value);
  piece.x0 = tapes.fromAxis(tape, m, 0);
  piece.y0 = tapes.fromAxis(tape, m, 1);
  piece.z0 = z(tapes.fromAxis(tape, m, 2));
  piece.x1 = tapes.toAxis(tape, m, 0);
  piece.y1 = tapes.toAxis(tape, m, 1);
  piece.z1 = z(tapes.toAxis(tape, m, 2));
  piece.motion = m;
  return piece;
}

function addLine(sweep: Sweep, m: number, flat: boolean): void {
  store(sweep, ends(sweep.tape, m, flat));
}

/** At most half a turn each, so that a piece is never covered by itself. */
function addPlanArc(sweep: Sweep, m: number, flat: boolean): void {
  const { tape } = sweep;
  const whole = ends(tape, m, flat);
  const [cx, cy, turn] = [tapes.centreAxis(tape, m, 0), tapes.centreAxis(tape, m, 1), tapes.sweepOf(tape, m)];
  const radius = tapes.radiusOf(tape, m);
  const a0 = Math.atan2(whole.y0 - cy, whole.x0 - cx);
  const count = Math.max(1, Math.ceil(Math.abs(turn) / Math.PI - 1e-9));
  let [x, y] = [whole.x0, whole.y0];
  for (let k = 1; k <= count; k += 1) {
    const angle = a0 + (turn * k) / count;
    const x1 = k === count ? whole.x1 : cx + radius * Math.cos(angle);
    const y1 = k === count ? whole.y1 : cy + radius * Math.sin(angle);
    const rise = (whole.z1 - whole.z0) / count;
    store(sweep, {
      ...whole,
      arc: true,
      x0: x,
      y0: y,
      z0: whole.z0 + rise * (k - 1),
      x1,
      y1,
      z1: k === count ? whole.z1 : whole.z0 + rise * k,
      cx,
      cy,
      radius,
      a0: a0 + (turn * (k - 1)) / count,
      sweep: turn / count,
    });
    [x, y] = [x1, y1];
  }
}

/** Centre and frame of an upright arc: u runs along the plan axis, angles from u to z or from z to u. */
interface Upright {
  readonly alongX: boolean;
  readonly uc: number;
  readonly uz: number;
  readonly radius: number;
  /** Angle from +u toward +z, at the start, and how far it turns. */
  readonly a0: number;
  readonly turn: number;
}

function uprightOf(tape: Tape, m: number, whole: Piece): Upright {
  const alongX = tapes.planeOf(tape, m) === 'xz';
  const uc = tapes.centreAxis(tape, m, alongX ? 0 : 1);
  const uz = tapes.centreAxis(tape, m, 2);
  const u0 = alongX ? whole.x0 : whole.y0;
  // Seen from +Y, counter-clockwise goes from +Z to +X: against the sense from +X to +Z. Seen from +X it goes from +Y to +Z.
  const turn = tapes.sweepOf(tape, m) * (alongX ? -1 : 1);
  return { alongX, uc, uz, radius: tapes.radiusOf(tape, m), a0: Math.atan2(whole.z0 - uz, u0 - uc), turn };
}

function addUprightArc(sweep: Sweep, m: number): void {
  const whole = ends(sweep.tape, m, false);
  const arc = uprightOf(sweep.tape, m, whole);
  const drift = arc.alongX ? whole.y1 - whole.y0 : whole.x1 - whole.x0;
  if (Math.abs(drift) > 1e-9) addChords(sweep, whole, arc, drift);
  else addQuarters(sweep, whole, arc);
}

/** Cut at every quarter, so that neither height nor the way in plan turns within a piece. */
function addQuarters(sweep: Sweep, whole: Piece, arc: Upright): void {
  const sense = Math.sign(arc.turn);
  const cuts: number[] = [];
  for (let k = -8; k <= 8; k += 1) {
    const turn = ((k * Math.PI) / 2 - arc.a0) * sense;
    if (turn > 1e-9 && turn < Math.abs(arc.turn) - 1e-9) cuts.push(turn);
  }
  const stops = [0, ...cuts.sort((a, b) => a - b), Math.abs(arc.turn)];
  let from = whole;
  for (let k = 1; k < stops.length; k += 1) {
    const last = k === stops.length - 1;
    const to = last ? endOf(whole) : uprightPoint(whole, arc, at(stops, k) * sense, 0);
    const middle = arc.a0 + ((at(stops, k - 1) + at(stops, k)) / 2) * sense;
    store(sweep, {
      ...whole,
      ...startOf(from),
      x1: to.x,
      y1: to.y,
      z1: to.z,
      upright: true,
      alongX: arc.alongX,
      uc: arc.uc,
      uz: arc.uz,
      radius: arc.radius,
      side: Math.sin(middle) < 0 ? -1 : 1,
    });
    from = { ...whole, x0: to.x, y0: to.y, z0: to.z };
  }
}

function addChords(sweep: Sweep, whole: Piece, arc: Upright, drift: number): void {
  const step = 2 * Math.acos(Math.max(0, 1 - CHORD_SAGITTA / arc.radius));
  const count = Math.max(1, Math.ceil(Math.abs(arc.turn) / step));
  let from = whole;
  for (let k = 1; k <= count; k += 1) {
    const share = k / count;
    const to = k === count ? endOf(whole) : uprightPoint(whole, arc, arc.turn * share, drift * share);
    store(sweep, { ...whole, ...startOf(from), x1: to.x, y1: to.y, z1: to.z });
    from = { ...whole, x0: to.x, y0: to.y, z0: to.z };
  }
  sweep.bound = CHORD_SAGITTA;
}

function startOf(p: Piece): Pick<Piece, 'x0' | 'y0' | 'z0'> {
  return { x0: p.x0, y0: p.y0, z0: p.z0 };
}

function endOf(p: Piece): { x: number; y: number; z: number } {
  return { x: p.x1, y: p.y1, z: p.z1 };
}

function uprightPoint(
  whole: Piece,
  arc: Upright,
  turn: number,
  drift: number,
): { x: number; y: number; z: number } {
  const u = arc.uc + arc.radius * Math.cos(arc.a0 + turn);
  const z = arc.uz + arc.radius * Math.sin(arc.a0 + turn);
  return arc.alongX ? { x: u, y: whole.y0 + drift, z } : { x: whole.x0 + drift, y: u, z };
}
