import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { sectionsOn } from '../../src/carving/along.ts';
import { checkLayout } from '../../src/checks/checkLayout.ts';
import { drawNeck } from '../../src/drawing/drawNeck.ts';
import { area, flatten } from '../../src/geometry/ring.ts';
import { loadInstrument } from '../../src/profile/loadInstrument.ts';
import type { Instrument } from '../../src/profile/types.ts';
import { layoutOf } from '../support/neck.ts';

const text = readFileSync('profiles/tarn-parlour.yaml', 'utf8');
const USUAL = 'volute: { length: 32, width: 26 }';

function parlourWith(volute: string): Instrument {
  const loaded = loadInstrument(text.replace(USUAL, volute), 'parlour.yaml');
  if (!loaded.ok) throw new Error(JSON.stringify(loaded.findings));
  return loaded.value.value;
}
const never = (): never => {
  throw new Error('no shaft');
};
const errors = (instrument: Instrument) =>
  checkLayout(layoutOf(instrument), instrument)
    .filter((f) => f.severity === 'error')
    .map((f) => [f.code, f.where?.path]);

describe('the volute', () => {
  it('is a dart with hollow sides: its area is the triangle less two segments (worked by hand)', () => {
    const { volute } = layoutOf(parlourWith('volute: { length: 32, width: 26, hollow: 0.1 }')).neck ?? {};
    if (volute == null) throw new Error('no volute');
    // Chord sqrt(32^2 + 13^2) = 34.5398; sagitta 3.45398; radius = c^2 / (8 s) + s / 2 = 44.9018;
    // half angle asin(17.2699 / 44.9018) = 0.394791; segment R^2 (2 a - sin 2 a) / 2 = 80.06.
    const c = Math.hypot(32, 13);
    const s = 0.1 * c;
    const radius = (c * c) / (8 * s) + s / 2;
    const half = Math.asin(c / 2 / radius);
    const segment = (radius * radius * (2 * half - Math.sin(2 * half))) / 2;
    expect(radius).toBeCloseTo(44.9018, 3);
    expect(area(volute.ring)).toBeCloseTo(416 - 2 * segment, 6);
    const points = flatten(volute.ring, 0.001);
    expect(Math.max(...points.map(([x]) => x))).toBeCloseTo(32, 9);
    expect(Math.max(...points.map(([, y]) => y))).toBeCloseTo(13, 9);
    // Hollow: half way along, the dart is narrower than the triangle's 6.5.
    const middle = points.filter(([x, y]) => y > 0 && Math.abs(x - 16) < 1.5).map(([, y]) => y);
    expect(Math.max(...middle)).toBeLessThan(6);
  });

  it('rises from the back at its point to its broad end, and is drawn in both views', () => {
    const instrument = parlourWith(USUAL);
    const layout = layoutOf(instrument);
    const ridge = layout.neck?.volute?.ridge;
    const back = sectionsOn(layout.shaft ?? never());
    expect(ridge).toEqual([
      [0, expect.closeTo(-(back(0).depth + 3), 9)],
      [32, expect.closeTo(-back(32).depth, 9)],
    ]);
    // Fret 1: 21.5 with a board of 6; its slot lies at 628 (1 - 2^(-1/12)) = 35.25, a little past the point.
    expect(-(ridge?.[1][1] ?? 0)).toBeGreaterThan(15.3);
    expect(-(ridge?.[1][1] ?? 0)).toBeLessThan(15.5);
    const drawn = drawNeck(layout, instrument).filter(({ layers }) =>
      layers.some(({ name, shapes }) => name === 'VOLUTE' && shapes.length === 1),
    );
    expect(drawn.map(({ id }) => id)).toEqual(['neck-side', 'neck-plan']);
    expect(layoutOf(parlourWith('# none')).neck?.volute).toBeNull();
  });

  it.each([
    ['width: 47', 'volute-wider-than-neck', 'width'],
    ['from: 60, length: 90, width: 20', null, ''],
    ['rise: 4.8', 'volute-deeper-than-blank', 'rise'],
    ['from: -29', 'volute-off-shaft', 'from'],
  ])('with %s is answered at its field', (fields, code, field) => {
    const found = errors(parlourWith(`volute: { ${fields} }`));
    expect(found).toEqual(code === null ? [] : [[code, `neckShape.volute.${field}`]]);
  });
});
