import { boardHeight } from '../geometry/boardSurface.ts';
import { pocketOf } from '../geometry/form.ts';
import { highestUnder } from '../geometry/inlayLoss.ts';
import { bounds } from '../geometry/ring.ts';
import type { Box, Ring, Vec } from '../geometry/types.ts';
import type { Layout, PlacedMarker, SlotCut } from '../layout/types.ts';
import type { Instrument } from '../profile/types.ts';
import { channelFeatures } from './channel.ts';
import { nutSeatFeatures } from './nutSeat.ts';
import type { PartSettings } from './settings.ts';
import type {
  EdgeFace,
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
import { undersideFeatures } from './underside.ts';

/** A blank that is thicker by less than this has its thickness. */
const LEAST_PLANED = 1e-6;

/** How far past the board's edge a slot may be cut into the waste. */
const SLOT_RUN_OUT = 1.5;

/** The fingerboard: slots, marker pockets, index-pin holes, side-marker holes and its finished edge. */
export function makeFingerboard(instrument: Instrument, layout: Layout, settings: PartSettings): Part {
  const { fingerboard } = instrument;
  const { ends } = settings.allowances;
  const [from, to] = reachOf(layout);
  const box: Box = { x: [from - ends, to + ends], y: blankWidth(layout, settings) };
  const features: Feature[] = [
    ...undersideFeatures(layout, { box, thickness: fingerboard.blankThickness }, settings),
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
    ...layout.slotCuts.map(
      (cut): SlotFeature => ({
        id: cut.id,
        work: 'fretSlots',
        kind: 'slot',
        line: cut.line,
        width: instrument.frets.slotWidth,
        floor: slotFloor(instrument, layout, cut),
        runOut: [runOutOf(cut.ends[0]), runOutOf(cut.ends[1])],
      }),
    ),
    ...nutSeatFeatures(layout, crest(instrument)),
    ...layout.faceMarkers.map((marker) => markerPocket(instrument, layout, marker)),
    ...layout.sideMarkers.map(
      (marker): EdgeHoleFeature => ({
        id: marker.id,
        work: 'sideMarkers',
        kind: 'edge hole',
        at: [marker.x, marker.y, crest(instrument) + marker.z],
        onEdge: { along: marker.along, up: marker.up },
        diameter: marker.diameter,
        depth: marker.depth,
        through: marker.through,
      }),
    ),
    ...channelFeatures(layout, crest(instrument)),
    {
      id: 'fingerboard-outline',
      work: 'boardOutline',
      kind: 'outline',
      ring: freedRing(layout),
      keep: 'inside',
      ...(fingerboard.endArtwork === null ? {} : { inner: fingerboard.endArtwork.cornerRadius }),
    },
  ];
  return {
    id: 'fingerboard',
    title: 'Fingerboard',
    material: fingerboard.wood,
    materialClass: fingerboard.materialClass,
    blank: {
      box,
      thickness: fingerboard.blankThickness,
      top: blankTop(instrument, layout, settings),
    },
    features,
    ...(layout.sideMarkers.length === 0 ? {} : { edge: edgeFace(instrument, layout) }),
    datum: 'scale zero on the centreline, z = 0 on top of the blank at its crest',
    grain: 'x',
  };
}

/** The bass edge once the board has its outline and, if it is to be drilled with it, its binding. */
function edgeFace({ fingerboard, sideMarkers }: Instrument, { board: { bassEdge } }: Layout): EdgeFace {
  const { binding, blankThickness } = fingerboard;
  const isAlone = binding !== null && sideMarkers.drilled === 'before binding';
  return {
    ...bassEdge,
    height: blankThickness,
    strip: isAlone ? binding.width : null,
    bound: binding !== null && !isAlone,
  };
}

/** Height of the finished board's crest below the top of the blank. */
function crest(instrument: Instrument): number {
  return instrument.fingerboard.thickness - instrument.fingerboard.blankThickness;
}

/** Edge of what is cut free: with a channel for it, binding takes nothing off the board's own width. */
function freedRing({ board }: Pick<Layout, 'board'>): Ring {
  return board.channel === null ? board.wood : board.outline;
}

/** From the board's first to its last place along the centreline: a slanted nut or a shaped end reaches past the middle. */
function reachOf({ board, nutFace }: Pick<Layout, 'board' | 'nutFace'>): readonly [number, number] {
  const { x } = bounds(freedRing({ board }));
  return [Math.min(nutFace, x[0]), x[1]];
}

function runOutOf(end: SlotCut['ends'][number]): number {
  return end === 'edge' ? SLOT_RUN_OUT : 0;
}

/** Whole millimetres past the board's widest place. */
function blankWidth(layout: Layout, { allowances }: PartSettings): [number, number] {
  const { at0, slope } = layout.board.halfWidth;
  const half = at0 + slope * reachOf(layout)[1];
  const edge = Math.ceil(half + allowances.sides);
  return [-edge, edge];
}

/** A machine works the blank from edge to edge, so that nothing stands beside the board in the way of later cutters. */
function surfaceFeatures(instrument: Instrument, layout: Layout, settings: PartSettings): SurfaceFeature[] {
  const floor = boardFloor(instrument, layout);
  // A flat board has no radius to be worked to, but a blank that is thicker is planed before anything else.
  if (settings.boardSurface !== 'machine' || (floor.kind === 'plane' && floor.z > -LEAST_PLANED)) return [];
  const isFlat = floor.kind === 'cone' && instrument.fingerboard.surfaceWhenSlotted === 'flat';
  return [
    {
      id: 'fingerboard-surface',
      work: 'boardSurface',
      kind: 'surface',
      box: { x: reachOf(layout), y: blankWidth(layout, settings) },
      floor,
      when: isFlat ? 'after the slots' : 'before the slots',
    },
  ];
}

function blankTop(instrument: Instrument, layout: Layout, settings: PartSettings): Top {
  if (settings.boardSurface === 'machine') return { kind: 'plane', z: 0 };
  if (instrument.fingerboard.surfaceWhenSlotted === 'flat') return { kind: 'plane', z: 0 };
  const floor = boardFloor(instrument, layout);
  return floor.kind === 'plane' ? { kind: 'plane', z: 0 } : { ...floor, crest: 0, below: 0 };
}

/**
 * The slot's floor lies `slotDepth` below the finished surface all along; or it is flat and lies so deep below the lower of the
 * slot's two ends, so that it is deeper below the crest by what the board falls away.
 */
function slotFloor(instrument: Instrument, layout: Layout, { line }: SlotCut): Floor {
  const { slotDepth } = instrument.frets;
  const surface = boardFloor(instrument, layout);
  if (surface.kind === 'cone' && instrument.fingerboard.slotFloor === 'follows')
    return { ...surface, below: slotDepth };
  const height = ([x, y]: Vec): number => boardHeight(layout.board.surface, x, y);
  return { kind: 'plane', z: crest(instrument) + Math.min(...line.map(height)) - slotDepth };
}

/** The finished surface, in the blank. */
function boardFloor(instrument: Instrument, { board: { surface } }: Layout): Floor {
  if (surface.kind === 'flat') return { kind: 'plane', z: crest(instrument) };
  return { ...surface, crest: crest(instrument), below: 0 };
}

/**
 * The marker's top must stand `proud` above the finished board wherever it is, so it is set by the highest point of
 * the board under it.
 */
function markerPocket(instrument: Instrument, layout: Layout, marker: PlacedMarker): PocketFeature {
  const { thickness, proud, clearance, cornerRadius, inlays } = instrument.faceMarkers;
  const top = crest(instrument) + highestUnder(layout.board.surface, marker.at, marker.form) + proud;
  return {
    id: marker.id,
    work: 'faceMarkers',
    kind: 'pocket',
    region: pocketOf(marker.form, marker.at, { gap: clearance / 2, corner: cornerRadius }),
    ...(inlays === null ? {} : { fitted: { corner: cornerRadius } }),
    floor: { kind: 'plane', z: top - thickness },
  };
}
