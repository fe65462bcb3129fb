import { mirrorY, rectangle } from '../geometry/ring.ts';
import type { Ring, Vec } from '../geometry/types.ts';
import type { Instrument } from '../profile/types.ts';
import type { Outcome } from '../report/finding.ts';
import { layOutOutline, layOutTaper } from './board.ts';
import { placeIndexPins } from './indexPins.ts';
import { layOutFaceMarkers, layOutSideMarkers } from './markers.ts';
import { fretX, layOutSlots } from './slots.ts';
import { layOutStrings, saddleLine } from './strings.ts';
import type { Layout } from './types.ts';

/** Every location on the instrument, from scale zero and the centreline. */
export function layOut(instrument: Instrument): Outcome<Layout> {
  const taper = layOutTaper(instrument);
  const nutFace = instrument.nut.setForward;
  const end = fretX(instrument, instrument.frets.count) + instrument.fingerboard.overhang;
  const faceMarkers = layOutFaceMarkers(instrument);
  const trussRod = layOutTrussRod(instrument, nutFace);
  const pins = placeIndexPins({ instrument, taper, markers: faceMarkers, trussRod });
  if (!pins.ok) return pins;
  const strings = layOutStrings(instrument, nutFace);
  const layout: Layout = {
    scaleLength: instrument.scale.length,
    nutFace,
    board: {
      outline: layOutOutline(nutFace, end, taper, instrument.fingerboard.endRounding),
      end,
      halfWidth: taper,
      radius: instrument.fingerboard.radius,
    },
    slots: layOutSlots(instrument, taper),
    faceMarkers,
    sideMarkers: layOutSideMarkers(instrument, taper),
    indexPins: pins.value,
    strings,
    saddleLine: saddleLine(strings.map((s) => s.saddle)),
    trussRod,
  };
  return {
    ok: true,
    value: instrument.hand === 'left' ? mirrorLayout(layout) : layout,
    findings: pins.findings,
  };
}

/** The same instrument for the other hand: y changes sign, once, here and nowhere else. */
export function mirrorLayout(layout: Layout): Layout {
  const flip = ([x, y]: Vec): Vec => [x, -y || 0];
  const flipAt = <T extends { readonly at: Vec }>(item: T): T => ({ ...item, at: flip(item.at) });
  return {
    ...layout,
    board: { ...layout.board, outline: mirrorY(layout.board.outline) },
    slots: layout.slots.map((s) => ({ ...s, line: [flip(s.line[0]), flip(s.line[1])] })),
    faceMarkers: layout.faceMarkers.map(flipAt),
    sideMarkers: layout.sideMarkers.map((m) => ({ ...m, y: -m.y })),
    indexPins: layout.indexPins.map(flipAt),
    strings: layout.strings.map((s) => ({
      ...s,
      nut: flip(s.nut),
      saddle: flip(s.saddle),
      pin: flip(s.pin),
    })),
    saddleLine: [flip(layout.saddleLine[0]), flip(layout.saddleLine[1])],
    trussRod: layout.trussRod === null ? null : mirrorY(layout.trussRod),
  };
}

function layOutTrussRod(instrument: Instrument, nutFace: number): Ring | null {
  const rod = instrument.trussRod;
  if (rod === null) return null;
  const from = nutFace + rod.from;
  return rectangle({ x: [from, from + rod.length], y: [-rod.width / 2, rod.width / 2] });
}
