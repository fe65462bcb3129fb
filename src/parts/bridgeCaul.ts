import { circle } from '../geometry/ring.ts';
import { sagitta } from '../geometry/surface.ts';
import type { Ring, Vec } from '../geometry/types.ts';
import type { BridgeCaul } from '../profile/types.ts';
import { formatShort } from '../units/format.ts';
import { panelGrid } from './panelGrid.ts';
import type { PartSettings } from './settings.ts';
import type { OutlineFeature, Part, Piece } from './types.ts';

/** Where the dowels go in a plate: this share of its height up, this share of its width from its middle. */
const DOWEL_AT = { up: 0.45, aside: 0.3 };

/**
 * All plates of the caul that presses the bridge plate to the top while bridge or plate is glued: each flat below and, across the
 * strings, curved above like the inside of the dome.
 */
export function makeBridgeCaul(caul: BridgeCaul, settings: PartSettings): Part {
  const grid = panelGrid(caul.plates, [caul.width, caul.height], settings.allowances.between);
  const radius = caulRadius(caul);
  const mm = (length: number): string => `${formatShort(length, 2)} mm`;
  return {
    id: 'bridge-caul-plates',
    title: 'Bridge gluing caul, plates',
    material: caul.materialClass,
    materialClass: caul.materialClass,
    blank: {
      box: { x: [0, grid.width], y: [0, grid.height] },
      thickness: caul.plateThickness,
      top: { kind: 'plane', z: 0 },
    },
    features: grid.corners.flatMap((corner, i) => plateFeatures(caul, radius, i + 1, corner)),
    datum: 'lower left corner of the panel, z = 0 on its top',
    use: [
      `The plates stand on the dowels side by side, their curve up, over ${mm(caul.length)} along the strings; the curve of ${mm(radius)} radius is that of the top’s outer face less ${mm(caul.below)} of wood and padding, and rises ${mm(sagitta(radius, caul.width))} over the plates’ width.`,
      `Every plate is the same: lengthwise a dome of that radius would fall by ${mm(sagitta(radius, caul.length))} more at the first and last plate, which the padding takes up.`,
      'Cover it with thin cork or leather and keep glue off it. Try it under clamps without glue first: a light inside must show no gap all round the bridge plate.',
    ],
  };
}

/** The dowels its plates are threaded on. */
export function bridgeCaulDowels(caul: BridgeCaul): Piece {
  return {
    id: 'bridge-caul-dowel',
    title: 'Bridge gluing caul, dowels',
    kind: 'stick',
    material: null,
    materialClass: null,
    length: caul.length,
    width: caul.dowelDiameter,
    thickness: caul.dowelDiameter,
    count: 2,
    grain: true,
  };
}

/** Inside of a shell `below` thick. */
function caulRadius({ radius, below }: BridgeCaul): number {
  if (radius === null) throw new Error('a caul without a dome');
  return radius - below;
}

function plateFeatures(caul: BridgeCaul, radius: number, number: number, [x, y]: Vec): OutlineFeature[] {
  const middle = x + caul.width / 2;
  const dowel = (name: string, aside: number): OutlineFeature => ({
    id: `bridge-caul-${number}-dowel-${name}`,
    work: 'bridgeJigs',
    kind: 'outline',
    ring: circle([middle + aside * caul.width, y + caul.height * DOWEL_AT.up], caul.dowelDiameter / 2),
    keep: 'outside',
  });
  return [
    dowel('a', -DOWEL_AT.aside),
    dowel('b', DOWEL_AT.aside),
    {
      id: `bridge-caul-${number}-outline`,
      work: 'bridgeJigs',
      kind: 'outline',
      ring: plateRing(caul, radius, [x, y]),
      keep: 'inside',
    },
  ];
}

/** Counter-clockwise; the upper edge is an arc that stands out, highest at the middle. */
function plateRing({ width, height }: BridgeCaul, radius: number, [x, y]: Vec): Ring {
  const side = y + height - sagitta(radius, width);
  const bulge = Math.tan(Math.asin(width / 2 / radius) / 2);
  return [
    { x, y, bulge: 0 },
    { x: x + width, y, bulge: 0 },
    { x: x + width, y: side, bulge },
    { x, y: side, bulge: 0 },
  ];
}
