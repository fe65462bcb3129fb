import fc from 'fast-check';
import { beforeAll, describe, expect, it } from 'vitest';
import { checkJob } from '../../src/app/check.ts';
import { type Made, makeJob } from '../../src/app/make.ts';
import { hashesOf } from '../../src/app/programs.ts';
import type { ProvenProgram } from '../../src/app/types.ts';
import { buildProgramIntent } from '../../src/intent/buildProgram.ts';
import { packShelves } from '../../src/parts/packShelves.ts';
import { loadInstrument } from '../../src/profile/loadInstrument.ts';
import { provePairs } from '../../src/verify/inlay/provePairs.ts';
import type { InlayPair, InlayPairs, WrittenProgram } from '../../src/verify/inlay/types.ts';
import { readProject, soundValue, textOf } from '../30-profile/bundled.ts';
import { runProgram } from '../support/machine/run.ts';
import type { Left, Step } from '../support/machine/types.ts';

const PROFILE = 'tests/30-profile/shaped-markers.yaml';
const GAP = 0.025;

const swap = (text: string, pairs: readonly (readonly [string, string])[]): string =>
  pairs.reduce((t, [from, to]) => {
    if (!t.includes(from)) throw new Error(`the profile does not say: ${from}`);
    return t.replace(from, to);
  }, text);

const LEAF =
  '<svg xmlns="http://www.w3.org/2000/svg" width="40mm" height="20mm" viewBox="0 0 80 40"><path id="leaf" d="M0 15 C 10 0 40 0 60 15 S 10 30 0 15 Z"/><circle cx="25" cy="15" r="5"/></svg>';

/** Only what is needed for a fit: fewer programs to write. */
const profile = swap(textOf(PROFILE), [
  ['    - { fret: 3, shape: diamond, length: 8, width: 5 }\n', ''],
  [
    '{ fret: 7, shape: diamond, length: 8, width: 5 }',
    '{ fret: 7, shape: notched block, length: 12, width: 20, notchDepth: 3, notchWidth: 7 }',
  ],
  ['{ fret: 15, shape: square, side: 5 }', '{ fret: 15, shape: ring, diameter: 9, inner: 4 }'],
  [
    '  spread: 24\n',
    '  spread: 24\n  inlays: { blank: { length: 60, width: 40 } }\n  artwork:\n    - { file: leaf.svg, fret: 3, width: 22, rotate: 20 deg }\n',
  ],
]);

const SHOP = 'profiles/benchtop-router.yaml';
const sources = (text: string) => ({
  profile: { path: PROFILE, text },
  shop: { path: SHOP, text: textOf(SHOP) },
  readInclude: readProject,
  readBeside: (name: string) => (name === 'leaf.svg' ? LEAF : null),
});

let made: Made;
let pairs: InlayPairs;

const json = (path: string) =>
  JSON.parse(new TextDecoder().decode(made.files.find((f) => f.path === path)?.bytes));

const written = (program: ProvenProgram, text = program.text): WrittenProgram => ({
  bytes: new TextEncoder().encode(text),
  intent: buildProgramIntent(program.jobs, '0'.repeat(64), hashesOf(made.programs)),
});

const isInlayWork = (p: ProvenProgram): boolean =>
  p.job.operations.length > 0 && (p.job.part.id.startsWith('inlays') || /markers/.test(p.path));

beforeAll(() => {
  made = soundValue(makeJob(sources(profile)));
  pairs = json('intent/inlay-pairs.json');
}, 120_000);

