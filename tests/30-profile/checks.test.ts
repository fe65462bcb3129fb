import { describe, expect, it } from 'vitest';
import { edgeThickness, fallAt, halfWidthAt, slotX, spaceX } from '../../src/profile/boardShape.ts';
import { checkInstrument } from '../../src/profile/checkInstrument.ts';
import { checkShop } from '../../src/profile/checkShop.ts';
import { checkTogether } from '../../src/profile/checkTogether.ts';
import { loadInstrument } from '../../src/profile/loadInstrument.ts';
import type { Instrument, Shop, Tool } from '../../src/profile/types.ts';
import { oneScale } from '../support/scales.ts';
import { bundledShop, parlourWith, soundValue } from './bundled.ts';
import { board, face, frets, parlour, pins } from './variations.ts';

const home = soundValue(bundledShop('home-shop.yaml')).value;

const codes = (instrument: Instrument): string[] =>
  checkInstrument(instrument).map((finding) => finding.code);

describe('the shape that the checks measure with', () => {
  // Common practice, worked values for a scale of 628 mm.
  it.each([
    [1, 35.2469],
    [7, 208.8603],
    [12, 314],
    [19, 418.4301],
  ])('puts slot %d at %d', (fret, x) => {
    expect(slotX(parlour, fret)).toBeCloseTo(x, 4);
  });

  // Sagitta s = R - sqrt(R^2 - c^2/4), worked values: radius, chord, sagitta.
  it.each([
    [304.8, 56, 1.288814],
    [406.4, 56, 0.965714],
    [254, 43, 0.911577],
    [4572, 381, 3.970474],
    [7620, 406.4, 2.709815],
  ])('lets a radius of %d fall over a chord of %d by %d', (radius, chord, sagitta) => {
    expect(fallAt(radius, chord / 2)).toBeCloseTo(sagitta, 6);
  });

  it('runs the edges straight through both given widths', () => {
    expect(2 * halfWidthAt(parlour, 0)).toBeCloseTo(46, 12);
    expect(2 * halfWidthAt(parlour, slotX(parlour, 12))).toBeCloseTo(57, 12);
    expect(edgeThickness(parlour, 0)).toBeCloseTo(6 - fallAt(406.4, 23), 12);
    expect(spaceX(parlour, 1)).toBeCloseTo(35.2469 / 2, 4);
    expect(fallAt(50, 50)).toBe(Number.POSITIVE_INFINITY);
  });
});

describe('limits between fields of an instrument', () => {
  it('finds nothing wrong with the parlour', () => {
    expect(codes(parlour)).toEqual([]);
  });

  it('allows a plain string neither a core of its own nor a wrap', () => {
    const wrong = parlourWith(
      ['gauge: 16 thou, make: plain', 'gauge: 16 thou, make: plain, core: 14 thou'],
      ['gauge: 12 thou, make: plain', 'gauge: 12 thou, make: plain, wrap: nickel'],
    );
    const outcome = loadInstrument(wrong, 'wrong.yaml');
    expect(outcome.ok).toBe(false);
    expect(outcome.findings.map((f) => [f.code, f.where?.path])).toEqual([
      ['plain-with-core', 'strings[4].core'],
      ['plain-with-wrap', 'strings[5].wrap'],
    ]);
  });

  it('measures the wood under a slot at the edge, where a radiused board is thinnest', () => {
    const half = halfWidthAt(parlour, slotX(parlour, 19));
    const thin = 2 + 1.5 + fallAt(406.4, half);
    expect(codes(board({ thickness: thin + 1e-4, blankThickness: 6 }))).not.toContain('slot-too-deep');
    expect(codes(board({ thickness: thin - 1e-4, blankThickness: 6 }))).toContain('slot-too-deep');
    // The crest alone would still hold.
    expect(thin - 2).toBeGreaterThan(1.5 + 1);
  });

  it('sees a board that is called radiused but is not finished', () => {
    expect(codes(board({ surfaceWhenSlotted: 'radiused', blankThickness: 7 }))).toContain(
      'blank-not-finished',
    );
  });

  it('sees frets closer than their crowns', () => {
    expect(codes({ ...parlour, scale: oneScale(110) })).toContain('frets-too-close');
  });

  it('sees strings listed from the treble side, but not on a re-entrant family', () => {
    const turned = { ...parlour, strings: parlour.strings.toReversed() };
    expect(codes(turned)).toContain('strings-reversed');
    expect(codes({ ...turned, family: 'dulcimer' })).not.toContain('strings-reversed');
  });

  it('keeps pins out of the rod under single markers, and asks for a marker', () => {
    expect(codes(pins({ place: 'marker', frets: [3, 12] }))).toContain('pin-over-rod');
    expect(codes({ ...pins({ place: 'marker', frets: [3, 12] }), trussRod: null })).not.toContain(
      'pin-over-rod',
    );
    expect(codes(pins({ place: 'marker', frets: [4, 12] }))).toContain('pin-not-covered');
    expect(codes(pins({ frets: [2, 20] }))).toContain('no-such-fret');
    expect(codes(pins({ frets: [5, 5] }))).toContain('pins-together');
  });

  it('reports each marker on a fret that is not there, and a fret marked twice', () => {
    const at = [
      ...parlour.faceMarkers.at,
      { fret: 21, count: 1, shape: 'round', diameter: 5 } as const,
      { fret: 5, count: 1, shape: 'round', diameter: 5 } as const,
    ];
    expect(checkInstrument(face({ at })).map(({ code, where }) => [code, where?.path])).toEqual([
      ['no-such-fret', 'faceMarkers.at[7].fret'],
      ['marker-twice', 'faceMarkers.at[8].fret'],
    ]);
  });
});

