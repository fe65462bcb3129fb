import { circle } from '../geometry/ring.ts';
import type { Ring, Vec } from '../geometry/types.ts';
import type { Instrument, RadiusBlock } from '../profile/types.ts';
import { panelGrid } from './panelGrid.ts';
import type { PartSettings } from './settings.ts';
import type { OutlineFeature, Part, Piece } from './types.ts';

/**
 * All plates of a radius sanding block, laid side by side on one panel: each a rectangle whose lower edge is hollowed to
 * the board's radius plus the padding glued on it, with two dowel holes.
 */
export function makeRadiusBlockPlates(
  instrument: Instrument,
  block: RadiusBlock,
  settings: PartSettings,
): Part {
  const { between } = settings.allowances;
  const grid = panelGrid(block.plates, [block.width, block.height], between);
  const features = grid.corners.map((corner, i) =>
    plateFeatures(block.radius ?? instrument.fingerboard.radius, block, i + 1, corner),
  );
  return {
    id: 'radius-block-plates',
    title: 'Radius sanding block, plates',
    material: block.materialClass,
    materialClass: block.materialClass,
    blank: {
      box: {
        x: [0, grid.width],
        y: [0, grid.height],
      },
      thickness: block.plateThickness,
      top: { kind: 'plane', z: 0 },
    },
    features: features.flat(),
    datum: 'lower left corner of the panel, z = 0 on its top',
  };
}

/** The dowels the plates are threaded on. */
export function radiusBlockDowels(block: RadiusBlock): Piece {
  return {
    id: 'radius-block-dowel',
    title: 'Radius sanding block, dowels',
    kind: 'stick',
    material: null,
    materialClass: null,
    length: block.length,
    width: block.dowelDiameter,
    thickness: block.dowelDiameter,
    count: 2,
    grain: true,
  };
}

function plateFeatures(radius: number, block: RadiusBlock, number: number, [x, y]: Vec): OutlineFeature[] {
  const middle = x + block.width / 2;
  const dowelHeight = y + block.height * 0.6;
  const opening = (name: string, at: Vec): OutlineFeature => ({
    id: `plate-${number}-dowel-${name}`,
    work: 'radiusBlock',
    kind: 'outline',
    ring: circle(at, block.dowelDiameter / 2),
    keep: 'outside',
  });
  return [
    opening('a', [middle - block.width / 4, dowelHeight]),
    opening('b', [middle + block.width / 4, dowelHeight]),
    {
      id: `plate-${number}-outline`,
      work: 'radiusBlock',
      kind: 'outline',
      ring: plateRing(radius + block.padding, block, [x, y]),
      keep: 'inside',
    },
  ];
}

/** Counter-clockwise; the lower edge is an arc that rises into the plate (clockwise, so a negative bulge). */
function plateRing(radius: number, block: RadiusBlock, [x, y]: Vec): Ring {
  const quarterSweep = Math.asin(block.width / 2 / radius) / 2;
  return [
    { x, y, bulge: -Math.tan(quarterSweep) },
    { x: x + block.width, y, bulge: 0 },
    { x: x + block.width, y: y + block.height, bulge: 0 },
    { x, y: y + block.height, bulge: 0 },
  ];
}
