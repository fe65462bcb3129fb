import { mmFromInches } from '../units/convert.ts';
import { IDENTITY, type Matrix, times } from './curves.ts';

/** CSS pixels in an inch (CSS Values and Units 3, section 6.2): what a number without a unit counts. */
const PIXELS = 96;

/** Millimetres of a length with its unit; null when it has none that stands for a length. */
export function svgLength(written: string): number | null {
  const match = /^\s*([+-]?(?:\d+\.?\d*|\.\d+)(?:e[+-]?\d+)?)\s*(mm|cm|in|pt|pc|px|q|)\s*$/i.exec(written);
  if (match === null) return null;
  const inch = mmFromInches(1);
  const units: Readonly<Record<string, number>> = {
    mm: 1,
    cm: 10,
    q: 0.25,
    in: inch,
    pt: inch / 72,
    pc: inch / 6,
    px: inch / PIXELS,
    '': inch / PIXELS,
  };
  return Number(match[1]) * (units[(match[2] ?? '').toLowerCase()] ?? Number.NaN);
}

/** From the units of a whole drawing to millimetres, y up; null when its size makes no sense. */
export function drawingFrame(attributes: ReadonlyMap<string, string>): Matrix | null {
  const pixel = mmFromInches(1) / PIXELS;
  const box = attributes.get('viewBox');
  const width = sizeOf(attributes.get('width'));
  const height = sizeOf(attributes.get('height'));
  if (box === undefined) return [pixel, 0, 0, -pixel, 0, 0];
  const [, , w = Number.NaN, h = Number.NaN] = box
    .trim()
    .split(/[\s,]+/)
    .map(Number);
  if (!(w > 0 && h > 0)) return null;
  const x = width === null ? null : width / w;
  const y = height === null ? null : height / h;
  const both = [x ?? y ?? pixel, y ?? x ?? pixel] as const;
  // Unless it says otherwise a drawing is not stretched: the smaller scale holds for both ways.
  const stretched = attributes.get('preserveAspectRatio')?.trim().startsWith('none') === true;
  const slice = attributes.get('preserveAspectRatio')?.includes('slice') === true;
  const scale = slice ? Math.max(...both) : Math.min(...both);
  return stretched ? [both[0], 0, 0, -both[1], 0, 0] : [scale, 0, 0, -scale, 0, 0];
}

/** A size in percent is that of a page nobody knows. */
function sizeOf(written: string | undefined): number | null {
  return written === undefined ? null : svgLength(written);
}

const FUNCTION = /\s*,?\s*(matrix|translate|scale|rotate|skewX|skewY)\s*\(([^()]*)\)\s*/y;

/** The matrix of a `transform` attribute; null when it cannot be read. */
export function readTransform(written: string): Matrix | null {
  let matrix = IDENTITY;
  let at = 0;
  while (at < written.trimEnd().length) {
    FUNCTION.lastIndex = at;
    const match = FUNCTION.exec(written);
    if (match === null) return null;
    const numbers = (match[2] ?? '')
      .trim()
      .split(/[\s,]+/)
      .map(Number);
    const next = numbers.every(Number.isFinite) ? matrixOf(match[1] ?? '', numbers) : null;
    if (next === null) return null;
    matrix = times(matrix, next);
    at = FUNCTION.lastIndex;
  }
  return matrix;
}

function matrixOf(name: string, numbers: readonly number[]): Matrix | null {
  const [a = 0, b, c, d = 0, e = 0, f = 0] = numbers;
  const angle = (a * Math.PI) / 180;
  const [cos, sin] = [Math.cos(angle), Math.sin(angle)];
  switch (name) {
    case 'matrix':
      return numbers.length === 6 ? [a, b ?? 0, c ?? 0, d, e, f] : null;
    case 'translate':
      return [1, 0, 0, 1, a, b ?? 0];
    case 'scale':
      return [a, 0, 0, b ?? a, 0, 0];
    case 'rotate': {
      const [x, y] = [b ?? 0, c ?? 0];
      return [cos, sin, -sin, cos, x - cos * x + sin * y, y - sin * x - cos * y];
    }
    case 'skewX':
      return [1, 0, Math.tan(angle), 1, 0, 0];
    case 'skewY':
      return [1, Math.tan(angle), 0, 1, 0, 0];
    default:
      return null;
  }
}
