import { surfaceHeight } from '../geometry/surface.ts';
import type { Instrument } from '../profile/types.ts';
import { type BoardTaper, halfWidthAt } from './board.ts';
import { fretId, fretX } from './slots.ts';
import type { PlacedMarker, PlacedSideMarker } from './types.ts';

/** x halfway between the slots before and at a fret: where its marker goes (common practice, no source). */
export function markerX(instrument: Instrument, fret: number): number {
  return (fretX(instrument, fret - 1) + fretX(instrument, fret)) / 2;
}

/** Face markers on the centreline, or two `spread` apart across it. */
export function layOutFaceMarkers(instrument: Instrument): PlacedMarker[] {
  const { at, spread } = instrument.faceMarkers;
  return at.flatMap((marker) => {
    const x = markerX(instrument, marker.fret);
    const id = `face-marker-${fretId(marker.fret)}`;
    const { fret, count, ...form } = marker;
    if (count === 1) return [{ id, fret, at: [x, 0] as const, form }];
    return [
      { id: `${id}-bass`, fret, at: [x, -spread / 2] as const, form },
      { id: `${id}-treble`, fret, at: [x, spread / 2] as const, form },
    ];
  });
}

/** Side markers in the bass edge, halfway between slots, two `spread` apart along the board when double. */
export function layOutSideMarkers(instrument: Instrument, taper: BoardTaper): PlacedSideMarker[] {
  const { at, spread, diameter, depth, below } = instrument.sideMarkers;
  return at.flatMap(({ fret, count }) => {
    const middle = markerX(instrument, fret);
    const id = `side-marker-${fretId(fret)}`;
    const places =
      count === 1
        ? [[id, middle] as const]
        : [[`${id}-a`, middle - spread / 2] as const, [`${id}-b`, middle + spread / 2] as const];
    return places.map(([name, x]) => {
      const half = halfWidthAt(taper, x);
      const z = surfaceHeight(instrument.fingerboard.radius, half) - below;
      return { id: name, fret, x, y: -half, z, diameter, depth };
    });
  });
}
