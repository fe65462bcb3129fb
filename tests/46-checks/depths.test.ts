import { describe, expect, it } from 'vitest';
import { readArtwork } from '../../src/artwork/readArtwork.ts';
import { checkLayout } from '../../src/checks/checkLayout.ts';
import { layOut } from '../../src/layout/layOut.ts';
import { makeParts } from '../../src/parts/makeParts.ts';
import { settingsOf } from '../../src/parts/settings.ts';
import type { PocketFeature } from '../../src/parts/types.ts';
import { checkInstrument } from '../../src/profile/checkInstrument.ts';
import type { Instrument, MarkerArtwork } from '../../src/profile/types.ts';
import type { Finding } from '../../src/report/finding.ts';
import { parlour, workshop } from '../support/instrument.ts';

/** A plain disc, and two of them at the ends of a drawing 30 mm wide. */
const DRAWINGS: Readonly<Record<string, string>> = {
  'disc.svg':
    '<svg xmlns="http://www.w3.org/2000/svg" width="8mm" height="8mm" viewBox="0 0 8 8"><circle cx="4" cy="4" r="4"/></svg>',
  'two.svg':
    '<svg xmlns="http://www.w3.org/2000/svg" width="30mm" height="8mm" viewBox="0 0 30 8"><circle cx="4" cy="4" r="4"/><circle cx="26" cy="4" r="4"/></svg>',
};

const art = (change: Partial<MarkerArtwork> = {}): MarkerArtwork => ({
  file: 'disc.svg',
  fret: 3,
  between: null,
  rotate: 0,
  size: { kind: 'scale', scale: 1 },
  mirrorForLeftHand: true,
  ...change,
});

type Change = Partial<Instrument['faceMarkers']>;
const faces = (change: Change, board: Partial<Instrument['fingerboard']> = {}): Instrument => ({
  ...parlour,
  faceMarkers: { ...parlour.faceMarkers, at: [], ...change },
  fingerboard: { ...parlour.fingerboard, ...board },
});

function laidOut(instrument: Instrument) {
  const artwork = readArtwork(instrument.faceMarkers, (name) => DRAWINGS[name] ?? null);
  if (!artwork.ok) throw new Error(JSON.stringify(artwork.findings));
  const layout = layOut(instrument, artwork.value);
  if (!layout.ok) throw new Error(JSON.stringify(layout.findings));
  return layout.value;
}

const found = (instrument: Instrument): Finding[] => checkLayout(laidOut(instrument), instrument);
const told = (instrument: Instrument) => found(instrument).map((f) => [f.code, f.severity, f.where?.path]);

/** How far a circle of 16 inches has fallen at y. */
const fall = (y: number): number => 406.4 - Math.sqrt(406.4 ** 2 - y ** 2);

const both = ['flat', 'radiused'] as const;
const TOO_DEEP = ['pocket-too-deep', 'error', 'faceMarkers.thickness'];
const SANDED = ['marker-sanded-away', 'error', 'faceMarkers.thickness'];

