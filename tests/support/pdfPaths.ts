/**
 * Reads the drawing operators of a PDF's pages (ISO 32000-1, 8.2 to 8.5: q Q cm re m l c h W n S and what they hold), for files
 * whose pages have one content stream each, packed by Flate. Millimetres from a page's lower left corner.
 */
import { inflateSync } from 'node:zlib';

type Point = readonly [number, number];
type Matrix = readonly [number, number, number, number, number, number];

export interface PdfPath {
  /** Corners of straight sides and ends of curves, in order. */
  readonly points: readonly Point[];
  readonly closed: boolean;
  /** Only what lies in all of these is seen: x0, y0, x1, y1. */
  readonly clips: readonly (readonly [number, number, number, number])[];
}

export interface PdfPage {
  readonly width: number;
  readonly height: number;
  readonly paths: readonly PdfPath[];
}

const MM = 25.4 / 72;

export function pdfPages(bytes: Uint8Array): PdfPage[] {
  const file = Buffer.from(bytes).toString('latin1');
  const objects = new Map(
    [...file.matchAll(/(?:^|\n)(\d+) 0 obj\n([\s\S]*?)\nendobj/g)].map((m) => [m[1] ?? '', m[2] ?? '']),
  );
  return [...objects.values()].flatMap((object): PdfPage[] => {
    if (!/\/Type \/Page\b/.test(object)) return [];
    const box = /\/MediaBox \[0 0 ([\d.]+) ([\d.]+)\]/.exec(object);
    const contents = objects.get(/\/Contents (\d+) 0 R/.exec(object)?.[1] ?? '') ?? '';
    return [
      {
        width: Number(box?.[1]) * MM,
        height: Number(box?.[2]) * MM,
        paths: pathsIn(unpacked(contents)),
      },
    ];
  });
}

function unpacked(object: string): string {
  const start = object.indexOf('stream\n') + 'stream\n'.length;
  const length = Number(/\/Length (\d+)/.exec(object)?.[1]);
  return inflateSync(Buffer.from(object.slice(start, start + length), 'latin1')).toString('latin1');
}

interface State {
  readonly at: Matrix;
  readonly clips: PdfPath['clips'];
}

function pathsIn(content: string): PdfPath[] {
  const paths: PdfPath[] = [];
  const kept: State[] = [];
  let state: State = { at: [1, 0, 0, 1, 0, 0], clips: [] };
  let parts: { points: Point[]; closed: boolean }[] = [];
  let clipping = false;
  let numbers: number[] = [];
  const place = (k: number): Point =>
    through(state.at, [numbers[k] ?? Number.NaN, numbers[k + 1] ?? Number.NaN]);
  const end = (): void => {
    if (clipping) state = { ...state, clips: [...state.clips, boxOf(parts.flatMap((part) => part.points))] };
    clipping = false;
    parts = [];
  };
  const operators: Record<string, () => void> = {
    q: () => kept.push(state),
    Q: () => {
      state = kept.pop() ?? state;
    },
    cm: () => {
      state = { ...state, at: product(numbers as unknown as Matrix, state.at) };
    },
    m: () => parts.push({ points: [place(0)], closed: false }),
    l: () => parts.at(-1)?.points.push(place(0)),
    c: () => parts.at(-1)?.points.push(place(4)),
    h: () => {
      const last = parts.at(-1);
      if (last !== undefined) last.closed = true;
    },
    re: () => {
      const [x = 0, y = 0, w = 0, h = 0] = numbers;
      const corners: Point[] = [
        [x, y],
        [x + w, y],
        [x + w, y + h],
        [x, y + h],
      ];
      parts.push({ points: corners.map((corner) => through(state.at, corner)), closed: true });
    },
    W: () => {
      clipping = true;
    },
    n: end,
    S: () => {
      paths.push(...parts.map((part) => ({ ...part, clips: state.clips })));
      end();
    },
  };
  for (const word of content.split(/\s+/)) {
    if (/^[-+.\d]+$/.test(word)) {
      numbers.push(Number(word));
      continue;
    }
    operators[word]?.();
    numbers = [];
  }
  return paths;
}

function through([a, b, c, d, e, f]: Matrix, [x, y]: Point): Point {
  return [(a * x + c * y + e) * MM, (b * x + d * y + f) * MM];
}

/** First the one, then the other. */
function product(m: Matrix, n: Matrix): Matrix {
  return [
    m[0] * n[0] + m[1] * n[2],
    m[0] * n[1] + m[1] * n[3],
    m[2] * n[0] + m[3] * n[2],
    m[2] * n[1] + m[3] * n[3],
    m[4] * n[0] + m[5] * n[2] + n[4],
    m[4] * n[1] + m[5] * n[3] + n[5],
  ];
}

function boxOf(points: readonly Point[]): PdfPath['clips'][number] {
  const [xs, ys] = [points.map((p) => p[0]), points.map((p) => p[1])];
  return [Math.min(...xs), Math.min(...ys), Math.max(...xs), Math.max(...ys)];
}
