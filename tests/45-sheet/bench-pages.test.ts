import { createHash } from 'node:crypto';
import { describe, expect, it } from 'vitest';
import { benchPageOf } from '../../src/app/workPages.ts';
import { layOut } from '../../src/layout/layOut.ts';
import type { Instrument } from '../../src/profile/types.ts';
import type { Page, PageTable } from '../../src/sheet/pages/types.ts';
import { writePageFigures } from '../../src/writers/csv/pageFigures.ts';
import { writePageHtml } from '../../src/writers/html/page.ts';
import { WORK_STYLE, WORK_STYLE_HASH } from '../../src/writers/html/pageStyle.ts';
import { writePageMarkdown } from '../../src/writers/notes/pageMarkdown.ts';
import { bundledInstrument, profileNames, soundValue, textOf } from '../30-profile/bundled.ts';
import { parlour } from '../support/instrument.ts';

function pageOf(instrument: Instrument): Page {
  const layout = layOut(instrument);
  if (!layout.ok) throw new Error(layout.findings.map((f) => f.text).join('; '));
  return benchPageOf(instrument, layout.value, '0123456789abcdef');
}

function table(page: Page, name: string): PageTable {
  const found = page.blocks.find((b): b is PageTable => b.kind === 'table' && b.name === name);
  if (found === undefined) throw new Error(`no table ${name}`);
  return found;
}

/** Cells of one column, by its head; the column of the other unit is the one after it. */
function column(of: PageTable, head: string, after = 0): string[] {
  const at = of.columns.findIndex((c) => c.head === head);
  return of.rows.map((row) => String(row[at + after]));
}

describe('bench sheets', () => {
  const page = pageOf(parlour);
  const slots = table(page, 'Fret slots by caliper');
  const nut = parlour.nut.setForward;
  const S = 628;

  it('gives the middle and both walls of every slot as jaws meet them, in both units', () => {
    const half = parlour.frets.slotWidth / 2;
    const places = Array.from({ length: 19 }, (_, i) => S - S / 2 ** ((i + 1) / 12) - nut);
    expect(column(slots, 'middle, mm')).toEqual(places.map((x) => x.toFixed(2)));
    expect(column(slots, 'middle, mm', 1)).toEqual(places.map((x) => (x / 25.4).toFixed(3)));
    expect(column(slots, 'near wall, mm')).toEqual(places.map((x) => (x - half).toFixed(2)));
    expect(column(slots, 'far wall, mm')).toEqual(places.map((x) => (x + half).toFixed(2)));
    const spread = places.map((x, i) => (i === 0 ? '' : (x - (places[i - 1] ?? 0) + 2 * half).toFixed(2)));
    expect(column(slots, 'spread, mm')).toEqual(spread);
  });

  it('leaves room for the measured figure and a box in every row', () => {
    const tables = page.blocks.filter((b): b is PageTable => b.kind === 'table');
    expect(tables.length).toBeGreaterThan(8);
    for (const { rows } of tables) {
      for (const row of rows) expect(row.some((cell) => typeof cell !== 'string')).toBe(true);
    }
  });

  it('lists markers so that one left out shows: neighbours, count and sum agree', () => {
    const markers = table(page, 'Face markers in order');
    const before = column(markers, 'from the one before, mm').map(Number);
    const next = column(markers, 'to the next, mm');
    const from = column(markers, 'from nut face, mm').map(Number);
    const places = [...new Set(from)];
    expect(column(markers, 'place')[0]).toBe(`1 of ${places.length}`);
    for (const [i, x] of places.entries()) {
      const row = from.indexOf(x);
      expect(before[row]).toBeCloseTo(x - (places[i - 1] ?? 0), 1);
      const after = places[i + 1];
      if (after === undefined) expect(next[row]).toBe('the last');
      else expect(Number(next[row])).toBeCloseTo(after - x, 1);
    }
    const sum = page.blocks
      .flatMap((b) => (b.kind === 'ticks' ? b.items : []))
      .find((t) => t.startsWith('Sum check: the column'));
    const printed = Number(/adds up to ([\d.]+)/.exec(sum ?? '')?.[1]);
    const once = places.reduce((total, x) => total + (before[from.indexOf(x)] ?? Number.NaN), 0);
    expect(printed).toBeCloseTo(once, 9);
    expect(printed).toBeCloseTo(places[places.length - 1] ?? 0, 1);
  });

  it('turns the straightedge into wood by the factor of the heel', () => {
    const { value } = soundValue(bundledInstrument('tarn-parlour.yaml'));
    const worked = table(pageOf(value), 'From the measured figures to wood');
    const factor = (row: number): number =>
      Number(/x ([\d.]+)(?:,|$)/.exec(String(worked.rows[row]?.[1]).replace('x 2 ', ''))?.[1]);
    // One plane through the face's middle: at depth s it takes off s e / L, at half width w / 2 it takes off w y / (2 L).
    const joint = 314;
    const saddle = 628 + (4.5 + 1.6) / 2;
    const L = saddle - joint;
    expect(factor(1)).toBeCloseTo(85 / L, 3);
    expect(factor(2)).toBeCloseTo(85 / L, 3);
    expect(factor(4)).toBeCloseTo(56 / 2 / L, 3);
    expect(factor(5)).toBeCloseTo(20 / 2 / L, 3);
  });

  it('counts from the nut face where that is not scale zero', () => {
    const forward = pageOf({ ...parlour, nut: { ...parlour.nut, setForward: 0.8 } });
    const moved = column(table(forward, 'Fret slots by caliper'), 'middle, mm').map(Number);
    const plain = column(slots, 'middle, mm').map(Number);
    for (const [i, x] of moved.entries()) expect(x).toBeCloseTo((plain[i] ?? 0) + nut - 0.8, 1);
    expect(forward.head.join(' ')).toMatch(/0\.80 mm \(0\.031 in\) forward of scale zero/);
  });

  it('says which edge is the bass edge of either hand', () => {
    expect(page.head.join(' ')).toContain('the bass edge is the near one');
    const left = pageOf({ ...parlour, hand: 'left' });
    expect(left.head.join(' ')).toContain('LEFT-HANDED');
    expect(left.head.join(' ')).toContain('the bass edge is the far one');
    expect(column(table(left, 'Holes from above'), 'side').sort()).toEqual(
      column(table(page, 'Holes from above'), 'side').sort(),
    );
  });

  const instruments = profileNames().filter((name) => /^scale:/m.test(textOf(`profiles/${name}`)));
  it.each(instruments)('%s has sheets without a gap in them', (name) => {
    const { value } = soundValue(bundledInstrument(name));
    // Artwork is laid out by the whole job; what is not artwork is enough here.
    const plain = { ...value, faceMarkers: { ...value.faceMarkers, artwork: [] } };
    const text = writePageMarkdown(pageOf(plain));
    expect(text).not.toMatch(/NaN|undefined|Infinity|null/);
    expect(text.length).toBeGreaterThan(4000);
  });
});

