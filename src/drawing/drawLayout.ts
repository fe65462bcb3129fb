import { plainForm } from '../geometry/form.ts';
import { bounds } from '../geometry/ring.ts';
import type { Vec } from '../geometry/types.ts';
import type { Layout } from '../layout/types.ts';
import { kerfWords, lettering, millimetres, notesLayer } from './notes.ts';
import { drawnOnce } from './once.ts';
import { circleOf, line, outlineOf } from './shapes.ts';
import type { Drawing, Layer, Shape } from './types.ts';

/** What a drawing of the whole says of the instrument besides its layout. */
export interface InstrumentHeading {
  readonly name: string;
  readonly hand: 'right' | 'left';
  readonly bridge: { readonly anchor: { readonly kind: string; readonly drill?: number } };
  readonly fingerboard: { readonly binding: object | null };
}

/**
 * Fingerboard, string lines, saddle line and string ends in one drawing: instrument frame, millimetres, 1:1.
 * Strings run from the nut face to the saddle line; pins are drawn at the diameter that is drilled first.
 */
export function drawLayout(layout: Layout, instrument: InstrumentHeading): Drawing {
  const kerf = 'finished edges';
  const layers = [
    layer('BOARD_OUTLINE', [outlineOf(layout.board.outline)]),
    layer('WOOD_EDGE', instrument.fingerboard.binding === null ? [] : [outlineOf(layout.board.wood)]),
    layer(
      'FRET_SLOTS',
      layout.slots.map((slot) => line(...slot.line)),
    ),
    layer(
      'NUT_SEAT',
      layout.nutSeat === null ? [] : [line(...layout.nutSeat.front), line(...layout.nutSeat.back)],
    ),
    layer(
      'INDEX_PINS',
      layout.indexPins.map((pin) => circleOf(pin.at, pin.diameter)),
    ),
    layer(
      'FACE_MARKERS',
      layout.faceMarkers.flatMap((m) => {
        const { outer, holes } = plainForm(m.form, m.at);
        return [outer, ...holes].map(outlineOf);
      }),
    ),
    layer(
      'SIDE_MARKERS',
      layout.sideMarkers.map((m) => ({ kind: 'point', at: [m.x, m.y] })),
    ),
    layer(
      'STRINGS',
      layout.strings.map((s) => line(s.nut, s.saddle)),
    ),
    layer('SADDLE_LINE', layout.strings.length > 1 ? [line(...layout.saddleLine)] : []),
    layer(anchorLayer(instrument), stringEnds(layout, instrument)),
    layer('TRUSS_ROD', layout.trussRod === null ? [] : [outlineOf(layout.trussRod)]),
    layer('UNDERSIDE_POCKETS', layout.rodClearance === null ? [] : [outlineOf(layout.rodClearance.ring)]),
    layer('SCALE_ZERO', scaleZero(layout)),
    layer('CENTRELINE', [line([Math.min(0, layout.nutFace), 0], [farEnd(layout), 0])]),
    layer(
      'FRET_NUMBERS',
      layout.slots.filter((slot, i) => layout.slots[i - 1]?.fret !== slot.fret).map(fretNumber),
    ),
  ];
  return {
    id: 'layout',
    title: `${instrument.name}, layout`,
    part: 'layout',
    kerf,
    layers: [...drawnOnce(layers), notes(layout, instrument, kerf)],
  };
}

function layer(name: string, shapes: readonly Shape[]): Layer {
  return { name, shapes };
}

/** A nut set forward leaves scale zero off the board's end, where it needs a line of its own. */
function scaleZero({ nutFace, scaleLines }: Layout): Shape[] {
  return nutFace === 0 ? [] : [line(...scaleLines.zero)];
}

/** The layer is named for what is there. */
function anchorLayer({ bridge: { anchor } }: InstrumentHeading): string {
  if (anchor.kind === 'pins') return 'BRIDGE_PINS';
  return anchor.kind === 'through' ? 'STRING_HOLES' : 'STRING_ENDS';
}

/** Holes at the diameter that is drilled first; where there are none from above, the places where strings end. */
function stringEnds({ strings }: Layout, { bridge: { anchor } }: InstrumentHeading): Shape[] {
  const { drill } = anchor;
  return strings.map((s) => (drill === undefined ? { kind: 'point', at: s.pin } : circleOf(s.pin, drill)));
}

function farEnd(layout: Layout): number {
  return Math.max(layout.board.end, layout.scaleLength, ...layout.strings.map((s) => s.pin[0])) + 10;
}

/** Over the end of a fret's line at the greater y; a fret in pieces is named once. */
function fretNumber(slot: Layout['slots'][number]): Shape {
  const [bass, treble] = slot.carrier;
  const top = bass[1] > treble[1] ? bass : treble;
  return lettering([top[0], top[1] + 3], slot.label, 2.5);
}

function notes(layout: Layout, instrument: InstrumentHeading, kerf: Drawing['kerf']): Layer {
  const box = bounds(layout.board.outline);
  const side = instrument.hand === 'right' ? 'treble' : 'bass';
  const nut =
    layout.nutFace === 0
      ? 'The nut face is at scale zero.'
      : `The nut face is ${millimetres(Math.abs(layout.nutFace))} ${layout.nutFace > 0 ? 'toward the bridge' : 'back'} from scale zero.`;
  const at: Vec = [box.x[0], box.y[0] - 10];
  return notesLayer(at, [
    `${instrument.name}, layout, ${instrument.hand}-handed`,
    'Millimetres, scale 1:1.',
    `Datum: scale zero on the centreline; x toward the bridge, y toward the ${side} side.`,
    `Scale length ${millimetres(layout.scaleLength)} along the centreline.`,
    nut,
    kerfWords(kerf),
  ]);
}
