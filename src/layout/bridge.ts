import { bounds, mirrorY, translate } from '../geometry/ring.ts';
import { withRoundCorners } from '../geometry/roundCorners.ts';
import type { Ring, Vec } from '../geometry/types.ts';
import { add, distance, scale, subtract, unit } from '../geometry/vec.ts';
import type { BridgeBody, Instrument } from '../profile/types.ts';
import { errorFinding } from '../report/collect.ts';
import type { Finding } from '../report/finding.ts';
import { formatShort } from '../units/format.ts';
import type { PlacedBridge, StringLine } from './types.ts';

/** The saddle's slot, its middle line from end to end: bass end, treble end. */
export function layOutSaddleSlot(instrument: Instrument, strings: readonly StringLine[]): [Vec, Vec] {
  const { bass, treble, along } = saddleOf(strings);
  const past = scale(along, instrument.bridge.saddle.ends);
  return [subtract(bass, past), add(treble, past)];
}

/** The bridge where its saddle belongs, or null when it is not made here. `artwork`: its outline about its own middle. */
export function layOutBridge(
  instrument: Instrument,
  strings: readonly StringLine[],
  artwork: Ring | null,
): PlacedBridge | null {
  const { body, saddle } = instrument.bridge;
  // A shape that cannot be drawn is told of by its findings.
  if (body === null || checkBridgeShape(instrument).length > 0) return null;
  // Nobody read the drawing: what is asked for needs strings and saddle alone.
  if (body.artwork !== null && artwork === null) return null;
  const { bass, treble, along } = saddleOf(strings);
  const across: Vec = body.stands === 'saddle' ? along : [0, 1];
  const origin = onCentreline(bass, treble);
  const drawn = artwork === null ? parametric(body) : fromArtwork(artwork, body);
  const inset = scale(along, saddle.ends / 2);
  return {
    outline: placed(drawn, origin, across),
    wings: artwork === null ? wingsOf(body).map((line) => line.map((p) => place(p, origin, across))) : [],
    centreline: middleOf(drawn, origin, across),
    slot: layOutSaddleSlot(instrument, strings),
    indexPins: body.indexPin === null ? [] : [subtract(bass, inset), add(treble, inset)],
  };
}

/** What cannot be drawn: corners rounder than their sides are long, tips wider than the middle. */
export function checkBridgeShape({ bridge: { body } }: Instrument): Finding[] {
  if (body === null || body.artwork !== null) return [];
  if (2 * body.wingLength >= body.length) return [noMiddle(body)];
  const most = roundestCorner(cornersOf(body));
  return body.cornerRadius > most + 1e-9 ? [tooRound(body, most)] : [];
}

/** The same bridge for the other hand. */
export function mirrorBridge(bridge: PlacedBridge): PlacedBridge {
  const flip = ([x, y]: Vec): Vec => [x, -y || 0];
  return {
    outline: mirrorY(bridge.outline),
    wings: bridge.wings.map((line) => line.map(flip)),
    centreline: [flip(bridge.centreline[0]), flip(bridge.centreline[1])],
    slot: [flip(bridge.slot[0]), flip(bridge.slot[1])],
    indexPins: bridge.indexPins.map(flip),
  };
}

function saddleOf(strings: readonly StringLine[]): { bass: Vec; treble: Vec; along: Vec } {
  const [bass, treble] = [strings[0]?.saddle, strings.at(-1)?.saddle];
  if (bass === undefined || treble === undefined) throw new Error('an instrument without strings');
  return { bass, treble, along: distance(bass, treble) < 1e-6 ? [0, 1] : unit(subtract(treble, bass)) };
}

/** Where the saddle line crosses the centreline. */
function onCentreline(bass: Vec, treble: Vec): Vec {
  const span = treble[1] - bass[1];
  return span === 0 ? [bass[0], 0] : [bass[0] - (bass[1] * (treble[0] - bass[0])) / span, 0];
}

