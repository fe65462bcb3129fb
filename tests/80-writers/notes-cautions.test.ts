import { describe, expect, it } from 'vitest';
import { CAUTIONS, cautionsFor, type Situation } from '../../src/writers/notes/cautions.ts';

const NOTHING: Situation = {
  workers: [],
  classes: [],
  materials: [],
  tools: [],
  parts: [],
  clearedBefore: false,
  strings: false,
  trussRod: false,
};

const idsFor = (over: Partial<Situation>): string[] =>
  cautionsFor({ ...NOTHING, ...over })
    .map((c) => c.id)
    .filter((id) => id !== 'others-come-first');

describe('cautions', () => {
  it('have ids of their own, a title and a text', () => {
    expect(new Set(CAUTIONS.map((c) => c.id)).size).toBe(CAUTIONS.length);
    expect(CAUTIONS.every((c) => c.when.length > 0 && c.title.length > 2 && c.text.endsWith('.'))).toBe(true);
  });

  it('defer to manual, data sheet, codes and trained people, always', () => {
    const [first, ...others] = cautionsFor(NOTHING);
    expect(others).toEqual([]);
    expect(first?.text).toMatch(/manual.*data sheet.*local codes.*trained/);
    expect(first?.text).toContain('starting points');
  });

  it('name the source of every figure they print', () => {
    // UK HSE wood dust pages: 3 and 5 mg/m3; NIOSH recommended limit 1 mg/m3; Orriols et al., Eur. Respir. J. 10(4) 1997: 6 of 26.
    const withFigures = CAUTIONS.filter((c) => /mg\/m3|\d+ of \d+/.test(c.text));
    expect(withFigures.map((c) => c.id)).toEqual(['wood-dust', 'shell-dust']);
    expect(withFigures[0]?.text).toMatch(
      /hardwood dust 3 mg\/m3, softwood 5 mg\/m3.*Health and Safety Executive.*1 mg\/m3.*NIOSH/,
    );
    expect(withFigures[1]?.text).toMatch(/6 of 26.*Orriols/);
  });

  it('for a laser: chlorine, staying with it, fumes', () => {
    expect(idsFor({ workers: ['laser'] })).toEqual([
      'stop-at-hand',
      'laser-chlorine',
      'laser-alone',
      'laser-fumes',
    ]);
    expect(idsFor({ workers: ['laser'], classes: ['acrylic'] })).toContain('laser-acrylic');
    expect(idsFor({ workers: ['router'], classes: ['acrylic'] })).not.toContain('laser-acrylic');
  });

  it('for a router: eyes and ears, holding, clothing; for thin cutters that they break', () => {
    expect(idsFor({ workers: ['router'], tools: [3.175] })).toEqual([
      'eyes-and-ears',
      'workholding',
      'loose-clothing',
      'stop-at-hand',
    ]);
    expect(idsFor({ workers: ['router'], tools: [3.175, 0.6] })).toContain('small-cutter');
  });

  it('for tropical hardwood: dust twice, and papers', () => {
    expect(idsFor({ classes: ['tropical hardwood'] })).toEqual([
      'wood-dust',
      'tropical-dust',
      'protected-species',
    ]);
    expect(idsFor({ classes: ['softwood'] })).toEqual(['wood-dust']);
  });

  it('for shell by any of its names, however it is spelt', () => {
    expect(idsFor({ materials: ['White Mother-of-Pearl'] })).toEqual(['shell-dust', 'protected-species']);
    expect(idsFor({ materials: ['bone'] })).toEqual([]);
  });

  it('for what stores energy', () => {
    expect(idsFor({ strings: true, trussRod: true })).toEqual(['string-tension', 'truss-rod']);
  });

  it('say to check the current appendices, and state no rule', () => {
    const text = CAUTIONS.find((c) => c.id === 'protected-species')?.text ?? '';
    expect(text).toContain('Check the current CITES appendices');
    expect(text).not.toMatch(/\bkg\b|annotation|Appendix I/);
  });
});
