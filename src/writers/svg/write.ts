import type { Drawing, Layer, Shape } from '../../drawing/types.ts';
import type { Vec } from '../../geometry/types.ts';
import { extentOf } from './extent.ts';
import { DASHES, LINE_WIDTH, styleOf } from './lineStyle.ts';
import { chainPath, ringPath } from './path.ts';
import { decimal, escapeXml } from './xml.ts';

/** White margin around everything drawn, millimetres. */
const MARGIN = 8;

/** A drawing as an SVG file at 1:1: width and height in millimetres, one group per layer, ink in the page's own colour. */
export function writeSvg(drawing: Drawing): string {
  return `<?xml version="1.0" encoding="UTF-8"?>\n${svgElement(drawing, 'true size')}\n`;
}

/**
 * A drawing as an `svg` element: `true size` states width and height in millimetres, `fitted` leaves them to the page.
 */
export function svgElement(drawing: Drawing, size: 'true size' | 'fitted'): string {
  const box = extentOf(drawing.layers, MARGIN);
  const width = decimal(box.x[1] - box.x[0]);
  const height = decimal(box.y[1] - box.y[0]);
  const stated = size === 'true size' ? ` width="${width}mm" height="${height}mm"` : '';
  const view = `${decimal(box.x[0])} ${decimal(-box.y[1])} ${width} ${height}`;
  return [
    `<svg xmlns="http://www.w3.org/2000/svg"${stated} viewBox="${view}" role="img" fill="none" stroke="currentColor">`,
    `<title>${escapeXml(drawing.title)}</title>`,
    `<desc>Millimetres, scale 1:1. Lines: ${drawing.kerf}.</desc>`,
    ...drawing.layers.map(group),
    '</svg>',
  ].join('\n');
}

function group(layer: Layer): string {
  const style = styleOf(layer.name);
  const dashes = DASHES[style].length === 0 ? '' : ` stroke-dasharray="${DASHES[style].join(' ')}"`;
  const shapes = layer.shapes.map(element).join('\n');
  return `<g id="${escapeXml(layer.name)}" stroke-width="${LINE_WIDTH[style]}"${dashes}>\n${shapes}\n</g>`;
}

function element(shape: Shape): string {
  switch (shape.kind) {
    case 'line':
      return `<path d="${chainPath([vertex(shape.from), vertex(shape.to)])}"/>`;
    case 'circle':
      return `<circle cx="${decimal(shape.centre[0])}" cy="${decimal(-shape.centre[1])}" r="${decimal(shape.radius)}"/>`;
    case 'ring':
      return `<path d="${ringPath(shape.ring)}"/>`;
    case 'chain':
      return `<path d="${chainPath(shape.vertices)}"/>`;
    case 'point':
      return `<path d="${cross(shape.at)}"/>`;
    case 'text':
      return textElement(shape);
  }
}

function textElement({ at: [x, y], height, angle, text }: Shape & { kind: 'text' }): string {
  const turn =
    angle === 0
      ? ''
      : ` transform="rotate(${decimal((-angle * 180) / Math.PI)} ${decimal(x)} ${decimal(-y)})"`;
  // Capitals are about 0.7 of a font's size; the drawing states the height of its capitals.
  const size = decimal(height / 0.7);
  return `<text x="${decimal(x)}" y="${decimal(-y)}" font-size="${size}" font-family="sans-serif" fill="currentColor" stroke="none"${turn}>${escapeXml(text)}</text>`;
}

function cross([x, y]: Vec): string {
  return `M${decimal(x - 1)} ${decimal(-y)}h2M${decimal(x)} ${decimal(-y - 1)}v2`;
}

function vertex([x, y]: Vec): { x: number; y: number; bulge: number } {
  return { x, y, bulge: 0 };
}
