import type { Vec } from '../geometry/types.ts';
import type { Fret, FretPiece, Instrument } from '../profile/types.ts';
import { meetEdge, meetLine, onCarrier, type SlotCarrier } from '../spacing/slant.ts';
import type { BoardTaper } from './board.ts';
import { carrierOf, fretCarrier } from './scale.ts';
import type { FretSlot, SlotEnd, StringLine } from './types.ts';

/** What slots are placed by. */
export interface SlotGround {
  readonly instrument: Instrument;
  readonly taper: BoardTaper;
  /** Nut and saddle points; the end of a piece lies halfway between two strings. */
  readonly strings: readonly Pick<StringLine, 'nut' | 'saddle'>[];
}

/** Fret slots from edge to edge of the finished board, or in pieces under some strings; nut side first, bass side first. */
export function layOutSlots(ground: SlotGround): FretSlot[] {
  const { instrument } = ground;
  const { list } = instrument.frets;
  const zero: Fret[] = instrument.nut.zeroFret ? [{ label: '0', cents: 0, pieces: null }] : [];
  return [...zero, ...list].flatMap((fret, i) => slotsOf(fret, i + 1 - zero.length, ground));
}

function slotsOf(fret: Fret, place: number, ground: SlotGround): FretSlot[] {
  const id = slotId(fret.label);
  if (fret.pieces === null) return [wholeSlot(id, fret, place, ground)];
  return fret.pieces.map((piece, i) => pieceSlot(`${id}-${i + 1}`, { fret, piece, place }, ground));
}

function wholeSlot(id: string, { label, cents }: Fret, fret: number, ground: SlotGround): FretSlot {
  const line = edgeToEdge(carrierOf(ground.instrument, cents), ground.taper);
  const x = carrierOf(ground.instrument, cents).at;
  return { id, fret, label, cents, x, carrier: line, line, ends: ['edge', 'edge'], strings: null };
}

interface PieceAt {
  readonly fret: Fret;
  readonly piece: FretPiece;
  readonly place: number;
}

/** A piece reaches the board's edge beside an outer string, and stops half a gap before the middle between two strings. */
function pieceSlot(id: string, { fret, piece, place }: PieceAt, ground: SlotGround): FretSlot {
  const { instrument, strings, taper } = ground;
  const carrier = carrierOf(instrument, piece.cents);
  const whole = edgeToEdge(carrier, taper);
  const reaches = [piece.first <= 1, piece.last >= strings.length] as const;
  const half = instrument.frets.pieceGap / 2;
  const stop = (position: number, inward: number): Vec => {
    const y = borderAfter(position, carrier, strings) + inward;
    return [onCarrier(carrier, y), y];
  };
  const end = (reached: boolean): SlotEnd => (reached ? 'edge' : 'stopped');
  return {
    id,
    fret: place,
    label: fret.label,
    cents: piece.cents,
    x: carrier.at,
    carrier: whole,
    line: [
      reaches[0] ? whole[0] : stop(piece.first - 1, half),
      reaches[1] ? whole[1] : stop(piece.last, -half),
    ],
    ends: [end(reaches[0]), end(reaches[1])],
    strings: [piece.first, piece.last],
  };
}

/** y halfway between a string and the next one, where their lines cross the slot's. */
function borderAfter(position: number, carrier: SlotCarrier, strings: SlotGround['strings']): number {
  const ys = [position - 1, position].map((i) => {
    const string = strings[i];
    if (string === undefined) throw new Error(`no string ${i + 1} of ${strings.length}`);
    return meetLine(carrier, [string.nut, string.saddle])[1];
  });
  return ((ys[0] ?? 0) + (ys[1] ?? 0)) / 2;
}

/** Bass end and treble end of a line across the board on its edges. */
export function edgeToEdge(carrier: SlotCarrier, taper: BoardTaper): [Vec, Vec] {
  return [meetEdge(carrier, taper, -1), meetEdge(carrier, taper, 1)];
}

/** x of a fret at y, on the centreline when left out; fret 0 is scale zero. */
export function fretX(instrument: Instrument, fret: number, y = 0): number {
  return onCarrier(fretCarrier(instrument, fret), y);
}

/** x at which a fret's slot crosses the board's bass edge (-1) or its treble edge (1). */
export function fretXAtEdge(instrument: Instrument, fret: number, taper: BoardTaper, side: -1 | 1): number {
  return meetEdge(fretCarrier(instrument, fret), taper, side)[0];
}

/** A fret's name by its place among the frets: `7`, `6+`; `0` for scale zero. */
export function fretLabel({ frets }: Pick<Instrument, 'frets'>, fret: number): string {
  return frets.list[fret - 1]?.label ?? String(fret);
}

/** Two digits, so that ids sort as frets do; a half fret has `plus` behind. */
export function fretId(label: string | number): string {
  const [digits = '', half] = String(label).split(/(?=\+)/);
  return digits.padStart(2, '0') + (half === undefined ? '' : '-plus');
}

/** Name of a fret's slot by the fret's own name, as `fret-slot-07`. */
export function slotId(label: string | number): string {
  return `fret-slot-${fretId(label)}`;
}
