/** Hand-written programs of every provable kind of cut, with figures worked out here by hand. */
import { describe, expect, it } from 'vitest';
import { prove } from '../../src/verify/prove.ts';
import { bytesOf, pocket, SAMPLES, type Sample, slots } from '../support/proofSamples.ts';

function proofOf({ text, intent }: Sample): ReturnType<typeof prove> {
  return prove(bytesOf(text), intent);
}

function figure(sample: Sample, name: string, cut?: string): number {
  const found = proofOf(sample).checks.filter((c) => c.name === name && c.cut === cut);
  expect(found).toHaveLength(1);
  return found[0]?.value ?? Number.NaN;
}

describe('a program that does what was meant', () => {
  it.each(Object.entries(SAMPLES))('%s proves', (_, make) => {
    const proof = proofOf(make());
    expect(proof.checks.filter((c) => !c.passed)).toEqual([]);
    expect(proof.refusals).toEqual([]);
    expect(proof.passed).toBe(true);
    expect(proof.checks.every((c) => c.seen > 0)).toBe(true);
  });

  it('is judged by every check that applies, for every cut', () => {
    const named = proofOf(SAMPLES.slots()).checks.map((c) =>
      c.cut === undefined ? c.name : `${c.cut}: ${c.name}`,
    );
    for (const id of ['slot-1', 'slot-2']) {
      for (const name of ['wall overcut', 'floor deep', 'wall undercut', 'floor shallow', 'position']) {
        expect(named).toContain(`${id}: ${name}`);
      }
    }
    for (const name of [
      'program reads',
      'same from any start',
      'bite',
      'rapids',
      'ramped entry',
      'spindle on',
      'cutting length',
    ]) {
      expect(named).toContain(name);
    }
  });
});

describe('slots under a radius', () => {
  const scatter = 0.01;
  const sample = SAMPLES.slots();

  it('reach out of their walls by half the scatter of the cutter', () => {
    expect(figure(sample, 'wall overcut', 'slot-1')).toBeCloseTo(scatter / 2, 9);
  });

  it('are deeper than meant by the aim, and at the edge by what the thickest cutter cannot follow', () => {
    // At y = 28.6 the floor falls by y/sqrt(R^2 - y^2) = 0.0706 a millimetre; the thickest cutter is 0.005 mm wider.
    const slope = 28.6 / Math.sqrt(406.4 ** 2 - 28.6 ** 2);
    const deep = figure(sample, 'floor deep', 'slot-1');
    expect(deep).toBeGreaterThanOrEqual(0.005 + 0.005 * slope - 0.0001);
    // The sampling bound of 0.0005 is added to the figure, and heights are rounded to 0.0001.
    expect(deep).toBeLessThanOrEqual(0.005 + 0.005 * slope + 0.0006);
  });

  it('are nowhere too shallow: 0.005 was aimed deeper', () => {
    expect(figure(sample, 'floor shallow', 'slot-1')).toBeCloseTo(-0.005, 4);
  });

  it('bite 0.3 mm a pass', () => {
    expect(figure(sample, 'bite')).toBeCloseTo(0.3, 3);
  });

  it('a cutter whose centre follows the radius is found 0.027 mm too deep at the edge of a 56 mm board of R 305', () => {
    // The inner edge of the cutter stands at y - 0.3, where the floor is higher: for y = 28,
    // sqrt(305^2 - 27.7^2) - sqrt(305^2 - 28^2) = 0.0275.
    const atEdge = Math.sqrt(305 ** 2 - 27.7 ** 2) - Math.sqrt(305 ** 2 - 28 ** 2);
    expect(atEdge).toBeCloseTo(0.0275, 4);
    const trap = slots({ R: 305, half: 28, lag: 0, aim: 0, scatter: 0 });
    const deep = proofOf(trap).checks.find((c) => c.name === 'floor deep');
    expect(deep?.value).toBeGreaterThanOrEqual(atEdge);
    // The run-out goes on to y = 28.6, where it is 0.0006 more; the sampling bound is 0.0005.
    expect(deep?.value).toBeLessThan(atEdge + 0.0013);
    expect(Math.abs(deep?.place?.[1] ?? 0)).toBeGreaterThan(27.9);
  });

  it('the same on R 184, the slot’s limit of 0.03 is passed and it is refused', () => {
    const proof = proofOf(slots({ R: 184, half: 28, lag: 0, aim: 0, scatter: 0 }));
    expect(proof.checks.filter((c) => !c.passed).map((c) => c.name)).toContain('floor deep');
    expect(proof.passed).toBe(false);
  });

  it('aimed no deeper than meant, the rounding of the text alone leaves a floor too shallow, and it is said', () => {
    const proof = proofOf(slots({ R: 406.4, half: 28, lag: 0.3, aim: -0.001 }));
    const shallow = proof.checks.find((c) => c.name === 'floor shallow');
    expect(shallow?.value).toBeCloseTo(0.001, 4);
    expect(proof.passed).toBe(false);
  });
});

