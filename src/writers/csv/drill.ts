import type { Layout } from '../../layout/types.ts';
import type { Feature, Part } from '../../parts/types.ts';
import type { Instrument, Pins, Through } from '../../profile/types.ts';
import { inchesFromMm } from '../../units/convert.ts';
import type { Hole } from './hole.ts';
import { neckHoles } from './neckHoles.ts';
import { type CsvCell, type CsvColumn, writeTable } from './table.ts';

/**
 * Every hole of the instrument as a table: index pins, face marker pockets, side markers, bridge pins, holes of neck and head. Each length in
 * millimetres (3 decimals) and again in inches (4 decimals); the heads say what it is measured from.
 * @example writeDrillCsv(layout, makeParts(instrument, layout, settings), instrument)
 */
export function writeDrillCsv(layout: Layout, parts: readonly Part[], instrument: Instrument): string {
  const holes = holesOf(layout, parts, instrument);
  return writeTable(
    columnsOf(instrument),
    holes.map((hole) => rowOf(hole, layout)),
  );
}

function columnsOf(instrument: Instrument): CsvColumn[] {
  const side = instrument.hand === 'left' ? 'bass' : 'treble';
  const lengths = [
    'x along the centreline from the nut face, toward the bridge',
    'x along the centreline from scale zero, toward the bridge',
    `y square to the centreline, positive toward the ${side} side`,
    'centre below the top of the blank (holes in an edge only)',
    'along the bass edge from its corner at the nut end (holes in an edge only)',
    'centre above the underside of the board (holes in an edge only)',
    'diameter',
    'depth from the face it is drilled from',
    'marker along the board (not round only)',
    'marker across the board (not round only)',
    'corner radius of its pocket (where it has corners)',
  ];
  return [
    { head: 'id' },
    { head: 'what' },
    { head: 'drilled from' },
    ...lengths.map((head) => ({ head: `${head} (mm)`, decimals: 3 })),
    ...lengths.map((head) => ({ head: `${head} (in)`, decimals: 4 })),
    { head: 'through' },
  ];
}

function rowOf(hole: Hole, layout: Layout): CsvCell[] {
  const place = [hole.x - layout.nutFace, hole.x, hole.y, hole.below, ...(hole.onEdge ?? [null, null])];
  const lengths = [...place, hole.diameter, hole.depth, ...(hole.marker ?? [null, null, null])];
  const inches = lengths.map((mm) => (mm === null ? null : inchesFromMm(mm)));
  return [hole.id, hole.what, hole.from, ...lengths, ...inches, hole.through ? 'yes' : 'no'];
}

function holesOf(layout: Layout, parts: readonly Part[], instrument: Instrument): Hole[] {
  const features = new Map(parts.flatMap((p) => p.features.map((f) => [f.id, f] as const)));
  return [
    ...parts.flatMap((part) => part.features.flatMap(fromUnderside)),
    ...layout.indexPins.map((pin) => indexPin(pin.id, features)),
    ...layout.faceMarkers.map((marker) => faceMarker(marker, features, instrument)),
    ...layout.sideMarkers.map((marker) => sideMarker(marker.id, features, parts)),
    ...stringHoles(layout, instrument),
    ...neckHoles(layout, parts, instrument),
    ...bridgeIndexPins(layout, instrument),
  ];
}

/** Turning pins in the waste, and where the pocket that they serve lies, seen from the board's own top. */
function fromUnderside(feature: Feature): Hole[] {
  if (feature.work !== 'boardUnderside') return [];
  if (feature.kind === 'hole') {
    const { id, at, diameter, depth, through } = feature;
    const what = 'turning pin, in the waste of the blank';
    return [
      { id, what, from: 'top of the blank', x: at[0], y: at[1], below: null, diameter, depth, through },
    ];
  }
  if (feature.kind !== 'underside pocket') return [];
  const { x, y } = feature.box;
  return [
    {
      id: feature.id,
      what: 'pocket over the truss rod, round ends: to be cut, not drilled',
      from: 'underside of the board',
      x: (x[0] + x[1]) / 2,
      y: (y[0] + y[1]) / 2,
      below: null,
      diameter: null,
      depth: feature.depth,
      through: false,
      marker: [x[1] - x[0], y[1] - y[0], (y[1] - y[0]) / 2],
    },
  ];
}

