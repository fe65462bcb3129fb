import fc from 'fast-check';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { flattenChain, pointAt } from '../../src/artwork/curves.ts';
import { makeFigures } from '../../src/artwork/makeFigures.ts';
import { readDxf } from '../../src/artwork/readDxf.ts';
import { readSvg } from '../../src/artwork/readSvg.ts';
import { splineCurves } from '../../src/artwork/spline.ts';
import type { Chain, Read } from '../../src/artwork/types.ts';
import { polygonSize } from '../../src/geometry/area.ts';
import type { Vec } from '../../src/geometry/types.ts';
import type { MarkerArtwork } from '../../src/profile/types.ts';
import { launchBrowser } from '../support/browser.ts';

const SAGITTA = 1e-4;
const PX = 25.4 / 96;

const chainsOf = (read: Read): readonly Chain[] => {
  if (!read.ok) throw new Error(read.problems.map((p) => p.text).join('; '));
  return read.chains;
};
const sizeOf = (chain: Chain | undefined): number => polygonSize(flattenChain(chain?.curves ?? [], SAGITTA));
const svg = (body: string, head = 'width="100mm" height="50mm" viewBox="0 0 200 100"'): string =>
  `<svg xmlns="http://www.w3.org/2000/svg" ${head}>\n${body}\n</svg>`;

describe('units and frames of an SVG drawing', () => {
  // A square of 10 units; y runs down in the file and up here, so a clockwise path comes out counter-clockwise.
  it.each([
    ['width="100mm" height="50mm" viewBox="0 0 200 100"', 5],
    ['width="4in" height="2in" viewBox="0 0 200 100"', 5.08],
    ['width="200px" height="100px" viewBox="0 0 200 100"', 10 * PX],
    ['viewBox="0 0 200 100"', 10 * PX],
    ['width="200" height="100"', 10 * PX],
    // Not stretched unless it says so: the smaller scale holds.
    ['width="100mm" height="500mm" viewBox="0 0 200 100"', 5],
  ])('%s', (head, side) => {
    const [chain] = chainsOf(readSvg(svg('<path d="M10 10h10v10h-10z"/>', head)));
    expect(Math.abs(sizeOf(chain))).toBeCloseTo(side * side, 9);
    const ys = flattenChain(chain?.curves ?? [], 1).map((p) => p[1]);
    expect(Math.max(...ys)).toBeCloseTo(-side, 9);
  });

  it('works in transforms of groups and elements, the inner one first', () => {
    const body =
      '<g transform="translate(20 10) rotate(90)"><g transform="scale(2,1) skewX(45)"><rect width="10" height="4" transform="matrix(1 0 0 2 3 1)"/></g></g>';
    const [chain] = chainsOf(readSvg(svg(body)));
    // Corner 0 0: matrix to 3 1, skewed to 4 1, scaled to 8 1, turned to -1 8, shifted to 19 18; half a mm to the unit, y up.
    const [x, y] = chain?.curves[0] === undefined ? [0, 0] : pointAt(chain.curves[0], 0);
    expect([x, y]).toEqual([expect.closeTo(9.5, 9), expect.closeTo(-9, 9)]);
    expect(Math.abs(sizeOf(chain))).toBeCloseTo((10 * 4 * 2 * 2) / 4, 9);
  });

  it('knows the other shapes, hidden things and definitions', () => {
    const chains = chainsOf(
      readSvg(
        svg(
          '<defs><circle r="3"/></defs><g style="display:none"><rect width="3" height="3"/></g><circle cx="20" cy="20" r="10"/><ellipse cx="50" cy="20" rx="10" ry="4"/><rect x="70" y="5" width="20" height="10" rx="3"/><polygon points="0,0 10,0 10,10"/>',
        ),
      ),
    );
    const sizes = chains.map((c) => Math.abs(sizeOf(c)) * 4);
    expect(sizes).toHaveLength(4);
    [Math.PI * 100, Math.PI * 40, 200 - (4 - Math.PI) * 9, 50].forEach((size, i) => {
      expect(Math.abs((sizes[i] ?? 0) - size)).toBeLessThan(0.02);
    });
  });
});

