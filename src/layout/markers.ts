import { type BoardSurface, boardHeight } from '../geometry/boardSurface.ts';
import { type BlockSides, type Form, mirrorForm } from '../geometry/form.ts';
import type { Vec } from '../geometry/types.ts';
import type { FaceMarker, Instrument, MarkerArtwork } from '../profile/types.ts';
import { meetLine, onCarrier } from '../spacing/slant.ts';
import { type BassEdge, lengthAlong } from './bassEdge.ts';
import { type BoardTaper, halfWidthAt } from './board.ts';
import { fretCarrier } from './scale.ts';
import { fretId, fretLabel, fretX, fretXAtEdge } from './slots.ts';
import type { ArtworkFigure, FretSlot, PlacedMarker, PlacedSideMarker, StringLine } from './types.ts';

/** What face markers are placed by. */
export interface MarkerGround {
  readonly instrument: Instrument;
  readonly taper: BoardTaper;
  readonly slots: readonly FretSlot[];
  readonly strings: readonly StringLine[];
}

/**
 * x halfway between the slots before and at a fret, on the marker's own line at y: where it goes (common practice, no source).
 * Slots of two scales slant, so that the place depends on y.
 */
export function markerX(instrument: Instrument, fret: number, y = 0): number {
  return (fretX(instrument, fret - 1, y) + fretX(instrument, fret, y)) / 2;
}

/** The same on the board's bass edge. */
function edgeMarkerX(instrument: Instrument, fret: number, taper: BoardTaper): number {
  return (fretXAtEdge(instrument, fret - 1, taper, -1) + fretXAtEdge(instrument, fret, taper, -1)) / 2;
}

/** Face markers on the centreline, or two `spread` apart across it. */
export function layOutFaceMarkers(ground: MarkerGround): PlacedMarker[] {
  const { at, spread } = ground.instrument.faceMarkers;
  return at.flatMap((marker) => {
    const id = `face-marker-${fretId(fretLabel(ground.instrument, marker.fret))}`;
    const { fret } = marker;
    const placed = (name: string, y: number): PlacedMarker => ({
      id: name,
      fret,
      at: [markerX(ground.instrument, fret, y), y],
      form: formOf(marker, y, ground),
    });
    return marker.count === 1
      ? [placed(id, 0)]
      : [placed(`${id}-bass`, -spread / 2), placed(`${id}-treble`, spread / 2)];
  });
}

function formOf({ fret, count, ...form }: FaceMarker, y: number, ground: MarkerGround): Form {
  return form.shape === 'block' || form.shape === 'notched block'
    ? { ...form, ...sidesOf(fret, y, ground) }
    : form;
}

/** A block on the centreline has a side along each edge; one of a pair has both along the edge it is nearer to. */
function sidesOf(fret: number, y: number, { slots, taper: { slope } }: MarkerGround): BlockSides {
  const own = slots.find((slot) => slot.fret === fret);
  const before = slots.find((slot) => slot.fret === fret - 1);
  const bridge = slantOf(own);
  return {
    slants: [before === undefined ? 0 : slantOf(before), bridge],
    slopes: y === 0 ? [-slope, slope] : [slope * Math.sign(y), slope * Math.sign(y)],
  };
}

/** dx / dy of a slot. */
function slantOf(slot: FretSlot | undefined): number {
  if (slot === undefined) return 0;
  const [bass, treble] = slot.line;
  return (treble[0] - bass[0]) / (treble[1] - bass[1]);
}

/** Artwork about the middle of its fret's space, on the centreline or halfway between two strings. */
export function layOutArtwork(
  ground: MarkerGround,
  artwork: readonly (readonly ArtworkFigure[])[],
): PlacedMarker[] {
  return ground.instrument.faceMarkers.artwork.flatMap((wanted, i) => {
    const middle = artworkMiddle(wanted, ground);
    const figures = artwork[i] ?? [];
    // The layout of a left-handed instrument is mirrored once, at its end: what shall keep its hand is mirrored before.
    const keepsHand = ground.instrument.hand === 'left' && !wanted.mirrorForLeftHand;
    return figures.map((figure, k): PlacedMarker => {
      const [dx, dy] = figure.at;
      const { pocket, part, box } = figure;
      const form: Form = { shape: 'artwork', pocket, part, box };
      const number = String(i + 1).padStart(2, '0');
      return {
        id: `artwork-${number}${figures.length === 1 ? '' : `-${k + 1}`}`,
        fret: wanted.fret,
        at: [middle[0] + dx, middle[1] + (keepsHand ? -dy : dy)],
        form: keepsHand ? mirrorForm(form) : form,
      };
    });
  });
}

function artworkMiddle({ fret, between }: MarkerArtwork, { instrument, strings }: MarkerGround): Vec {
  const [before, own] = [fretCarrier(instrument, fret - 1), fretCarrier(instrument, fret)];
  // Halfway between two slots lies the line that is the mean of both.
  const middle = { at: (before.at + own.at) / 2, lean: (before.lean + own.lean) / 2 };
  if (between === null) return [middle.at, 0];
  const ys = between.map((position) => {
    const string = strings.find((s) => s.position === position);
    if (string === undefined) throw new Error(`no string ${position}`);
    return meetLine(middle, [string.nut, string.saddle])[1];
  });
  const y = ((ys[0] ?? 0) + (ys[1] ?? 0)) / 2;
  return [onCarrier(middle, y), y];
}

/** What side markers are placed by. */
export interface SideGround {
  readonly instrument: Instrument;
  readonly taper: BoardTaper;
  readonly surface: BoardSurface;
  readonly edge: BassEdge;
}

/**
 * Side markers in the bass edge, halfway between slots, two `spread` apart along the board when double. A binding strip that is
 * drilled by itself is drilled right through.
 */
export function layOutSideMarkers({ instrument, taper, surface, edge }: SideGround): PlacedSideMarker[] {
  const { at, spread, diameter, below, drilled } = instrument.sideMarkers;
  const { binding, thickness } = instrument.fingerboard;
  const through = binding !== null && drilled === 'before binding';
  const depth = through ? binding.width : instrument.sideMarkers.depth;
  return at.flatMap(({ fret, count }) => {
    const middle = edgeMarkerX(instrument, fret, taper);
    const id = `side-marker-${fretId(fretLabel(instrument, fret))}`;
    const places =
      count === 1
        ? [[id, middle] as const]
        : [[`${id}-a`, middle - spread / 2] as const, [`${id}-b`, middle + spread / 2] as const];
    return places.map(([name, x]) => {
      const half = halfWidthAt(taper, x);
      const z = boardHeight(surface, x, half) - below;
      const along = lengthAlong(edge, [x, -half]);
      return { id: name, fret, x, y: -half, z, along, up: thickness + z, diameter, depth, through };
    });
  });
}
