/** Ends of boards: arcs with rounded corners, and an outline of one's own. */
import { describe, expect, it } from 'vitest';
import { layOutAll } from '../../src/app/layOutAll.ts';
import { distanceToPolygon } from '../../src/geometry/area.ts';
import { directionAt } from '../../src/geometry/distance.ts';
import { flatten, segments } from '../../src/geometry/ring.ts';
import { segmentLength } from '../../src/geometry/segment.ts';
import type { Ring, Vec } from '../../src/geometry/types.ts';
import { layOut } from '../../src/layout/layOut.ts';
import { planJobs } from '../../src/machining/planJobs.ts';
import { makeFingerboard } from '../../src/parts/fingerboard.ts';
import { loadInstrument } from '../../src/profile/loadInstrument.ts';
import type { Instrument } from '../../src/profile/types.ts';
import type { Finding } from '../../src/report/finding.ts';
import { prove } from '../../src/verify/prove.ts';
import { textOf } from '../30-profile/bundled.ts';
import { boardWith } from '../support/boards.ts';
import { parlour, workshop } from '../support/instrument.ts';
import { bytesOf } from '../support/proofSamples.ts';
import { boardPrograms, named, written } from '../support/surfaced.ts';

const handShop = {
  ...workshop,
  tools: workshop.tools.map((tool) => (tool.id === 1 ? { ...tool, cuttingLength: 5.5, stickOut: 15 } : tool)),
};

function outlineOf(instrument: Instrument): Ring {
  const outcome = layOut(instrument);
  if (!outcome.ok) throw new Error(JSON.stringify(outcome.findings));
  return outcome.value.board.outline;
}

const END = 628 * (1 - 2 ** (-19 / 12)) + 12;

describe('an arc with rounded corners', () => {
  it.each([
    ['round', 60, 5],
    ['hollow', -60, 5],
    ['shallow', 400, 10],
  ])('is tangent all along: %s', (_name, endArc, endRounding) => {
    const ring = outlineOf(boardWith({ endArc, endRounding }));
    const sides = segments(ring);
    const arcs = sides.flatMap((s) => (s.kind === 'arc' ? [s] : []));
    expect(arcs.map((a) => Math.round(a.radius * 1e9) / 1e9)).toEqual([
      endRounding,
      Math.abs(endArc),
      endRounding,
    ]);
    expect(Math.sign(arcs[1]?.sweep ?? 0)).toBe(Math.sign(endArc));
    // The end's arc passes through its middle, its centre on the centreline.
    expect(arcs[1]?.centre[0]).toBeCloseTo(END - endArc, 9);
    expect(arcs[1]?.centre[1]).toBeCloseTo(0, 9);
    const corner = sides.findIndex((s) => s.kind === 'arc');
    for (const i of [corner - 1, corner, corner + 1, corner + 2]) {
      const [before, after] = [sides[i], sides[(i + 1) % sides.length]];
      if (before === undefined || after === undefined) throw new Error('no side');
      const [u, v] = [directionAt(before, 1), directionAt(after, 0)];
      expect(u[0] * v[1] - u[1] * v[0]).toBeCloseTo(0, 9);
      expect(u[0] * v[0] + u[1] * v[1]).toBeGreaterThan(0);
    }
    expect(sides.every((s) => segmentLength(s) > 0.1)).toBe(true);
  });

  it('keeps its sharp corners where no rounding is asked for', () => {
    const ring = outlineOf(boardWith({ endArc: 60, endRounding: 0 }));
    expect(segments(ring).filter((s) => s.kind === 'arc')).toHaveLength(1);
  });

  it.each([60, -60])('is cut and proven, bound all round or not (%s)', (endArc) => {
    for (const binding of [
      null,
      { material: 'maple', width: 1.5, around: 'sides and end', trim: 20, channelDepth: 3 } as const,
    ]) {
      const programs = boardPrograms(boardWith({ endArc, endRounding: 5, binding }), handShop);
      for (const { text, intent, name } of programs.filter((p) => /outline|channel/.test(p.name))) {
        expect(
          prove(bytesOf(text), intent).checks.filter((c) => !c.passed),
          name,
        ).toEqual([]);
      }
    }
  });
});

/** Two bows that meet in a point on the centreline, 1:1 in millimetres: the right side of a plate 80 mm wide. */
const BOWS =
  '<svg xmlns="http://www.w3.org/2000/svg" width="60mm" height="80mm" viewBox="0 0 60 80"><path d="M0 0H30A25 25 0 0 1 40 40A25 25 0 0 1 30 80H0Z"/></svg>';
const withEnd = (cornerRadius = 1.6): Instrument =>
  boardWith({ endRounding: 0, overhang: 16, endArtwork: { file: 'end.svg', cornerRadius } });
const laid = (svg: string, instrument = withEnd()) => layOutAll(instrument, () => svg);
const codesOf = (findings: readonly Finding[]): string[] =>
  findings.filter((f) => f.severity === 'error').map((f) => f.code);

