import type { GivenInstrument } from '../schema/instrument.ts';
import type { FaceMarker, FaceMarkers, InlayParts, MarkerArtwork } from '../types.ts';
import { type Fill, PRACTICE } from './fill.ts';

type Given = NonNullable<GivenInstrument['faceMarkers']>;

/** The face markers with their defaults; none when the file has no such section. */
export function resolveFaceMarkers(given: Partial<GivenInstrument>, fill: Fill): FaceMarkers {
  const markers = given.faceMarkers;
  if (markers === undefined) {
    fill.shown('faceMarkers', undefined, null, 'none', 'no face markers are asked for');
    return NONE;
  }
  const hasPair = markers.at.some((marker) => marker.count === 2);
  const wide = (given.fingerboard?.widthAtNut ?? 40) / 2;
  const why = 'half the width at the nut between the two of a double marker';
  return {
    material: fill.plain('faceMarkers.material', markers.material, 'shell', 'the usual material'),
    thickness: fill.length(
      'faceMarkers.thickness',
      markers.thickness,
      2,
      `a usual thickness (${PRACTICE}): measure yours`,
    ),
    proud: fill.length(
      'faceMarkers.proud',
      markers.proud,
      0.2,
      `to be levelled with the board (${PRACTICE})`,
    ),
    clearance: fill.length('faceMarkers.clearance', markers.clearance, 0.05, `room for glue (${PRACTICE})`),
    cornerRadius: hasCorners(markers)
      ? fill.length('faceMarkers.cornerRadius', markers.cornerRadius, 1, 'what a cutter of 2 mm leaves')
      : (markers.cornerRadius ?? 1),
    spread: hasPair ? fill.length('faceMarkers.spread', markers.spread, wide, why) : (markers.spread ?? wide),
    leastLeft: fill.length(
      'faceMarkers.leastLeft',
      markers.leastLeft,
      LEAST_LEFT,
      `thinner ones let the wood or the glue show through (${PRACTICE})`,
    ),
    at: markers.at.map((marker): FaceMarker => {
      const count = marker.count ?? 1;
      // Left out, the shape is round.
      if ('diameter' in marker && !('inner' in marker)) return { ...marker, shape: 'round', count };
      return { ...marker, count };
    }),
    artwork: (markers.artwork ?? []).map((art, i) => resolveArtwork(art, i, fill)),
    inlays: markers.inlays === undefined ? null : resolveInlays(markers.inlays, fill),
  };
}

const LEAST_LEFT = 0.5;

const NONE: FaceMarkers = {
  material: 'none',
  thickness: 2,
  proud: 0.2,
  clearance: 0.05,
  cornerRadius: 1,
  spread: 20,
  leastLeft: LEAST_LEFT,
  at: [],
  artwork: [],
  inlays: null,
};

function hasCorners({ at, artwork = [] }: Given): boolean {
  const isRound = (shape: string | undefined): boolean =>
    shape === undefined || shape === 'round' || shape === 'ring';
  return artwork.length > 0 || at.some((marker) => !isRound(marker.shape));
}

function resolveArtwork(art: NonNullable<Given['artwork']>[number], i: number, fill: Fill): MarkerArtwork {
  const path = `faceMarkers.artwork[${i}]`;
  const { file, fret, between, rotate, scale, width } = art;
  return {
    file,
    fret,
    between: between ?? null,
    rotate: fill.angle(`${path}.rotate`, rotate, 0, 'as it is drawn'),
    size:
      width === undefined
        ? { kind: 'scale', scale: fill.plain(`${path}.scale`, scale, 1, 'as large as it is drawn') }
        : { kind: 'width', width },
    mirrorForLeftHand: fill.plain(
      `${path}.mirrorForLeftHand`,
      art.mirrorForLeftHand,
      true,
      'it goes with the board',
    ),
  };
}

function resolveInlays(inlays: NonNullable<Given['inlays']>, fill: Fill): InlayParts {
  return {
    materialClass: fill.plain(
      'faceMarkers.inlays.materialClass',
      inlays.materialClass,
      'shell',
      'the usual material',
    ),
    blank: inlays.blank,
    between: fill.length(
      'faceMarkers.inlays.between',
      inlays.between,
      4,
      `room for a cutter and a rim that does not crumble (${PRACTICE})`,
    ),
  };
}
