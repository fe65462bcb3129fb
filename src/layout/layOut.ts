import { mirrorForm } from '../geometry/form.ts';
import { mirrorY, rectangle } from '../geometry/ring.ts';
import type { Ring, Vec } from '../geometry/types.ts';
import type { Instrument } from '../profile/types.ts';
import { hasErrors } from '../report/collect.ts';
import type { Outcome } from '../report/finding.ts';
import { layOutBassEdge } from './bassEdge.ts';
import {
  type BoardEnd,
  type BoardTaper,
  insetEnd,
  insetTaper,
  layOutEnd,
  layOutOutline,
  layOutTaper,
} from './board.ts';
import { checkArtwork } from './checkArtwork.ts';
import { checkEnd } from './checkEnd.ts';
import { checkInlays } from './checkInlays.ts';
import { placeIndexPins } from './indexPins.ts';
import { layOutArtwork, layOutFaceMarkers, layOutSideMarkers } from './markers.ts';
import { carrierOf, nutFaceCarrier } from './scale.ts';
import { layOutSlotCuts } from './slotCuts.ts';
import { edgeToEdge, layOutSlots } from './slots.ts';
import { layOutStrings, saddleLine } from './strings.ts';
import { layOutSurface } from './surface.ts';
import type { ArtworkFigure, Layout, PlacedMarker } from './types.ts';

/**
 * Every location on the instrument, from scale zero and the centreline. `artwork`: the figures of each artwork that the profile
 * names, in its order.
 */
export function layOut(
  instrument: Instrument,
  artwork: readonly (readonly ArtworkFigure[])[] = [],
): Outcome<Layout> {
  const taper = layOutTaper(instrument);
  const nutFace = instrument.nut.setForward;
  const end = layOutEnd(instrument);
  const nutCarrier = nutFaceCarrier(instrument);
  const nutLine = edgeToEdge(nutCarrier, taper);
  const strings = layOutStrings(instrument);
  const surface = layOutSurface(instrument, strings, [nutFace, end.at]);
  const slots = layOutSlots({ instrument, taper, strings });
  const ground = { instrument, taper, slots, strings };
  const faceMarkers = [...layOutFaceMarkers(ground), ...layOutArtwork(ground, artwork)];
  const trussRod = layOutTrussRod(instrument, nutFace);
  const outline = layOutOutline(nutCarrier, taper, end);
  const bassEdge = layOutBassEdge(nutLine[0], taper.slope, outline);
  const pins = placeIndexPins({ instrument, taper, slots, markers: faceMarkers, trussRod });
  if (!pins.ok) return pins;
  const layout: Layout = {
    scaleLength: instrument.scale.length,
    nutFace,
    nutLine,
    scaleLines: {
      zero: edgeToEdge(carrierOf(instrument, 0), taper),
      full: edgeToEdge(carrierOf(instrument, Number.POSITIVE_INFINITY), taper),
    },
    board: {
      outline,
      end: end.at,
      halfWidth: taper,
      surface,
      wood: layOutWood(instrument, taper, end),
      bassEdge,
    },
    slots,
    slotCuts: layOutSlotCuts(slots, instrument.fingerboard, woodTaper(instrument, taper)),
    faceMarkers,
    sideMarkers: layOutSideMarkers({ instrument, taper, surface, edge: bassEdge }),
    indexPins: pins.value,
    strings,
    saddleLine: saddleLine(strings.map((s) => s.saddle)),
    trussRod,
    rodClearance: layOutClearance(instrument, nutFace),
  };
  const findings = [
    ...pins.findings,
    ...checkEnd(slots, end, instrument),
    ...checkArtwork(layout, instrument),
    ...checkInlays(layout, instrument),
  ];
  if (hasErrors(findings)) return { ok: false, findings };
  return { ok: true, value: instrument.hand === 'left' ? mirrorLayout(layout) : layout, findings };
}

/** The same instrument for the other hand: y changes sign, once, here and nowhere else. */
export function mirrorLayout(layout: Layout): Layout {
  const flip = ([x, y]: Vec): Vec => [x, -y || 0];
  const flipLine = ([from, to]: readonly [Vec, Vec]): [Vec, Vec] => [flip(from), flip(to)];
  const flipAt = <T extends { readonly at: Vec }>(item: T): T => ({ ...item, at: flip(item.at) });
  return {
    ...layout,
    board: {
      ...layout.board,
      outline: mirrorY(layout.board.outline),
      wood: mirrorY(layout.board.wood),
      bassEdge: {
        ...layout.board.bassEdge,
        from: flip(layout.board.bassEdge.from),
        along: flip(layout.board.bassEdge.along),
        outward: flip(layout.board.bassEdge.outward),
      },
    },
    nutLine: flipLine(layout.nutLine),
    scaleLines: { zero: flipLine(layout.scaleLines.zero), full: flipLine(layout.scaleLines.full) },
    slots: layout.slots.map((s) => ({ ...s, line: flipLine(s.line), carrier: flipLine(s.carrier) })),
    slotCuts: layout.slotCuts.map((cut) => ({ ...cut, line: flipLine(cut.line) })),
    faceMarkers: layout.faceMarkers.map((m): PlacedMarker => ({ ...flipAt(m), form: mirrorForm(m.form) })),
    sideMarkers: layout.sideMarkers.map((m) => ({ ...m, y: -m.y })),
    indexPins: layout.indexPins.map(flipAt),
    strings: layout.strings.map((s) => ({
      ...s,
      nut: flip(s.nut),
      saddle: flip(s.saddle),
      pin: flip(s.pin),
    })),
    saddleLine: flipLine(layout.saddleLine),
    trussRod: layout.trussRod === null ? null : mirrorY(layout.trussRod),
    rodClearance:
      layout.rodClearance === null
        ? null
        : { ...layout.rodClearance, ring: mirrorY(layout.rodClearance.ring) },
  };
}

/** Edge of the board's wood, its binding taken off. */
function layOutWood(instrument: Instrument, taper: BoardTaper, end: BoardEnd): Ring {
  const { binding } = instrument.fingerboard;
  const atEnd = binding?.around === 'sides and end' ? binding.width : 0;
  return layOutOutline(nutFaceCarrier(instrument), woodTaper(instrument, taper), insetEnd(end, atEnd));
}

function woodTaper({ fingerboard: { binding } }: Instrument, taper: BoardTaper): BoardTaper {
  return insetTaper(taper, binding?.width ?? 0);
}

function layOutTrussRod(instrument: Instrument, nutFace: number): Ring | null {
  const rod = instrument.trussRod;
  if (rod === null) return null;
  const from = nutFace + rod.from;
  return rectangle({ x: [from, from + rod.length], y: [-rod.width / 2, rod.width / 2] });
}

/** On the centreline, its ends half round: no cutter leaves a corner. */
function layOutClearance({ trussRod }: Instrument, nutFace: number): Layout['rodClearance'] {
  if (trussRod === null || trussRod.clearance === null) return null;
  const { width, depth, from, length } = trussRod.clearance;
  const half = width / 2;
  const [near, far] = [nutFace + from + half, nutFace + from + length - half];
  const ring = [
    { x: near, y: -half, bulge: 0 },
    { x: far, y: -half, bulge: 1 },
    { x: far, y: half, bulge: 0 },
    { x: near, y: half, bulge: 1 },
  ];
  return { ring, depth };
}