function indexPin(id: string, features: ReadonlyMap<string, Feature>): Hole {
  const feature = features.get(id);
  if (feature?.kind !== 'hole') throw new Error(`no hole ${id} in any part`);
  return {
    id,
    what: 'index pin',
    from: 'top of the blank',
    x: feature.at[0],
    y: feature.at[1],
    below: null,
    diameter: feature.diameter,
    depth: feature.depth,
    through: feature.through,
  };
}

/** A pocket is as much wider than its marker as the profile's clearance says. */
function faceMarker(
  marker: Layout['faceMarkers'][number],
  features: ReadonlyMap<string, Feature>,
  instrument: Instrument,
): Hole {
  const feature = features.get(marker.id);
  if (feature?.kind !== 'pocket') throw new Error(`no pocket ${marker.id} in any part`);
  const { form } = marker;
  const { material, clearance, cornerRadius } = instrument.faceMarkers;
  const common = {
    id: marker.id,
    from: 'top of the blank',
    x: marker.at[0],
    y: marker.at[1],
    below: null,
    depth: -feature.floor.z,
    through: false,
  };
  if (form.shape === 'round') {
    return { ...common, what: `face marker, ${material}`, diameter: form.diameter + clearance };
  }
  const inner = form.shape === 'ring' ? `, ${form.inner - clearance} mm of wood left in its middle` : '';
  return {
    ...common,
    what: `${form.shape} face marker, ${material}: to be cut, not drilled${inner}`,
    diameter: null,
    marker: [...extentOf(form), form.shape === 'ring' ? null : cornerRadius],
  };
}

type Form = Layout['faceMarkers'][number]['form'];

/** Along the board and across it; of a block through its middle. */
function extentOf(form: Exclude<Form, { readonly shape: 'round' }>): readonly [number, number] {
  switch (form.shape) {
    case 'square':
      return [form.side, form.side];
    case 'ring':
      return [form.diameter, form.diameter];
    case 'diamond':
    case 'block':
    case 'notched block':
      return [form.length, form.width];
    case 'artwork':
      return [form.box.along, form.box.across];
  }
}

function sideMarker(id: string, features: ReadonlyMap<string, Feature>, parts: readonly Part[]): Hole {
  const feature = features.get(id);
  if (feature?.kind !== 'edge hole') throw new Error(`no edge hole ${id} in any part`);
  const [x, y, z] = feature.at;
  return {
    id,
    what: 'side marker',
    from: edgeWords(parts.find((part) => part.features.includes(feature))),
    x,
    y,
    below: -z,
    onEdge: [feature.onEdge.along, feature.onEdge.up],
    diameter: feature.diameter,
    depth: feature.depth,
    through: feature.through,
  };
}

/** A bound board is drilled with its binding on, or its binding strip by itself. */
function edgeWords(part: Part | undefined): string {
  const edge = part?.edge;
  if (edge === undefined) return 'bass edge of the finished board';
  if (edge.strip !== null) return 'outer face of the bass binding strip, before it is glued on';
  return edge.bound ? 'bass edge of the board with its binding on' : 'bass edge of the finished board';
}

/** Holes from above in which strings end; none where they are tied or go on to a tailpiece. */
function stringHoles({ strings }: Layout, { bridge: { anchor } }: Instrument): Hole[] {
  return anchor.kind === 'pins' || anchor.kind === 'through'
    ? strings.map((string) => stringHole(string, anchor))
    : [];
}

function stringHole(string: Layout['strings'][number], { kind, drill, through }: Pins | Through): Hole {
  const [id, what] = kind === 'pins' ? ['bridge-pin', 'bridge pin'] : ['string-hole', 'string hole'];
  return {
    id: `${id}-${string.position}`,
    what: `${what}, string ${string.position} (${string.pitch})`,
    from: 'face of the bridge',
    x: string.pin[0],
    y: string.pin[1],
    below: null,
    diameter: drill,
    depth: through,
    through: true,
  };
}

/** Under the saddle, through the bridge into the top. */
function bridgeIndexPins({ bridge }: Layout, { bridge: { body } }: Instrument): Hole[] {
  if (bridge === null || body === null) return [];
  return bridge.indexPins.map((at, i) => ({
    id: `bridge-index-pin-${i === 0 ? 'bass' : 'treble'}`,
    what: 'index pin of the bridge, under the saddle',
    from: 'face of the bridge',
    x: at[0],
    y: at[1],
    below: null,
    diameter: body.indexPin,
    depth: body.thickness,
    through: true,
  }));
}
