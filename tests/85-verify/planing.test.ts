/** A flat board out of a thicker blank: planed by the router first, every later program proven on what is left. */
import { describe, expect, it } from 'vitest';
import { planJobs } from '../../src/machining/planJobs.ts';
import { checkTogether } from '../../src/profile/checkTogether.ts';
import type { Instrument, Shop } from '../../src/profile/types.ts';
import { prove } from '../../src/verify/prove.ts';
import { benchChecks } from '../../src/writers/notes/benchChecks.ts';
import { surfaceRows } from '../../src/writers/notes/surfaceRows.ts';
import { boardWith } from '../support/boards.ts';
import { numbers, without } from '../support/damage.ts';
import { partsOf } from '../support/job.ts';
import { bytesOf } from '../support/proofSamples.ts';
import { nutLedge, seated } from '../support/seats.ts';
import { boardPrograms, named, surfacingShop, type Written } from '../support/surfaced.ts';

const flat = (blankThickness: number): Instrument =>
  boardWith({ radius: Number.POSITIVE_INFINITY, blankThickness });
const shop: Shop = { ...surfacingShop, tools: surfacingShop.tools.filter((tool) => tool.kind !== 'ball') };

const failed = ({ text, intent }: Written): string[] => {
  const proof = prove(bytesOf(text), intent);
  return [
    ...proof.checks.filter((c) => !c.passed).map((c) => c.name),
    ...proof.refusals.map((r) => JSON.stringify(r)),
  ];
};

describe('a flat board in a thicker blank', () => {
  const programs = boardPrograms(flat(7.8), shop);

  it('is planed first, by a flat cutter alone, and all its programs are proven', () => {
    expect(programs.map((p) => p.name)).toEqual([
      'fingerboard-surface.nc',
      'fingerboard-pins.nc',
      'fingerboard-slots.nc',
      'fingerboard-markers.nc',
      'fingerboard-outline.nc',
    ]);
    for (const program of programs) expect(failed(program), program.name).toEqual([]);
  });

  it('measures every height from the blank’s own top, which stays at its ends', () => {
    const planing = named(programs, 'fingerboard-surface.nc');
    expect(planing.intent.cuts[0]?.floor).toEqual({ kind: 'plane', z: 6.5 - 7.8 });
    expect(planing.intent.stock.top).toEqual({ kind: 'plane', z: 0 });
    expect(planing.job.setup.workZero).toContain('Z0 on its top');
    for (const { intent, job } of programs.slice(1)) {
      expect(intent.stock.top).toMatchObject({ kind: 'planed', z: 0 });
      expect(job.setup.workZero).toContain('Z0 on the flat that is left at that end');
    }
    const slots = named(programs, 'fingerboard-slots.nc').intent.cuts[0];
    expect(slots?.floor).toEqual({ kind: 'plane', z: -1.3 - 2 });
  });

  it('goes down in even steps that the cutter may take', () => {
    const { text, job } = named(programs, 'fingerboard-surface.nc');
    const levels = [...new Set([...text.matchAll(/Z(-[\d.]+)/g)].map((m) => Number(m[1])))];
    expect(levels.at(-1)).toBeCloseTo(-1.3, 9);
    const steps = levels.map((z, i) => (levels[i - 1] ?? 0) - z);
    expect(Math.max(...steps)).toBeLessThanOrEqual(Math.min(0.5, job.feeds.stepDown) + 1e-3);
    expect(Math.max(...steps) - Math.min(...steps)).toBeLessThan(0.001);
  });

  it('has slots that a short cutter reaches, since it works in the planed board', () => {
    const short: Shop = {
      ...shop,
      tools: shop.tools.map((tool) => (tool.id === 1 ? { ...tool, cuttingLength: 2.1 } : tool)),
    };
    expect(checkTogether(flat(7.8), short).map((f) => f.code)).not.toContain('no-tool-long-enough');
    expect(planJobs(partsOf(flat(7.8), short), short).findings.map((f) => f.code)).not.toContain(
      'no-tool-fits',
    );
  });

  it('says so in words', () => {
    const { job } = named(programs, 'fingerboard-surface.nc');
    expect(new Map(surfaceRows(job)).get('Planes off')).toContain('1.30 mm all over');
    expect(benchChecks(flat(7.8), []).boardSurface).toContain('a straightedge');
  });

  it('goes with a nut on a ledge, and for the other hand', () => {
    for (const program of boardPrograms({ ...seated(nutLedge, {}, flat(7)), hand: 'left' }, shop))
      expect(failed(program), program.name).toEqual([]);
  });

  it('is not planed where the blank has its thickness or the hand planes it', () => {
    const names = (instrument: Instrument, of: Shop): string[] =>
      boardPrograms(instrument, of).map((p) => p.name);
    expect(names(flat(6.5), shop)).not.toContain('fingerboard-surface.nc');
    const byHand = { ...shop, work: { ...shop.work, boardSurface: 'hand' } };
    expect(names(flat(7.8), byHand)).not.toContain('fingerboard-surface.nc');
  });

  it('needs land at the blank’s ends', () => {
    const tight: Shop = { ...shop, allowances: { ...shop.allowances, ends: 6 } };
    expect(planJobs(partsOf(flat(7.8), tight), tight).findings.map((f) => f.code)).toEqual([
      'no-land-at-ends',
    ]);
  });
});

describe('a damaged planing program', () => {
  const good = named(boardPrograms(flat(7.8), shop), 'fingerboard-surface.nc');
  const refused = (text: string): string[] => failed({ ...good, text });

  it('is refused too deep, too high, or with a row missing', () => {
    expect(refused(numbers('Z', (z) => (z < 0 ? z - 0.03 : z))(good.text))).toContain('floor deep');
    expect(refused(numbers('Z', (z) => (z < 0 ? z + 0.03 : z))(good.text))).toContain('ridges left');
    const lines = good.text.split('\n');
    const rows = lines.flatMap((line, i) => (/^Y-?[\d.]+/.test(line) ? [i] : []));
    const late = rows.at(-4) ?? 0;
    expect(refused(without(late, late + 2)(good.text)).length).toBeGreaterThan(0);
  });
});
