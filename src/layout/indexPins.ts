import { formReach } from '../geometry/form.ts';
import type { Ring, Vec } from '../geometry/types.ts';
import { distance } from '../geometry/vec.ts';
import type { Instrument } from '../profile/types.ts';
import { noteFinding, outcomeOf, warningFinding } from '../report/collect.ts';
import type { Finding, Outcome } from '../report/finding.ts';
import { formatShort } from '../units/format.ts';
import { type BoardTaper, halfWidthAt } from './board.ts';
import { markerX } from './markers.ts';
import { fretX, slotId } from './slots.ts';
import type { IndexPin, PlacedMarker } from './types.ts';

interface Surroundings {
  readonly instrument: Instrument;
  readonly taper: BoardTaper;
  readonly markers: readonly PlacedMarker[];
  readonly trussRod: Ring | null;
}

/**
 * Two index pins: clear of everything, or hidden in a slot or under a marker, as the profile asks. A pin that does not
 * stand where it was wanted is remarked on.
 */
export function placeIndexPins(around: Surroundings): Outcome<IndexPin[]> {
  if (around.instrument.indexPins.place === 'none') return outcomeOf([], []);
  const places = around.instrument.indexPins.frets.map((fret, i) => placePin(around, fret, i));
  const findings = places.flatMap((place) => place.findings);
  const pins = places.flatMap(({ pin }) => (pin === null ? [] : [pin]));
  return outcomeOf(pins, findings);
}

interface Placed {
  readonly pin: IndexPin | null;
  readonly findings: readonly Finding[];
}

function placePin(around: Surroundings, fret: number, i: number): Placed {
  const side = i === 0 ? -1 : 1;
  const found = candidates(around, fret, side)
    .filter((pin) => problemAt(around, pin) === null)
    .sort((a, b) => strayFrom(around, a, fret, side) - strayFrom(around, b, fret, side))[0];
  if (found === undefined) return { pin: null, findings: [noPlace(around, fret, i)] };
  const { at, under } = found;
  const pin = { id: `index-pin-${i + 1}`, diameter: around.instrument.indexPins.diameter, at, under };
  return { pin, findings: remarkOn(around, found, fret, i) };
}

interface Candidate extends Pick<IndexPin, 'at' | 'under'> {
  /** Fret in whose slot, or whose space, it stands. */
  readonly fret: number;
}

function candidates(around: Surroundings, fret: number, side: number): Candidate[] {
  const { instrument, markers } = around;
  const { place, offset } = instrument.indexPins;
  if (place === 'slot') {
    return [{ at: [fretX(instrument, fret), side * offset], under: slotId(fret), fret }];
  }
  if (place === 'marker') {
    return markers.filter((m) => m.fret === fret).map((m) => ({ at: m.at, under: m.id, fret }));
  }
  return [wantedPlace(instrument, fret, side), ...clearCandidates(around, fret, side)];
}

function wantedPlace(instrument: Instrument, fret: number, side: number): Candidate {
  return { at: [markerX(instrument, fret), side * instrument.indexPins.offset], under: 'clear', fret };
}

/** Places in the spaces at, before and after the fret, on both sides, stepping out from the centreline. */
function clearCandidates({ instrument, taper }: Surroundings, fret: number, side: number): Candidate[] {
  const step = 0.5;
  const spaces = [fret, fret - 1, fret + 1].filter((n) => n >= 1 && n <= instrument.frets.count);
  return spaces.flatMap((space) => {
    const x = markerX(instrument, space);
    const half = halfWidthAt(taper, x);
    const count = Math.floor(half / step);
    return Array.from({ length: count }, (_, k) => k * step).flatMap((y): Candidate[] => [
      { at: [x, side * y], under: 'clear', fret: space },
      { at: [x, -side * y], under: 'clear', fret: space },
    ]);
  });
}

