import type { Intent } from '../../intent/types.ts';
import type { End } from '../field/stroke.ts';
import { highestOf } from './surface.ts';

/** A tool as the proof needs it: the least and the most it may cut. Millimetres. */
export interface Tool {
  readonly kind: 'flat' | 'ball' | 'vee' | 'drill' | 'beam';
  /**
   * Radii. What lies outside what was meant is judged with the thickest, what is left with the thinnest. A vee is taken as wide as
   * it is at the stock's top when it is as deep as it may go.
   */
  readonly least: number;
  readonly usual: number;
  readonly most: number;
  /** From the tip up to the full diameter; 0 when the end is flat. */
  readonly tip: number;
}

/** The tool's radii, or in words why nothing can be proven of it. */
export function toolOf(intent: Intent): Tool | string {
  const { tool, machine } = intent;
  if (machine.path === 'blended' && machine.blend === undefined)
    return 'path not provable: blended, by an amount nobody has stated';
  const blend = blendOf(intent);
  const width = tool.kind === 'beam' ? tool.kerf : tool.diameter;
  if (width === null) return 'a beam without a kerf';
  const [low, high] = tool.diameterRange;
  if (!(low > 0 && low <= width && width <= high)) {
    return `a diameter of ${width} mm outside its own range ${low} to ${high} mm`;
  }
  if (!(low / 2 > blend)) return `a path blended by ${blend} mm, more than the tool is thick`;
  if (tool.kind === 'vee') return veeOf(intent);
  return { kind: tool.kind, ...loosened(wholeOf(tool, width), blend), tip: tipOf(width / 2, tool) };
}

/**
 * How far the control may leave the written path, mm. One that strays by so much cuts as if the tool might be that much thicker, and
 * leaves as if it might be that much thinner: both are added to the interval of its radius, and to depths.
 */
export function blendOf({ machine }: Intent): number {
  return machine.path === 'blended' ? (machine.blend ?? Number.POSITIVE_INFINITY) : 0;
}

function loosened({ least, usual, most }: Radii, blend: number): Radii {
  return { least: least - blend, usual, most: most + blend };
}

type Radii = Pick<Tool, 'least' | 'usual' | 'most'>;

function wholeOf(tool: Intent['tool'], width = tool.diameter): Radii {
  const [low, high] = tool.diameterRange;
  return { least: low / 2, usual: width / 2, most: high / 2 };
}

function veeOf({ tool, stock, limits }: Intent): Tool | string {
  if (tool.tipAngle === null || tool.tipAngle >= 180) return 'a vee cutter without the angle of its tip';
  const deepest = highestOf(stock.top) - limits.zMin;
  const radius = deepest * tangentOfHalf(tool.tipAngle);
  // A program that stays above the wood may meet none of it with any part of the cutter.
  if (deepest <= 0) return { kind: 'vee', ...wholeOf(tool), tip: 0 };
  if (!(radius <= tool.diameterRange[0] / 2)) {
    return `a vee cutter of ${tool.diameter} mm that may go ${deepest.toFixed(3)} mm deep`;
  }
  return { kind: 'vee', least: radius, usual: radius, most: radius, tip: 0 };
}

/** Tangent of half an included angle in degrees: what a vee gains sideways for each mm of height. */
export function tangentOfHalf(degrees: number): number {
  return Math.tan((degrees * Math.PI) / 360);
}

/** The end of a cutter that is as thick as `radius` says; of a vee, up to that radius. */
export function endOf({ tool }: Intent, radius: number): End {
  if (tool.kind === 'flat' || tool.kind === 'ball') return { kind: tool.kind, radius };
  if (tool.kind === 'vee')
    return { kind: 'vee', radius, cotangent: 1 / tangentOfHalf(tool.tipAngle ?? Number.NaN) };
  throw new Error(`a ${tool.kind} has no end that sweeps`);
}

function tipOf(radius: number, { kind, tipAngle }: Intent['tool']): number {
  if (kind !== 'drill' || tipAngle === null || tipAngle >= 180) return 0;
  return radius / Math.tan((tipAngle * Math.PI) / 360);
}
