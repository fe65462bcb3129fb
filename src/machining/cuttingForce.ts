import type { MaterialClass } from '../profile/types.ts';

interface Resistance {
  /** Of the chip's cross-section, N/mm^2. */
  readonly chip: number;
  /** Of the edge that is in the wood, however thin the chip: parting and rubbing, N/mm. */
  readonly edge: number;
}

/**
 * How a material resists a cutting edge. The form, force = depth x (edge + chip x thickness), is the linear one of textbooks
 * on milling (Altintas, Manufacturing Automation, from memory). The figures are our own round assumptions for a sharp carbide
 * edge, dry, in the least favourable direction of the grain: a wood of twice the density is taken to resist twice as much.
 * No measured figures were at hand; a dull edge doubles them.
 */
const RESISTANCE: Readonly<Record<MaterialClass, Resistance>> = {
  'tropical hardwood': { chip: 60, edge: 3 },
  hardwood: { chip: 40, edge: 2 },
  softwood: { chip: 25, edge: 1.2 },
  plywood: { chip: 40, edge: 2 },
  mdf: { chip: 40, edge: 2 },
  acrylic: { chip: 120, edge: 3 },
  card: { chip: 25, edge: 1.2 },
  // Layers of lime, twice as heavy as the heaviest wood, and harder.
  shell: { chip: 150, edge: 6 },
};

/** Force square to the edge's way, as a share of the force along it (assumed). */
const SQUARE_SHARE = 0.5;

/**
 * Sideways force on a cutter in a full-width pass, newtons: chip thickness and depth in mm. In a full-width pass half of the
 * flutes are in the wood at once, at least one; their forces are taken to pull the same way.
 * @example cuttingForce('tropical hardwood', 0.007, 0.3, 2) // 0.3 x (3 + 60 x 0.007) x 1.118 = 1.147
 */
export function cuttingForce(material: MaterialClass, chip: number, depth: number, flutes: number): number {
  const { chip: specific, edge } = RESISTANCE[material];
  return Math.max(1, flutes / 2) * depth * (edge + specific * chip) * Math.hypot(1, SQUARE_SHARE);
}
