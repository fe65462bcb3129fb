import { mirrorForm } from '../geometry/form.ts';
import { mirrorY, rectangle } from '../geometry/ring.ts';
import type { Ring, Vec } from '../geometry/types.ts';
import type { Instrument } from '../profile/types.ts';
import { hasErrors } from '../report/collect.ts';
import type { Outcome } from '../report/finding.ts';
import { findIndexPins } from './autoPins.ts';
import { layOutBassEdge } from './bassEdge.ts';
import { layOutEnd, layOutTaper } from './board.ts';
import { checkBridgeShape, layOutBridge, mirrorBridge } from './bridge.ts';
import { checkArtwork } from './checkArtwork.ts';
import { checkEnd } from './checkEnd.ts';
import { checkInlays } from './checkInlays.ts';
import { ownEndFinding } from './checkOwnEnd.ts';
import { layOutEdges, woodTaper } from './edges.ts';
import { placeIndexPins } from './indexPins.ts';
import { layOutArtwork, layOutFaceMarkers, layOutSideMarkers } from './markers.ts';
import { layOutNeck, mirrorNeck } from './neck.ts';
import { layOutNutSeat, nutEndCarrier } from './nutSeat.ts';
import { layOutClearance, layOutRodCuts } from './rodCuts.ts';
import { carrierOf, nutFaceCarrier } from './scale.ts';
import { layOutShaft } from './shaft.ts';
import { layOutSlotCuts } from './slotCuts.ts';
import { edgeToEdge, layOutSlots } from './slots.ts';
import { layOutStrings, saddleLine } from './strings.ts';
import { layOutSurface } from './surface.ts';
import type { ArtworkFigure, Layout, PlacedMarker } from './types.ts';
import { withVolute } from './volute.ts';

/** Outlines from files. */
export interface DrawnOutlines {
  /** Of the board's end, about its own middle. */
  readonly end?: Ring | null;
  /** Of the head, from the break. */
  readonly head?: Ring | null;
  /** Of the bridge, about its own middle. */
  readonly bridge?: Ring | null;
}

/**
 * Every location on the instrument, from scale zero and the centreline. `artwork`: the figures of each artwork that the profile
 * names, in its order; `drawn`: the outlines of the board's end, of the head and of the bridge that it names. Without its own outline an end is
 * straight.
 */
export function layOut(
  instrument: Instrument,
  artwork: readonly (readonly ArtworkFigure[])[] = [],
  drawn: DrawnOutlines = {},
): Outcome<Layout> {
  const taper = layOutTaper(instrument);
  const nutFace = instrument.nut.setForward;
  const end = layOutEnd(instrument, drawn.end ?? null);
  const misfit = ownEndFinding(end, taper);
  if (misfit !== null) return { ok: false, findings: [misfit] };
  const nutLine = edgeToEdge(nutFaceCarrier(instrument), taper);
  const strings = layOutStrings(instrument);
  const surface = layOutSurface(instrument, strings, [nutFace, end.at]);
  const slots = layOutSlots({ instrument, taper, strings });
  const ground = { instrument, taper, slots, strings };
  const faceMarkers = [...layOutFaceMarkers(ground), ...layOutArtwork(ground, artwork)];
  const trussRod = layOutTrussRod(instrument, nutFace);
  const edges = layOutEdges(instrument, taper, end, surface);
  const nutEnd = edgeToEdge(nutEndCarrier(instrument), taper);
  const bassEdge = layOutBassEdge(nutEnd[0], taper.slope, edges.outline);
  const rodCuts = layOutRodCuts(instrument, nutFace);
  const neck = layOutNeck({ instrument, taper, nutLine, strings, drawn: drawn.head ?? null });
  if (!neck.ok) return neck;
  const shaft = layOutShaft({ instrument, taper, slots, nutFace, neck: neck.value });
  const sideMarkers = layOutSideMarkers({ instrument, taper, surface, edge: bassEdge });
  const around = { instrument, taper, slots, markers: faceMarkers, rodCuts };
  const wood = woodTaper(instrument, taper);
  const pins =
    instrument.indexPins.place === 'auto'
      ? findIndexPins({
          ...around,
          taper: wood,
          nutLine,
          sideMarkers,
          neckEnd: neck.value?.end ?? null,
          shaft,
        })
      : placeIndexPins(around);
  if (!pins.ok) return pins;
  const layout: Layout = {
    scaleLength: instrument.scale.length,
    nutFace,
    nutLine,
    nutSeat: layOutNutSeat(instrument, taper),
    scaleLines: {
      zero: edgeToEdge(carrierOf(instrument, 0), taper),
      full: edgeToEdge(carrierOf(instrument, Number.POSITIVE_INFINITY), taper),
    },
    board: {
      nutEnd,
      end: end.at,
      halfWidth: taper,
      surface,
      ...edges,
      bassEdge,
    },
    slots,
    slotCuts: layOutSlotCuts(slots, instrument.fingerboard, wood),
    faceMarkers,
    sideMarkers,
    indexPins: pins.value,
    strings,
    saddleLine: saddleLine(strings.map((s) => s.saddle)),
    bridge: layOutBridge(instrument, strings, drawn.bridge ?? null),
    trussRod,
    rodClearance: layOutClearance(instrument, nutFace),
    rodCuts,
    neck: withVolute(instrument, neck.value, shaft, nutFace),
    shaft,
  };
  const findings = [
    ...pins.findings,
    ...checkEnd(slots, end, instrument),
    ...checkArtwork(layout, instrument),
    ...checkInlays(layout, instrument),
    ...checkBridgeShape(instrument),
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
      channel: layout.board.channel && {
        ...layout.board.channel,
        ring: mirrorY(layout.board.channel.ring),
      },
      nutEnd: flipLine(layout.board.nutEnd),
    },
    nutSeat: layout.nutSeat && {
      ...layout.nutSeat,
      front: flipLine(layout.nutSeat.front),
      back: flipLine(layout.nutSeat.back),
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
    bridge: layout.bridge === null ? null : mirrorBridge(layout.bridge),
    trussRod: layout.trussRod === null ? null : mirrorY(layout.trussRod),
    rodClearance: layout.rodClearance && {
      ...layout.rodClearance,
      ring: mirrorY(layout.rodClearance.ring),
    },
    rodCuts: layout.rodCuts.map((cut) => ({ ...cut, ring: mirrorY(cut.ring) })),
    neck: layout.neck === null ? null : mirrorNeck(layout.neck),
  };
}

function layOutTrussRod(instrument: Instrument, nutFace: number): Ring | null {
  const rod = instrument.trussRod;
  if (rod === null) return null;
  const from = nutFace + rod.from;
  return rectangle({ x: [from, from + rod.length], y: [-rod.width / 2, rod.width / 2] });
}
