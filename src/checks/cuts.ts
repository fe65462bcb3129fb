import { pocketOf } from '../geometry/form.ts';
import { circle, flatten } from '../geometry/ring.ts';
import type { Vec } from '../geometry/types.ts';
import { add, leftNormal, scale, subtract, unit } from '../geometry/vec.ts';
import type { IndexPin, Layout, PlacedMarker, PlacedSideMarker, SlotCut } from '../layout/types.ts';
import type { Instrument } from '../profile/types.ts';
import type { Cut } from './types.ts';

/** Curves are looked at by chords that leave them by at most this. Millimetres. */
const SAGITTA = 0.002;

/** Everything that is cut into the board, seen from above. */
export function cutsOf(layout: Layout, instrument: Instrument): Cut[] {
  return [
    ...layout.slotCuts.map((cut) => slotCut(cut, layout, instrument)),
    ...layout.faceMarkers.map((marker) => pocketCut(marker, layout, instrument)),
    ...layout.indexPins.map((pin, i) => pinCut(pin, i)),
    ...layout.sideMarkers.map((marker) => sideHoleCut(marker, layout, instrument)),
  ];
}

function slotCut({ id, line }: SlotCut, { slots }: Layout, { frets }: Instrument): Cut {
  const label = slots.find((slot) => slot.id === id)?.label;
  if (label === undefined) throw new Error(`no slot ${id}`);
  return {
    id,
    kind: 'slot',
    name: `the slot of fret ${label}`,
    outline: strip(line, frets.slotWidth / 2),
    islands: [],
    path: 'frets.slotWidth',
  };
}

/** Corners of a rectangle about a line, counter-clockwise. */
function strip([from, to]: readonly [Vec, Vec], half: number): Vec[] {
  const side = scale(leftNormal(unit(subtract(to, from))), half);
  return [subtract(from, side), subtract(to, side), add(to, side), add(from, side)];
}

function pocketCut(
  { id, fret, at, form }: PlacedMarker,
  { slots }: Layout,
  { faceMarkers }: Instrument,
): Cut {
  const { clearance, cornerRadius, at: wanted } = faceMarkers;
  const pocket = pocketOf(form, at, { gap: clearance / 2, corner: cornerRadius });
  const isArtwork = form.shape === 'artwork';
  const label = slots.find((slot) => slot.fret === fret)?.label ?? String(fret);
  const index = isArtwork ? Number(id.split('-')[1]) - 1 : wanted.findIndex((m) => m.fret === fret);
  return {
    id,
    kind: 'pocket',
    name: isArtwork ? `the pocket of ${id}` : `the pocket of the marker at fret ${label}`,
    outline: flatten(pocket.outer, SAGITTA),
    islands: pocket.holes.map((hole) => flatten(hole, SAGITTA)),
    path: `faceMarkers.${isArtwork ? 'artwork' : 'at'}[${index}]`,
  };
}

function pinCut({ id, at, diameter }: IndexPin, i: number): Cut {
  return {
    id,
    kind: 'pin',
    name: `index pin ${i + 1}`,
    outline: flatten(circle(at, diameter / 2), SAGITTA),
    islands: [],
    path: `indexPins.frets[${i}]`,
  };
}

/** Drilled into the edge, square to it. */
function sideHoleCut(marker: PlacedSideMarker, { board, slots }: Layout, { sideMarkers }: Instrument): Cut {
  const { id, fret, x, y, diameter, depth } = marker;
  const floor = subtract([x, y], scale(board.bassEdge.outward, depth));
  const label = slots.find((slot) => slot.fret === fret)?.label ?? String(fret);
  return {
    id,
    kind: 'side hole',
    name: `the hole of the side marker at fret ${label}`,
    outline: strip([[x, y], floor], diameter / 2),
    islands: [],
    path: `sideMarkers.at[${sideMarkers.at.findIndex((m) => m.fret === fret)}]`,
  };
}