describe.each(both)('pockets cut into a %s board', (surfaceWhenSlotted) => {
  const set = (change: Change, thickness = 6.5): Instrument =>
    faces(change, { surfaceWhenSlotted, thickness, blankThickness: thickness + 1 });
  /** From the bottom of the blank to the floor that is cut. */
  const woodCut = (instrument: Instrument): readonly number[] =>
    makeParts(instrument, laidOut(instrument), settingsOf(workshop)).flatMap((part) =>
      part.features
        .filter((f): f is PocketFeature => f.kind === 'pocket' && f.work === 'faceMarkers')
        .map((f) => part.blank.thickness + (f.floor.kind === 'plane' ? f.floor.z : Number.NaN)),
    );

  it('for artwork leave the least wood asked for, or are refused', () => {
    // On the centreline: 6.5 + 0.2 proud - 5.2 of marker is 1.5 of wood, as asked.
    const just = set({ artwork: [art()], thickness: 5.2 });
    expect(told(just)).toEqual([]);
    expect(woodCut(just)).toEqual([expect.closeTo(1.5, 9)]);
    const deep = set({ artwork: [art()], thickness: 5.22 });
    expect(told(deep)).toEqual([TOO_DEEP]);
    expect(found(deep)[0]?.text).toBe(
      'The pocket of artwork-01 (faceMarkers.artwork[0]) leaves 1.48 mm of wood below it.',
    );
    expect(found(set({ artwork: [art()], thickness: 6.8 }))[0]?.text).toContain('cuts through the board');
  });

  it('for artwork off the centreline are as deep as the board is low there', () => {
    // Halfway between the two outer strings, 8 mm across: its near side is 4 mm nearer.
    const beside = art({ between: [1, 2] });
    const [marker] = laidOut(set({ artwork: [beside] })).faceMarkers;
    const near = Math.abs(marker?.at[1] ?? 0) - 4;
    expect(near).toBeGreaterThan(10);
    const most = 6.5 - fall(near) + 0.2 - 1.5;
    const just = set({ artwork: [beside], thickness: most - 1e-4 });
    expect(told(just)).toEqual([]);
    expect(woodCut(just)[0]).toBeCloseTo(1.5, 3);
    expect(told(set({ artwork: [beside], thickness: most + 1e-3 }))).toEqual([TOO_DEEP]);
  });

  it('for forms are held to the same', () => {
    const at = [{ fret: 3, count: 2, shape: 'round', diameter: 6 }] as const;
    // Inner sides 10 mm from the centreline: 0.123 lower.
    const most = 6.5 - fall(10) + 0.2 - 1.5;
    expect(told(set({ at, thickness: most - 1e-4 }))).toEqual([]);
    expect(told(set({ at, thickness: most + 1e-3 }))).toEqual([TOO_DEEP]);
    expect(found(set({ at, thickness: most + 0.1 }))[0]?.text).toContain('faceMarkers.at[0]');
  });

  it('leave of artwork what levelling spares', () => {
    // Across the board a drawing 30 mm wide, in one piece at its outer ends: 15 mm from the centreline.
    const wide = art({ fret: 2, size: { kind: 'scale', scale: 30 / 8 } });
    const left = (thickness: number): number => thickness - 0.2 - fall(15);
    const [thin, sanded] = [0.5, 0.3].map((least) => least - left(0));
    expect(told(set({ artwork: [wide], thickness: (thin ?? 0) + 1e-3 }))).toEqual([]);
    expect(told(set({ artwork: [wide], thickness: (thin ?? 0) - 1e-3 }))).toEqual([
      ['marker-left-thin', 'warning', 'faceMarkers.artwork[0]'],
    ]);
    expect(told(set({ artwork: [wide], thickness: (sanded ?? 0) + 1e-3 }))).toEqual([
      ['marker-left-thin', 'warning', 'faceMarkers.artwork[0]'],
    ]);
    const lost = set({ artwork: [wide], thickness: (sanded ?? 0) - 1e-3 });
    expect(told(lost)).toEqual([SANDED]);
    expect(found(lost)[0]?.text).toMatch(/^Levelling takes 0\.48 mm off .* 15 mm from the centreline/);
  });

  it('leave of forms what levelling spares', () => {
    const at = [{ fret: 12, count: 2, shape: 'round', diameter: 5 }] as const;
    // From 10.5 to 15.5 mm out.
    const least = 0.3 + 0.2 + fall(15.5) - fall(10.5);
    expect(told(set({ at, thickness: least + 1e-3, leastLeft: 0.3 }))).toEqual([]);
    expect(told(set({ at, thickness: least - 1e-3, leastLeft: 0.3 }))).toEqual([SANDED]);
  });
});

describe('one artwork of several figures', () => {
  it('is told of once, by the figure that is worst', () => {
    const turned = art({ file: 'two.svg', fret: 2, rotate: Math.PI / 2 });
    const bad = faces({ artwork: [turned, art({ fret: 5 })], thickness: 0.6, proud: 0.2 });
    // The figures reach from 7 to 15 mm out, the disc to 4 mm: 0.6 less 0.2 less 0.217 and less 0.02.
    expect(told(bad)).toEqual([SANDED, ['marker-left-thin', 'warning', 'faceMarkers.artwork[1]']]);
    expect(found(bad)[0]?.text).toContain('artwork-01');
  });
});

describe('a cone', () => {
  it('takes more of a long inlay at the end where its radius is less', () => {
    const cone = { radius: 150, radiusAlong: { kind: 'cone', fret: 19, radius: 600 } } as const;
    const long = faces(
      { artwork: [art({ fret: 1, size: { kind: 'scale', scale: 3 } })], thickness: 1, leastLeft: 0.3 },
      cone,
    );
    const layout = laidOut(long);
    const marker = layout.faceMarkers[0];
    const middle = marker?.at[0] ?? Number.NaN;
    // Over the disc's edge, by a scan of its own: R runs evenly from 150 at the nut to 600 at fret 19.
    const last = layout.slots.at(-1)?.x ?? Number.NaN;
    const lows = Array.from({ length: 3600 }, (_, k) => {
      const [x, y] = [
        middle + 12 * Math.cos((k * Math.PI) / 1800),
        12 * Math.sin((k * Math.PI) / 1800),
      ] as const;
      const radius = 150 + (450 * x) / last;
      return radius - Math.sqrt(radius * radius - y * y);
    });
    const left = 1 - 0.2 - Math.max(...lows);
    const told = found({ ...long, faceMarkers: { ...long.faceMarkers, leastLeft: 2 } })[0];
    expect(Number(told?.found?.replace(' mm', ''))).toBeCloseTo(left, 2);
  });
});

describe('the profile by itself', () => {
  it('does not hold markers against the board twice', () => {
    const codes = checkInstrument(faces({ thickness: 6.8, artwork: [art()] })).map(({ code }) => code);
    expect(codes).not.toContain('pocket-too-deep');
  });
});
