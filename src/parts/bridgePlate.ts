import { rectangle } from '../geometry/ring.ts';
import { withRoundCorners } from '../geometry/roundCorners.ts';
import type { Box, Vec } from '../geometry/types.ts';
import type { Layout } from '../layout/types.ts';
import type { BridgePlate, Instrument } from '../profile/types.ts';
import type { PartSettings } from './settings.ts';
import type { HoleFeature, Part } from './types.ts';

/** The plate under the top: pin holes drilled as those of the bridge, and its outline. */
export function makeBridgePlate(
  { bridge: { anchor } }: Instrument,
  layout: Layout,
  plate: BridgePlate,
  settings: PartSettings,
): Part {
  const box = boxOf(layout, plate);
  const { ends, sides } = settings.allowances;
  const corners: Vec[] = rectangle(box).map(({ x, y }): Vec => [x, y]);
  const drill = 'drill' in anchor ? anchor.drill : null;
  const holes = (drill === null ? [] : layout.strings).map(
    (string): HoleFeature => ({
      id: `bridge-plate-hole-${string.position}`,
      work: 'bridgePlate',
      kind: 'hole',
      at: string.pin,
      diameter: drill ?? 0,
      depth: plate.thickness,
      through: true,
    }),
  );
  return {
    id: 'bridge-plate',
    title: 'Bridge plate',
    material: plate.wood,
    materialClass: plate.materialClass,
    blank: {
      box: {
        x: [box.x[0] - sides, box.x[1] + sides],
        y: [box.y[0] - ends, box.y[1] + ends],
      },
      thickness: plate.thickness,
      top: { kind: 'plane', z: 0 },
    },
    features: [
      ...holes,
      {
        id: 'bridge-plate-outline',
        work: 'bridgePlate',
        kind: 'outline',
        ring: withRoundCorners(corners, plate.cornerRadius, 0),
        keep: 'inside',
      },
    ],
    datum: 'scale zero on the centreline, as seen from above the top',
    grain: 'y',
    use: [
      drill === null
        ? 'It is drawn as seen from above the top, and lies under the bridge.'
        : 'It is drawn as seen from above the top. Glued under it, a drill through each outer hole of the bridge must meet its own hole.',
    ],
  };
}

function boxOf({ saddleLine: [bass, treble] }: Layout, { length, width, front }: BridgePlate): Box {
  const span = treble[1] - bass[1];
  const saddle = span === 0 ? bass[0] : bass[0] - (bass[1] * (treble[0] - bass[0])) / span;
  return { x: [saddle - front, saddle - front + width], y: [-length / 2, length / 2] };
}
