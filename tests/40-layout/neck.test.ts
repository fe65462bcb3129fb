/** Neck and head against worked examples, other routes to the same numbers, and Maker.js as an outside measure of outlines. */
import fc from 'fast-check';
import makerjs from 'makerjs';
import { describe, expect, it } from 'vitest';
import { area, bounds, flatten, segments } from '../../src/geometry/ring.ts';
import type { Ring, Vec } from '../../src/geometry/types.ts';
import { headOutline } from '../../src/layout/headOutline.ts';
import { layOut, mirrorLayout } from '../../src/layout/layOut.ts';
import { scarfOf } from '../../src/layout/neck.ts';
import { rodFloorAt } from '../../src/layout/rodCuts.ts';
import { DEGREE, headstock, layoutOf, necked, neckOf, withHead } from '../support/neck.ts';

/** Where two lines in the side view meet, each through a point in a direction. */
function meet(p: Vec, u: Vec, q: Vec, v: Vec): Vec {
  const t = ((q[0] - p[0]) * v[1] - (q[1] - p[1]) * v[0]) / (u[0] * v[1] - u[1] * v[0]);
  return [p[0] + u[0] * t, p[1] + u[1] * t];
}

/** Direction of a ring at the beginning and the end of a side, from its bulge alone: the chord turned by half the sweep. */
function directions(ring: Ring): { from: number; to: number }[] {
  return ring.map((v, i) => {
    const w = ring[(i + 1) % ring.length] ?? v;
    const chord = Math.atan2(w.y - v.y, w.x - v.x);
    const half = 2 * Math.atan(v.bulge);
    return { from: chord - half, to: chord + half };
  });
}

const turnBetween = (a: number, b: number): number => Math.atan2(Math.sin(b - a), Math.cos(b - a));

describe('the neck', () => {
  it('begins at the back of the nut and ends past the joint', () => {
    const { breakX, joint, end, heel } = neckOf();
    expect(breakX).toBeCloseTo(necked.nut.setForward - necked.nut.thickness, 12);
    // The octave halves the scale of 628.
    expect(joint).toBeCloseTo(314, 9);
    expect(end).toBeCloseTo(374, 9);
    // 85 of heel and 1 of board let out: 66 under a shaft of 20 are three blocks of 20 and one more.
    expect(heel).toEqual({ x: [254, 374], depth: 86, blocks: 4 });
  });

  it('has a scarf whose ends are where the lines of the side view meet', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 6, max: 20, noNaN: true }),
        fc.double({ min: 8, max: 18, noNaN: true }),
        fc.double({ min: 15, max: 25, noNaN: true }),
        (degrees, plate, thickness) => {
          const a = degrees * DEGREE;
          const scarf = scarfOf({ angle: a, thickness: plate }, { thickness }, -6);
          const along: Vec = [-Math.cos(a), -Math.sin(a)];
          // The back of the plate is its face moved by its thickness square to itself.
          const onBack: Vec = [-6 + plate * Math.sin(a), -plate * Math.cos(a)];
          const top = meet(onBack, along, [0, 0], [1, 0]);
          const back = meet(onBack, along, [0, -thickness], [1, 0]);
          expect(scarf.seamTop).toBeCloseTo(top[0], 9);
          expect(scarf.seamBack).toBeCloseTo(back[0], 9);
          expect(scarf.bevel).toBeCloseTo(Math.hypot(top[0] - back[0], top[1] - back[1]), 9);
          const face = Math.hypot(top[0] - onBack[0], top[1] - onBack[1]);
          expect(scarf.overlap).toBeCloseTo(face, 9);
        },
      ),
    );
  });

  it('is no part of an instrument that does not describe it', () => {
    const layout = layoutOf({ ...necked, neckBlank: null, headstock: null });
    expect(layout.neck).toBeNull();
    expect(layout.rodCuts).toHaveLength(3);
  });

  it('tells how deep the rod lies at any place', () => {
    const layout = layoutOf();
    const face = necked.nut.setForward;
    expect(rodFloorAt(layout, face - 0.01)).toBeNull();
    expect(rodFloorAt(layout, face + 7)).toBe(10.5);
    expect(rodFloorAt(layout, face + 14.01)).toBe(9.5);
    expect(rodFloorAt(layout, face + 313)).toBe(9.5);
    expect(rodFloorAt(layout, face + 315)).toBe(11);
    expect(rodFloorAt(layout, face + 376.01)).toBeNull();
    const atHead = layoutOf({
      ...necked,
      trussRod: {
        width: 6,
        depth: 9,
        from: -10,
        length: 320,
        clearance: null,
        adjuster: { at: 'head', length: 20, width: 9, depth: 10, access: 6 },
      },
    });
    expect(bounds(atHead.rodCuts[1]?.ring ?? []).x).toEqual([face - 16, face + 10]);
    expect(rodFloorAt(atHead, face - 12)).toBe(10);
  });

  it('has cuts for the rod of just the size that is asked for, without a sharp corner', () => {
    for (const { ring, id } of layoutOf().rodCuts) {
      const { x, y } = bounds(ring);
      const [long, wide] = [x[1] - x[0], y[1] - y[0]];
      const radius = id === 'truss-rod-channel' ? wide / 2 : 2;
      expect(area(ring)).toBeCloseTo(long * wide - (4 - Math.PI) * radius * radius, 9);
      const turns = directions(ring);
      turns.forEach((side, i) => {
        expect(turnBetween(side.to, turns[(i + 1) % turns.length]?.from ?? 0)).toBeCloseTo(0, 9);
      });
    }
  });
});