// Marker families: guitar 9, mandolin and ukulele 10 (common practice, no source).
describe('marker customs', () => {
  const marked = (family: Instrument['family'], list: readonly number[]): Instrument => ({
    ...face({ at: list.map((fret) => ({ fret, count: 1, shape: 'round', diameter: 5 })) }),
    // The edge is marked as the face is.
    sideMarkers: { ...parlour.sideMarkers, at: list.map((fret) => ({ fret, count: 1 })) },
    family,
  });

  it.each<[Instrument['family'], readonly number[], readonly string[]]>([
    ['guitar', [3, 5, 7, 9, 12], []],
    ['guitar', [3, 5, 7, 10, 12], ['marker-unusual']],
    ['guitar', [3, 5, 7, 12], ['marker-unusual']],
    ['bass', [3, 5, 7, 10, 12], ['marker-unusual']],
    ['mandolin', [5, 7, 10, 12], []],
    ['mandolin', [5, 7, 9, 12], ['marker-unusual']],
    ['ukulele', [5, 7, 9, 12], ['marker-unusual']],
    ['guitar', [3, 5, 7, 9], ['octave-unmarked']],
    ['dulcimer', [3, 7, 10], []],
    ['dulcimer', [3, 10], ['marker-unusual']],
    ['other', [4, 10], ['octave-unmarked']],
    ['other', [], []],
    // Marks of other families, and of none.
    ['guitar', [3, 5, 7, 9, 11, 12], ['marker-unusual']],
    ['guitar', [1, 3, 5, 7, 9, 12, 15, 17, 19], []],
    ['mandolin', [5, 7, 10, 12, 14], ['marker-unusual']],
    ['dulcimer', [3, 7, 9], ['marker-unusual']],
  ])('%s with %j', (family, list, expected) => {
    expect(codes(marked(family, list))).toEqual(expected);
    expect(checkInstrument(marked(family, list), true)).toEqual([]);
  });

  it('hold for the edge where it is marked otherwise than the face, or alone', () => {
    const edge = (family: Instrument['family'], faces: readonly number[], sides: readonly number[]) => ({
      ...marked(family, faces),
      sideMarkers: { ...parlour.sideMarkers, at: sides.map((fret) => ({ fret, count: 1 as const })) },
    });
    expect(codes(edge('ukulele', [5, 7, 10, 12], [5, 7, 9, 12]))).toEqual(['marker-unusual']);
    expect(codes(edge('ukulele', [5, 7, 10, 12], [5, 7, 10, 12]))).toEqual([]);
    expect(checkInstrument(edge('ukulele', [], [5, 9, 12])).map((f) => [f.code, f.where?.path])).toEqual([
      ['marker-unusual', 'sideMarkers.at[1].fret'],
    ]);
    expect(codes(edge('guitar', [], [3, 5, 7, 9]))).toEqual(['octave-unmarked']);
  });

  it('are silenced in the file by markersAsDrawn', () => {
    const change = ['- { fret: 9, diameter: 6 }', '- { fret: 10, diameter: 6 }'] as const;
    expect(loadInstrument(parlourWith(change), 'p.yaml').findings.map(({ code }) => code)).toEqual([
      'marker-unusual',
    ]);
    const silenced = parlourWith(change, ['units: mm', 'units: mm\nmarkersAsDrawn: true']);
    expect(loadInstrument(silenced, 'p.yaml').findings).toEqual([]);
  });
});

