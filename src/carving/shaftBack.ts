/** The back of a neck in the frame of the program that carves it, and what a cutter over it must keep to. */
import type { Vec } from '../geometry/types.ts';
import { runsThrough, type SectionAt, sectionsAlong } from './along.ts';
import { backHeight, sectionPoint, sectionSlope } from './section.ts';
import type { Section, Shaft, ShaftBack } from './types.ts';

/** How the neck lies: on its face, turned end for end, so that x counts from its body end. */
export interface Lying {
  /** x in the layout of the program's x = 0. */
  readonly end: number;
  /** Of the blank. */
  readonly thickness: number;
  /** Height of the level that nothing is cut below, above the neck's face. */
  readonly least: number;
  /** Of the ramps at both ends: height over way. */
  readonly rise: number;
}

/** The finished back of a shaft in the frame of its program. */
export function shaftBack({ x, stations, halfWidth }: Shaft, lying: Lying): ShaftBack {
  const turned = stations.toReversed();
  const xs = turned.map((s) => lying.end - s.x);
  const runs = (name: 'depth' | 'shoulder' | 'back') =>
    runsThrough(
      xs,
      turned.map((s) => s[name]),
    );
  const [depth, shoulder, back] = [runs('depth'), runs('shoulder'), runs('back')];
  return {
    kind: 'shaft',
    base: -lying.thickness,
    halfWidth: [halfWidth.at0 + halfWidth.slope * lying.end, -halfWidth.slope],
    grown: 0,
    raised: 0,
    top: 0,
    least: lying.least - lying.thickness,
    stations: xs.map((at, i) => ({
      x: at,
      depth: depth[i] ?? [0, 0],
      shoulder: shoulder[i] ?? [0, 0],
      back: back[i] ?? [0, 0],
    })),
    ramps: { x: [lying.end - x[1], lying.end - x[0]], rise: lying.rise },
  };
}

/** The same with so much more wood on it: on the sections as if width and depth were larger, on the ramps square to them. */
export function grownBy(surface: ShaftBack, more: number, onLevel: number): ShaftBack {
  const { ramps, least, grown } = surface;
  const inward = (more * Math.hypot(1, ramps.rise)) / ramps.rise;
  return shortenedBy({ ...surface, grown: grown + more, least: least + onLevel }, inward);
}

/** The same with both ramps so much farther in. */
export function shortenedBy(surface: ShaftBack, inward: number): ShaftBack {
  const { ramps } = surface;
  return { ...surface, ramps: { ...ramps, x: [ramps.x[0] + inward, ramps.x[1] - inward] } };
}

/** Sections of the surface, sizes grown; they stand on `base` + `raised`. */
export function sectionsOfBack({ stations, halfWidth, grown }: ShaftBack): SectionAt {
  const sections = sectionsAlong(
    stations.map(({ x, depth, shoulder, back }) => ({
      x,
      depth: depth[0],
      shoulder: shoulder[0],
      back: back[0],
    })),
    (x) => halfWidth[0] + halfWidth[1] * x,
  );
  return (x) => {
    const section = sections(x);
    return { ...section, halfWidth: section.halfWidth + grown, depth: section.depth + grown };
  };
}

/** Height of the back at a point, as the ramps, the level and the blank's top leave it. */
export function heightOfBack(surface: ShaftBack, sectionAt: SectionAt, x: number, y: number): number {
  const section = sectionAt(x);
  const { base, raised, least, top } = surface;
  const over = base - backHeight(section, y);
  return Math.min(top, Math.max(least, base, over, rampOver(surface, x)) + raised);
}

/** The higher of both ramps, `raised` left out. */
export function rampOver({ top, ramps: { x: ends, rise } }: ShaftBack, x: number): number {
  return top - rise * Math.min(x - ends[0], ends[1] - x);
}

/** Half width of a section at a height above its foot; 0 at its crest and above. */
export function halfWidthAtHeight(section: Section, height: number): number {
  if (height >= section.depth) return 0;
  let [low, high] = [0, 1];
  for (let i = 0; i < 50; i += 1) {
    const t = (low + high) / 2;
    if (-sectionPoint(section, t)[1] < height) low = t;
    else high = t;
  }
  return sectionPoint(section, low)[0];
}

/** A place on the back and the direction square to it, pointing out of the wood: x, y, z. */
export interface Foot {
  readonly at: readonly [x: number, y: number, z: number];
  readonly normal: readonly [x: number, y: number, z: number];
}

/** Half the step by which slopes along the neck are taken. */
const STEP = 0.01;

/** The place of the treble half at x and `t` (see `sectionPoint`), and its normal. */
export function footAt({ base }: ShaftBack, sectionAt: SectionAt, x: number, t: number): Foot {
  const place = (at: number): Vec => {
    const section = sectionAt(at);
    const [y, z] = sectionPoint(section, t);
    return [y, base - z];
  };
  const [before, here, after] = [place(x - STEP), place(x), place(x + STEP)];
  const [alongY, alongZ] = [(after[0] - before[0]) / (2 * STEP), (after[1] - before[1]) / (2 * STEP)];
  const [ty, down] = sectionSlope(sectionAt(x), t);
  // (0, ty, tz) x (1, alongY, alongZ): ty is never above 0 and tz never below, so that it points out of the wood.
  const tz = -down;
  const normal = [alongZ * ty - alongY * tz, tz, -ty] as const;
  const size = Math.hypot(...normal);
  return {
    at: [x, here[0], here[1]],
    normal: [normal[0] / size, normal[1] / size, normal[2] / size],
  };
}

/** Half width out to which a ball cutter over the level that is left still touches the section at x. */
export function reachOfBall(back: ShaftBack, sectionAt: SectionAt, x: number, radius: number): number {
  let [low, high] = [0, 1];
  for (let i = 0; i < 50; i += 1) {
    const t = (low + high) / 2;
    const { at, normal } = footAt(back, sectionAt, x, t);
    if (at[2] + radius * normal[2] - radius < back.least) low = t;
    else high = t;
  }
  return sectionPoint(sectionAt(x), high)[0];
}
