import { nearestOn } from '../geometry/distance.ts';
import { formReach } from '../geometry/form.ts';
import type { Ring, Vec } from '../geometry/types.ts';
import { distance } from '../geometry/vec.ts';
import type { Instrument } from '../profile/types.ts';
import { noteFinding, outcomeOf, warningFinding } from '../report/collect.ts';
import type { Finding, Outcome } from '../report/finding.ts';
import { formatShort } from '../units/format.ts';
import { type BoardTaper, halfWidthAt } from './board.ts';
import { markerX } from './markers.ts';
import type { RodCut } from './neckTypes.ts';
import { fretLabel } from './slots.ts';
import type { FretSlot, IndexPin, PlacedMarker } from './types.ts';

interface Surroundings {
  readonly instrument: Instrument;
  readonly taper: BoardTaper;
  readonly slots: readonly FretSlot[];
  readonly markers: readonly PlacedMarker[];
  readonly rodCuts: readonly RodCut[];
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
    return slotPlaces(around, fret, side * offset);
  }
  if (place === 'marker') {
    const middles = markers.filter((m) => m.fret === fret && m.form.shape !== 'artwork');
    return middles.map((m) => ({ at: m.at, under: m.id, fret }));
  }
  return [wantedPlace(instrument, fret, side), ...clearCandidates(around, fret, side)];
}

/** In the fret's slot at y, where there is one. */
function slotPlaces({ slots }: Surroundings, fret: number, y: number): Candidate[] {
  return slots
    .filter((slot) => slot.fret === fret && reaches(slot, y))
    .map((slot) => ({ at: pointAt(slot.line, y), under: slot.id, fret }));
}

function reaches({ line: [bass, treble], ends }: FretSlot, y: number): boolean {
  return (ends[0] === 'edge' || y > bass[1]) && (ends[1] === 'edge' || y < treble[1]);
}

function pointAt([from, to]: readonly [Vec, Vec], y: number): Vec {
  return [from[0] + ((to[0] - from[0]) * (y - from[1])) / (to[1] - from[1]), y];
}

function wantedPlace(instrument: Instrument, fret: number, side: number): Candidate {
  const y = side * instrument.indexPins.offset;
  return { at: [markerX(instrument, fret, y), y], under: 'clear', fret };
}

/** Places in the spaces at, before and after the fret, on both sides, stepping out from the centreline. */
function clearCandidates({ instrument, taper }: Surroundings, fret: number, side: number): Candidate[] {
  const step = 0.5;
  const spaces = [fret, fret - 1, fret + 1].filter((n) => n >= 1 && n <= instrument.frets.count);
  return spaces.flatMap((space) => {
    const half = halfWidthAt(taper, markerX(instrument, space));
    const count = Math.floor(half / step);
    return Array.from({ length: count }, (_, k) => k * step).flatMap((y): Candidate[] =>
      [side * y, -side * y].map((at) => ({
        at: [markerX(instrument, space, at), at],
        under: 'clear',
        fret: space,
      })),
    );
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
      `The index pin wanted ${inWords(instrument, wanted)} stands ${inWords(instrument, pin)}, ${formatShort(away, 2)} mm away: where it was wanted it would be ${why}.`,
      {
        where: { source: 'instrument', path: `indexPins.frets[${i}]` },
        remedy:
          'Nothing, when this place suits you: everything made uses it. Else choose another fret or another offset.',
      },
    ),
  ];
}

/** In words of a right-handed instrument's sides, which a left-handed one keeps. */
function inWords(instrument: Instrument, { fret, at: [, y] }: Candidate): string {
  const name = fretLabel(instrument, fret);
  if (y === 0) return `in the space of fret ${name} on the centreline`;
  return `in the space of fret ${name}, ${formatShort(Math.abs(y), 2)} mm toward the ${y < 0 ? 'bass' : 'treble'} side`;
}

/** Why a pin cannot stand there, or null. */
function problemAt(around: Surroundings, { at: [x, y], under }: Candidate): string | null {
  const { instrument, taper, rodCuts } = around;
  const reach = instrument.indexPins.diameter / 2;
  const wall = instrument.indexPins.leastWall;
  if (halfWidthAt(taper, x) - Math.abs(y) < reach + wall) return 'too near the edge of the board';
  if (rodCuts.some(({ ring }) => distanceToBox(ring, [x, y]) < reach + wall)) return 'over the truss rod';
  if (under !== 'clear') return null;
  return problemWithNeighbours(around, [x, y], reach + wall);
}

function problemWithNeighbours(around: Surroundings, at: Vec, reach: number): string | null {
  const { instrument, markers, slots } = around;
  if (
    slots.some(
      ({ line }) =>
        nearestOn({ kind: 'line', from: line[0], to: line[1] }, at).distance <
        reach + instrument.frets.slotWidth / 2,
    )
  )
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
  if (place === 'none') throw new Error('pins that are not wanted have no place');
  const side = i === 0 ? -1 : 1;
  const first = candidates(around, fret, side)[0];
  const why = first === undefined ? nothingThere(place) : (problemAt(around, first) ?? 'it is taken');
  return {
    code: 'index-pin-has-no-place',
    severity: 'error',
    where: { source: 'instrument', path: `indexPins.frets[${i}]` },
    text: `The index pin at fret ${fretLabel(around.instrument, fret)} (place: ${place}) has no place: ${why}.`,
    allowed: `${leastWall} mm of wood around a hole of ${diameter} mm`,
    remedy: 'choose another fret, another offset, a thinner pin or another kind of place',
  };
}

function nothingThere(place: 'clear' | 'slot' | 'marker'): string {
  return place === 'slot' ? 'the slot does not reach there' : 'there is no marker at that fret';
}
