/**
 * Programs damaged on purpose: every one must be refused, and the table says which checks caught it. A fault that a
 * change of the prover stops catching, or begins to catch by another check, shows here.
 */
import { describe, expect, it } from 'vitest';
import { prove } from '../../src/verify/prove.ts';
import { type Damage, every, line } from '../support/damage.ts';
import { bytesOf, SAMPLES, type SampleName } from '../support/proofSamples.ts';
import { BEAM_CAUGHT_BY } from './beamFaults.ts';
import { FAULTS } from './faultTable.ts';

/** Names of the checks that fail, by fault. */
const CAUGHT_BY: Readonly<Record<string, readonly string[]>> = {
  'slots: one coordinate off by 0.1': [
    'wall overcut',
    'wall undercut',
    'position',
    'fitted shift',
    'fitted growth',
  ],
  'slots: one coordinate off by 0.012': [
    'wall overcut',
    'wall undercut',
    'position',
    'fitted shift',
    'fitted growth',
  ],
  'slots: a slot left out': ['wall overcut', 'floor deep', 'wall undercut', 'floor shallow', 'position'],
  'slots: a slot cut again at another place': [
    'cuts where meant',
    'wall overcut',
    'floor deep',
    'wall undercut',
    'floor shallow',
    'position',
  ],
  'slots: two slots moved toward each other by 1 mm': [
    'cuts where meant',
    'wall overcut',
    'floor deep',
    'wall undercut',
    'floor shallow',
    'position',
  ],
  'slots: first pass left out': ['bite'],
  'slots: a middle pass left out': ['bite'],
  'slots: last pass left out': ['wall undercut', 'floor shallow', 'position'],
  'slots: all depths doubled': [
    'program reads',
    'floor deep',
    'wall undercut',
    'lowest point',
    'bite',
    'cutting length',
    'shank and holder clear',
  ],
  'slots: last pass 0.1 too deep': ['floor deep'],
  'slots: plane word left out': ['program reads', 'bite'],
  'slots: plane XZ for YZ': ['program reads', 'bite'],
  'slots: G3 for G2': [
    'floor deep',
    'envelope',
    'lowest point',
    'plunge feed',
    'bite',
    'ramped entry',
    'cutting length',
    'shank and holder clear',
  ],
  'slots: retract left out': ['rapids'],
  'slots: spindle never started': ['spindle on', 'spindle speed'],
  'slots: spindle too slow': ['spindle speed'],
  'slots: M5 for M3': ['spindle on', 'spindle speed'],
  'slots: spindle backward': ['spindle turns right'],
  'slots: inches for millimetres': [
    'end position',
    'cuts where meant',
    'wall overcut',
    'floor deep',
    'wall undercut',
    'floor shallow',
    'position',
    'envelope',
    'lowest point',
    'feed',
    'machine feed',
    'plunge feed',
    'spindle on',
    'spindle speed',
    'exact path',
    'up to speed',
    'bite',
    'ramped entry',
    'cutting length',
    'shank and holder clear',
  ],
  'slots: incremental for absolute': [
    'program reads',
    'same from any start',
    'first move lifts',
    'placed before cutting',
    'end position',
    'cuts where meant',
    'wall overcut',
    'floor deep',
    'wall undercut',
    'floor shallow',
    'position',
    'envelope',
    'lowest point',
    'plunge feed',
    'spindle on',
    'spindle speed',
    'exact path',
    'up to speed',
    'rapids',
    'bite',
    'ramped entry',
    'cutting length',
    'shank and holder clear',
  ],
  'slots: units not stated': ['program reads', 'same from any start'],
  'slots: exact path off': ['exact path'],
  'slots: first lift left out': ['first move lifts', 'placed before cutting'],
  'slots: feeds times ten': ['feed', 'machine feed', 'plunge feed'],
  'slots: first feed down times ten': ['feed', 'machine feed'],
  'slots: a sign lost': ['bite'],
  'slots: sign of a depth lost': ['program reads', 'bite'],
  'slots: text cut off halfway': [
    'program reads',
    'program ends',
    'end position',
    'wall overcut',
    'floor deep',
    'wall undercut',
    'floor shallow',
    'position',
  ],
  'slots: text cut off before the last two lines': ['program reads', 'program ends', 'end position'],
  'slots: all shifted by 0.05 in x': [
    'end position',
    'wall overcut',
    'wall undercut',
    'position',
    'fitted shift',
  ],
  'slots: all mirrored in x': [
    'end position',
    'cuts where meant',
    'wall overcut',
    'floor deep',
    'wall undercut',
    'floor shallow',
    'position',
  ],
  'slots: all grown by 1.001': [
    'end position',
    'wall overcut',
    'wall undercut',
    'position',
    'fitted shift',
    'fitted growth',
  ],
  'slots: a decimal point lost': [
    'wall overcut',
    'floor deep',
    'wall undercut',
    'floor shallow',
    'position',
    'envelope',
  ],
  'slots: end position wrong': ['end position'],
  'slots: program end left out': ['program reads', 'program ends'],
  'slots: spindle left on': ['program ends'],
  'slots: a tool change that the control does not know': ['program reads', 'tool'],
  'slots: another tool named, without a change': ['program reads', 'tool'],
  'slots: no pause after the spindle starts': ['up to speed'],
  'slots: the pause cut short': ['up to speed'],
  'slots: another speed just before the cut': ['up to speed'],
  'slots: straight down to full depth': ['bite'],
  'slots: rapid down into wood': ['rapids'],
  'pocket: centre off by 0.1': ['end position', 'wall overcut', 'wall undercut', 'position', 'fitted shift'],
  'pocket: radius 0.03 too large': ['wall overcut'],
  'pocket: radius 0.03 too small': ['wall undercut'],
  'pocket: last turn on the floor left out': ['wall undercut', 'floor shallow', 'position', 'fitted shift'],
  'pocket: a turn of the helix left out': ['bite'],
  'pocket: 0.05 too shallow': ['wall undercut', 'floor shallow', 'position'],
  'pocket: 0.05 too deep': ['floor deep'],
  'pocket: rapid instead of the last arc': ['rapids'],
  'pocket: arc centre sign lost': [
    'wall overcut',
    'wall undercut',
    'floor shallow',
    'position',
    'fitted shift',
    'bite',
  ],
  'pocket: helix feed times four': ['feed'],
  'holesExpanded: a peck left out': ['rapids', 'bite'],
  'holesExpanded: rapid back into the hole too deep': ['rapids'],
  'holesExpanded: hole off by 0.1': [
    'wall overcut',
    'wall undercut',
    'position',
    'fitted shift',
    'fitted growth',
  ],
  'holesExpanded: hole off by 0.004': ['position'],
  'holesExpanded: a hole too shallow by its tip': ['wall undercut', 'floor shallow', 'position'],
  'holesExpanded: drill moved sideways in the hole': [
    'wall overcut',
    'wall undercut',
    'floor shallow',
    'position',
    'fitted shift',
    'fitted growth',
  ],
  'holesExpanded: drill feed times three': ['plunge feed'],
  'holesCycle: peck twice as deep': ['bite'],
  'holesCycle: second hole of the cycle left out': [
    'wall overcut',
    'floor deep',
    'wall undercut',
    'floor shallow',
    'position',
  ],
  'holesCycle: cycle without its return level': ['program reads'],
  'holesCycle: cycle retracts into the wood': ['rapids', 'bite'],
  'outline: a side off by 0.1 into the part': ['wall overcut'],
  'outline: all shifted by 0.05 in x': ['end position', 'wall overcut', 'wall undercut'],
  'outline: a tab cut away': ['tab height', 'tab too short'],
  'outline: a tab half as high': ['tab height', 'tab too short'],
  'outline: a tab three times as long': ['wall undercut', 'tab too long'],
  'outline: not cut through': ['wall undercut', 'tab too long'],
  'outline: deeper than the board below allows': ['floor deep', 'lowest point', 'bite'],
  'outline: a turn left out': ['bite'],
  'outline: last stretch left out': ['wall undercut'],
  'outline: G3 for G2 at a corner': ['wall overcut'],
  'outline: ramp made a plunge': ['ramped entry'],
  'laser: beam on in a rapid': ['beam off in rapids'],
  'laser: kerf on the wrong side': ['wall overcut'],
  'laser: kerf forgotten': ['wall overcut'],
  'laser: a line left out': ['wall overcut', 'line covered'],
  'laser: a line marked twice': ['burnt as often as meant'],
  'laser: a line half as long': ['line covered'],
  'laser: a line too long': ['cuts where meant', 'wall overcut', 'line covered'],
  'laser: the opening cut after its plate': ['inner before outer', 'beam feed'],
  'laser: marking at cutting power': ['beam power'],
  'laser: cutting at marking feed': ['beam feed'],
  'laser: outline not closed': ['wall undercut'],
  'laser: outline run twice': ['burnt as often as meant'],
  'laser: beam left on at the end': ['program ends', 'beam off in rapids'],
  ...BEAM_CAUGHT_BY,
};

