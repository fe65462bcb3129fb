import { bounds } from '../geometry/ring.ts';
import type { Box } from '../geometry/types.ts';
import type { Layout } from '../layout/types.ts';
import type { PartSettings } from './settings.ts';
import type { HoleFeature, UndersidePocketFeature } from './types.ts';

/** Waste between a turning pin and the end of the blank (common practice, no source). Millimetres. */
export const PIN_WALL = 2;

/**
 * What is worked into the board's underside, and the two holes in the waste of its blank on whose pins it is turned over for that.
 * They stand on the middle line: turned over about it, each comes to lie over its own place again.
 */
export function undersideFeatures(
  { rodClearance }: Layout,
  blank: { readonly box: Box; readonly thickness: number },
  { turning }: PartSettings,
): (HoleFeature | UndersidePocketFeature)[] {
  if (rodClearance === null) return [];
  const pocket: UndersidePocketFeature = {
    id: 'rod-clearance',
    work: 'boardUnderside',
    kind: 'underside pocket',
    region: { outer: rodClearance.ring, holes: [] },
    box: bounds(rodClearance.ring),
    depth: rodClearance.depth,
  };
  if (turning === undefined) return [pocket];
  const fromEnd = PIN_WALL + turning.pinDiameter / 2;
  const places = [blank.box.x[0] + fromEnd, blank.box.x[1] - fromEnd];
  const pins = places.map(
    (x, i): HoleFeature => ({
      id: `turning-pin-${i + 1}`,
      work: 'boardUnderside',
      kind: 'hole',
      at: [x, 0],
      diameter: turning.pinDiameter,
      depth: blank.thickness,
      through: true,
    }),
  );
  return [...pins, pocket];
}
