import { readProgram } from '../../src/verify/gcode/readProgram.ts';
import type { Motion } from '../../src/verify/gcode/types.ts';
import { UNDERSTANDS_EVERYTHING } from '../../src/verify/gcode/understands.ts';

/**
 * Ground truth for what a cutter removes: heights of the wood on a fine grid, lowered by stamping the cutter's end along the
 * path in steps of half a cell. Slow and plain; right to within the grid.
 */
export interface Carved {
  readonly step: number;
  readonly nx: number;
  readonly ny: number;
  readonly x: (i: number) => number;
  readonly y: (j: number) => number;
  /** Height left at cell (i, j). */
  readonly heightAt: (i: number, j: number) => number;
  readonly isCut: (i: number, j: number) => boolean;
}

export interface Plot {
  readonly x: readonly [number, number];
  readonly y: readonly [number, number];
  readonly step: number;
  readonly top: (x: number, y: number) => number;
}

/** Height of a tool's end above its lowest point, at a distance from its axis. */
export type EndShape = (distance: number) => number;

/** Carves a program by a flat cutter, or by one whose end has the given shape. */
export function carve(text: string, diameter: number, plot: Plot, shape: EndShape = () => 0): Carved {
  const { step } = plot;
  const nx = Math.round((plot.x[1] - plot.x[0]) / step);
  const ny = Math.round((plot.y[1] - plot.y[0]) / step);
  const x = (i: number): number => plot.x[0] + (i + 0.5) * step;
  const y = (j: number): number => plot.y[0] + (j + 0.5) * step;
  const heights = new Float64Array(nx * ny);
  const cut = new Uint8Array(nx * ny);
  for (let j = 0; j < ny; j += 1) for (let i = 0; i < nx; i += 1) heights[j * nx + i] = plot.top(x(i), y(j));
  const radius = diameter / 2;
  const stamp = (cx: number, cy: number, z: number): void => {
    const [i0, i1] = range(cx, radius, plot.x[0], step, nx);
    const [j0, j1] = range(cy, radius, plot.y[0], step, ny);
    for (let j = j0; j <= j1; j += 1) {
      for (let i = i0; i <= i1; i += 1) {
        const cell = j * nx + i;
        const away = (x(i) - cx) ** 2 + (y(j) - cy) ** 2;
        if (away > radius * radius) continue;
        const height = z + shape(Math.sqrt(away));
        if (height >= (heights[cell] ?? 0)) continue;
        heights[cell] = height;
        cut[cell] = 1;
      }
    }
  };
  follow(text, step / 2, stamp);
  return {
    step,
    nx,
    ny,
    x,
    y,
    heightAt: (i, j) => heights[j * nx + i] ?? Number.NaN,
    isCut: (i, j) => cut[j * nx + i] === 1,
  };
}

function range(centre: number, radius: number, from: number, step: number, count: number): [number, number] {
  return [
    Math.max(0, Math.floor((centre - radius - from) / step)),
    Math.min(count - 1, Math.ceil((centre + radius - from) / step)),
  ];
}

/** Every place of the tool at feed, in steps no longer than given. */
function follow(text: string, step: number, visit: (x: number, y: number, z: number) => void): void {
  const start = {
    units: 'mm',
    distance: 'absolute',
    plane: 'xy',
    feedMode: 'per minute',
    position: [0, 0, 100],
  } as const;
  readProgram(new TextEncoder().encode(text), start, UNDERSTANDS_EVERYTHING, (m) => {
    if (m.kind === 'feed' || m.kind === 'arc') places(m, step, visit);
  });
}

function places(m: Motion, step: number, visit: (x: number, y: number, z: number) => void): void {
  const along =
    m.kind === 'arc'
      ? Math.abs(m.sweep) * m.radius
      : Math.hypot(m.toX - m.fromX, m.toY - m.fromY, m.toZ - m.fromZ);
  const count = Math.max(1, Math.ceil(along / step));
  for (let k = 0; k <= count; k += 1) visit(...placeOn(m, k / count));
}

function placeOn(m: Motion, t: number): [number, number, number] {
  const even: [number, number, number] = [
    m.fromX + (m.toX - m.fromX) * t,
    m.fromY + (m.toY - m.fromY) * t,
    m.fromZ + (m.toZ - m.fromZ) * t,
  ];
  if (m.kind !== 'arc' || t === 0 || t === 1) return even;
  if (m.plane === 'xy') {
    const a = Math.atan2(m.fromY - m.centreY, m.fromX - m.centreX) + m.sweep * t;
    return [m.centreX + m.radius * Math.cos(a), m.centreY + m.radius * Math.sin(a), even[2]];
  }
  if (m.plane !== 'yz') throw new Error('no sample has an arc in the XZ plane');
  const a = Math.atan2(m.fromZ - m.centreZ, m.fromY - m.centreY) + m.sweep * t;
  return [even[0], m.centreY + m.radius * Math.cos(a), m.centreZ + m.radius * Math.sin(a)];
}
