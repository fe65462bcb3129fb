import type { Vec } from '../geometry/types.ts';
import type { Curve } from './curves.ts';
import { readPathData, type Subpath } from './pathData.ts';
import type { Tag } from './xml.ts';

const FULL = 2 * Math.PI;

/** Outlines of one SVG element in its own units; null when its attributes make no sense. */
export function outlinesOf({ name, attributes }: Tag): readonly Subpath[] | null {
  const number = (key: string, fallback = 0): number => {
    const written = attributes.get(key);
    return written === undefined ? fallback : Number(written.trim().replace(/(?:px)$/, ''));
  };
  switch (name) {
    case 'path':
      return readPathData(attributes.get('d') ?? '');
    case 'circle':
      return ellipse([number('cx'), number('cy')], number('r'), number('r'));
    case 'ellipse':
      return ellipse([number('cx'), number('cy')], number('rx'), number('ry'));
    case 'rect':
      return rectangle(attributes, number);
    case 'polygon':
      return pointsOf(attributes.get('points') ?? '', true);
    case 'polyline':
      return pointsOf(attributes.get('points') ?? '', false);
    case 'line':
      return [
        {
          curves: [{ kind: 'line', from: [number('x1'), number('y1')], to: [number('x2'), number('y2')] }],
          closed: false,
        },
      ];
    default:
      return [];
  }
}

function ellipse(centre: Vec, rx: number, ry: number): readonly Subpath[] | null {
  if (!(rx > 0 && ry > 0)) return null;
  const curve: Curve = { kind: 'ellipse', centre, u: [rx, 0], v: [0, ry], from: 0, sweep: FULL };
  return [{ curves: [curve], closed: true }];
}

/** As path data, with the rule of SVG 1.1 for radii: one alone counts for both, none is more than half a side. */
function rectangle(
  attributes: ReadonlyMap<string, string>,
  number: (key: string, fallback?: number) => number,
): readonly Subpath[] | null {
  const [x, y, w, h] = [number('x'), number('y'), number('width'), number('height')];
  if (!(w > 0 && h > 0)) return null;
  const given = (key: string): number | null => (attributes.has(key) ? number(key) : null);
  const rx = Math.min(w / 2, given('rx') ?? given('ry') ?? 0);
  const ry = Math.min(h / 2, given('ry') ?? given('rx') ?? 0);
  if (!(rx > 0 && ry > 0)) return readPathData(`M${x} ${y}h${w}v${h}h${-w}z`);
  const arc = (dx: number, dy: number): string => `a${rx} ${ry} 0 0 1 ${dx} ${dy}`;
  return readPathData(
    `M${x + rx} ${y}h${w - 2 * rx}${arc(rx, ry)}v${h - 2 * ry}${arc(-rx, ry)}h${2 * rx - w}${arc(-rx, -ry)}v${2 * ry - h}${arc(rx, -ry)}z`,
  );
}

function pointsOf(written: string, closed: boolean): readonly Subpath[] | null {
  const numbers = written
    .trim()
    .split(/[\s,]+/)
    .map(Number);
  if (numbers.length < 4 || numbers.length % 2 === 1 || !numbers.every(Number.isFinite)) return null;
  const points = Array.from(
    { length: numbers.length / 2 },
    (_, i): Vec => [numbers[2 * i] ?? Number.NaN, numbers[2 * i + 1] ?? Number.NaN],
  );
  const ends = closed ? [...points.slice(1), points[0] as Vec] : points.slice(1);
  const curves = ends.map((to, i): Curve => ({ kind: 'line', from: points[i] ?? to, to }));
  return [
    {
      curves: curves.filter((c) => c.kind !== 'line' || c.from[0] !== c.to[0] || c.from[1] !== c.to[1]),
      closed,
    },
  ];
}
