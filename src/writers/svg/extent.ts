import type { Layer, Shape } from '../../drawing/types.ts';
import { bounds } from '../../geometry/ring.ts';
import type { Box, Vec } from '../../geometry/types.ts';

/** The box around everything drawn, widened by `margin` on all sides. Millimetres. */
export function extentOf(layers: readonly Layer[], margin: number): Box {
  const boxes = layers.flatMap((layer) => layer.shapes.map(boxOf));
  if (boxes.length === 0) throw new Error('a drawing without shapes');
  return {
    x: [Math.min(...boxes.map((b) => b.x[0])) - margin, Math.max(...boxes.map((b) => b.x[1])) + margin],
    y: [Math.min(...boxes.map((b) => b.y[0])) - margin, Math.max(...boxes.map((b) => b.y[1])) + margin],
  };
}

function boxOf(shape: Shape): Box {
  switch (shape.kind) {
    case 'line':
      return boxAround([shape.from, shape.to]);
    case 'circle': {
      const { centre, radius } = shape;
      return {
        x: [centre[0] - radius, centre[0] + radius],
        y: [centre[1] - radius, centre[1] + radius],
      };
    }
    case 'ring':
      return bounds(shape.ring);
    case 'chain':
      // Closing it adds a straight side between its own ends, so its box stays the same.
      return bounds(shape.vertices.map((v, i) => (i === shape.vertices.length - 1 ? { ...v, bulge: 0 } : v)));
    case 'point':
      return boxAround([shape.at]);
    case 'text':
      return textBox(shape);
  }
}

/** Sans-serif capitals are at most about as wide as they are high. */
function textBox({ at, height, angle, text }: Shape & { kind: 'text' }): Box {
  const length = height * [...text].length;
  const end: Vec = [at[0] + length * Math.cos(angle), at[1] + length * Math.sin(angle)];
  const up: Vec = [at[0] - height * Math.sin(angle), at[1] + height * Math.cos(angle)];
  return boxAround([at, end, up]);
}

function boxAround(points: readonly Vec[]): Box {
  const xs = points.map((p) => p[0]);
  const ys = points.map((p) => p[1]);
  return { x: [Math.min(...xs), Math.max(...xs)], y: [Math.min(...ys), Math.max(...ys)] };
}