function strayFrom({ instrument }: Surroundings, pin: Candidate, fret: number, side: number): number {
  if (instrument.indexPins.place !== 'clear') return 0;
  return distance(pin.at, wantedPlace(instrument, fret, side).at);
}

/** A pin further than this from where it was wanted is worth a warning; nearer by, a note. Millimetres. */
const FAR = 1;

function remarkOn(around: Surroundings, pin: Candidate, fret: number, i: number): Finding[] {
  const { instrument } = around;
  if (instrument.indexPins.place !== 'clear') return [];
  const side = i === 0 ? -1 : 1;
  const wanted = wantedPlace(instrument, fret, side);
  const why = problemAt(around, wanted);
  if (why === null) return [];
  const away = distance(pin.at, wanted.at);
  const moved = pin.fret !== fret || pin.at[1] * side < 0 || away > FAR;
  const make = moved ? warningFinding : noteFinding;
  return [
    make(
      'index-pin-moved',
      `The index pin wanted ${inWords(wanted)} stands ${inWords(pin)}, ${formatShort(away, 2)} mm away: where it was wanted it would be ${why}.`,
      {
        where: { source: 'instrument', path: `indexPins.frets[${i}]` },
        remedy:
          'Nothing, when this place suits you: everything made uses it. Else choose another fret or another offset.',
      },
    ),
  ];
}

/** In words of a right-handed instrument's sides, which a left-handed one keeps. */
function inWords({ fret, at: [, y] }: Candidate): string {
  if (y === 0) return `in the space of fret ${fret} on the centreline`;
  return `in the space of fret ${fret}, ${formatShort(Math.abs(y), 2)} mm toward the ${y < 0 ? 'bass' : 'treble'} side`;
}

/** Why a pin cannot stand there, or null. */
function problemAt(around: Surroundings, { at: [x, y], under }: Candidate): string | null {
  const { instrument, taper, trussRod } = around;
  const reach = instrument.indexPins.diameter / 2;
  const wall = instrument.indexPins.leastWall;
  if (halfWidthAt(taper, x) - Math.abs(y) < reach + wall) return 'too near the edge of the board';
  if (trussRod !== null && distanceToBox(trussRod, [x, y]) < reach + wall) return 'over the truss rod';
  if (under !== 'clear') return null;
  return problemWithNeighbours(around, [x, y], reach + wall);
}

function problemWithNeighbours(around: Surroundings, at: Vec, reach: number): string | null {
  const { instrument, markers } = around;
  const slots = Array.from({ length: instrument.frets.count }, (_, i) => fretX(instrument, i + 1));
  if (slots.some((x) => Math.abs(at[0] - x) < reach + instrument.frets.slotWidth / 2))
    return 'in a fret slot';
  if (markers.some((m) => distance(m.at, at) < reach + formReach(m.form) / 2)) return 'in a marker';
  return null;
}

/** 0 inside an upright box. */
function distanceToBox(ring: Ring, [x, y]: Vec): number {
  const xs = ring.map((v) => v.x);
  const ys = ring.map((v) => v.y);
  const dx = Math.max(Math.min(...xs) - x, 0, x - Math.max(...xs));
  const dy = Math.max(Math.min(...ys) - y, 0, y - Math.max(...ys));
  return Math.hypot(dx, dy);
}

function noPlace(around: Surroundings, fret: number, i: number): Finding {
  const { place, leastWall, diameter } = around.instrument.indexPins;
  const side = i === 0 ? -1 : 1;
  const first = candidates(around, fret, side)[0];
  const why =
    first === undefined ? 'there is no marker at that fret' : (problemAt(around, first) ?? 'it is taken');
  return {
    code: 'index-pin-has-no-place',
    severity: 'error',
    where: { source: 'instrument', path: `indexPins.frets[${i}]` },
    text: `The index pin at fret ${fret} (place: ${place}) has no place: ${why}.`,
    allowed: `${leastWall} mm of wood around a hole of ${diameter} mm`,
    remedy: 'choose another fret, another offset, a thinner pin or another kind of place',
  };
}
