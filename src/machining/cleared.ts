import { type Area, figuresOf } from '../geometry/area.ts';
import { areaOf, common, grown } from '../geometry/kernel/area.ts';
import type { Region } from '../geometry/types.ts';
import type { Tool } from '../profile/types.ts';

/** A cutter may end this far short of where its radius lets it: chords, fitted arcs, the curved tips of artwork. Millimetres. */
const SHORT = 0.03;

/** Figures that a cutter, as thin as it may be, has cleared for certain of a pocket, as far as they lie within `near`. */
export function clearedBy(pocket: Region, near: Region, { diameter, tolerance }: Tool): Area[] {
  const centres = grown(areaOf(pocket), -diameter / 2 - SHORT);
  const cleared = grown(centres, (diameter - tolerance) / 2);
  return figuresOf(common(cleared, areaOf(near)));
}