describe('path data against a browser', () => {
  let browser: Browser;
  beforeAll(async () => {
    browser = await launchBrowser();
  }, 60_000);
  afterAll(() => browser.close());

  const PATHS = [
    'M10 80 C 40 10, 65 10, 95 80 S 150 150, 180 80 L 180 95 H 10 Z',
    'm10 80q52.5-70 95 0t75 0l0 15h-170z',
    'M20 50 A 15 10 30 1 0 50 50 A 15 10 30 0 0 20 50 Z',
    'M110,40 a 25,25 -30 0,1 50,-25 v20 L110 60z',
    'M10 10 V 90 h 80 c 0-20 10-60 -30-60 Q 40 40 30 20 T 10 10 z',
  ];

  // Length by getTotalLength; area by walking its points and by asking for a grid of points whether they are inside.
  it.each(PATHS)('agrees in length, area and inside: %s', async (d) => {
    const page = await browser.newPage();
    await page.setContent(svg(`<path d="${d}"/>`));
    const told = await page.evaluate(() => {
      const path = (
        globalThis as never as { document: { querySelector(s: string): never } }
      ).document.querySelector('path') as never as {
        getTotalLength(): number;
        getPointAtLength(l: number): { x: number; y: number };
        isPointInFill(p: { x: number; y: number }): boolean;
      };
      const length = path.getTotalLength();
      const inside: boolean[] = [];
      for (let x = 5.3; x < 200; x += 13)
        for (let y = 4.7; y < 100; y += 9) inside.push(path.isPointInFill({ x, y }));
      const walk = Array.from({ length: 400 }, (_, i) => path.getPointAtLength((length * i) / 400));
      return { length, inside, walk: walk.map((p) => [p.x, p.y] as [number, number]) };
    });
    await page.close();
    const [chain] = chainsOf(readSvg(svg(`<path d="${d}"/>`)));
    const points = flattenChain(chain?.curves ?? [], SAGITTA).map(([x, y]): Vec => [2 * x, -2 * y]);
    const around = points.reduce((sum, [x, y], i) => {
      const [u, v] = points[(i + 1) % points.length] as Vec;
      return sum + Math.hypot(u - x, v - y);
    }, 0);
    expect(Math.abs(around - told.length) / told.length).toBeLessThan(2e-4);
    for (const [x, y] of told.walk) {
      const off = Math.min(
        ...points.map(([ax, ay], i) => {
          const [bx, by] = points[(i + 1) % points.length] as Vec;
          const square = (bx - ax) ** 2 + (by - ay) ** 2;
          const t =
            square === 0
              ? 0
              : Math.max(0, Math.min(1, ((x - ax) * (bx - ax) + (y - ay) * (by - ay)) / square));
          return Math.hypot(x - ax - t * (bx - ax), y - ay - t * (by - ay));
        }),
      );
      // Two units to the millimetre: 0.005 mm. The browser draws arcs as cubic curves, off by 0.03 % of their radius.
      expect(off).toBeLessThan(0.01);
    }
    let k = 0;
    for (let x = 5.3; x < 200; x += 13) {
      for (let y = 4.7; y < 100; y += 9) {
        expect([x, y, isInside(points, x, y)]).toEqual([x, y, told.inside[k]]);
        k += 1;
      }
    }
  });
});

function isInside(points: readonly Vec[], x: number, y: number): boolean {
  return points.reduce((inside, [ax, ay], i) => {
    const [bx, by] = points[(i + 1) % points.length] as Vec;
    return ay > y !== by > y && x < ax + ((bx - ax) * (y - ay)) / (by - ay) ? !inside : inside;
  }, false);
}

const dxf = (entities: string, unit = 4): string =>
  `0\nSECTION\n2\nHEADER\n9\n$INSUNITS\n70\n${unit}\n0\nENDSEC\n0\nSECTION\n2\nENTITIES\n${entities}0\nENDSEC\n0\nEOF\n`;
const line = (x0: number, y0: number, x1: number, y1: number): string =>
  `0\nLINE\n8\n0\n10\n${x0}\n20\n${y0}\n11\n${x1}\n21\n${y1}\n`;

