import DxfWriter, { type Point2D } from 'dxf-writer';
import Handle from 'dxf-writer/src/Handle.js';
import { dxfText } from './text.ts';

/** What the file is made of: a few calls, each one entity on the layer opened last. Millimetres; angles in degrees. */
export interface DxfPen {
  layer(name: string): void;
  line(from: Pair, to: Pair): void;
  circle(centre: Pair, radius: number): void;
  /** Vertices with the bulge of the side that leaves them. */
  polyline(vertices: readonly Corner[], closed: boolean): void;
  point(at: Pair): void;
  text(at: Pair, height: number, degrees: number, text: string): void;
}

type Pair = readonly [number, number];
type Corner = readonly [x: number, y: number, bulge: number];

/** A millionth of a millimetre: a thousandth of what a re-read drawing is compared to. */
const STEPS_PER_MM = 1e6;

/**
 * DXF text of what `draw` draws, millimetres declared, with remarks at its head. The only user of dxf-writer.
 * Equal calls give equal bytes: the library counts handles across drawings, so the count starts anew each time.
 */
export function composeDxf(remarks: readonly string[], draw: (pen: DxfPen) => void): string {
  Handle.seed = 0;
  const file = new DxfWriter();
  file.setUnits('Millimeters');
  file.header('MEASUREMENT', [[70, 1]]);
  draw(penOn(file));
  const head = remarks.map((remark) => `999\n${dxfText(remark)}\n`).join('');
  return `${head}${file.toDxfString()}\n`;
}

function penOn(file: DxfWriter): DxfPen {
  return {
    layer(name) {
      if (!/^[A-Z][A-Z0-9_]{0,30}$/.test(name)) throw new Error(`layer name ${JSON.stringify(name)}`);
      // Colour 7 is the reader's own ink: colours carry no meaning here.
      if (file.layers[name] === undefined) file.addLayer(name, DxfWriter.ACI.WHITE, 'CONTINUOUS');
      file.setActiveLayer(name);
    },
    line(from, to) {
      file.drawLine(...rounded(from), ...rounded(to));
    },
    circle(centre, radius) {
      const r = round(radius);
      if (!(r > 0)) throw new Error(`circle of radius ${radius}`);
      file.drawCircle(...rounded(centre), r);
    },
    polyline(vertices, closed) {
      // The typing knows two numbers a point; a third is written as the bulge (code 42).
      file.drawPolyline(vertices.map(corner) as unknown as Point2D[], closed);
    },
    point(at) {
      file.drawPoint(...rounded(at));
    },
    text(at, height, degrees, text) {
      file.drawText(...rounded(at), round(height), round(degrees), dxfText(text));
    },
  };
}

function corner([x, y, bulge]: Corner): number[] {
  const b = round(bulge);
  return b === 0 ? [round(x), round(y)] : [round(x), round(y), b];
}

function rounded([x, y]: Pair): [number, number] {
  return [round(x), round(y)];
}

/** Six decimals, and never `-0` or an exponent when printed. */
function round(value: number): number {
  if (!(Math.abs(value) < 1e9)) throw new Error(`coordinate ${value} in a drawing`);
  return Math.round(value * STEPS_PER_MM) / STEPS_PER_MM || 0;
}