describe('the figures of a page as a table of values', () => {
  const csv = writePageFigures(pageOf(parlour));
  const lines = csv.trimEnd().split('\r\n');

  it('has a row for every figure, in both units, and an empty cell to fill', () => {
    expect(lines[0]).toBe('"table","item","figure","mm","in","measured"');
    expect(lines).toContain(
      '"Fret slots by caliper","12, after 11, before 13","middle","314.00","12.362",""',
    );
    const slotRows = lines.filter((line) => line.startsWith('"Fret slots by caliper"'));
    expect(slotRows).toHaveLength(19 * 4 - 1);
  });

  it('keeps both units of a row the same length', () => {
    const both = lines
      .slice(1)
      .map((line) => /"(-?[\d.]+)","(-?[\d.]+)",""$/.exec(line))
      .filter((m) => m !== null);
    expect(both.length).toBeGreaterThan(150);
    for (const [, mm, inch] of both) expect(Math.abs(Number(mm) - Number(inch) * 25.4)).toBeLessThan(0.0178);
  });
});

describe('a page that holds a hostile name', () => {
  const hostile = '</style><script>x</script> | `b` [a](javascript:1) \u2028 <img src=x onerror=1>';
  const page = pageOf({ ...parlour, name: hostile });

  it('never lets it become markup', () => {
    const html = writePageHtml(page);
    expect(html).not.toMatch(/<script|<img/);
    expect(html.split('</style>')).toHaveLength(2);
    const markdown = writePageMarkdown(page);
    expect(markdown).not.toContain('<script');
    expect(markdown).not.toMatch(/[^\\]\]\(javascript/);
  });

  it('names the hash of the style that it carries', () => {
    expect(WORK_STYLE_HASH).toBe(`sha256-${createHash('sha256').update(WORK_STYLE).digest('base64')}`);
  });
});
