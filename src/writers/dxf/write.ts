import type { Drawing, Shape } from '../../drawing/types.ts';
import type { Vertex } from '../../geometry/types.ts';
import { composeDxf, type DxfPen } from './adapter.ts';

/**
 * A drawing as DXF text: millimetres, one layer per meaning, arcs as bulges of closed polylines, circles as circles.
 * Its first lines say in a remark whether the lines are finished edges or corrected for the kerf.
 */
export function writeDxf(drawing: Drawing): string {
  const remarks = [`${drawing.title} (${drawing.part})`, 'Millimetres, scale 1:1', `Lines: ${drawing.kerf}`];
  return composeDxf(remarks, (pen) => {
    for (const layer of drawing.layers) {
      pen.layer(layer.name);
      for (const shape of layer.shapes) drawShape(pen, shape);
    }
  });
}

function drawShape(pen: DxfPen, shape: Shape): void {
  switch (shape.kind) {
    case 'line':
      pen.line(shape.from, shape.to);
      break;
    case 'circle':
      pen.circle(shape.centre, shape.radius);
      break;
    case 'ring':
      pen.polyline(shape.ring.map(corner), true);
      break;
    case 'chain':
      pen.polyline(shape.vertices.map(corner), false);
      break;
    case 'point':
      pen.point(shape.at);
      break;
    case 'text':
      pen.text(shape.at, shape.height, (shape.angle * 180) / Math.PI, shape.text);
      break;
  }
}

function corner({ x, y, bulge }: Vertex): readonly [number, number, number] {
  return [x, y, bulge];
}
