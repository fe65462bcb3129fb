/** The cuts of an intent file, ready to be measured against. */
import type { Intent, IntentCut } from '../../intent/types.ts';
import { type Box, joinBoxes } from './prim.ts';
import { edgesOf, type Region, regionOf, signedArea } from './rings.ts';
import type { Tool } from './tool.ts';

interface TargetBase {
  readonly cut: IntentCut;
  /** Box of all that this cut may touch. */
  readonly box: Box;
  readonly mayCut: Region | null;
  readonly mayRemain: Region | null;
}

/** Clears a region down to a floor. */
export interface RegionTarget extends TargetBase {
  readonly kind: 'region' | 'drill';
  readonly region: Region;
}

/** Cuts along a ring on the side that is not kept. */
export interface SeparateTarget extends TargetBase {
  readonly kind: 'separate';
  readonly ring: Region;
  /** What the ring encloses is kept (a part); else what lies outside it (an opening). */
  readonly keepsInside: boolean;
}

/** Works a region down to a curved or flat floor by many passes. */
export interface SurfaceTarget extends TargetBase {
  readonly kind: 'surface';
  readonly region: Region;
}

/** Marks a line. */
export interface LineTarget extends TargetBase {
  readonly kind: 'line';
  readonly points: readonly (readonly [number, number])[];
}

export type Target = RegionTarget | SurfaceTarget | SeparateTarget | LineTarget;

/** A cut made measurable, or in words why it cannot be proven. */
export function targetOf(cut: IntentCut, intent: Intent, tool: Tool): Target | string {
  const base = {
    cut,
    mayCut: cut.mayCut === null ? null : regionOf(cut.mayCut.region),
    mayRemain: cut.mayRemain === null ? null : regionOf(cut.mayRemain.region),
  };
  const problem = unprovable(cut, intent, tool);
  if (problem !== null) return problem;
  if (cut.kind === 'line') {
    const points = cut.line ?? [];
    return { ...base, kind: 'line', points, box: boxOfPoints(points) };
  }
  if (cut.kind === 'separate') {
    const ring = regionOf(cut.keep ?? []);
    const keepsInside = signedArea(edgesOf(cut.keep?.[0] ?? [])) > 0;
    return { ...base, kind: 'separate', ring, keepsInside, box: ring.box };
  }
  const region = regionOf(cut.region ?? []);
  const box = base.mayCut === null ? region.box : joinBoxes(region.box, base.mayCut.box);
  return { ...base, kind: cut.kind, region, box };
}

function unprovable(cut: IntentCut, intent: Intent, tool: Tool): string | null {
  switch (cut.kind) {
    case 'surface':
      return unprovableSurface(cut, tool);
    case 'line':
      return unprovableLine(cut, intent, tool);
    case 'separate':
      return unprovableSeparate(cut, intent, tool);
    case 'region':
    case 'drill':
      return unprovableRegion(cut, tool);
  }
}

function unprovableSurface(cut: IntentCut, tool: Tool): string | null {
  if (tool.kind !== 'flat' && tool.kind !== 'ball') return `a surface by a ${tool.kind}`;
  if (cut.region === null || cut.region.length === 0) return 'a surface cut without a region';
  return cut.through ? 'a surface cut right through' : null;
}

function unprovableLine(cut: IntentCut, intent: Intent, tool: Tool): string | null {
  if ((cut.line?.length ?? 0) < 2) return 'a line of fewer than two points';
  if (tool.kind === 'beam') return beamSays(cut);
  if (tool.kind !== 'vee') return 'cut kind not provable yet: a line by a cutter that is no vee';
  const isFlat = cut.floor.kind === 'plane' && intent.stock.top.kind === 'plane';
  return isFlat && !cut.through
    ? null
    : 'cut kind not provable yet: a line on a curved top, or right through';
}

function unprovableSeparate(cut: IntentCut, intent: Intent, tool: Tool): string | null {
  if (cut.keep?.length !== 1) return 'a separate cut without exactly one kept ring';
  if (tool.kind !== 'flat' && tool.kind !== 'beam')
    return `cut kind not provable yet: separating with a ${tool.kind}`;
  if (tool.kind === 'beam') {
    return cut.tabs.length > 0 ? 'cut kind not provable yet: tabs left by a beam' : beamSays(cut);
  }
  return cut.through ? null : unprovableSkin(cut, intent);
}

/** What holds a part that is not cut right through: a skin of some thickness all round. */
function unprovableSkin({ floor, tabs, tolerance }: IntentCut, { stock }: Intent): string | null {
  if (floor.kind !== 'plane') return 'cut kind not provable yet: a curved skin';
  if (tabs.length > 0) return 'tabs on a skin: one or the other holds the part';
  return floor.z - tolerance.floorDeep > stock.bottom
    ? null
    : `a skin of ${(floor.z - stock.bottom).toFixed(3)} mm, which may be cut away within its own tolerance`;
}

function unprovableRegion(cut: IntentCut, tool: Tool): string | null {
  if (tool.kind !== 'flat' && tool.kind !== 'drill')
    return `cut kind not provable yet: ${cut.kind} by a ${tool.kind}`;
  if (cut.region === null || cut.region.length === 0) return `a ${cut.kind} cut without a region`;
  const isWrong = cut.kind === 'drill' && tool.kind !== 'drill';
  return isWrong ? 'a hole to be drilled by a tool that is no drill' : null;
}

function beamSays(cut: IntentCut): string | null {
  return cut.beam === null ? 'a beam cut without its power, feed and passes' : null;
}

function boxOfPoints(points: readonly (readonly [number, number])[]): Box {
  const xs = points.map((p) => p[0]);
  const ys = points.map((p) => p[1]);
  return { minX: Math.min(...xs), maxX: Math.max(...xs), minY: Math.min(...ys), maxY: Math.max(...ys) };
}
