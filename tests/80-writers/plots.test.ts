import { describe, expect, it } from 'vitest';
import type { Plot } from '../../src/sheet/plotTypes.ts';
import { writePlot } from '../../src/writers/svg/writePlot.ts';

const plot: Plot = {
  id: 'sample',
  title: 'A <sample> & "more"',
  note: 'note',
  across: { label: 'fret', from: 0, to: 4, step: 1 },
  up: { label: 'mm', from: -1, to: 3, step: 0.5 },
  lines: [
    {
      name: 'one',
      points: [
        [1, 0],
        [2, 1],
        [4, 3],
      ],
      plusMinus: [0.5, 0.5, 0.5],
      marks: false,
    },
    {
      name: 'two',
      points: [
        [1, 0],
        [2, 1],
        [4, 2.98],
      ],
      plusMinus: [],
      marks: true,
    },
  ],
};

/** Where the texts stand, by what they say. */
function textsOf(svg: string): Map<string, { x: number; y: number }> {
  const all = [...svg.matchAll(/<text x="([-\d.]+)" y="([-\d.]+)"[^>]*>([^<]*)<\/text>/g)];
  return new Map(all.map(([, x, y, text]) => [text ?? '', { x: Number(x), y: Number(y) }]));
}

describe('a chart', () => {
  const svg = writePlot(plot);
  const texts = textsOf(svg);

  it('puts points where the numbered lines say', () => {
    // The numbers' own places give the scale back: fret 1 and 4, heights 0 and 3.
    const x = (value: string): number => texts.get(value)?.x ?? Number.NaN;
    const paths = [
      ...svg.matchAll(/<path d="M([\d.]+) ([\d.]+)L([\d.]+) ([\d.]+)L([\d.]+) ([\d.]+)" stroke-width="0.4"/g),
    ];
    expect(paths).toHaveLength(2);
    const [, x1, y1, , , x4, y4] = (paths[0] ?? []).map(Number);
    expect(x1).toBeCloseTo(18 + (1 / 4) * 158, 3);
    expect(x4).toBeCloseTo(18 + 158, 3);
    expect((y1 ?? 0) - (y4 ?? 0)).toBeCloseTo((3 / 4) * 104, 3);
    expect(x('4')).toBeCloseTo(x4 ?? 0, 3);
  });

  it('keeps the names of lines that end together apart', () => {
    const [one, two] = [texts.get('one'), texts.get('two')];
    expect(Math.abs((one?.y ?? 0) - (two?.y ?? 0))).toBeGreaterThanOrEqual(4 - 1e-9);
  });

  it('lets no name become markup', () => {
    expect(svg).toContain('A &#60;sample&#62; &#38; &#34;more&#34;');
    expect(svg).not.toContain('<sample>');
  });

  it('draws a band of the width it is given', () => {
    const band = /<path d="M[\d.]+ ([\d.]+)V([\d.]+)/.exec(svg.slice(svg.indexOf('stroke-width="0.35"')));
    const tall = Math.abs(Number(band?.[1]) - Number(band?.[2]));
    expect(tall).toBeCloseTo(104 / 4, 3);
  });
});
