import { at } from '../geometry/ring.ts';
import type { Vec, Vertex } from '../geometry/types.ts';
import type { Layer, Shape } from './types.ts';

/** Coordinates that agree to this many decimals (mm) are the same line on paper and under a beam. */
const DECIMALS = 4;

/**
 * The layers with nothing drawn twice: a shape that lies exactly on one of an earlier layer is left out, and so are
 * layers without shapes. A line drawn twice would be cut twice.
 */
export function drawnOnce(layers: readonly Layer[]): Layer[] {
  const seen = new Set<string>();
  return layers
    .map((layer) => ({ ...layer, shapes: layer.shapes.filter((shape) => isNew(seen, shape)) }))
    .filter((layer) => layer.shapes.length > 0);
}

function isNew(seen: Set<string>, shape: Shape): boolean {
  const key = placeOf(shape);
  if (seen.has(key)) return false;
  seen.add(key);
  return true;
}

/** The same text for shapes that cover the same points, wherever they start and whichever way they run. */
function placeOf(shape: Shape): string {
  switch (shape.kind) {
    case 'line':
      return sidesKey([side(shape.from, shape.to, 0)]);
    case 'circle':
      return `circle ${point(shape.centre)} ${digits(shape.radius)}`;
    case 'ring':
      return sidesKey(shape.ring.map((v, i) => vertexSide(v, at(shape.ring, i + 1))));
    case 'chain':
      return sidesKey(shape.vertices.slice(1).map((v, i) => vertexSide(at(shape.vertices, i), v)));
    case 'point':
      return `point ${point(shape.at)}`;
    case 'text':
      return `text ${point(shape.at)} ${shape.text}`;
  }
}

function sidesKey(sides: readonly string[]): string {
  return [...sides].sort().join('; ');
}

function vertexSide(a: Vertex, b: Vertex): string {
  return side([a.x, a.y], [b.x, b.y], a.bulge);
}

function side(from: Vec, to: Vec, bulge: number): string {
  const [a, b] = [point(from), point(to)];
  return a <= b ? `${a} ${b} ${digits(bulge)}` : `${b} ${a} ${digits(-bulge)}`;
}

function point([x, y]: Vec): string {
  return `${digits(x)},${digits(y)}`;
}

function digits(value: number): string {
  const text = value.toFixed(DECIMALS);
  return Number(text) === 0 ? '0' : text;
}
