/** Where a slot or a hole lies: halfway between its edges, which are found by halving. */
import { boxOf } from './reach.ts';
import type { Damaged, Good, Harm, Meant } from './types.ts';
import { cutTo, surfaceAt } from './wood.ts';

/** Edges are looked for this far past where they are meant, mm. */
const BEYOND = 0.6;
/** A slot is at least this many times as long as it is wide. */
const SLENDER = 4;

interface Line {
  readonly x: number;
  readonly y: number;
  readonly ux: number;
  readonly uy: number;
  readonly half: number;
}

/** Located features about which something differs and that lie off by more than their tolerance and `slack`. */
export function harmInPlace(good: Good, damaged: Damaged, slack: number): Harm | null {
  for (const meant of good.meant) {
    if (meant.region === null || meant.cut.kind === 'surface' || !isTouched(good, damaged, meant)) continue;
    for (const line of linesOf(meant)) {
      const off = offAlong(good, damaged, meant, line);
      if (off === null || Math.abs(off) <= meant.cut.tolerance.position + slack) continue;
      return { kind: 'geometric', what: `${meant.cut.id}: off by ${off.toFixed(4)}` };
    }
  }
  return null;
}

function isTouched(good: Good, { steps, head, tail }: Damaged, { region }: Meant): boolean {
  if (region === null) return false;
  const { box } = region;
  const changed = [
    ...steps.slice(head, steps.length - tail),
    ...good.cutting.steps.slice(head, good.cutting.steps.length - tail),
  ];
  return changed.some((step) => {
    if (step.rapid) return false;
    const b = boxOf(step, good.cutting.radius);
    return b.x0 <= box.x1 && b.x1 >= box.x0 && b.y0 <= box.y1 && b.y1 >= box.y0;
  });
}

/** Lines across the feature, each from its middle: across and along a disc, across a slot at three places. */
function linesOf({ cut, region }: Meant): Line[] {
  const [ring = []] = cut.region ?? [];
  if (region === null) return [];
  const { box } = region;
  const isDisc = ring.every((vertex) => Math.abs(vertex[2] ?? 0) > 0.2);
  const [x, y, half] = [(box.x0 + box.x1) / 2, (box.y0 + box.y1) / 2, (box.x1 - box.x0) / 2];
  if (isDisc && Math.abs(box.x1 - box.x0 - box.y1 + box.y0) < 0.01) {
    return [
      { x, y, ux: 1, uy: 0, half },
      { x, y, ux: 0, uy: 1, half },
    ];
  }
  return ring.length === 4 && ring.every((vertex) => vertex.length === 2) ? acrossSlot(ring) : [];
}

function acrossSlot(ring: readonly (readonly number[])[]): Line[] {
  const [a = [0, 0], b = [0, 0], c = [0, 0], d = [0, 0]] = ring;
  const middle = (p: readonly number[], q: readonly number[]): [number, number] => [
    ((p[0] ?? 0) + (q[0] ?? 0)) / 2,
    ((p[1] ?? 0) + (q[1] ?? 0)) / 2,
  ];
  const distance = (p: readonly number[], q: readonly number[]): number =>
    Math.hypot((p[0] ?? 0) - (q[0] ?? 0), (p[1] ?? 0) - (q[1] ?? 0));
  const longFirst = distance(a, b) > distance(b, c);
  const [from, to] = longFirst ? [middle(a, d), middle(b, c)] : [middle(a, b), middle(c, d)];
  const width = longFirst ? distance(b, c) : distance(a, b);
  const length = Math.hypot(to[0] - from[0], to[1] - from[1]);
  if (length < SLENDER * width) return [];
  const [ux, uy] = [(to[0] - from[0]) / length, (to[1] - from[1]) / length];
  return [0.05, 0.5, 0.95].map((t) => ({
    x: from[0] + (to[0] - from[0]) * t,
    y: from[1] + (to[1] - from[1]) * t,
    ux: -uy,
    uy: ux,
    half: width / 2,
  }));
}

/** How far the middle of what was cleared lies off; null when the middle was not cleared at all. */
function offAlong(good: Good, damaged: Damaged, { cut }: Meant, line: Line): number | null {
  const isClear = (s: number): boolean => {
    const [x, y] = [line.x + s * line.ux, line.y + s * line.uy];
    const floor = cut.through
      ? good.intent.stock.bottom
      : surfaceAt(cut.floor, x, y) + cut.tolerance.floorShallow;
    return cutTo(damaged.cutting, x, y, damaged.steps.length) <= floor + 0.02;
  };
  if (!isClear(0)) return null;
  const edge = (sense: number): number => {
    let [low, high] = [0, line.half + BEYOND];
    if (isClear(sense * high)) return high;
    while (high - low > 1e-5) {
      const middle = (low + high) / 2;
      if (isClear(sense * middle)) low = middle;
      else high = middle;
    }
    return low;
  };
  return (edge(1) - edge(-1)) / 2;
}