/** Corners in the bridge's own frame, counter-clockwise: u along the strings from the saddle, v across. */
function cornersOf({ length, width, front, wingLength, tipWidth }: BridgeBody): Vec[] {
  const half = length / 2;
  const [near, far] = [-front, width - front];
  if (wingLength === 0 || tipWidth === width) {
    return [
      [near, -half],
      [far, -half],
      [far, half],
      [near, half],
    ];
  }
  const middle = width / 2 - front;
  const [tipNear, tipFar] = [middle - tipWidth / 2, middle + tipWidth / 2];
  const shoulder = half - wingLength;
  return [
    [near, -shoulder],
    [tipNear, -half],
    [tipFar, -half],
    [far, -shoulder],
    [far, shoulder],
    [tipFar, half],
    [tipNear, half],
    [near, shoulder],
  ];
}

function parametric(body: BridgeBody): Ring {
  const corners = cornersOf(body);
  return withRoundCorners(corners, Math.min(body.cornerRadius, roundestCorner(corners)), 0);
}

/** Largest radius of all corners of a convex polygon: the tangents of two neighbours share a side. */
function roundestCorner(points: readonly Vec[]): number {
  const at = (i: number): Vec => points[(i + points.length) % points.length] ?? [0, 0];
  const reach = points.map((p, i) => {
    const [into, out] = [unit(subtract(p, at(i - 1))), unit(subtract(at(i + 1), p))];
    const turn = Math.acos(Math.max(-1, Math.min(1, into[0] * out[0] + into[1] * out[1])));
    return Math.tan(turn / 2);
  });
  return Math.min(
    ...points.map((p, i) => {
      const sum = (reach[i] ?? 0) + (reach[(i + 1) % points.length] ?? 0);
      return sum <= 0 ? Number.POSITIVE_INFINITY : distance(p, at(i + 1)) / sum;
    }),
  );
}

/** The drawing's front edge lies `front` before the saddle, its middle on the middle of the bridge. */
function fromArtwork(ring: Ring, { front }: BridgeBody): Ring {
  const { x, y } = bounds(ring);
  return translate(ring, [-front - x[0], -(y[0] + y[1]) / 2]);
}

/** Where the wings begin, bass then treble. */
function wingsOf({ length, width, front, wingLength }: BridgeBody): Vec[][] {
  if (wingLength === 0) return [];
  const v = length / 2 - wingLength;
  return [-v, v].map((side) => [
    [-front, side],
    [width - front, side],
  ]);
}

function middleOf(ring: Ring, origin: Vec, across: Vec): [Vec, Vec] {
  const { x } = bounds(ring);
  return [place([x[0], 0], origin, across), place([x[1], 0], origin, across)];
}

/** From the bridge's own frame: v lies along `across`, u a quarter turn clockwise from it. */
function place([u, v]: Vec, origin: Vec, across: Vec): Vec {
  return [origin[0] + u * across[1] + v * across[0], origin[1] - u * across[0] + v * across[1]];
}

function placed(ring: Ring, origin: Vec, across: Vec): Ring {
  return ring.map(({ x, y, bulge }) => {
    const [px, py] = place([x, y], origin, across);
    return { x: px, y: py, bulge };
  });
}

const mm = (length: number): string => `${formatShort(length, 2)} mm`;

function noMiddle({ length, wingLength }: BridgeBody): Finding {
  return errorFinding(
    'bridge-all-wings',
    `Two wings of ${mm(wingLength)} leave nothing between them of a bridge ${mm(length)} long.`,
    {
      where: { source: 'instrument', path: 'bridge.body.wingLength' },
      allowed: `less than ${mm(length / 2)}`,
      remedy: 'Shorter wings, or a longer bridge.',
    },
  );
}

function tooRound({ cornerRadius }: BridgeBody, most: number): Finding {
  return errorFinding(
    'bridge-corners-too-round',
    `Corners of ${mm(cornerRadius)} radius do not fit on the sides of the bridge.`,
    {
      where: { source: 'instrument', path: 'bridge.body.cornerRadius' },
      allowed: `at most ${mm(most)}`,
      remedy: 'Sharper corners, or wider tips.',
    },
  );
}