function proofOf(sample: SampleName, damage: Damage): ReturnType<typeof prove> {
  const { text, intent } = SAMPLES[sample]();
  return prove(bytesOf(damage(text)), intent);
}

function failedNames(proof: ReturnType<typeof prove>): string[] {
  return [...new Set(proof.checks.filter((c) => !c.passed).map((c) => c.name))];
}

describe('damaged programs', () => {
  it('the table and the list of faults name the same faults', () => {
    const names = FAULTS.map((f) => `${f.sample}: ${f.name}`);
    expect(Object.keys(CAUGHT_BY).sort()).toEqual([...names].sort());
    expect(new Set(names).size).toBe(names.length);
    for (const kind of ['geometric', 'process', 'control']) {
      expect(FAULTS.filter((f) => f.kind === kind).length).toBeGreaterThan(10);
    }
  });

  it.each(FAULTS.map((f) => ({ ...f, title: `${f.sample}: ${f.name}` })))('$title', (fault) => {
    const proof = proofOf(fault.sample, fault.damage);
    expect(proof.passed).toBe(false);
    expect(failedNames(proof)).toEqual(CAUGHT_BY[fault.title]);
  });

  it('every check that a cutter’s program can fail catches some fault', () => {
    const caught = new Set(Object.values(CAUGHT_BY).flat());
    const all = Object.keys(SAMPLES).flatMap((name) =>
      proofOf(name as SampleName, (text) => text).checks.map((c) => c.name),
    );
    // These have their own tests in prove-rules.test.ts: no damage to a text alone reaches them.
    const elsewhere = ['numbers finite', 'fitted turn'];
    expect([...new Set(all)].filter((name) => !caught.has(name) && !elsewhere.includes(name))).toEqual([]);
  });

  it('a refusal names the line', () => {
    const proof = proofOf('outline', line('G1 X7 Y45 Z-1.5 F600', 'G1 Z-1.5 F150\nG1 X7 Y45 F600'));
    expect(proof.refusals).toEqual([
      {
        line: 9,
        rule: 'ramped-entry',
        found: '1.500 mm straight down',
        allowed:
          'a flat cutter goes straight down into wood by no more than 0.05 mm; deeper only on a ramp or helix',
      },
    ]);
  });
});