describe('parts cut for their pockets', () => {
  it('are all made, on pieces that are bought and not sawn', () => {
    expect(made.programs.every((p) => p.proof.passed)).toBe(true);
    expect(pairs.pairs.map((p) => p.pocket).sort()).toEqual([
      'artwork-01',
      'face-marker-05',
      'face-marker-07',
      'face-marker-09',
      'face-marker-12-bass',
      'face-marker-12-treble',
      'face-marker-15',
      'face-marker-17',
    ]);
    const list = new TextDecoder().decode(made.files.find((f) => f.path === 'cut-list.md')?.bytes);
    expect(list).toContain('pieces for inlays, shell');
    expect(list).not.toContain('round face markers');
    const notes = new TextDecoder().decode(made.files.find((f) => f.path === 'feed-notes.md')?.bytes);
    expect(notes).toContain('Glue the whole piece');
    expect(notes).toContain('Shell dust');
  });

  it('are proven to stand off their pockets by what was asked, within 0.02 mm, corners included', () => {
    const proof = json('proof/inlay-pairs.json');
    expect(proof.passed).toBe(true);
    expect(proof.checks).toHaveLength(16);
    for (const check of proof.checks) {
      expect(check.limit).toBe(0.02);
      expect(check.value).toBeLessThan(0.004);
      expect(check.seen).toBeGreaterThan(500);
    }
  });
});

const FRESH: Left = {
  scale: 1,
  absolute: true,
  plane: 17,
  inverse: false,
  offset: 54,
  compensated: false,
  lengthOf: 0,
  dwell: 1,
  exact: true,
  at: [0, 0, 20],
};

/** Points along all feeds at the deepest level of a program, 0.01 mm apart, by the tests' own machine. */
function deepPoints(program: ProvenProgram, depth: (z: number) => boolean): [number, number][] {
  const run = runProgram(program.text, FRESH);
  if (run.stopped !== null) throw new Error(run.stopped);
  const [ox, oy] = [program.job.setup.shift[0], program.job.setup.shift[1]];
  return run.steps
    .filter((s) => !s.rapid && depth(Math.max(s.z0, s.z1)))
    .flatMap((s) => pointsOf(s).map(([x, y]): [number, number] => [x + ox, y + oy]));
}

function pointsOf(s: Step): [number, number][] {
  const length = s.shape === 'line' ? Math.hypot(s.x1 - s.x0, s.y1 - s.y0) : Math.abs(s.radius * s.turn);
  const count = Math.max(1, Math.ceil(length / 0.01));
  return Array.from({ length: count + 1 }, (_, i) => {
    const t = i / count;
    return s.shape === 'line'
      ? [s.x0 + (s.x1 - s.x0) * t, s.y0 + (s.y1 - s.y0) * t]
      : [s.ca + s.radius * Math.cos(s.a0 + s.turn * t), s.cb + s.radius * Math.sin(s.a0 + s.turn * t)];
  });
}

const nearest = (points: readonly [number, number][], x: number, y: number): number =>
  Math.sqrt(points.reduce((least, [px, py]) => Math.min(least, (px - x) ** 2 + (py - y) ** 2), 1e9));

