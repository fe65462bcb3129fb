import type { Layer, Shape } from '../../drawing/types.ts';
import { bounds } from '../../geometry/ring.ts';
import type { Box, Vec } from '../../geometry/types.ts';

/** Width of a line of text of a height, millimetres. */
export type TextWidth = (text: string, height: number) => number;

/** Sans-serif capitals are at most about as wide as they are high. */
const widest: TextWidth = (text, height) => height * [...text].length;

/** The box around everything drawn, widened by `margin` on all sides. Millimetres. */
export function extentOf(layers: readonly Layer[], margin: number, textWidth: TextWidth = widest): Box {
  const boxes = layers.flatMap((layer) => layer.shapes.map((shape) => boxOf(shape, textWidth)));
  if (boxes.length === 0) throw new Error('a drawing without shapes');
  return {
    x: [Math.min(...boxes.map((b) => b.x[0])) - margin, Math.max(...boxes.map((b) => b.x[1])) + margin],
    y: [Math.min(...boxes.map((b) => b.y[0])) - margin, Math.max(...boxes.map((b) => b.y[1])) + margin],
  };
}

/** The box of every text. Millimetres. */
export function textBoxes(layers: readonly Layer[], textWidth: TextWidth): Box[] {
  return layers.flatMap(({ shapes }) =>
    shapes.flatMap((shape) => (shape.kind === 'text' ? [boxOf(shape, textWidth)] : [])),
  );
}

function boxOf(shape: Shape, textWidth: TextWidth): Box {
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
      return textBox(shape, textWidth(shape.text, shape.height));
  }
}

function textBox({ at, height, angle }: Shape & { kind: 'text' }, length: number): Box {
  const end: Vec = [at[0] + length * Math.cos(angle), at[1] + length * Math.sin(angle)];
  const up: Vec = [at[0] - height * Math.sin(angle), at[1] + height * Math.cos(angle)];
  return boxAround([at, end, up]);
}

function boxAround(points: readonly Vec[]): Box {
  const xs = points.map((p) => p[0]);
  const ys = points.map((p) => p[1]);
  return { x: [Math.min(...xs), Math.max(...xs)], y: [Math.min(...ys), Math.max(...ys)] };
}
