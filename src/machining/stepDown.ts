import type { MaterialClass, Tool } from '../profile/types.ts';
import { cuttingForce } from './cuttingForce.ts';
import { tipDeflection } from './deflection.ts';
import type { Bend } from './types.ts';

/** Share of a cutter's diameter taken in one pass (common practice, no source). */
const SHARE: Record<MaterialClass, number> = {
  'tropical hardwood': 0.5,
  hardwood: 0.5,
  softwood: 1,
  plywood: 0.75,
  mdf: 0.75,
  acrylic: 0.4,
  card: 1,
  shell: 0.3,
};

/** A tip may bend by this in a full-width pass, mm: what a bench works to in the width of a fret slot (common practice, no source). */
export const MOST_BEND = 0.02;

/** No pass is made shallower than this share of the diameter: the edge would only rub more often (common practice, no source). */
const LEAST_SHARE = 0.05;

export interface StepDown {
  readonly stepDown: number;
  readonly boundBy: string;
  readonly bend: Bend;
}

/**
 * Deepest pass of a cutter, mm, for chips of a thickness (mm): the shop's own share of the diameter, else the material's,
 * made shallower until the tip bends no more than it may; never deeper than the cutting edges are long.
 */
export function chooseStepDown(tool: Tool, material: MaterialClass, chip: number): StepDown {
  const share = tool.stepDownShare ?? SHARE[material];
  const wanted = Math.min(tool.diameter * share, tool.cuttingLength);
  const perMm = tipDeflection(tool, cuttingForce(material, chip, 1, tool.flutes));
  const stiff = Math.floor((MOST_BEND / perMm) * 100) / 100;
  const least = tool.diameter * LEAST_SHARE;
  const stepDown = tool.stepDownShare === null ? Math.min(wanted, Math.max(stiff, least)) : wanted;
  const bend = {
    force: cuttingForce(material, chip, stepDown, tool.flutes),
    tip: perMm * stepDown,
  };
  return { stepDown, boundBy: boundBy(tool, share, stepDown, bend, material), bend };
}

function boundBy(
  tool: Tool,
  share: number,
  stepDown: number,
  { tip }: Bend,
  material: MaterialClass,
): string {
  const tooMuch = tip > MOST_BEND + 1e-9;
  if (tool.stepDownShare !== null)
    return `the shop's own share, ${share} times the diameter${tooMuch ? `; the tip bends more than ${MOST_BEND} mm` : ''}`;
  if (tooMuch)
    return `held at ${LEAST_SHARE} times the diameter although the tip bends more than ${MOST_BEND} mm: take a shorter or thicker cutter`;
  if (stepDown < Math.min(tool.diameter * share, tool.cuttingLength))
    return `limited by deflection, ${MOST_BEND} mm at the tip`;
  if (tool.cuttingLength < tool.diameter * share) return 'limited by the length of the cutting edges';
  return `${share} times the diameter in ${material}`;
}