describe('the gap, measured by other means', () => {
  // Along a ray out of the part: where the part's own cut begins, and where the pocket's ends.
  it.each(['face-marker-07', 'artwork-01', 'face-marker-15'])('is the same in %s', (pocketId) => {
    const pair = pairs.pairs.find((p) => p.pocket === pocketId) as InlayPair;
    const work = made.programs.filter(isInlayWork);
    const has = (p: ProvenProgram, id: string): boolean =>
      p.jobs.some((j) =>
        j.operations.some((o) => o.feature === id || o.feature.startsWith(`rest-of-${id}-`)),
      );
    const radiusOf = (p: ProvenProgram): number => (p.job.kind === 'router' ? p.job.tool.diameter / 2 : 0);
    const { from, quarters, to } = pair.toPocket;
    const near = ([x, y]: [number, number]): boolean => Math.hypot(x - to[0], y - to[1]) < 16;
    const floor = made.programs
      .flatMap((p) => p.intents.flatMap((i) => i.cuts))
      .find((c) => c.feature === pocketId)?.floor;
    const z = floor?.kind === 'plane' ? floor.z : Number.NaN;
    const pocketPaths = work
      .filter((p) => has(p, pocketId))
      .map((p) => ({ r: radiusOf(p), points: deepPoints(p, (h) => h <= z + 0.005).filter(near) }));
    const partProgram = work.find((p) => has(p, pair.part)) as ProvenProgram;
    const bottom = -partProgram.job.part.blank.thickness;
    const partPoints = deepPoints(partProgram, (h) => h <= bottom)
      .map(([x, y]): [number, number] => {
        let [dx, dy] = [x - from[0], y - from[1]];
        for (let k = 0; k < ((quarters % 4) + 4) % 4; k += 1) [dx, dy] = [-dy, dx];
        return [to[0] + dx, to[1] + dy];
      })
      .filter(near);
    const r = radiusOf(partProgram);
    const isCut = (x: number, y: number): boolean =>
      pocketPaths.some(({ r: radius, points }) => nearest(points, x, y) < radius);
    const isPart = (x: number, y: number): boolean => nearest(partPoints, x, y) >= r;
    let seen = 0;
    for (let k = 0; k < 24; k += 1) {
      const angle = (2 * Math.PI * (k + 0.37)) / 24;
      const [ux, uy] = [Math.cos(angle), Math.sin(angle)];
      // From well outside the pocket inward to its wall, then on to the part's.
      let u = 15;
      while (u > 0 && !isCut(to[0] + ux * u, to[1] + uy * u)) u -= 0.2;
      if (u <= 0) continue;
      const wall = halve(u, u + 0.2, (v) => isCut(to[0] + ux * v, to[1] + uy * v));
      let w = wall;
      while (w > wall - 1 && !isPart(to[0] + ux * w, to[1] + uy * w)) w -= 0.002;
      const [px, py] = [to[0] + ux * w, to[1] + uy * w];
      // The way along the ray is longer than the gap; from the part's wall the pocket's nearest wall is the gap away.
      const gap = shortestOut(px, py, isCut);
      expect(Math.abs(gap - GAP)).toBeLessThan(0.008);
      seen += 1;
    }
    expect(seen).toBeGreaterThan(20);
  });
});

function halve(inside: number, outside: number, isIn: (v: number) => boolean): number {
  let [a, b] = [inside, outside];
  while (b - a > 1e-4) {
    const middle = (a + b) / 2;
    if (isIn(middle)) a = middle;
    else b = middle;
  }
  return a;
}

function shortestOut(x: number, y: number, isCut: (x: number, y: number) => boolean): number {
  return Math.min(
    ...Array.from({ length: 90 }, (_, k) => {
      const [ux, uy] = [Math.cos((k * Math.PI) / 45), Math.sin((k * Math.PI) / 45)];
      return isCut(x + ux * 0.06, y + uy * 0.06)
        ? 0.06
        : halve(0, 0.06, (v) => isCut(x + ux * v, y + uy * v));
    }),
  );
}

describe('the proof of a pair', () => {
  const prove = (change: (pair: InlayPair) => InlayPair, text = (p: ProvenProgram): string => p.text) =>
    provePairs(
      { ...pairs, pairs: pairs.pairs.filter((p) => p.pocket === 'face-marker-07').map(change) },
      made.programs.filter(isInlayWork).map((p) => written(p, text(p))),
    );
  const failed = (checks: ReturnType<typeof prove>): string[] =>
    checks.filter((c) => !c.passed).map((c) => c.name);

  it('passes what was made', () => {
    expect(failed(prove((pair) => pair))).toEqual([]);
  });

  it('refuses a part that is shifted, turned over or meant with another gap', () => {
    const shifted = prove((p) => ({
      ...p,
      toPocket: { ...p.toPocket, to: [p.toPocket.to[0] + 0.03, p.toPocket.to[1]] },
    }));
    expect(failed(shifted)).toEqual(['gap too narrow', 'gap too wide']);
    const turned = prove((p) => ({ ...p, toPocket: { ...p.toPocket, quarters: p.toPocket.quarters + 1 } }));
    expect(failed(turned)).toEqual(['gap too narrow', 'gap too wide']);
    expect(failed(prove((p) => ({ ...p, gap: 0.05 })))).toContain('gap too narrow');
    expect(failed(prove((p) => ({ ...p, gap: 0 })))).toContain('gap too wide');
  });

  it('refuses a pocket of which a wall was moved, and a part that is not there', () => {
    const moved = prove(
      (pair) => pair,
      (p) =>
        /markers/.test(p.path)
          ? p.text.replace(
              /^(G1 .*?X)(-?[\d.]+)/gm,
              (_, head, x) => `${head}${(Number(x) + 0.04).toFixed(4)}`,
            )
          : p.text,
    );
    expect(failed(moved).length).toBeGreaterThan(0);
    const missing = prove((p) => ({ ...p, part: 'no-such-part', openings: [] }));
    expect(failed(missing)).toEqual(['gap too narrow', 'gap too wide']);
    expect(missing.map((c) => c.seen)).toEqual([0, 0]);
  });
});