describe('instrument and shop together', () => {
  const together = (instrument: Instrument, shop: Shop): (readonly [string, string | undefined])[] =>
    checkTogether(instrument, shop).map(({ code, where }) => [code, where?.path]);
  const withTools = (change: (tool: Tool) => Tool | null): Shop => ({
    ...home,
    tools: home.tools.flatMap((tool) => change(tool) ?? []),
  });

  it('finds nothing wrong with the parlour at home', () => {
    expect(together(parlour, home)).toEqual([]);
  });

  it('wants a cutter thin enough for the slots', () => {
    expect(together(frets({ slotWidth: 0.59 }), home)).toEqual([['no-tool-thin-enough', 'frets.slotWidth']]);
    expect(
      together(
        parlour,
        withTools((tool) => (tool.diameter === 0.6 ? null : tool)),
      ),
    ).toEqual([['no-tool-thin-enough', 'frets.slotWidth']]);
  });

  it("wants it long enough for the slot's depth at the edge", () => {
    const deep = 2 + fallAt(406.4, halfWidthAt(parlour, slotX(parlour, 19)));
    const cutting = (length: number) =>
      together(
        parlour,
        withTools((tool) => (tool.diameter === 0.6 ? { ...tool, cuttingLength: length } : tool)),
      );
    expect(cutting(deep + 0.001)).toEqual([]);
    expect(cutting(deep - 0.001)).toEqual([['no-tool-long-enough', 'frets.slotWidth']]);
  });

  it('asks nothing of tools for work that is done by hand', () => {
    const work = {
      ...home.work,
      fretSlots: 'hand',
      indexPins: 'hand',
      faceMarkers: 'hand',
      boardOutline: 'hand',
    };
    expect(together(frets({ slotWidth: 0.59 }), { ...home, tools: [], work })).toEqual([]);
  });

  it('wants cutters for pockets, pin holes and the outline', () => {
    const found = together(parlour, { ...home, tools: [] });
    expect(found).toEqual([
      ['no-tool-thin-enough', 'frets.slotWidth'],
      ...parlour.faceMarkers.at.map((_, i) => ['no-tool-thin-enough', `faceMarkers.at[${i}].diameter`]),
      ['no-tool-thin-enough', 'indexPins.diameter'],
      ['no-tool-thin-enough', 'fingerboard.blankThickness'],
    ]);
  });

  it('wants the blank within reach of the machine', () => {
    const machines = home.machines.map((machine) =>
      machine.kind === 'router' ? { ...machine, travel: { x: 440, y: 400, z: 80 } } : machine,
    );
    expect(together(parlour, { ...home, machines })).toEqual([
      ['board-larger-than-machine', 'machines[0].travel'],
    ]);
  });

  it('wants a tested setting for each sheet that goes to the laser', () => {
    const jigs: Instrument['jigs'] = {
      ...parlour.jigs,
      pinTemplate: { materialClass: 'acrylic', thickness: 6, margin: 10, pilot: 1.6 },
    };
    expect(together({ ...parlour, jigs }, home)).toEqual([['no-tested-setting', 'jigs.pinTemplate']]);
    const byRouter = { ...home, work: { ...home.work, pinTemplate: 'benchtop-router' } };
    expect(together({ ...parlour, jigs }, byRouter)).toEqual([]);
  });

  it('gives the shop a clean bill', () => {
    expect(checkShop(home)).toEqual([]);
    expect(
      checkShop({ ...home, machines: home.machines.map((machine) => ({ ...machine, id: 'hand' })) }).map(
        ({ code }) => code,
      ),
    ).toContain('id-reserved');
  });
});
