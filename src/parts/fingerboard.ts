import { formRing, formSize } from '../geometry/form.ts';
import { surfaceHeight } from '../geometry/surface.ts';
import type { Layout, PlacedMarker } from '../layout/types.ts';
import type { Instrument } from '../profile/types.ts';
import type { PartSettings } from './settings.ts';
import type {
  Cone,
  EdgeHoleFeature,
  Feature,
  Floor,
  HoleFeature,
  Part,
  PocketFeature,
  SlotFeature,
  SurfaceFeature,
  Top,
} from './types.ts';

/** How far past the board's edge a slot may be cut into the waste. */
const SLOT_RUN_OUT = 1.5;

/** The fingerboard: slots, marker pockets, index-pin holes, side-marker holes and its finished edge. */
export function makeFingerboard(instrument: Instrument, layout: Layout, settings: PartSettings): Part {
  const { fingerboard } = instrument;
  const { ends } = settings.allowances;
  const features: Feature[] = [
    ...layout.indexPins.map(
      (pin): HoleFeature => ({
        id: pin.id,
        work: 'indexPins',
        kind: 'hole',
        at: pin.at,
        diameter: pin.diameter,
        depth: fingerboard.blankThickness,
        through: true,
      }),
    ),
    ...surfaceFeatures(instrument, layout, settings),
    ...layout.slots.map(
      (slot): SlotFeature => ({
        id: slot.id,
        work: 'fretSlots',
        kind: 'slot',
        line: slot.line,
        width: instrument.frets.slotWidth,
        floor: slotFloor(instrument, layout),
        runOut: SLOT_RUN_OUT,
      }),
    ),
    ...layout.faceMarkers.map((marker) => markerPocket(instrument, marker)),
    ...layout.sideMarkers.map(
      (marker): EdgeHoleFeature => ({
        id: marker.id,
        work: 'sideMarkers',
        kind: 'edge hole',
        at: [marker.x, marker.y, crest(instrument) + marker.z],
        diameter: marker.diameter,
        depth: marker.depth,
      }),
    ),
    {
      id: 'fingerboard-outline',
      work: 'boardOutline',
      kind: 'outline',
      ring: layout.board.outline,
      keep: 'inside',
    },
  ];
  return {
    id: 'fingerboard',
    title: 'Fingerboard',
    material: fingerboard.wood,
    materialClass: fingerboard.materialClass,
    blank: {
      box: { x: [layout.nutFace - ends, layout.board.end + ends], y: blankWidth(layout, settings) },
      thickness: fingerboard.blankThickness,
      top: blankTop(instrument, layout, settings),
    },
    features,
    datum: 'scale zero on the centreline, z = 0 on top of the blank at its crest',
  };
}

/** Height of the finished board's crest below the top of the blank. */
function crest(instrument: Instrument): number {
  return instrument.fingerboard.thickness - instrument.fingerboard.blankThickness;
}

/** Whole millimetres past the board's widest place. */
function blankWidth(layout: Layout, { allowances }: PartSettings): [number, number] {
  const half = layout.board.halfWidth.at0 + layout.board.halfWidth.slope * layout.board.end;
  const edge = Math.ceil(half + allowances.sides);
  return [-edge, edge];
}

/** A machine works the blank from edge to edge, so that nothing stands beside the board in the way of later cutters. */
function surfaceFeatures(instrument: Instrument, layout: Layout, settings: PartSettings): SurfaceFeature[] {
  if (settings.boardSurface !== 'machine') return [];
  const isFlat = instrument.fingerboard.surfaceWhenSlotted === 'flat';
  return [
    {
      id: 'fingerboard-surface',
      work: 'boardSurface',
      kind: 'surface',
      box: { x: [layout.nutFace, layout.board.end], y: blankWidth(layout, settings) },
      floor: boardCone(instrument, layout),
      when: isFlat ? 'after the slots' : 'before the slots',
    },
  ];
}

function blankTop(instrument: Instrument, layout: Layout, settings: PartSettings): Top {
  if (settings.boardSurface === 'machine') return { kind: 'plane', z: 0 };
  if (instrument.fingerboard.surfaceWhenSlotted === 'flat') return { kind: 'plane', z: 0 };
  return { ...boardCone(instrument, layout), crest: 0, below: 0 };
}

/** The slot's floor lies `slotDepth` below the finished surface all along. */
function slotFloor(instrument: Instrument, layout: Layout): Floor {
  return { ...boardCone(instrument, layout), below: instrument.frets.slotDepth };
}

function boardCone(instrument: Instrument, layout: Layout): Cone {
  const { radius } = layout.board;
  return {
    kind: 'cone',
    x: [layout.nutFace, layout.board.end],
    R: [radius, radius],
    crest: crest(instrument),
    below: 0,
  };
}

/**
 * The marker's top must stand `proud` above the finished board wherever it is, so it is set by the highest point of
 * the board under it: the one nearest the centreline.
 */
function markerPocket(instrument: Instrument, marker: PlacedMarker): PocketFeature {
  const { thickness, proud, clearance, cornerRadius } = instrument.faceMarkers;
  const near = Math.max(0, Math.abs(marker.at[1]) - formSize(marker.form).across / 2);
  const top = crest(instrument) + surfaceHeight(instrument.fingerboard.radius, near) + proud;
  return {
    id: marker.id,
    work: 'faceMarkers',
    kind: 'pocket',
    region: { outer: formRing(marker.form, marker.at, clearance / 2, cornerRadius), holes: [] },
    floor: { kind: 'plane', z: top - thickness },
  };
}
