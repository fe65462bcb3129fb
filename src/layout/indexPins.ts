import { formReach } from '../geometry/form.ts';
import type { Ring, Vec } from '../geometry/types.ts';
import { distance } from '../geometry/vec.ts';
import type { Instrument } from '../profile/types.ts';
import type { Finding, Outcome } from '../report/finding.ts';
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

/** Two index pins: clear of everything, or hidden in a slot or under a marker, as the profile asks. */
export function placeIndexPins(around: Surroundings): Outcome<IndexPin[]> {
  const places = around.instrument.indexPins.frets.map((fret, i) => placePin(around, fret, i));
  const findings = places.filter((p): p is Finding => 'code' in p);
  if (findings.length > 0) return { ok: false, findings };
  return { ok: true, value: places.filter((p): p is IndexPin => 'id' in p), findings: [] };
}

function placePin(around: Surroundings, fret: number, i: number): IndexPin | Finding {
  const side = i === 0 ? -1 : 1;
  const found = candidates(around, fret, side)
    .filter((pin) => problemAt(around, pin) === null)
    .sort((a, b) => strayFrom(around, a, fret, side) - strayFrom(around, b, fret, side))[0];
  return found === undefined
    ? noPlace(around, fret, i)
    : { id: `index-pin-${i + 1}`, diameter: around.instrument.indexPins.diameter, ...found };
}

type Candidate = Pick<IndexPin, 'at' | 'under'>;

function candidates(around: Surroundings, fret: number, side: number): Candidate[] {
  const { instrument, markers } = around;
  const { place, offset } = instrument.indexPins;
  if (place === 'slot') {
    return [{ at: [fretX(instrument, fret), side * offset], under: slotId(fret) }];
  }
  if (place === 'marker') {
    return markers.filter((m) => m.fret === fret).map((m) => ({ at: m.at, under: m.id }));
  }
  return clearCandidates(around, fret, side);
}

/** Places in the spaces at, before and after the fret, on both sides, stepping away from the wanted offset. */
function clearCandidates({ instrument, taper }: Surroundings, fret: number, side: number): Candidate[] {
  const step = 0.5;
  const spaces = [fret, fret - 1, fret + 1].filter((n) => n >= 1 && n <= instrument.frets.count);
  return spaces.flatMap((space) => {
    const x = markerX(instrument, space);
    const half = halfWidthAt(taper, x);
    const count = Math.floor(half / step);
    return Array.from({ length: count }, (_, k) => k * step).flatMap((y): Candidate[] => [
      { at: [x, side * y], under: 'clear' },
      { at: [x, -side * y], under: 'clear' },
    ]);
  });
}

function strayFrom(around: Surroundings, pin: Candidate, fret: number, side: number): number {
  const { instrument } = around;
  if (instrument.indexPins.place !== 'clear') return 0;
  const wanted: Vec = [markerX(instrument, fret), side * instrument.indexPins.offset];
  return distance(pin.at, wanted);
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
    where: { source: 'instrument', path: `indexPins.frets.${i}` },
    text: `The index pin at fret ${fret} (place: ${place}) has no place: ${why}.`,
    allowed: `${leastWall} mm of wood around a hole of ${diameter} mm`,
    remedy: 'choose another fret, another offset, a thinner pin or another kind of place',
  };
}
