import type { Vertex } from '../geometry/types.ts';
import type { Drawing, Shape } from './types.ts';

type Pair = readonly [number, number];
/** x, y, bulge. */
type Triple = readonly [number, number, number];

/** A shape as bare numbers with its layer's name, for whoever checks a written drawing. */
export type ListedShape =
  | { readonly kind: 'line'; readonly layer: string; readonly from: Pair; readonly to: Pair }
  | { readonly kind: 'circle'; readonly layer: string; readonly centre: Pair; readonly radius: number }
  | {
      readonly kind: 'ring' | 'chain';
      readonly layer: string;
      readonly vertices: readonly Triple[];
    }
  | { readonly kind: 'point'; readonly layer: string; readonly at: Pair }
  | {
      readonly kind: 'text';
      readonly layer: string;
      readonly at: Pair;
      readonly height: number;
      readonly angle: number;
      readonly text: string;
    };

/** Everything a drawing means to show, layer by layer. Millimetres, radians. */
export function listShapes(drawing: Drawing): ListedShape[] {
  return drawing.layers.flatMap((layer) => layer.shapes.map((shape) => listed(layer.name, shape)));
}

function listed(layer: string, shape: Shape): ListedShape {
  switch (shape.kind) {
    case 'ring':
      return { kind: 'ring', layer, vertices: shape.ring.map(triple) };
    case 'chain':
      return { kind: 'chain', layer, vertices: shape.vertices.map(triple) };
    case 'line':
    case 'circle':
    case 'point':
    case 'text':
      return { layer, ...shape };
  }
}

function triple(vertex: Vertex): Triple {
  return [vertex.x, vertex.y, vertex.bulge];
}
