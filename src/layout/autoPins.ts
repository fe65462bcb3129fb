/** Places for the index pins that nobody chose: as far apart along the neck as everything else allows. */
import { sectionsOn } from '../carving/along.ts';
import { backHeight } from '../carving/section.ts';
import type { Shaft } from '../carving/types.ts';
import { distanceToRing, nearestOn } from '../geometry/distance.ts';
import { formReach, plainForm } from '../geometry/form.ts';
import type { Vec } from '../geometry/types.ts';
import { errorFinding, outcomeOf, warningFinding } from '../report/collect.ts';
import type { Finding, Outcome } from '../report/finding.ts';
import { formatShort } from '../units/format.ts';
import { halfWidthAt } from './board.ts';
import { type Candidate, distanceToBox, type Surroundings, slotPlaces } from './indexPins.ts';
import { markerX } from './markers.ts';
import type { IndexPin, PlacedMarker, PlacedSideMarker } from './types.ts';

export interface PinGround extends Surroundings {
  readonly nutLine: readonly [Vec, Vec];
  readonly sideMarkers: readonly PlacedSideMarker[];
  /** x of the neck's end; null where the neck is made elsewhere. */
  readonly neckEnd: number | null;
  readonly shaft: Shaft | null;
}

/** Places are tried this far apart across the board. */
const STEP = 0.5;
/** Pins nearer to each other than this hold the board's direction badly (common practice, no source). */
const FAR_APART = 100;

/** A place with how far along the neck it counts: in a slot its fret, between two slots the half. */
interface Place extends Candidate {
  readonly station: number;
}

/**
 * The pin nearest to the nut, toward the bass side where there is room, and the one nearest to the neck's end, toward the treble side;
 * across the neck both as near as may be to the profile's offset. A finding when there is no such pair.
 */
export function findIndexPins(around: PinGround): Outcome<IndexPin[]> {
  const { offset, diameter } = around.instrument.indexPins;
  const tried = placesOf(around);
  const judged = tried.map((place) => ({ place, problem: problemAt(around, place) }));
  const sound = judged.flatMap(({ place, problem }) => (problem === null ? [place] : []));
  const stray = (wanted: number) => (a: Place, b: Place) =>
    Math.abs(a.at[1] - wanted) - Math.abs(b.at[1] - wanted);
  const first = sound.toSorted((a, b) => a.station - b.station || stray(-offset)(a, b))[0];
  const last = sound.toSorted((a, b) => b.station - a.station || stray(offset)(a, b))[0];
  if (first === undefined || last === undefined || first.station === last.station)
    return {
      ok: false,
      findings: [
        noPair(
          tried.length,
          sound.length,
          judged.flatMap((j) => j.problem ?? []),
        ),
      ],
    };
  const pins = [first, last].map(
    ({ at, under }, i): IndexPin => ({ id: `index-pin-${i + 1}`, diameter, at, under }),
  );
  return outcomeOf(pins, nearOneAnother(last.at[0] - first.at[0]));
}

/** Every place that the profile's wish to hide them leaves to be tried. */
function placesOf(around: PinGround): Place[] {
  const { hide } = around.instrument.indexPins;
  if (hide === 'no') return openPlaces(around);
  return [
    ...(hide === 'marker' ? [] : underCrowns(around)),
    ...(hide === 'slot' ? [] : underMarkers(around)),
  ];
}

const across = (half: number): number[] => {
  const count = Math.floor(half / STEP);
  return Array.from({ length: 2 * count + 1 }, (_, i) => (i - count) * STEP);
};

function underCrowns(around: PinGround): Place[] {
  const { instrument, slots, taper } = around;
  if (instrument.indexPins.diameter > instrument.fretWire.crownWidth) return [];
  const frets = [...new Set(slots.map(({ fret }) => fret))];
  return frets.flatMap((fret) => {
    const half = Math.max(
      ...slots.filter((s) => s.fret === fret).flatMap((s) => s.line.map(([, y]) => Math.abs(y))),
    );
    return across(Math.max(half, halfWidthAt(taper, 0))).flatMap((y) =>
      slotPlaces(around, fret, y).map((place) => ({ ...place, station: fret })),
    );
  });
}

function underMarkers({ instrument, markers }: PinGround): Place[] {
  const reach = instrument.indexPins.diameter / 2;
  return markers
    .filter((marker) => covers(marker, reach))
    .map(({ at, id, fret }) => ({ at, under: id, fret, station: fret - 0.5 }));
}

/** Whether a marker hides a round hole in its middle: a ring does not, and of an artwork nothing is known here. */
function covers({ form, at }: PlacedMarker, reach: number): boolean {
  if (form.shape === 'ring' || form.shape === 'artwork') return false;
  return distanceToRing(plainForm(form, at).outer, at) >= reach;
}

