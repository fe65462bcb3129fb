/** Plain geometry of boards, worked out by other ways than the tool's own. */
import type { FretSlot, Layout } from '../../src/layout/types.ts';
import type { Instrument } from '../../src/profile/types.ts';

type Point = readonly [number, number];

/** Twice the area of a triangle, positive when it runs counter-clockwise. */
const turn = (a: Point, b: Point, c: Point): number =>
  (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0]);

function doMeet([a, b]: readonly [Point, Point], [c, d]: readonly [Point, Point]): boolean {
  return turn(a, b, c) * turn(a, b, d) <= 0 && turn(c, d, a) * turn(c, d, b) <= 0;
}

/** Pairs of slots that meet anywhere along their length, by name. */
export function crossing(slots: readonly FretSlot[]): string[] {
  return slots.flatMap((slot, i) =>
    slots
      .slice(i + 1)
      .filter((other) => doMeet(slot.line, other.line))
      .map((other) => `${slot.id} meets ${other.id}`),
  );
}

/**
 * Slot ends that do not lie where they say: on the straight taper between the two widths of the profile, or within it; and slots that
 * cross the centreline elsewhere than S (1 - 2^(-c/1200)) from scale zero.
 */
export function offTheBoard(layout: Layout, instrument: Instrument): string[] {
  const { widthAtNut, widthAt } = instrument.fingerboard;
  const from = instrument.nut.setForward;
  if (widthAt.fret !== null) throw new Error('the second width is expected at the body end');
  const half = (x: number): number =>
    (widthAtNut + ((widthAt.width - widthAtNut) * (x - from)) / (layout.board.end - from)) / 2;
  return layout.slots.flatMap((slot) => {
    const ends = slot.line.flatMap((point, k) => {
      const out = Math.abs(point[1]) - half(point[0]);
      const fits = slot.ends[k] === 'edge' ? Math.abs(out) < 1e-9 : out < -1e-3;
      return fits ? [] : [`${slot.id}: its end lies ${out} mm outside`];
    });
    const meant = instrument.scale.length * -Math.expm1((-slot.cents / 1200) * Math.LN2);
    const isMeant = Math.abs(slot.x - meant) < 1e-9;
    return [...ends, ...(isMeant ? [] : [`${slot.id}: ${slot.x} instead of ${meant}`])];
  });
}

interface Vertex {
  readonly x: number;
  readonly y: number;
  readonly bulge: number;
}

/** What of a layout has a side: points in their order from bass to treble, and outlines as rings. */
export interface Sided {
  readonly points: Readonly<Record<string, readonly Point[]>>;
  readonly rings: Readonly<Record<string, readonly Vertex[]>>;
}

/** Every place of a layout by name, for either hand. */
export function placesOf(layout: Layout): Sided {
  const { slots, slotCuts, faceMarkers, sideMarkers, indexPins, strings, board, trussRod } = layout;
  const named = (kind: string, items: readonly (readonly [string, ...Point[]])[]) =>
    items.map(([id, ...points]) => [`${kind} ${id}`, points] as const);
  return {
    points: Object.fromEntries([
      ...named(
        'slot',
        slots.map((s) => [s.id, ...s.line, ...s.carrier] as const),
      ),
      ...named(
        'cut of slot',
        slotCuts.map((s) => [s.id, ...s.line] as const),
      ),
      ...named(
        'marker',
        faceMarkers.map((m) => [m.id, m.at] as const),
      ),
      ...named(
        'side marker',
        sideMarkers.map((m) => [m.id, [m.x, m.y]] as const),
      ),
      ...named(
        'pin',
        indexPins.map((pin) => [pin.id, pin.at] as const),
      ),
      ...named(
        'string',
        strings.map((s) => [String(s.position), s.nut, s.saddle, s.pin] as const),
      ),
      ['nut line', layout.nutLine],
      ['scale zero', layout.scaleLines.zero],
      ['scale end', layout.scaleLines.full],
      ['saddle line', layout.saddleLine],
    ]),
    rings: { outline: board.outline, wood: board.wood, rod: trussRod ?? [] },
  };
}

/** The same places with every y turned round. Rings then run backwards, so that they stay counter-clockwise. */
export function mirrored({ points, rings }: Sided): Sided {
  const each = <T>(items: Readonly<Record<string, T>>, change: (item: T) => T) =>
    Object.fromEntries(Object.entries(items).map(([name, item]) => [name, change(item)]));
  return {
    points: each(points, (list) => list.map(([x, y]): Point => [x, -y])),
    rings: each(rings, turnedRing),
  };
}

/** The arc after a vertex is the one that came before it. */
function turnedRing(ring: readonly Vertex[]): Vertex[] {
  const back = ring.toReversed();
  return back.map(({ x, y }, i) => ({ x, y: -y, bulge: back[(i + 1) % back.length]?.bulge ?? Number.NaN }));
}

/** Places in which two layouts differ at all; a zero has no sign. Rings may begin at any of their vertices. */
export function differences(a: Sided, b: Sided): string[] {
  const names = (s: Sided): string => [...Object.keys(s.points), ...Object.keys(s.rings)].join();
  if (names(a) !== names(b)) return [`${names(a)} and ${names(b)}`];
  const flat = (list: readonly Point[]): string => list.map(([x, y]) => `${x} ${y || 0}`).join(', ');
  const corners = (ring: readonly Vertex[]): string =>
    ring
      .map(({ x, y, bulge }) => `${x} ${y || 0} ${bulge || 0}`)
      .toSorted()
      .join(', ');
  return [
    ...Object.keys(a.points).filter((name) => flat(a.points[name] ?? []) !== flat(b.points[name] ?? [])),
    ...Object.keys(a.rings).filter((name) => corners(a.rings[name] ?? []) !== corners(b.rings[name] ?? [])),
  ];
}