describe('an end of one’s own drawing', () => {
  it('follows the right side of the drawing, its corner filled as the cutter leaves it', () => {
    const outcome = laid(BOWS);
    if (!outcome.ok) throw new Error(JSON.stringify(outcome.findings));
    expect(outcome.findings.map((f) => f.code)).toContain('artwork-rounded');
    const { outline } = outcome.value.board;
    const at = END + 4;
    const points = flatten(outline, 0.0005);
    const mine = points.filter(([x]) => x > at - 6);
    // Both bows are circles of 25 mm through two points of the drawing: their centres from the chord.
    const centreOf = (a: Vec, b: Vec): Vec => {
      const [dx, dy] = [b[0] - a[0], b[1] - a[1]];
      const chord = Math.hypot(dx, dy);
      const off = Math.sqrt(625 - (chord / 2) ** 2);
      // To the left of the way from the first to the second, seen with y up.
      return [(a[0] + b[0]) / 2 - (dy / chord) * off, (a[1] + b[1]) / 2 + (dx / chord) * off];
    };
    // The board ends where the filled corner crosses the centreline.
    expect(distanceToPolygon(points, [at, 0])).toBeLessThan(0.002);
    const [lower, upper] = [centreOf([30, -40], [40, 0]), centreOf([40, 0], [30, 40])];
    // How far the fill moved the crossing: the cutter of radius r rests on both circles.
    const up = Math.sqrt((25 + 1.6) ** 2 - upper[1] ** 2) + upper[0] - 1.6;
    const shift = at - up;
    for (const [x, y] of mine.filter((p) => Math.abs(p[1]) > 2.5 && Math.abs(p[1]) < 20)) {
      const [cx, cy] = y > 0 ? upper : lower;
      expect(Math.hypot(x - shift - cx, y - cy)).toBeCloseTo(25, 2);
    }
    expect(mine.length).toBeGreaterThan(20);
  });

  it('leaves the board’s edges and its other end as they are', () => {
    const outcome = laid(BOWS);
    if (!outcome.ok) throw new Error('no layout');
    const straight = outlineOf(boardWith({ endRounding: 0, overhang: 16 }));
    expect(outcome.value.board.outline[0]).toEqual(straight[0]);
    expect(outcome.value.board.outline.at(-1)).toEqual(straight.at(-1));
    const { at0, slope } = outcome.value.board.halfWidth;
    const [, first] = outcome.value.board.outline;
    expect(Math.abs(first?.y ?? 0)).toBeCloseTo(at0 + slope * (first?.x ?? 0), 9);
  });

  it('is mirrored with the board', () => {
    const lopsided = BOWS.replace('40 40A25 25 0 0 1 30 80', '40 40L44 80');
    const right = laid(lopsided);
    const left = laid(lopsided, { ...withEnd(), hand: 'left' });
    if (!right.ok || !left.ok) throw new Error('no layout');
    const far = flatten(right.value.board.outline, 0.001);
    const mirrored = flatten(left.value.board.outline, 0.001).map(([x, y]): Vec => [x, -y]);
    for (const p of mirrored) expect(distanceToPolygon(far, p)).toBeLessThan(0.002);
  });

  it('is cut and proven by a cutter that gets into its corner, on either hand', () => {
    for (const hand of ['right', 'left'] as const) {
      const instrument = { ...withEnd(), hand };
      const outcome = laid(BOWS, instrument);
      if (!outcome.ok) throw new Error('no layout');
      const part = makeFingerboard(instrument, outcome.value, { allowances: workshop.allowances });
      const plan = planJobs([part], handShop);
      if (!plan.ok) throw new Error(JSON.stringify(plan.findings));
      const job = plan.value.jobs.find((j) => j.program === 'fingerboard-outline.nc');
      if (job?.kind !== 'router') throw new Error('no outline');
      expect(job.tool.diameter).toBeLessThanOrEqual(3.2);
      const { text, intent } = written(job);
      const proof = prove(bytesOf(text), intent);
      expect(proof.checks.filter((c) => !c.passed)).toEqual([]);
      expect(proof.passed).toBe(true);
    }
    expect(
      named(boardPrograms(parlour, handShop), 'fingerboard-outline.nc').job.tool.diameter,
    ).toBeGreaterThan(0);
  });

  it.each([
    [BOWS.replace('H0Z', 'H0'), 'artwork-open'],
    [BOWS.replace('M0 0H30', 'M0 25H30').replace('30 80H0Z', '30 60H0Z'), 'end-artwork-too-narrow'],
    [BOWS.replace('</svg>', '<circle cx="50" cy="5" r="3"/></svg>'), 'end-artwork-not-one'],
    [BOWS.replace(/d="[^"]*"/, 'd="M0 0H6L40 40L6 80H0Z"'), 'end-cuts-slot'],
  ])('that does not do is refused: %#', (svg, code) => {
    const outcome = laid(svg);
    expect(codesOf(outcome.findings)).toContain(code);
  });

  it('that cannot be read is refused, and so is one beside another end or a strip round it', () => {
    expect(codesOf(layOutAll(withEnd(), () => null).findings)).toEqual(['artwork-not-found']);
    const text = textOf('profiles/tarn-parlour.yaml').replace(/^ {2}endRounding: .*\n/m, '');
    const codes = (lines: string): string[] =>
      codesOf(loadInstrument(text.replace(/^ {2}radius: .*$/m, `$&\n${lines}`), 'end.yaml').findings);
    expect(codes('  endArtwork: { file: end.svg }')).toEqual([]);
    expect(codes('  endArtwork: { file: end.svg }\n  endArc: 60')).toEqual(['two-ends']);
    expect(codes('  endArtwork: { file: end.svg }\n  endRounding: 3')).toEqual(['two-ends']);
    expect(codes('  endArc: 60\n  endRounding: 3')).toEqual([]);
    expect(
      codes('  endArtwork: { file: end.svg }\n  binding: { width: 1.5, around: sides and end }'),
    ).toEqual(['binding-round-drawn-end']);
  });
});
