import { formSize, inlayOf } from '../geometry/form.ts';
import { reverse, translate } from '../geometry/ring.ts';
import { turnQuarter } from '../geometry/turn.ts';
import type { Box, Ring, Vec } from '../geometry/types.ts';
import type { Layout, PlacedMarker } from '../layout/types.ts';
import type { Instrument } from '../profile/types.ts';
import { packShelves } from './packShelves.ts';
import type { OutlineFeature, Part } from './types.ts';

/**
 * The parts that go into the face markers' pockets, packed on as many pieces of the material as they take, one part of the job
 * for each piece. The pieces are glued to a carrier before they are cut: nothing so small can be held by tabs (common practice).
 */
export function makeInlays(instrument: Instrument, layout: Layout): Part[] {
  const { faceMarkers } = instrument;
  const { inlays, material, thickness } = faceMarkers;
  if (inlays === null || layout.faceMarkers.length === 0) return [];
  const { between, blank } = inlays;
  const items = layout.faceMarkers.map((marker) => ({ marker, size: formSize(marker.form) }));
  const pieces = packShelves(
    items.map(({ size }) => ({ length: size.along, width: size.across })),
    { length: blank.length, width: blank.width, between },
  );
  const box: Box = { x: [0, blank.length], y: [0, blank.width] };
  return pieces.map((places, i): Part => {
    const features = places.flatMap(({ item, at, turned }) => {
      const marker = items[item]?.marker;
      if (marker === undefined) throw new Error(`no marker ${item} to pack`);
      return featuresOf(marker, { at, turned }, instrument);
    });
    return {
      id: `inlays-${i + 1}`,
      title: `Inlays, piece ${i + 1} of ${pieces.length}`,
      material,
      materialClass: inlays.materialClass,
      blank: { box, thickness, top: { kind: 'plane', z: 0 } },
      features,
      datum: 'lower left corner of the piece, z = 0 on its top; the piece is glued to a carrier',
      bought: true,
    };
  });
}

/** Where a part lies on its piece: its middle, and whether it is turned a quarter counter-clockwise. */
interface Lie {
  readonly at: Vec;
  readonly turned: boolean;
}

function featuresOf(marker: PlacedMarker, lie: Lie, instrument: Instrument): OutlineFeature[] {
  const { clearance, cornerRadius, inlays } = instrument.faceMarkers;
  const fit = { gap: clearance / 2, corner: cornerRadius };
  const { outer, holes } = inlayOf(marker.form, [0, 0], fit);
  const onPiece = (ring: Ring): Ring => translate(lie.turned ? turnQuarter(ring) : ring, lie.at);
  const isRound = marker.form.shape === 'round' || marker.form.shape === 'ring';
  const carried = { between: inlays?.between ?? 0, corner: isRound ? null : cornerRadius };
  const id = `inlay-${marker.id}`;
  const openings = holes.map(
    (hole, i): OutlineFeature => ({
      id: `${id}-opening-${i + 1}`,
      work: 'inlays',
      kind: 'outline',
      ring: onPiece(reverse(hole)),
      keep: 'outside',
      carried,
    }),
  );
  return [
    ...openings,
    {
      id,
      work: 'inlays',
      kind: 'outline',
      ring: onPiece(outer),
      keep: 'inside',
      carried,
      fits: {
        pocket: marker.id,
        gap: fit.gap,
        openings: openings.map((o) => o.id),
        toPocket: { from: lie.at, quarters: lie.turned ? -1 : 0, to: marker.at },
      },
    },
  ];
}
