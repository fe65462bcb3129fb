import type { Ring, Vec } from '../geometry/types.ts';
import { add, leftNormal, scale, subtract, unit } from '../geometry/vec.ts';
import type { Feature, NeckBackFeature, Part, SlotFeature } from '../parts/types.ts';
import { kerfWords, millimetres, notesLayer } from './notes.ts';
import { drawnOnce } from './once.ts';
import { boxOutline, circleOf, line, outlineOf, polyline, slotWalls } from './shapes.ts';
import type { Drawing, Layer, Shape } from './types.ts';

/** One thing to draw and the layer that says what it is. */
interface Placed {
  readonly layer: string;
  readonly shape: Shape;
}

/** In this order, which also decides which of two equal lines stays. */
const LAYERS = [
  'BOARD_OUTLINE',
  'OUTLINE',
  'BINDING_CHANNEL',
  'OPENINGS',
  'HOLES',
  'POCKETS',
  'NECK_BACK',
  'UNDERSIDE_POCKETS',
  'FRET_SLOTS',
  'FRET_SLOT_WALLS',
  'NUT_SEAT',
  'SADDLE_SLOT',
  'SADDLE_SLOT_WALLS',
  'MARKED_LINES',
  'LETTERING',
  'EDGE_HOLES',
  'CENTRELINE',
  'BLANK',
] as const;

/**
 * A part as it is meant to be when finished, with the blank it comes from: part frame, millimetres, 1:1.
 * Fret slots are drawn twice over on purpose, as centre lines and as walls of their true width, on two layers.
 */
export function drawPart(part: Part): Drawing {
  const placed = [
    ...part.features.flatMap(drawFeature),
    ...drawCentreline(part),
    { layer: 'BLANK', shape: boxOutline(part.blank.box) },
  ];
  const kerf = 'finished edges';
  const { x, y } = part.blank.box;
  const layers: Layer[] = LAYERS.map((name) => ({
    name,
    shapes: placed.filter((p) => p.layer === name).map((p) => p.shape),
  }));
  return {
    id: part.id,
    title: part.title,
    part: part.id,
    kerf,
    layers: [
      ...drawnOnce(layers),
      notesLayer(
        [x[0], y[0] - 10],
        [
          part.title,
          'Millimetres, scale 1:1.',
          `Datum: ${part.datum}.`,
          kerfWords(kerf),
          ...surfaceWords(part),
          `Blank: ${part.material}, ${millimetres(x[1] - x[0])} x ${millimetres(y[1] - y[0])} x ${millimetres(part.blank.thickness)}.`,
        ],
      ),
    ],
  };
}

function surfaceWords(part: Part): string[] {
  return part.features.flatMap((f) => {
    if (f.kind !== 'surface') return [];
    if (f.floor.kind === 'plane')
      return [`Top: flat, ${millimetres(part.blank.thickness + f.floor.z)} thick, planed by program.`];
    const [nut, end] = f.floor.R;
    const radius =
      nut === end ? `radius ${millimetres(nut)}` : `radius ${millimetres(nut)} to ${millimetres(end)}`;
    const crest = part.blank.thickness + f.floor.crest - f.floor.below;
    return [`Top: ${radius} about the centreline, ${millimetres(crest)} thick along it, worked by program.`];
  });
}

function drawFeature(feature: Feature): Placed[] {
  switch (feature.kind) {
    case 'slot':
      if (feature.work === 'nutSeat') return [{ layer: 'NUT_SEAT', shape: nutSeatShape(feature) }];
      return [
        { layer: slotLayer(feature), shape: line(...feature.line) },
        {
          layer: `${slotLayer(feature).replace(/S$/, '')}_WALLS`,
          shape: slotWalls(feature.line, feature.width),
        },
      ];
    case 'pocket':
      return [feature.region.outer, ...feature.region.holes].map((ring) => ({
        layer: 'POCKETS',
        shape: outlineOf(ring),
      }));
    case 'underside pocket':
      return [{ layer: 'UNDERSIDE_POCKETS', shape: outlineOf(feature.region.outer) }];
    case 'hole':
      return [{ layer: 'HOLES', shape: circleOf(feature.at, feature.diameter) }];
    case 'outline':
      return [{ layer: outlineLayer(feature), shape: outlineOf(feature.ring) }];
    case 'channel':
      return [{ layer: 'BINDING_CHANNEL', shape: outlineOf(feature.top) }];
    case 'line':
      return [{ layer: lineLayer(feature), shape: polyline(feature.points) }];
    case 'surface':
      // Seen from above a top worked to its radius has no line of its own: it is named in the notes.
      return [];
    case 'neck back':
      return [{ layer: 'NECK_BACK', shape: outlineOf(sidesOfShaft(feature.shaft)) }];
    case 'edge hole':
      return [{ layer: 'EDGE_HOLES', shape: { kind: 'point', at: [feature.at[0], feature.at[1]] } }];
  }
}

/** Where the sides of the shaft meet the neck's face, from one end of its carved back to the other. */
function sidesOfShaft({ x: [from, to], halfWidth: { at0, slope } }: NeckBackFeature['shaft']): Ring {
  const [near, far] = [at0 + slope * from, at0 + slope * to];
  return [
    { x: from, y: -near, bulge: 0 },
    { x: to, y: -far, bulge: 0 },
    { x: to, y: far, bulge: 0 },
    { x: from, y: near, bulge: 0 },
  ];
}

/** A slot with both its walls; of a ledge the one wall that stays. */
function nutSeatShape({ line: [from, to], width, ledge }: SlotFeature): Shape {
  if (ledge === undefined) return slotWalls([from, to], width);
  const half = ledge === 'wall on the left' ? width / 2 : -width / 2;
  const aside = scale(leftNormal(unit(subtract(to, from))), half);
  return line(add(from, aside), add(to, aside));
}

function slotLayer({ work }: Feature & { kind: 'slot' }): 'FRET_SLOTS' | 'SADDLE_SLOT' {
  return work === 'fretSlots' ? 'FRET_SLOTS' : 'SADDLE_SLOT';
}

function lineLayer({ meaning }: Feature & { kind: 'line' }): string {
  return meaning === 'lettering' ? 'LETTERING' : 'MARKED_LINES';
}

function outlineLayer(feature: Feature & { kind: 'outline' }): string {
  if (feature.keep === 'outside') return 'OPENINGS';
  return feature.work === 'boardOutline' ? 'BOARD_OUTLINE' : 'OUTLINE';
}

/** Only a part that lies about the line y = 0 has a centreline. */
function drawCentreline(part: Part): Placed[] {
  const { x, y } = part.blank.box;
  const marked = part.features.some((f) => f.kind === 'line' && f.meaning === 'centreline');
  if (marked || !(y[0] < 0 && y[1] > 0)) return [];
  const ends: [Vec, Vec] = [
    [x[0], 0],
    [x[1], 0],
  ];
  return [{ layer: 'CENTRELINE', shape: line(...ends) }];
}
