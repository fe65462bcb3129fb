import { describe, expect, it } from 'vitest';
import type { BeamSetting } from '../../src/profile/types.ts';
import { writeFeedNotes } from '../../src/writers/notes/feedNotes.ts';
import { parlour, workshop } from '../support/instrument.ts';
import { planOf } from '../support/job.ts';

function notesWith(settings: readonly BeamSetting[]): string {
  const machines = workshop.machines.map((m) => (m.kind === 'laser' ? { ...m, settings } : m));
  const shop = { ...workshop, machines };
  const plan = planOf(parlour, shop);
  return writeFeedNotes(
    plan.jobs.filter((j) => j.kind === 'laser'),
    [],
    parlour,
    shop,
  );
}

const tested: BeamSetting = {
  materialClass: 'plywood',
  thickness: 3,
  kerf: 0.16,
  cut: { power: 0.7, speed: 600, passes: 1, pierce: 0.3, leadIn: 2, overCut: 0.5 },
  mark: { power: 0.1, speed: 2400 },
  air: 'on, 0.5 bar',
};

describe('the notes of a laser program', () => {
  it('say where its figures come from, the air, and how a cut begins and ends', () => {
    const notes = notesWith([tested]);
    expect(notes).toContain('what the shop tested for this material and thickness');
    expect(notes).toContain('on, 0.5 bar');
    expect(notes).toContain(
      '0.3 s standing still, then 2 mm away in the waste, beside the middle of the longest side; runs 0.5 mm past its start at the end',
    );
  });

  it('name both tested thicknesses that figures were taken between', () => {
    const notes = notesWith([
      { ...tested, thickness: 2, air: null },
      { ...tested, thickness: 4, cut: { ...tested.cut, power: 0.9, speed: 300 } },
    ]);
    expect(notes).toContain(
      '2 mm (S700, 600 mm/min, kerf 0.16 mm) and 4 mm (S900, 300 mm/min, kerf 0.16 mm)',
    );
    expect(notes).toContain('80 % (S800) at 450 mm/min');
  });

  it('say so when nothing is said of the air, and nothing is piercing or running on', () => {
    const notes = notesWith([
      { ...tested, air: null, cut: { ...tested.cut, pierce: 0, leadIn: 0, overCut: 0 } },
    ]);
    expect(notes).toContain('as the machine’s manual says for this material');
    expect(notes).toContain('in the outline itself, beside the middle of the longest side');
    expect(notes).not.toContain('past its start');
  });
});
