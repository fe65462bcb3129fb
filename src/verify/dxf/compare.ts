import type { Corner, MeantShape, Pair } from './types.ts';

/**
 * How far one shape lies from another of the same kind, millimetres: the greatest distance between matching ends,
 * centres, corners and middles of sides. Infinity when they cannot be the same thing.
 */
export function deviation(a: MeantShape, b: MeantShape): number {
  if (a.kind === 'line' && b.kind === 'line') return lineDeviation(a, b);
  if (a.kind === 'circle' && b.kind === 'circle')
    return Math.max(apart(a.centre, b.centre), Math.abs(a.radius - b.radius));
  if (a.kind === 'ring' && b.kind === 'ring') return ringDeviation(a.vertices, b.vertices);
  if (a.kind === 'chain' && b.kind === 'chain') return chainDeviation(a.vertices, b.vertices);
  if (a.kind === 'point' && b.kind === 'point') return apart(a.at, b.at);
  if (a.kind === 'text' && b.kind === 'text') return textDeviation(a, b);
  return Number.POSITIVE_INFINITY;
}

/** A point to name a shape by. */
export function placeOf(shape: MeantShape): Pair {
  switch (shape.kind) {
    case 'line':
      return shape.from;
    case 'circle':
      return shape.centre;
    case 'ring':
    case 'chain':
      return [shape.vertices[0]?.[0] ?? 0, shape.vertices[0]?.[1] ?? 0];
    case 'point':
    case 'text':
      return shape.at;
  }
}

type LineShape = MeantShape & { readonly kind: 'line' };
type TextShape = MeantShape & { readonly kind: 'text' };

function apart(a: Pair, b: Pair): number {
  return Math.hypot(a[0] - b[0], a[1] - b[1]);
}

function lineDeviation(a: LineShape, b: LineShape): number {
  return Math.min(
    Math.max(apart(a.from, b.from), apart(a.to, b.to)),
    Math.max(apart(a.from, b.to), apart(a.to, b.from)),
  );
}

function textDeviation(a: TextShape, b: TextShape): number {
  if (plainWords(a.text) !== plainWords(b.text)) return Number.POSITIVE_INFINITY;
  // The far end of the lettering moves by about its length times the turn.
  const turn = Math.abs(a.angle - b.angle) * a.height * [...a.text].length;
  return Math.max(apart(a.at, b.at), Math.abs(a.height - b.height), turn);
}

/** Line breaks and control characters cannot stand in a drawing; a space is as good. */
function plainWords(text: string): string {
  return text.replace(/[\p{Cc}\p{Z}]+/gu, ' ').trim();
}

/** A ring may start at any corner and run either way. */
function ringDeviation(a: readonly Corner[], b: readonly Corner[]): number {
  if (a.length !== b.length) return Number.POSITIVE_INFINITY;
  const backward = turned(b);
  return Math.min(cornersDeviation(a, startingNear(a, b)), cornersDeviation(a, startingNear(a, backward)));
}

function chainDeviation(a: readonly Corner[], b: readonly Corner[]): number {
  if (a.length !== b.length) return Number.POSITIVE_INFINITY;
  const open = (list: readonly Corner[]): Corner[] =>
    list.map(([x, y, bulge], i) => [x, y, i === list.length - 1 ? 0 : bulge]);
  const last = b.length - 1;
  const backward = [...b].reverse().map(([x, y], i): Corner => [x, y, -(b[last - i - 1]?.[2] ?? 0)]);
  return Math.min(cornersDeviation(open(a), open(b)), cornersDeviation(open(a), open(backward)));
}

/** The same ring run through the other way: each side keeps its arc, seen from its other end. */
function turned(ring: readonly Corner[]): Corner[] {
  const n = ring.length;
  return ring.map((_, i) => {
    const [x, y] = corner(ring, n - i);
    return [x, y, -corner(ring, n - i - 1)[2]];
  });
}

function startingNear(a: readonly Corner[], b: readonly Corner[]): Corner[] {
  const [x, y] = corner(a, 0);
  const gaps = b.map((c) => Math.hypot(c[0] - x, c[1] - y));
  const start = gaps.indexOf(Math.min(...gaps));
  return b.map((_, i) => corner(b, start + i));
}

function cornersDeviation(a: readonly Corner[], b: readonly Corner[]): number {
  let worst = 0;
  for (let i = 0; i < a.length; i += 1) {
    const [p, q] = [corner(a, i), corner(b, i)];
    worst = Math.max(worst, Math.hypot(p[0] - q[0], p[1] - q[1]));
    worst = Math.max(worst, apart(middle(p, corner(a, i + 1)), middle(q, corner(b, i + 1))));
  }
  return worst;
}

/** Middle of a side: off the chord's middle by half the chord times the bulge, to the right of its direction. */
function middle([ax, ay, bulge]: Corner, [bx, by]: Corner): Pair {
  return [(ax + bx) / 2 + ((by - ay) * bulge) / 2, (ay + by) / 2 - ((bx - ax) * bulge) / 2];
}

function corner(ring: readonly Corner[], index: number): Corner {
  const found = ring[index % ring.length];
  if (found === undefined) throw new Error(`corner ${index} of ${ring.length}`);
  return found;
}