describe('a round pocket by a helix', () => {
  it('is cleared to the wall by the thinnest cutter but for half the scatter, and over-cut by as much with the thickest', () => {
    // (6.35 - 3.175)/2 = 1.5875 is the circle's radius; cutters of 3.165 and 3.185 mm reach 3.170 and 3.180 mm.
    expect(figure(pocket(), 'wall overcut', 'pocket')).toBeCloseTo(0.005, 9);
    expect(figure(pocket(), 'wall undercut', 'pocket')).toBeCloseTo(0.005, 9);
    expect(figure(pocket(), 'position', 'pocket')).toBeCloseTo(0, 9);
    expect(figure(pocket(), 'floor deep', 'pocket')).toBeCloseTo(0, 9);
  });

  it('has the length of its circles', () => {
    // Three turns that fall 0.7 mm and one level, 0.4 mm down to where they start, 0.1875 aside.
    const turn = 2 * Math.PI * 1.5875;
    const expected = 3 * Math.hypot(turn, 0.7) + turn + 0.4 + 0.1875;
    expect(proofOf(pocket()).cutLength).toBeCloseTo(expected, 3);
  });

  it('takes the time of its feeds, dwells and rapids', () => {
    const { text, intent } = pocket();
    const turn = 2 * Math.PI * 1.5875;
    const cutting = 0.4 / 150 + (3 * Math.hypot(turn, 0.7) + turn + 0.1875) / 500;
    expect(prove(bytesOf(text), intent).minutes).toBeCloseTo(cutting + 3 / 60, 5);
    const withRapids = prove(bytesOf(text), intent, { rapid: { xy: 2000, z: 1000 } });
    // The rapid to the pocket starts nobody knows where and is left out; the way home is 42.6 mm.
    const rapids = 4.5 / 1000 + 7 / 1000 + Math.hypot(41.4, 10) / 2000;
    expect(withRapids.minutes).toBeCloseTo(cutting + 3 / 60 + rapids, 5);
  });
});

describe('drilled holes', () => {
  it.each(['holesExpanded', 'holesCycle'] as const)(
    '%s: the full diameter ends where it was meant',
    (name) => {
      // A tip of 118 degrees on 3 mm: 1.5/tan(59 deg) = 0.90129 mm; the text says 4.9013.
      const tip = 1.5 / Math.tan((59 * Math.PI) / 180);
      expect(figure(SAMPLES[name](), 'floor deep', 'hole-1')).toBeCloseTo(4.9013 - tip - 4, 9);
      expect(figure(SAMPLES[name](), 'floor shallow', 'hole-1')).toBeCloseTo(4 + tip - 4.9013, 9);
    },
  );

  it('bite as deep as their pecks', () => {
    expect(figure(SAMPLES.holesExpanded(), 'bite')).toBeCloseTo(2, 9);
    expect(figure(SAMPLES.holesCycle(), 'bite')).toBeCloseTo(1.9, 9);
  });
});

describe('an outline with tabs', () => {
  it('leaves the tabs at their height and nothing else', () => {
    // Over a tab the cutter is at -4.8, 1.2 above the stock's bottom at -6.
    expect(figure(SAMPLES.outline(), 'tab height', 'part-outline')).toBeCloseTo(0, 9);
    expect(figure(SAMPLES.outline(), 'wall overcut', 'part-outline')).toBeCloseTo(0.005, 9);
    const under = figure(SAMPLES.outline(), 'wall undercut', 'part-outline');
    expect(under).toBeGreaterThanOrEqual(0.005 - 1e-9);
    expect(under).toBeLessThanOrEqual(0.01);
  });

  it('bites deepest on its last turn, from -4.5 to -6.3', () => {
    expect(figure(SAMPLES.outline(), 'bite')).toBeCloseTo(1.8, 9);
  });
});

describe('a laser’s lines and outlines', () => {
  it('lie half a kerf in the waste', () => {
    for (const id of ['opening', 'plate']) {
      expect(figure(SAMPLES.laser(), 'wall overcut', id)).toBeCloseTo(0.005, 9);
    }
    expect(figure(SAMPLES.laser(), 'line covered', 'middle-line')).toBeCloseTo(0, 9);
  });
});

describe('the hash of the text', () => {
  it('tells an edited text from the one the intent was written beside, and refuses neither for it', () => {
    const { text, intent } = pocket();
    expect(prove(bytesOf(text), intent).edited).toBeNull();
    const same = prove(bytesOf(text), intent, { programSha256: intent.programSha256 });
    expect([same.edited, same.passed]).toEqual([false, true]);
    const other = prove(bytesOf(text), intent, { programSha256: '1'.repeat(64) });
    expect([other.edited, other.passed]).toEqual([true, true]);
  });
});