describe('DXF drawings', () => {
  it('puts lines and arcs together whatever their order and sense, in the unit of the header', () => {
    const half = '0\nARC\n8\n0\n10\n10\n20\n5\n40\n5\n50\n270\n51\n90\n';
    const text = dxf(line(0, 10, 10, 10) + half + line(0, 0, 0, 10) + line(10, 0, 0, 0));
    const chains = chainsOf(readDxf(text));
    expect(chains).toHaveLength(1);
    expect(chains[0]?.closed).toBe(true);
    expect(Math.abs(Math.abs(sizeOf(chains[0])) - (100 + (Math.PI * 25) / 2))).toBeLessThan(0.003);
    const inches = chainsOf(readDxf(dxf(line(0, 0, 1, 0) + line(1, 0, 0, 1) + line(0, 1, 0, 0), 1)));
    expect(Math.abs(sizeOf(inches[0]))).toBeCloseTo(25.4 ** 2 / 2, 6);
  });

  it('keeps the bulges of a polyline, whole circles and ellipses', () => {
    // Two half turns of radius 4; b = tan(180 / 4) = 1.
    const poly = '0\nLWPOLYLINE\n8\n0\n90\n2\n70\n1\n10\n0\n20\n0\n42\n1\n10\n8\n20\n0\n42\n1\n';
    const circle = '0\nCIRCLE\n8\n0\n10\n30\n20\n0\n40\n3\n';
    const ellipse = '0\nELLIPSE\n8\n0\n10\n60\n20\n0\n11\n6\n21\n0\n40\n0.5\n41\n0\n42\n6.283185307179586\n';
    const sizes = chainsOf(readDxf(dxf(poly + circle + ellipse))).map((c) => Math.abs(sizeOf(c)));
    [Math.PI * 16, Math.PI * 9, Math.PI * 18].forEach((size, i) => {
      expect(Math.abs((sizes[i] ?? 0) - size)).toBeLessThan(0.005);
    });
  });

  it('names what it cannot cut, with its line', () => {
    const text = dxf(`${line(0, 0, 1, 0)}0\nTEXT\n8\n0\n10\n0\n20\n0\n40\n2\n1\nvine\n`);
    const read = readDxf(text);
    const [problem] = read.ok ? [] : read.problems;
    expect(problem?.code).toBe('artwork-unsupported');
    expect(text.split('\n')[(problem?.line ?? 0) - 1]).toBe('TEXT');
    expect(readDxf('no drawing').ok).toBe(false);
    expect(readDxf(dxf(line(0, 0, 1, 0), 21))).toMatchObject({
      problems: [{ code: 'artwork-unit-unknown' }],
    });
  });

  // De Boor's recursion on the basis functions themselves: other algebra than putting knots in.
  it('cuts a spline into Bezier curves that are the spline', () => {
    const coordinate = fc.double({ min: -20, max: 20, noNaN: true });
    const points = fc.array(fc.tuple(coordinate, coordinate), { minLength: 4, maxLength: 9 });
    fc.assert(
      fc.property(points, fc.integer({ min: 2, max: 3 }), (control, degree) => {
        const inner = Array.from({ length: control.length - degree - 1 }, (_, i) => i + 1);
        const last = inner.length + 1;
        const knots = [...Array(degree + 1).fill(0), ...inner, ...Array(degree + 1).fill(last)] as number[];
        const curves = splineCurves(degree, knots, control) ?? [];
        expect(curves).toHaveLength(last);
        const basis = basisOf(knots);
        curves.forEach((curve, k) => {
          for (const t of [0, 0.3, 0.77]) {
            const want = [0, 1].map((way) =>
              control.reduce((sum, p, i) => sum + (p[way] ?? 0) * basis(i, degree, k + t), 0),
            );
            const [x, y] = pointAt(curve, t);
            expect(Math.hypot(x - (want[0] ?? 0), y - (want[1] ?? 0))).toBeLessThan(1e-9);
          }
        });
      }),
      { seed: 3, numRuns: 40 },
    );
  });
});

type Basis = (i: number, p: number, u: number) => number;

function basisOf(knots: readonly number[]): Basis {
  const knot = (i: number): number => knots[i] ?? 0;
  const share = (over: number, under: number): number => (under === 0 ? 0 : over / under);
  const basis: Basis = (i, p, u) =>
    p === 0
      ? Number(u >= knot(i) && u < knot(i + 1))
      : share(u - knot(i), knot(i + p) - knot(i)) * basis(i, p - 1, u) +
        share(knot(i + p + 1) - u, knot(i + p + 1) - knot(i + 1)) * basis(i + 1, p - 1, u);
  return basis;
}

const wanted = (change: Partial<MarkerArtwork> = {}): MarkerArtwork => ({
  file: 'leaf.svg',
  fret: 5,
  between: null,
  rotate: 0,
  size: { kind: 'width', width: 20 },
  mirrorForLeftHand: true,
  ...change,
});
const fit = { gap: 0.025, corner: 0.5 };
const figuresOf = (body: string, change?: Partial<MarkerArtwork>) =>
  makeFigures(svg(body), wanted(change), fit);