/** Changes of the text that change nothing of the work. */
const HARMLESS: readonly { readonly name: string; readonly damage: Damage }[] = [
  { name: 'a comment added to every line', damage: every(/(.)\n/g, '$1 (as planned)\n') },
  { name: 'lines numbered', damage: (text) => text.replace(/^(?=[GMXYZ])/gm, 'N10 ') },
  { name: 'blank lines', damage: every(/\n/g, '\n\n') },
  { name: 'lower case', damage: (text) => text.toLowerCase() },
  { name: 'carriage returns', damage: every(/\n/g, '\r\n') },
  { name: 'leading zeros in G words', damage: every(/\bG([0-3])\b/g, 'G0$1') },
  { name: 'spaces left out', damage: (text) => text.replace(/ /g, '') },
  { name: 'M30 for M2', damage: every(/^M2$/gm, 'M30') },
  { name: 'a remark before the head', damage: (text) => `(made for a test; T9 M4 S0)\n${text}` },
];

describe('changes that change nothing', () => {
  const cases = Object.keys(SAMPLES).flatMap((sample) =>
    HARMLESS.map((h) => ({ ...h, sample: sample as SampleName, title: `${sample}: ${h.name}` })),
  );

  it.each(cases)('$title', ({ sample, damage }) => {
    const proof = proofOf(sample, damage);
    expect(proof.checks.filter((c) => !c.passed)).toEqual([]);
    expect(proof.passed).toBe(true);
  });

  it('coordinates written again though they stay the same', () => {
    const proof = proofOf('outline', line('G1 Y50', 'G1 X7 Y50 Z-1.5', 1));
    expect(proof.passed).toBe(true);
  });

  it('the two slots cut in the other order', () => {
    const { text, intent } = SAMPLES.slots();
    const lines = text.split('\n');
    const first = lines.splice(4, 60);
    lines.splice(64, 0, ...first);
    expect(prove(bytesOf(lines.join('\n')), intent).passed).toBe(true);
  });
});