describe('the outline of a head', () => {
  const shapes = fc.record({
    length: fc.double({ min: 140, max: 200, noNaN: true }),
    shoulder: fc.double({ min: 26, max: 45, noNaN: true }),
    widthAtShoulder: fc.double({ min: 50, max: 80, noNaN: true }),
    widthAtTip: fc.double({ min: 45, max: 80, noNaN: true }),
    tip: fc.double({ min: -8, max: 10, noNaN: true }),
    corner: fc.double({ min: 1, max: 10, noNaN: true }),
  });

  it('runs from the neck to the corners of the tip without a kink, and is the same on both sides', () => {
    let made = 0;
    fc.assert(
      fc.property(shapes, (sizes) => {
        const breakX = -6;
        const ring = headOutline({ kind: 'sizes', ...sizes }, { breakX, half: 23 });
        if (ring === null) return;
        made += 1;
        expect(area(ring)).toBeGreaterThan(0);
        const box = bounds(ring);
        expect(box.x[1]).toBeCloseTo(breakX, 9);
        expect(breakX - box.x[0]).toBeGreaterThan(sizes.length - 1e-9);
        const turns = directions(ring);
        // All but the two corners at the break are smooth.
        ring.forEach((v, i) => {
          if (Math.abs(v.x - breakX) < 1e-9) return;
          const before = turns[(i + turns.length - 1) % turns.length];
          expect(turnBetween(before?.to ?? 0, turns[i]?.from ?? 0)).toBeCloseTo(0, 6);
        });
        // It leaves the neck along the centreline.
        expect(Math.abs(turns[0]?.from ?? 0)).toBeCloseTo(Math.PI, 9);
        const mirror = new Set(ring.map((v) => `${v.x.toFixed(6)} ${(-v.y).toFixed(6)}`));
        for (const v of ring) expect(mirror).toContain(`${v.x.toFixed(6)} ${v.y.toFixed(6)}`);
      }),
      { numRuns: 100, seed: 20261125 },
    );
    expect(made).toBeGreaterThan(60);
  });

  it('has the sizes that are asked for, measured by Maker.js', () => {
    const { head, breakX } = neckOf(withHead({}, {}));
    const paths = Object.fromEntries(
      segments(head.outline).map((s, i) => [
        String(i),
        s.kind === 'line'
          ? new makerjs.paths.Line([...s.from], [...s.to])
          : new makerjs.paths.Arc([...s.from], [...s.to], s.radius, false, s.sweep < 0),
      ]),
    );
    const extents = makerjs.measure.modelExtents({ paths });
    expect(breakX - (extents?.low[0] ?? 0)).toBeCloseTo(170, 6);
    // The sides close toward the tip, so that the widest place lies a hair nearer to the nut than the shoulder.
    const ray = new makerjs.paths.Line([breakX - 30, 0], [breakX - 30, 60]);
    const meets = Object.values(paths).flatMap(
      (path) => makerjs.path.intersection(ray, path)?.intersectionPoints ?? [],
    );
    expect(meets.map((p) => p[1])).toEqual(meets.map(() => expect.closeTo(36, 6)));
    expect(meets.length).toBeGreaterThan(0);
    const chains = makerjs.model.findChains({ paths });
    expect(Array.isArray(chains) ? chains : [chains]).toHaveLength(1);
    const [chain] = Array.isArray(chains) ? chains : [chains];
    expect((chain as makerjs.IChain).endless).toBe(true);
  });

  it('has a tip that rises by just so much, round or hollow', () => {
    for (const tip of [6, -6, 0]) {
      const sizes = { length: 170, shoulder: 30, widthAtShoulder: 72, widthAtTip: 62, corner: 0 };
      const ring = headOutline({ kind: 'sizes', ...sizes, tip }, { breakX: 0, half: 23 });
      const points = flatten(ring ?? [], 0.0001).filter(([x]) => x < -100);
      const middle = points.toSorted((a, b) => Math.abs(a[1]) - Math.abs(b[1]))[0];
      const corner = points.toSorted((a, b) => b[1] - a[1] || a[0] - b[0])[0];
      expect(corner).toEqual([expect.closeTo(tip - 170, 9), expect.closeTo(31, 9)]);
      if (tip !== 0) expect(middle?.[0]).toBeCloseTo(-170, 2);
    }
  });

  it('is refused with the field when its sizes leave no room', () => {
    for (const change of [
      { tip: 40 },
      { corner: 60 },
      { shoulder: 10, widthAtShoulder: 120 },
      { length: 32 },
    ]) {
      const outline = { ...headstock.outline, ...change } as typeof headstock.outline;
      const layout = layOut(withHead({ outline }));
      expect(layout.ok).toBe(false);
      expect(layout.findings.map((f) => [f.code, f.where?.path])).toEqual([
        ['headstock-has-no-shape', 'headstock.outline'],
      ]);
    }
  });
});

