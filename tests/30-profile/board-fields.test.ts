/** The fingerboard's own fields, as they are written, filled in and refused. */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { checkInstrument } from '../../src/profile/checkInstrument.ts';
import { loadInstrument } from '../../src/profile/loadInstrument.ts';
import type { Instrument } from '../../src/profile/types.ts';
import { boardWith, cone } from '../support/boards.ts';
import { parlour } from '../support/instrument.ts';

const text = readFileSync(new URL('../../profiles/tarn-parlour.yaml', import.meta.url), 'utf8');

/** The default instrument with its line of the radius replaced. */
function withRadius(lines: string): ReturnType<typeof loadInstrument> {
  const changed = text
    .replace(/^ {2}radius: .*$/m, lines)
    .replace(/^ {2}endRounding: .*\n/m, '')
    .replace(/^ {2}radiusBlock:[\s\S]*?(?=^ {2}\w|^\w|$(?![\s\S]))/m, '');
  expect(changed).not.toBe(text);
  return loadInstrument(changed, 'board.yaml');
}

function read(lines: string): Instrument {
  const loaded = withRadius(lines);
  if (!loaded.ok) throw new Error(JSON.stringify(loaded.findings, null, 1));
  return loaded.value.value;
}

function codes(lines: string): string[] {
  const loaded = withRadius(lines);
  return loaded.findings.filter((f) => f.severity === 'error').map((f) => f.code);
}

describe('the radius', () => {
  it('may be one length, flat, two with a place, or matched to the strings', () => {
    expect(read('  radius: 12 in').fingerboard).toMatchObject({
      radius: 304.8,
      radiusAlong: { kind: 'constant' },
    });
    expect(read('  radius: flat').fingerboard.radius).toBe(Number.POSITIVE_INFINITY);
    expect(read('  radius: 10 in\n  radiusAt: { fret: 12, radius: 14 in }').fingerboard).toMatchObject({
      radius: 254,
      radiusAlong: { kind: 'cone', fret: 12, radius: 355.6 },
    });
    expect(read('  radius: 10 in\n  radiusAt: { radius: 16 in }').fingerboard.radiusAlong).toEqual({
      kind: 'cone',
      fret: null,
      radius: 406.4,
    });
    expect(read('  radius: 254\n  radiusAlong: matched').fingerboard.radiusAlong).toEqual({
      kind: 'matched',
    });
  });

  it.each([
    ['  radius: flat\n  radiusAt: { radius: 400 }', 'flat-with-radius'],
    ['  radius: 254\n  radiusAlong: cone', 'no-second-radius'],
    ['  radius: 254\n  radiusAlong: matched\n  radiusAt: { radius: 400 }', 'second-radius-unused'],
    ['  radius: 254\n  radiusAt: { fret: 30, radius: 400 }', 'no-such-fret'],
    ['  radius: 50\n  radiusAt: { radius: 3000 }', 'radius-changes-too-fast'],
    ['  radius: round', 'bad-length'],
    ['  radius: 254\n  endArc: 60\n  endAngle: 10 deg', 'two-ends'],
    ['  radius: 254\n  endArc: -20', 'end-arc-too-small'],
    ['  radius: 254\n  slotsStopShort: 0.2', 'slot-stops-too-near'],
    ['  radius: 254\n  binding: { width: 7 }', 'binding-too-wide'],
  ])('%j is refused: %s', (lines, code) => {
    expect(codes(lines)).toContain(code);
  });

  it('that is matched needs strings that lie apart', () => {
    const alone = {
      ...boardWith({ radiusAlong: { kind: 'matched' } }),
      strings: parlour.strings.slice(0, 1),
    };
    expect(checkInstrument(alone).map((f) => f.code)).toContain('nothing-to-match');
  });

  it('of a sanding block must be said where the board has two, or none', () => {
    const block = (instrument: Instrument, radius: number | null): Instrument => {
      const { radiusBlock } = parlour.jigs;
      if (radiusBlock === null) throw new Error('no block');
      return { ...instrument, jigs: { ...parlour.jigs, radiusBlock: { ...radiusBlock, radius } } };
    };
    const found = (instrument: Instrument): string[] => checkInstrument(instrument).map((f) => f.code);
    expect(found(block(boardWith(cone(254, 406.4)), null))).toContain('block-needs-radius');
    expect(found(block(boardWith({ radius: Number.POSITIVE_INFINITY }), null))).toContain(
      'block-needs-radius',
    );
    expect(found(block(boardWith(cone(254, 406.4)), 300))).not.toContain('block-needs-radius');
    expect(found(block(parlour, null))).not.toContain('block-needs-radius');
  });

  it('is checked at both ends of a cone: the edge must stay', () => {
    expect(checkInstrument(boardWith(cone(40, 900))).map((f) => f.code)).toContain('radius-too-small');
  });
});

describe('defaults', () => {
  it('are listed, each with its reason', () => {
    const loaded = withRadius('  radius: 254');
    if (!loaded.ok) throw new Error('not read');
    const listed = new Map(loaded.value.defaults.map((d) => [d.path, d.value]));
    expect(listed.get('fingerboard.slotFloor')).toBe('follows');
    expect(listed.get('fingerboard.radiusAlong')).toBe('constant');
    expect(listed.get('fingerboard.slotsStopShort')).toBe('0 mm');
    expect(listed.get('fingerboard.binding')).toBe('none');
    for (const { path, why } of loaded.value.defaults) expect(why.length, path).toBeGreaterThan(5);
  });
});