/** In the middle of every space between two slots. */
function openPlaces({ instrument, taper }: PinGround): Place[] {
  return Array.from({ length: instrument.frets.count }, (_, i) => i + 1).flatMap((fret) =>
    across(halfWidthAt(taper, markerX(instrument, fret))).map((y) => ({
      at: [markerX(instrument, fret, y), y] as const,
      under: 'clear',
      fret,
      station: fret - 0.5,
    })),
  );
}

/** What is in the way of a pin there, or null. */
function problemAt(around: PinGround, { at, under }: Place): string | null {
  const { diameter, leastWall } = around.instrument.indexPins;
  const reach = diameter / 2 + leastWall;
  const tests: readonly (readonly [string, () => boolean])[] = [
    ['the edge of the board', () => fromEdge(around, at) < reach],
    ['the nut', () => at[0] - Math.max(...around.nutLine.map(([x]) => x)) < reach],
    ['the end of the neck', () => at[0] + reach > lastPlace(around)],
    ['the truss rod', () => around.rodCuts.some(({ ring }) => distanceToBox(ring, at) < reach)],
    ['a fret slot', () => slotsNear(around, at, under, reach)],
    ['a face marker', () => markersNear(around, at, under, reach)],
    ['the hole of a side marker', () => sideHolesNear(around, at, reach)],
    ['the carved back of the neck', () => throughBack(around, at, reach)],
  ];
  return tests.find(([, isInTheWay]) => isInTheWay())?.[0] ?? null;
}

/** Square to the edge, which leans by the taper. */
function fromEdge({ taper }: PinGround, [x, y]: Vec): number {
  return (halfWidthAt(taper, x) - Math.abs(y)) / Math.hypot(1, taper.slope);
}

/** The neck's end; where it is not known, the last slot and what its pin needs round it. */
function lastPlace({ neckEnd, slots, instrument }: PinGround): number {
  const { diameter, leastWall } = instrument.indexPins;
  const last = Math.max(...slots.flatMap(({ line }) => line.map(([x]) => x))) + diameter / 2 + leastWall;
  return neckEnd === null ? last : Math.min(neckEnd, last);
}

function slotsNear({ slots, instrument }: PinGround, at: Vec, under: string, reach: number): boolean {
  const room = reach + instrument.frets.slotWidth / 2;
  return slots.some(
    ({ id, line: [from, to] }) => id !== under && nearestOn({ kind: 'line', from, to }, at).distance < room,
  );
}

function markersNear({ markers, instrument }: PinGround, at: Vec, under: string, reach: number): boolean {
  const gap = instrument.faceMarkers.clearance / 2;
  return markers.some(
    ({ id, at: middle, form }) =>
      id !== under && Math.hypot(middle[0] - at[0], middle[1] - at[1]) < reach + formReach(form) / 2 + gap,
  );
}

/** They go into the edge on the bass side, square to the centreline. */
function sideHolesNear({ sideMarkers, instrument }: PinGround, [x, y]: Vec, reach: number): boolean {
  const { diameter, depth } = instrument.sideMarkers;
  return sideMarkers.some(
    (hole) => Math.abs(hole.x - x) < diameter / 2 + reach && y - (hole.y + depth) < reach,
  );
}

/** A hole in the neck must not come out of the back once that is carved: looked at under its outer side. */
function throughBack({ shaft, instrument }: PinGround, [x, y]: Vec, reach: number): boolean {
  if (shaft === null || x < shaft.x[0] || x > shaft.x[1]) return false;
  const { intoNeck, leastWall } = instrument.indexPins;
  const outer = Math.abs(y) + reach - leastWall;
  return -backHeight(sectionsOn(shaft)(x), outer) < intoNeck + leastWall;
}

function noPair(tried: number, sound: number, problems: readonly string[]): Finding {
  const counted = [...new Set(problems)].map((what) => ({
    what,
    times: problems.filter((p) => p === what).length,
  }));
  const inTheWay = counted
    .toSorted((a, b) => b.times - a.times)
    .map(({ what, times }) => `${what} (${times})`);
  const why =
    tried === 0
      ? 'there is nothing that could hide pins of this diameter'
      : `of ${tried} places ${sound} ${sound === 1 ? 'is' : 'are'} free; in the way: ${inTheWay.join(', ')}`;
  return errorFinding('index-pins-have-no-places', `There are no two places for the index pins: ${why}.`, {
    where: { source: 'instrument', path: 'indexPins' },
    allowed: 'two places at different frets, with indexPins.leastWall of wood round each hole',
    remedy: 'thinner pins, a smaller leastWall, a smaller intoNeck, another hide, or places of your own',
  });
}

function nearOneAnother(apart: number): Finding[] {
  if (apart >= FAR_APART) return [];
  return [
    warningFinding('index-pins-near', `The index pins are only ${formatShort(apart, 1)} mm apart.`, {
      where: { source: 'instrument', path: 'indexPins' },
      allowed: `${FAR_APART} mm holds the board's direction well (common practice)`,
      remedy: 'another hide, or places of your own',
    }),
  ];
}