describe('figures', () => {
  const LEAF = '<path id="leaf" d="M0 15 C 10 0 40 0 60 15 C 40 30 10 30 0 15 Z"/>';

  it('are as wide as asked, turned as asked, and lose only their tips', () => {
    const flat = figuresOf(LEAF);
    const turned = figuresOf(LEAF, { rotate: Math.PI / 2 });
    if (!flat.ok || !turned.ok) throw new Error('refused');
    const [a, b] = [flat.figures[0]?.box, turned.figures[0]?.box];
    expect(b?.across).toBeCloseTo(a?.along ?? 0, 2);
    expect(20 - (a?.along ?? 0)).toBeGreaterThan(0.1);
    // A tip of the half angle atan(15 / 20) or more keeps its place but for r (1 / sin - 1) at either end.
    expect(20 - (a?.along ?? 0)).toBeLessThan(1.2);
    expect(flat.deviation).toBeGreaterThan(0.05);
  });

  it('keep a hole as wood, and separate leaves as figures of their own', () => {
    const two = figuresOf(`${LEAF}<circle cx="30" cy="15" r="4"/><circle cx="90" cy="15" r="8"/>`);
    if (!two.ok) throw new Error(two.problems.map((p) => p.text).join());
    expect(two.figures.map((f) => f.part.holes.length).sort()).toEqual([0, 1]);
  });

  it.each([
    ['crosses itself', '<path d="M0 0L20 20L20 0L0 20Z"/>', 'artwork-crosses-itself', 'at 10.000, 10.000 mm'],
    [
      'is crossed by another',
      '<path d="M0 0h20v20h-20z"/>\n<circle cx="20" cy="10" r="5"/>',
      'artwork-crosses-itself',
      '(line 2)',
    ],
    ['is open', '<path d="M0 0h20v20h-20v-18"/>', 'artwork-open', 'ends at 0.000'],
    ['is text', '<path d="M0 0h20v20h-20z"/>\n<text>vine</text>', 'artwork-unsupported', 'A text'],
    ['is an image', '<image href="x.png"/>', 'artwork-unsupported', 'An image'.slice(3)],
    ['is empty', '<g/>', 'artwork-empty', 'no outline'],
    ['has a slit', '<path d="M0 0H60V4H40V4.5H60V30H0Z"/>', 'artwork-too-fine', 'a cutter of 1.00 mm'],
    [
      'has a neck',
      '<path d="M0 0H30V9H31V0H60V30H31V11H30V30H0Z"/>',
      'artwork-too-fine',
      'a cutter of 1.00 mm',
    ],
    ['has a hair', '<path d="M0 0H60V14H90V15H60V30H0Z"/>', 'artwork-too-fine', 'a cutter of 1.00 mm'],
    [
      'has two leaves that nearly touch',
      '<path d="M0 0h30v30h-30z"/><path d="M30.5 0h30v30h-30z"/>',
      'artwork-too-close',
      'less than 0.5 mm',
    ],
  ])('are refused when the drawing %s', (_, body, code, place) => {
    const [head] = ['width="200mm" height="100mm" viewBox="0 0 200 100"'];
    const made = makeFigures(svg(body, head), wanted(), fit);
    const problem = made.ok ? undefined : made.problems.find((p) => p.code === code);
    expect(problem?.text ?? (made.ok ? 'not refused' : made.problems.map((p) => p.code).join())).toContain(
      place,
    );
    expect(problem?.line).toBeGreaterThanOrEqual(1);
  });

  it('are refused with the place of what is wrong, in the drawing, whatever their size and turn', () => {
    const head = 'width="200mm" height="100mm" viewBox="0 0 200 100"';
    const slit = svg('<path d="M0 0H60V4H40V4.5H60V30H0Z"/>', head);
    const made = makeFigures(slit, wanted({ rotate: 0.7, size: { kind: 'scale', scale: 0.3 } }), fit);
    const text = made.ok ? '' : (made.problems[0]?.text ?? '');
    const [x, y] = (/at ([\d.]+), ([\d.]+) mm/.exec(text)?.slice(1) ?? []).map(Number) as [number, number];
    expect(x).toBeGreaterThan(39);
    expect(x).toBeLessThan(61);
    expect(Math.abs(y - (30 - 4.25))).toBeLessThan(0.6);
  });
});
