import { describe, expect, it } from 'vitest';
import { letter } from '../../src/geometry/lettering/letter.ts';
import { bounds } from '../../src/geometry/ring.ts';
import type { Vec } from '../../src/geometry/types.ts';
import { layOut } from '../../src/layout/layOut.ts';
import { findingsOfParts, makeParts } from '../../src/parts/makeParts.ts';
import { settingsOf } from '../../src/parts/settings.ts';
import type { LineFeature, Part } from '../../src/parts/types.ts';
import type { Instrument } from '../../src/profile/types.ts';
import type { Finding } from '../../src/report/finding.ts';
import { parlour, workshop } from '../support/instrument.ts';
import { equalFrets, twoScales } from '../support/scales.ts';

const lettered = (change: Partial<Instrument> = {}, height = 3): Instrument => ({
  ...parlour,
  ...change,
  jigs: { ...parlour.jigs, ...change.jigs, lettering: { height } },
});

function madeOf(instrument: Instrument): {
  readonly parts: readonly Part[];
  readonly findings: readonly Finding[];
} {
  const layout = layOut(instrument);
  if (!layout.ok) throw new Error(JSON.stringify(layout.findings));
  const settings = settingsOf(workshop);
  return {
    parts: makeParts(instrument, layout.value, settings),
    findings: findingsOfParts(instrument, layout.value, settings),
  };
}

function partOf(instrument: Instrument, id: string): Part {
  const part = madeOf(instrument).parts.find((p) => p.id === id);
  if (part === undefined) throw new Error(`no ${id}`);
  return part;
}

const linesOf = (part: Part): LineFeature[] => part.features.filter((f) => f.kind === 'line');
const lettersOf = (part: Part): LineFeature[] => linesOf(part).filter((f) => f.meaning === 'lettering');
/** Ids of texts, without the number of their stroke. */
const textsOf = (part: Part): string[] => [...new Set(lettersOf(part).map((f) => f.id.replace(/-\d+$/, '')))];

/** Points along lines, a twentieth of a millimetre apart or less. */
const sampled = (points: readonly Vec[]): Vec[] =>
  points.slice(1).flatMap((to, i) => {
    const from = points[i] ?? to;
    const count = Math.max(1, Math.ceil(Math.hypot(to[0] - from[0], to[1] - from[1]) / 0.05));
    return Array.from(
      { length: count + 1 },
      (_, k): Vec => [from[0] + ((to[0] - from[0]) * k) / count, from[1] + ((to[1] - from[1]) * k) / count],
    );
  });

/** Least distance of any letter from anything else on the part, by sampling both: another route than the placing's own. */
function leastGap(part: Part): number {
  const letters = lettersOf(part).flatMap((f) => sampled(f.points));
  const others = part.features.flatMap((f): Vec[] => {
    if (f.kind === 'line') return f.meaning === 'lettering' ? [] : sampled(f.points);
    if (f.kind !== 'outline') return [];
    const { x, y } = bounds(f.ring);
    if (f.keep === 'inside') {
      const corners = f.ring.map((v): Vec => [v.x, v.y]);
      return sampled([...corners, ...corners.slice(0, 1)]);
    }
    const radius = (x[1] - x[0]) / 2;
    return Array.from(
      { length: 120 },
      (_, k): Vec => [
        (x[0] + x[1]) / 2 + radius * Math.cos((k * Math.PI) / 60),
        (y[0] + y[1]) / 2 + radius * Math.sin((k * Math.PI) / 60),
      ],
    );
  });
  const cells = new Map<string, Vec[]>();
  for (const q of others) {
    const key = `${Math.floor(q[0] / 2)} ${Math.floor(q[1] / 2)}`;
    const cell = cells.get(key);
    if (cell === undefined) cells.set(key, [q]);
    else cell.push(q);
  }
  const near = [-1, 0, 1].flatMap((i) => [-1, 0, 1].map((k) => [i, k] as const));
  // Farther than a cell is not told apart: 2 mm.
  return letters.reduce((least, [x, y]) => {
    const around = near.flatMap(
      ([i, k]) => cells.get(`${Math.floor(x / 2) + i} ${Math.floor(y / 2) + k}`) ?? [],
    );
    return around.reduce((gap, q) => Math.min(gap, Math.hypot(x - q[0], y - q[1])), least);
  }, 2);
}

const numbers = (frets: number): string[] =>
  Array.from({ length: frets }, (_, i) => `slot-template-number-${String(i + 1).padStart(2, '0')}`);