describe('packing', () => {
  it('lays every item on a piece, apart from all others and from the edges', () => {
    const size = fc.record({
      length: fc.double({ min: 2, max: 30, noNaN: true }),
      width: fc.double({ min: 2, max: 18, noNaN: true }),
    });
    fc.assert(
      fc.property(fc.array(size, { minLength: 1, maxLength: 25 }), (items) => {
        const room = { length: 60, width: 40, between: 3 };
        const pieces = packShelves(items, room);
        expect(
          pieces
            .flat()
            .map((p) => p.item)
            .sort((a, b) => a - b),
        ).toEqual(items.map((_, i) => i));
        for (const piece of pieces) {
          const boxes = piece.map(({ item, at, turned }) => {
            const { length, width } = items[item] ?? { length: 0, width: 0 };
            const [dx, dy] = turned ? [width, length] : [length, width];
            return { x0: at[0] - dx / 2, x1: at[0] + dx / 2, y0: at[1] - dy / 2, y1: at[1] + dy / 2 };
          });
          for (const [i, a] of boxes.entries()) {
            expect(Math.min(a.x0, a.y0, 60 - a.x1, 40 - a.y1)).toBeGreaterThanOrEqual(3 - 1e-9);
            for (const b of boxes.slice(i + 1)) {
              const apart = Math.max(b.x0 - a.x1, a.x0 - b.x1, b.y0 - a.y1, a.y0 - b.y1);
              expect(apart).toBeGreaterThanOrEqual(3 - 1e-9);
            }
          }
        }
      }),
      { seed: 5, numRuns: 60 },
    );
  });
});

describe('what cannot be cut to fit', () => {
  const codes = (text: string): string[] =>
    checkJob(sources(text))
      .findings.filter((f) => f.severity === 'error')
      .map((f) => f.code);
  it('is refused: sharp corners, no clearance, a piece too small, corners that no cutter reaches', () => {
    expect(codes(swap(profile, [['cornerRadius: 0.5', 'cornerRadius: 0.1']]))).toContain('corners-too-sharp');
    expect(codes(swap(profile, [['clearance: 0.05', 'clearance: 0']]))).toContain('no-room-to-fit');
    expect(codes(swap(profile, [['length: 60, width: 40', 'length: 20, width: 16']]))).toContain(
      'inlay-larger-than-piece',
    );
    expect(codes(swap(profile, [['cornerRadius: 0.5', 'cornerRadius: 0.26']]))).toContain(
      'corners-not-reached',
    );
    expect(codes(swap(profile, [['width: 22, rotate', 'width: 22, between: [2, 9], rotate']]))).toContain(
      'no-such-string',
    );
    expect(codes(swap(profile, [['leaf.svg', 'vine.svg']]))).toEqual(['artwork-not-found']);
  });

  it('leaves a profile without inlays as it was', () => {
    const plain = soundValue(loadInstrument(textOf(PROFILE), PROFILE)).value;
    expect(plain.faceMarkers.inlays).toBeNull();
    expect(plain.faceMarkers.artwork).toEqual([]);
  });
});
