/** One job on machines whose controls understand different things: all of it proves, and all of it cuts the same. */
import { describe, expect, it } from 'vitest';
import type { ProvenProgram } from '../../src/app/types.ts';
import type { Check } from '../../src/verify/removal/proof.ts';
import { MACHINES, programsOn } from '../support/machines.ts';
import { type CanonicalMotion, rs274Available, runRs274 } from '../support/rs274.ts';

/** What two machines may cut differently, mm. */
const SAME = 0.005;

const made = new Map(Object.entries(MACHINES).map(([name, patch]) => [name, programsOn(patch)]));
const reference = programsOf('arcs in all planes');
const others = Object.keys(MACHINES).filter((name) => name !== 'arcs in all planes');

function programsOf(name: string): readonly ProvenProgram[] {
  const programs = made.get(name);
  if (programs === undefined) throw new Error(`no machine ${name}`);
  return programs;
}

describe.each(Object.keys(MACHINES))('%s', (name) => {
  it('every program proves, and says everything its control understands and no more', () => {
    const programs = programsOf(name);
    expect(programs.length).toBeGreaterThan(3);
    for (const { path, proof } of programs) {
      expect(proof.refusals, path).toEqual([]);
      expect(
        proof.checks.filter((c) => !c.passed),
        path,
      ).toEqual([]);
      expect(proof.passed, path).toBe(true);
    }
  });

  it('makes the same cuts of the same features', () => {
    const cutsOf = (programs: readonly ProvenProgram[]): string[] =>
      programs.flatMap((p) => p.intents.flatMap((i) => i.cuts.map((c) => c.id))).sort();
    expect(cutsOf(programsOf(name))).toEqual(cutsOf(reference));
  });
});

/** Figures that say where wood was taken away, by cut. */
const MEASURES = ['wall overcut', 'wall undercut', 'floor deep', 'floor shallow', 'position', 'tab height'];

function figures(programs: readonly ProvenProgram[]): Map<string, number> {
  const checks: Check[] = programs.flatMap((p) => p.proof.checks);
  return new Map(
    checks
      .filter((c) => c.cut !== undefined && MEASURES.includes(c.name))
      .map((c) => [`${c.cut}: ${c.name}`, c.value]),
  );
}

describe.each(others)('measured by the prover, %s', (name) => {
  it('every wall, floor and place is where it is on the reference machine, within 0.005 mm', () => {
    const [theirs, ours] = [figures(reference), figures(programsOf(name))];
    expect(theirs.size).toBeGreaterThan(100);
    expect([...ours.keys()].sort()).toEqual([...theirs.keys()].sort());
    const far = [...ours].filter(([key, value]) => {
      // What is left of a region is bounded, not measured: the search stops once it is shown to be within the limit.
      const slack = key.endsWith('undercut') ? 2 * SAME : SAME;
      return !(Math.abs(value - (theirs.get(key) ?? Number.NaN)) <= slack);
    });
    expect(far).toEqual([]);
  });
});

type Place = readonly [number, number, number];

/** Ends of all cutting motions of a whole job in the order of its features, as the interpreter prints them. */
function cutEnds(programs: readonly ProvenProgram[]): Place[] {
  const motions = programs.flatMap((p) => runRs274(p.text));
  return motions.flatMap((m: CanonicalMotion): Place[] =>
    m.kind === 'feed' || m.kind === 'arc' ? [m.end] : [],
  );
}

function apart(a: Place, b: Place): number {
  return Math.hypot(a[0] - b[0], a[1] - b[1], a[2] - b[2]);
}

/** Index of the first place not found, in order, among others; -1 when all are. */
function firstMissing(wanted: readonly Place[], found: readonly Place[], slack: number): number {
  let at = 0;
  for (const [i, place] of wanted.entries()) {
    while (at < found.length && apart(place, found[at] ?? [0, 0, 0]) > slack) at += 1;
    if (at === found.length) return i;
  }
  return -1;
}

/** Of ends in one column the lowest, in the order of the columns' last ends. */
function lowest(ends: readonly Place[]): Place[] {
  return ends.filter(
    ([x, y, z], i) =>
      !ends.some(
        (e, k) => k !== i && Math.hypot(e[0] - x, e[1] - y) < 2 * SAME && e[2] < z + SAME / 2 && k > i,
      ),
  );
}

describe.each(others)('read by rs274, %s', (name) => {
  const title = 'ends its cuts where the reference machine does, in the same order, within 0.005 mm';
  it.skipIf(!rs274Available())(
    rs274Available() ? title : `${title} (SKIPPED: rs274 is not installed)`,
    () => {
      const [theirs, ours] = [cutEnds(reference), cutEnds(programsOf(name))];
      expect(theirs.length).toBeGreaterThan(500);
      if (/four digits/.test(name)) {
        // Steps of 0.0025 mm make a pass or a peck more, so that none bites too deep: the lowest ends are compared.
        expect(firstMissing(lowest(theirs), lowest(ours), SAME)).toBe(-1);
        return;
      }
      expect(firstMissing(theirs, ours, SAME)).toBe(-1);
      // Chords are more than the arcs they stand for; of everything else there are as many.
      const chords = /no arcs|without arcs|XY only/.test(name);
      if (chords) expect(ours.length).toBeGreaterThan(theirs.length);
      else expect(ours.length).toBe(theirs.length);
    },
  );
});
