import { fillet } from '../geometry/fillet.ts';
import type { Ring, Vec } from '../geometry/types.ts';
import type { Instrument } from '../profile/types.ts';
import { meetEdge, type SlotCarrier } from '../spacing/slant.ts';
import { ownEnd, placeOwnEnd } from './ownEnd.ts';
import { fretCarrier } from './scale.ts';
import type { Layout } from './types.ts';

/** Half the board's width grows evenly along x: half = at0 + slope x. */
export type BoardTaper = Layout['board']['halfWidth'];

/** x of the body end on the centreline: the overhang past the last slot. */
export function boardEnd(instrument: Instrument): number {
  return fretCarrier(instrument, instrument.frets.count).at + instrument.fingerboard.overhang;
}

/** Taper through the width at the nut face and the width at the stated fret or at the body end. */
export function layOutTaper(instrument: Instrument): BoardTaper {
  const { widthAtNut, widthAt } = instrument.fingerboard;
  const x = widthAt.fret === null ? boardEnd(instrument) : fretCarrier(instrument, widthAt.fret).at;
  const slope = (widthAt.width - widthAtNut) / 2 / (x - instrument.nut.setForward);
  return { at0: widthAtNut / 2 - slope * instrument.nut.setForward, slope };
}

/** Half the board's width at x, millimetres. */
export function halfWidthAt(taper: BoardTaper, x: number): number {
  return taper.at0 + taper.slope * x;
}

/** The taper of what is left once strips of a width, measured square to the edges, are taken off both sides. */
export function insetTaper(taper: BoardTaper, width: number): BoardTaper {
  return { ...taper, at0: taper.at0 - width * Math.hypot(1, taper.slope) };
}

/** The body end of a board: where it crosses the centreline, and its shape. */
export type BoardEnd =
  /** `lean`: dx / dy of the end; both corners rounded by `rounding`. */
  | { readonly kind: 'straight'; readonly at: number; readonly lean: number; readonly rounding: number }
  /** One arc about a point of the centreline, corners rounded by `rounding`; `radius` is negative where the end is hollow. */
  | { readonly kind: 'arc'; readonly at: number; readonly radius: number; readonly rounding: number }
  /** The right side of an outline drawn elsewhere, laid where it belongs. */
  | { readonly kind: 'own'; readonly at: number; readonly outline: readonly Vec[] };

/** The end that the instrument asks for, on the finished board; `drawn`: the outline of one's own that it names. */
export function layOutEnd(instrument: Instrument, drawn: Ring | null = null): BoardEnd {
  const { endAngle, endArc, endRounding } = instrument.fingerboard;
  const at = boardEnd(instrument);
  if (drawn !== null) return { kind: 'own', at, outline: placeOwnEnd(drawn, at) };
  if (endArc !== null) return { kind: 'arc', at, radius: endArc, rounding: endRounding };
  return { kind: 'straight', at, lean: Math.tan(endAngle), rounding: endRounding };
}

/** The end once a strip of a width is taken off it. Corners keep their middle, so their radius shrinks by the width. */
export function insetEnd(end: BoardEnd, width: number): BoardEnd {
  if (width === 0) return end;
  if (end.kind === 'own') throw new Error(`a strip of ${width} mm along an end of one's own`);
  const rounding = Math.max(0, end.rounding - width);
  return end.kind === 'arc'
    ? { ...end, at: end.at - width, radius: end.radius - width, rounding }
    : { ...end, at: end.at - width * Math.hypot(1, end.lean), rounding };
}

/** Edge of the board, counter-clockwise, from its nut end (a line across the board) along both tapered sides to its end. */
export function layOutOutline(nutEnd: SlotCarrier, taper: BoardTaper, end: BoardEnd): Ring {
  const nutBass = meetEdge(nutEnd, taper, -1);
  const nutTreble = meetEdge(nutEnd, taper, 1);
  return [
    { x: nutBass[0], y: nutBass[1], bulge: 0 },
    ...endVertices(end, taper, [nutBass, nutTreble]),
    { x: nutTreble[0], y: nutTreble[1], bulge: 0 },
  ];
}

function straightEnd(
  [nutBass, nutTreble]: readonly [Vec, Vec],
  taper: BoardTaper,
  { at, lean, rounding }: BoardEnd & { kind: 'straight' },
): Ring {
  const line: SlotCarrier = { at, lean };
  const [bass, treble] = [meetEdge(line, taper, -1), meetEdge(line, taper, 1)];
  return [...fillet(nutBass, bass, treble, rounding), ...fillet(bass, treble, nutTreble, rounding)];
}

/** From the bass edge to the treble edge. */
function endVertices(end: BoardEnd, taper: BoardTaper, nut: readonly [Vec, Vec]): Ring {
  switch (end.kind) {
    case 'straight':
      return straightEnd(nut, taper, end);
    case 'arc':
      return end.rounding === 0 ? arcEnd(taper, end) : roundedArcEnd(taper, end);
    case 'own':
      return ownEnd(end.outline, taper);
  }
}

/** The arc meets both edges where (x - c)^2 + (half width)^2 = radius^2, on the side of its middle. */
function arcEnd(taper: BoardTaper, { at, radius }: BoardEnd & { kind: 'arc' }): Ring {
  const x = arcMeetsEdge(taper, at, radius);
  const half = halfWidthAt(taper, x);
  const quarter = Math.asin(half / radius) / 2;
  return [
    { x, y: -half, bulge: Math.tan(quarter) },
    { x, y: half, bulge: 0 },
  ];
}

/**
 * A corner's arc touches the edge and the end's arc: its middle lies where both, moved inward by its radius, meet. The point
 * on the end's arc lies on the line from that arc's centre through that middle.
 */
function roundedArcEnd(taper: BoardTaper, { at, radius, rounding }: BoardEnd & { kind: 'arc' }): Ring {
  const inner = insetTaper(taper, rounding);
  const x = arcMeetsEdge(inner, at - rounding, radius - rounding);
  const y = halfWidthAt(inner, x);
  const centre = at - radius;
  const share = radius / (radius - rounding);
  const onArc: Vec = [centre + (x - centre) * share, y * share];
  const length = Math.hypot(1, taper.slope);
  const onEdge: Vec = [x - (taper.slope * rounding) / length, y + rounding / length];
  const turn = Math.atan2(onEdge[1] - y, onEdge[0] - x) - Math.atan2(onArc[1] - y, onArc[0] - x);
  const corner = Math.tan(turn / 4);
  return [
    { x: onEdge[0], y: -onEdge[1], bulge: corner },
    { x: onArc[0], y: -onArc[1], bulge: Math.tan(Math.asin(onArc[1] / radius) / 2) },
    { x: onArc[0], y: onArc[1], bulge: corner },
    { x: onEdge[0], y: onEdge[1], bulge: 0 },
  ];
}

/** x at which an arc through the end's middle meets the tapered edge. Throws where it is too small to reach it. */
function arcMeetsEdge({ at0, slope }: BoardTaper, at: number, radius: number): number {
  const centre = at - radius;
  const a = 1 + slope * slope;
  const half = slope * at0 - centre;
  const root = half * half - a * (centre * centre + at0 * at0 - radius * radius);
  if (!(root >= 0)) throw new Error(`an end of radius ${radius} on a board ${2 * (at0 + slope * at)} wide`);
  return (-half + Math.sign(radius) * Math.sqrt(root)) / a;
}
