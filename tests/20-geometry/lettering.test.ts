import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { letter } from '../../src/geometry/lettering/letter.ts';
import { plainText } from '../../src/geometry/lettering/plainText.ts';
import { simpleChains } from '../../src/geometry/lettering/simpleChains.ts';
import type { Vec } from '../../src/geometry/types.ts';

/**
 * The same face as an SVG font, drawn apart from the data that the letters come from: 31.5 of its units to one of the face,
 * rounded to three digits, each letter moved right by the same amount.
 */
const OUTLINE = readFileSync('node_modules/hersheytext/svg_fonts/HersheySans1.svg', 'utf8');
const UNIT = 31.5;

interface Drawn {
  readonly width: number;
  readonly strokes: readonly (readonly Vec[])[];
}

const ENTITIES: Readonly<Record<string, string>> = {
  '"': '&#x22;',
  '&': '&amp;',
  "'": '&apos;',
  '<': '&#x3c;',
  '>': '&#x3e;',
};

function drawn(character: string): Drawn {
  const written = ENTITIES[character] ?? character;
  const line = OUTLINE.split('\n').find((l) => l.includes(`unicode="${written}"`));
  if (line === undefined) throw new Error(`no ${character} in the SVG font`);
  const [, path = ''] = / d="([^"]*)"/.exec(line) ?? [];
  const [, width = ''] = /horiz-adv-x="([^"]*)"/.exec(line) ?? [];
  const strokes = path
    .split('M')
    .slice(1)
    .map((stroke) =>
      [...stroke.matchAll(/(-?[\d.]+) (-?[\d.]+)/g)].map(([, x, y]): Vec => [Number(x), Number(y)]),
    );
  return { width: Number(width) / UNIT, strokes };
}

const ALL = Array.from({ length: 94 }, (_, i) => String.fromCharCode(33 + i));

describe('the face, held against the same face in another file', () => {
  it.each(ALL)('%s', (character) => {
    const other = drawn(character);
    const own = letter(character, 21);
    // Equal once rounded to whole units, and the ink stays inside.
    expect(own.width).toBeCloseTo(other.width, 1);
    const xs = own.strokes.flat().map((p) => p[0]);
    expect(Math.min(...xs)).toBeGreaterThanOrEqual(0);
    expect(Math.max(...xs)).toBeLessThanOrEqual(own.width);
    expect(own.strokes.map((s) => s.length)).toEqual(other.strokes.map((s) => s.length));
    const shift = (other.strokes[0]?.[0]?.[0] ?? 0) / UNIT - (own.strokes[0]?.[0]?.[0] ?? 0);
    const apart = own.strokes.flatMap((stroke, i) =>
      stroke.map(([x, y], k) => {
        const [ox = 0, oy = 0] = other.strokes[i]?.[k] ?? [];
        return Math.hypot(ox / UNIT - shift - x, oy / UNIT - y);
      }),
    );
    expect(Math.max(...apart)).toBeLessThan(0.06);
  });

  it('has a space as wide as there', () => {
    expect(letter(' ', 21).width).toBeCloseTo(drawn(' ').width, 1);
  });
});

describe('lettering', () => {
  it('makes capitals and digits as high as asked, standing on the line', () => {
    for (const character of 'AEHMXZ0123456789') {
      const ys = letter(character, 4)
        .strokes.flat()
        .map((p) => p[1]);
      expect(Math.max(...ys)).toBeCloseTo(4, 12);
      expect(Math.min(...ys)).toBeCloseTo(0, 12);
    }
  });

  // Widths in the face's own units, from memory of the published data: every digit runs from -10 to 10, M from -12 to 12.
  it.each([
    ['12', 4, (40 / 21) * 4],
    ['M', 10, (24 / 21) * 10],
    ['7 7', 3, (52 / 21) * 3],
  ])('%s is as wide as its letters together', (text, height, width) => {
    expect(letter(text, height).width).toBeCloseTo(width, 12);
  });

  it('refuses what the face has not', () => {
    expect(() => letter('\u00f6', 4)).toThrow('no letter');
    expect(() => letter('\u007f', 4)).toThrow('no letter');
  });
});

describe('plain text', () => {
  it.each([
    ['Tarn Parlour', 'Tarn Parlour', '', ''],
    ['B\u00f6\u00efl\u00e9', 'Boile', '\u00f6\u00ef\u00e9', ''],
    ['Stra\u00dfe \u2013 \u2116 2', 'Strasse - No 2', '\u00df\u2013\u2116', ''],
    ['\u041b\u0438\u0440\u0430 3', '3', '', '\u041b\u0438\u0440\u0430'],
    ['o\u0308', 'o', '\u00f6', ''],
    ['a \u{1f3b8} b', 'a b', '', '\u{1f3b8}'],
  ])('%s', (text, plain, replaced, leftOut) => {
    const result = plainText(text);
    expect(result.text).toBe(plain);
    expect(result.replaced.join('')).toBe(replaced);
    expect(result.leftOut.join('')).toBe(leftOut);
    expect(() => letter(result.text, 3)).not.toThrow();
  });
});

describe('simple chains', () => {
  const sidesOf = (chain: readonly Vec[]): (readonly [Vec, Vec])[] =>
    chain.slice(1).map((to, i) => [chain[i] ?? to, to]);

  /** Whether two sides cross properly, by the signs of four turns: another route than distances. */
  const cross = ([a, b]: readonly [Vec, Vec], [c, d]: readonly [Vec, Vec]): boolean => {
    const turn = (p: Vec, q: Vec, r: Vec): number =>
      Math.sign((q[0] - p[0]) * (r[1] - p[1]) - (q[1] - p[1]) * (r[0] - p[0]));
    return turn(a, b, c) * turn(a, b, d) < 0 && turn(c, d, a) * turn(c, d, b) < 0;
  };

  it('together are the stroke, and none crosses itself', () => {
    for (const character of ALL) {
      for (const stroke of letter(character, 21).strokes) {
        const chains = simpleChains(stroke);
        expect(chains.flatMap(sidesOf)).toEqual(sidesOf(stroke));
        for (const chain of chains) {
          const sides = sidesOf(chain);
          const crossings = sides.flatMap((p, i) => sides.slice(i + 1).filter((q) => cross(p, q)));
          expect(crossings).toEqual([]);
          expect(new Set(chain.map(String)).size).toBe(chain.length);
        }
      }
    }
  });

  it('opens a closed stroke and parts one that crosses itself', () => {
    const square: Vec[] = [
      [0, 0],
      [1, 0],
      [1, 1],
      [0, 1],
      [0, 0],
    ];
    expect(simpleChains(square).length).toBe(2);
    const bow: Vec[] = [
      [0, 0],
      [2, 2],
      [2, 0],
      [0, 2],
    ];
    expect(simpleChains(bow)).toEqual([bow.slice(0, 3), bow.slice(2)]);
    const back: Vec[] = [
      [0, 0],
      [2, 0],
      [1, 0],
    ];
    expect(simpleChains(back)).toEqual([back.slice(0, 2), back.slice(1)]);
  });
});