describe('posts and strings on the head', () => {
  it('stand equally far apart on a straight line each, outer strings next to the nut', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 0, max: 6 }),
        fc.double({ min: 20, max: 45, noNaN: true }),
        fc.double({ min: -15, max: 15, noNaN: true }),
        (onBassSide, apart, splay) => {
          const tuners = { onBassSide, apart, fromCentreLast: 22 + splay };
          const { posts } = neckOf(withHead({}, tuners)).head;
          expect(posts.map((p) => p.string)).toEqual([1, 2, 3, 4, 5, 6]);
          expect(posts.filter((p) => p.side === 'bass').map((p) => p.string)).toEqual(
            [1, 2, 3, 4, 5, 6].slice(0, onBassSide),
          );
          for (const side of ['bass', 'treble'] as const) {
            const row = posts.filter((p) => p.side === side).toSorted((a, b) => a.place - b.place);
            row.slice(1).forEach((post, i) => {
              const before = row[i] ?? post;
              const [dx, dy] = [post.at[0] - before.at[0], post.at[1] - before.at[1]];
              expect(Math.hypot(dx, dy)).toBeCloseTo(apart, 9);
              expect(dx).toBeLessThan(0);
            });
            if (row.length > 1) expect(Math.abs(row.at(-1)?.at[1] ?? 0)).toBeCloseTo(Math.abs(22 + splay), 9);
          }
        },
      ),
    );
  });

  it('are worked out by hand for three a side', () => {
    // Two spaces of 42 along the line close by 5: 2.5 each, so sqrt(42^2 - 2.5^2) = 41.9255 along the head.
    const { head, breakX } = neckOf();
    const third = head.posts.find((p) => p.string === 3);
    expect(third?.at[0]).toBeCloseTo(breakX - 46 - 2 * 41.925529, 5);
    expect(third?.at[1]).toBeCloseTo(-17, 12);
  });

  it('touch their posts on the side of the centreline', () => {
    const { head } = neckOf();
    for (const run of head.runs) {
      const post = head.posts.find((p) => p.string === run.string);
      if (post === undefined) throw new Error('no post');
      const arm: Vec = [run.to[0] - post.at[0], run.to[1] - post.at[1]];
      const way: Vec = [run.to[0] - run.from[0], run.to[1] - run.from[1]];
      expect(Math.hypot(...arm)).toBeCloseTo(3 + run.gauge / 2, 9);
      expect(arm[0] * way[0] + arm[1] * way[1]).toBeCloseTo(0, 9);
      expect(Math.abs(run.to[1])).toBeLessThan(Math.abs(post.at[1]));
    }
  });

  it('turn sideways by the angle between the two runs in space, seen from above', () => {
    const layout = layoutOf();
    const { head, breakX } = neckOf();
    for (const run of head.runs) {
      const string = layout.strings[run.string - 1];
      if (string === undefined) throw new Error('no string');
      const plan = (along: number): number => breakX - (breakX - along) * Math.cos(headstock.angle);
      const over: Vec = [string.nut[0] - string.saddle[0], string.nut[1] - string.saddle[1]];
      const beyond: Vec = [plan(run.to[0]) - string.nut[0], run.to[1] - string.nut[1]];
      const cos = (over[0] * beyond[0] + over[1] * beyond[1]) / (Math.hypot(...over) * Math.hypot(...beyond));
      expect(Math.cos(run.sideways)).toBeCloseTo(cos, 12);
      expect(run.sideways).toBeGreaterThanOrEqual(0);
    }
  });

  it('are the mirror image on a left-handed instrument', () => {
    const right = layoutOf();
    const left = layoutOf({ ...necked, hand: 'left' });
    expect(left).toEqual(mirrorLayout(right));
    const [a, b] = [right.neck?.head, left.neck?.head];
    expect(b?.posts.map((p) => p.at)).toEqual(a?.posts.map((p) => [p.at[0], -p.at[1]]));
    expect(area(b?.outline ?? [])).toBeCloseTo(area(a?.outline ?? []), 9);
  });
});