describe('letters on the templates', () => {
  it('are there only when asked for', () => {
    for (const id of ['slot-template', 'pin-template']) expect(lettersOf(partOf(parlour, id))).toEqual([]);
    expect(madeOf(parlour).findings).toEqual([]);
  });

  it('number every fret and name the part and the instrument', () => {
    expect(textsOf(partOf(lettered(), 'slot-template'))).toEqual([
      ...numbers(19),
      'slot-template-name',
      'slot-template-instrument',
    ]);
    expect(textsOf(partOf(lettered(), 'pin-template'))).toEqual([
      'pin-template-name',
      'pin-template-instrument',
    ]);
    expect(madeOf(lettered()).findings).toEqual([]);
    const all = madeOf(lettered()).parts.flatMap((p) => p.features.map((f) => f.id));
    expect(new Set(all).size).toBe(all.length);
  });

  it.each<[string, Instrument]>([
    ['square', lettered()],
    ['left-handed', lettered({ hand: 'left' })],
    ['two scales', lettered({ scale: twoScales(650, 610, { squareCents: 700, nut: 19, saddle: 28 }) })],
    [
      'a nut that leans',
      lettered({ scale: twoScales(660, 600, { squareCents: 1200, nut: 19, saddle: 28 }) }),
    ],
    ['larger letters', lettered({}, 3.6)],
  ])('keep a millimetre off every line, hole and edge: %s', (_, instrument) => {
    const clear: Instrument = { ...instrument, indexPins: { ...instrument.indexPins, place: 'clear' } };
    for (const id of ['slot-template', 'pin-template']) {
      const part = partOf(clear, id);
      expect(lettersOf(part).length).toBeGreaterThan(0);
      expect(leastGap(part)).toBeGreaterThanOrEqual(0.999);
    }
  });

  it('stand in the space before their own line, and read from left to right for either hand', () => {
    for (const hand of ['right', 'left'] as const) {
      const part = partOf(lettered({ hand }), 'slot-template');
      const slotX = linesOf(part)
        .filter((f) => f.meaning === 'fret slot')
        .map((f) => f.points[0]?.[0] ?? 0);
      numbers(19).forEach((id, i) => {
        const xs = lettersOf(part)
          .filter((f) => f.id.startsWith(id))
          .flatMap((f) => f.points.map((p) => p[0]));
        expect(Math.min(...xs)).toBeGreaterThan(slotX[i - 1] ?? 0);
        expect(Math.max(...xs)).toBeLessThan(slotX[i] ?? 0);
      });
      // The 7: its stem goes down toward the left, which a mirror image would not.
      const seven = lettersOf(part)
        .filter((f) => f.id.startsWith('slot-template-number-07'))
        .flatMap((f) => f.points);
      const own = letter('7', 3).strokes.flat();
      const shift = [
        (seven[0]?.[0] ?? 0) - (own[0]?.[0] ?? 0),
        (seven[0]?.[1] ?? 0) - (own[0]?.[1] ?? 0),
      ] as const;
      own.forEach((p, i) => {
        expect(seven[i]?.[0]).toBeCloseTo(p[0] + shift[0], 9);
        expect(seven[i]?.[1]).toBeCloseTo(p[1] + shift[1], 9);
      });
    }
  });

  it('are left out with a note where there is no place', () => {
    const narrow = lettered({ frets: { ...parlour.frets, ...equalFrets(24) } }, 5);
    const { parts, findings } = madeOf(narrow);
    const part = parts.find((p) => p.id === 'slot-template');
    if (part === undefined) throw new Error('no template');
    const texts = textsOf(part);
    const missing = findings.filter((f) => f.code === 'lettering-left-out');
    expect(missing.length).toBeGreaterThan(0);
    expect(missing.every((f) => f.severity === 'note' && f.where?.path === 'jigs.lettering')).toBe(true);
    // Every text is either there or spoken of.
    const wanted = [...numbers(24), 'slot-template-name', 'slot-template-instrument'].length + 2;
    const onPins = parts.find((p) => p.id === 'pin-template');
    expect(texts.length + (onPins === undefined ? 0 : textsOf(onPins).length) + missing.length).toBe(wanted);
    expect(leastGap(part)).toBeGreaterThanOrEqual(0.999);
  });

  it('are spelt in ASCII, and say so', () => {
    const named = madeOf(lettered({ name: 'Bj\u00f6rk \u041b 3' }));
    const [first, ...rest] = named.findings.filter((f) => f.code === 'letters-not-in-face');
    expect(rest).toHaveLength(1);
    expect(first?.severity).toBe('warning');
    expect(first?.text).toContain('"Bjork 3"');
    expect(first?.text).toContain('\u041b left out');
    const foreign = madeOf(lettered({ name: '\u041b\u0438\u0440\u0430' }));
    expect(foreign.findings.map((f) => f.text).join()).toContain('reads nothing');
    expect(foreign.parts.flatMap((p) => lettersOf(p)).some((f) => f.id.includes('instrument'))).toBe(false);
  });
});
