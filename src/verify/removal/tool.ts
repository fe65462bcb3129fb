import type { Intent } from '../../intent/types.ts';

/** A tool as the proof needs it: the least and the most it may cut. Millimetres. */
export interface Tool {
  readonly kind: 'flat' | 'drill' | 'beam';
  /** What lies outside what was meant is judged with the thickest, what is left with the thinnest. */
  readonly least: number;
  readonly usual: number;
  readonly most: number;
  /** From the tip up to the full diameter; 0 when the end is flat. */
  readonly tip: number;
}

/** The tool's radii, or in words why nothing can be proven of it. */
export function toolOf({ tool, machine }: Intent): Tool | string {
  if (machine.path === 'blended') return 'path not provable yet: blended, by an amount nobody has stated';
  if (tool.kind === 'ball' || tool.kind === 'vee') return `tool kind not provable yet: ${tool.kind}`;
  const width = tool.kind === 'beam' ? tool.kerf : tool.diameter;
  if (width === null) return 'a beam without a kerf';
  const [low, high] = tool.diameterRange;
  if (!(low > 0 && low <= width && width <= high)) {
    return `a diameter of ${width} mm outside its own range ${low} to ${high} mm`;
  }
  const usual = width / 2;
  return { kind: tool.kind, least: low / 2, usual, most: high / 2, tip: tipOf(usual, tool) };
}

function tipOf(radius: number, { kind, tipAngle }: Intent['tool']): number {
  if (kind !== 'drill' || tipAngle === null || tipAngle >= 180) return 0;
  return radius / Math.tan((tipAngle * Math.PI) / 360);
}
