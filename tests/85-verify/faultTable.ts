import { all, type Damage, every, line, numbers, truncate, without } from '../support/damage.ts';
import type { SampleName } from '../support/proofSamples.ts';
import { BEAM_FAULTS } from './beamFaults.ts';

/** What a fault is a fault of: the shape, the way of cutting, or the control of the machine. */
export type FaultKind = 'geometric' | 'process' | 'control';

export interface Fault {
  readonly name: string;
  readonly sample: SampleName;
  readonly kind: FaultKind;
  readonly damage: Damage;
}

const shift = (dx: number, dy: number): Damage =>
  numbers('XY', (v, letter) => v + (letter === 'X' ? dx : dy));
const scaled = (by: number): Damage => numbers('XYZIJKR', (v) => v * by);

const SLOTS: readonly Fault[] = [
  {
    name: 'one coordinate off by 0.1',
    sample: 'slots',
    kind: 'geometric',
    damage: line('G0 X45.5000 Y-28.6000', 'G0 X45.6000 Y-28.6000'),
  },
  {
    name: 'one coordinate off by 0.012',
    sample: 'slots',
    kind: 'geometric',
    damage: line('G0 X45.5000 Y-28.6000', 'G0 X45.5120 Y-28.6000'),
  },
  { name: 'a slot left out', sample: 'slots', kind: 'geometric', damage: without(5, 64) },
  {
    name: 'a slot cut again at another place',
    sample: 'slots',
    kind: 'geometric',
    damage: line('G0 X45.5000 Y-28.6000', 'G0 X60 Y-28.6000'),
  },
  {
    name: 'two slots moved toward each other by 1 mm',
    sample: 'slots',
    kind: 'geometric',
    damage: all(
      line('G0 X30.0000 Y-28.6000', 'G0 X31 Y-28.6000'),
      line('G0 X45.5000 Y-28.6000', 'G0 X44.5 Y-28.6000'),
    ),
  },
  { name: 'first pass left out', sample: 'slots', kind: 'process', damage: without(8, 13) },
  { name: 'a middle pass left out', sample: 'slots', kind: 'process', damage: without(28, 41) },
  { name: 'last pass left out', sample: 'slots', kind: 'geometric', damage: without(57, 62) },
  {
    name: 'all depths doubled',
    sample: 'slots',
    kind: 'geometric',
    damage: numbers('Z', (v) => (v < 0 ? 2 * v : v)),
  },
  {
    name: 'last pass 0.1 too deep',
    sample: 'slots',
    kind: 'geometric',
    damage: all(
      line('G3 Y0.3000 Z-2.2050 J-28.3000 K-405.4135', 'G3 Y0.3000 Z-2.3050 J-28.3000 K-405.4135'),
      line('G1 Y28.6000 Z-3.1915', 'G1 Y28.6000 Z-3.2915'),
      line('G3 Y-28.6000 Z-3.1915 J0 K-406.4000', 'G3 Y-28.6000 Z-3.2915 J0 K-406.4000'),
    ),
  },
  { name: 'plane word left out', sample: 'slots', kind: 'control', damage: line('G19', null) },
  { name: 'plane XZ for YZ', sample: 'slots', kind: 'control', damage: line('G19', 'G18') },
  {
    name: 'G3 for G2',
    sample: 'slots',
    kind: 'control',
    damage: line('G2 Y-0.3000 Z-0.3000 J28.3000 K-405.4135', 'G3 Y-0.3000 Z-0.3000 J28.3000 K-405.4135'),
  },
  { name: 'retract left out', sample: 'slots', kind: 'process', damage: line('G0 Z5', null, 2) },
  { name: 'spindle never started', sample: 'slots', kind: 'control', damage: line('M3 S18000', null) },
  { name: 'spindle too slow', sample: 'slots', kind: 'process', damage: line('M3 S18000', 'M3 S1800') },
  { name: 'M5 for M3', sample: 'slots', kind: 'control', damage: line('M3 S18000', 'M5 S18000') },
  { name: 'spindle backward', sample: 'slots', kind: 'control', damage: line('M3 S18000', 'M4 S18000') },
  { name: 'inches for millimetres', sample: 'slots', kind: 'control', damage: every(/G21/, 'G20') },
  { name: 'incremental for absolute', sample: 'slots', kind: 'control', damage: every(/G90/, 'G91') },
  { name: 'units not stated', sample: 'slots', kind: 'control', damage: every(/G21 /, '') },
  { name: 'exact path off', sample: 'slots', kind: 'control', damage: every(/ G61/, ' G64') },
  { name: 'first lift left out', sample: 'slots', kind: 'control', damage: line('G0 Z5', null) },
  { name: 'feeds times ten', sample: 'slots', kind: 'process', damage: numbers('F', (v) => v * 10) },
  {
    name: 'first feed down times ten',
    sample: 'slots',
    kind: 'process',
    damage: line('G1 Z-0.9865 F150', 'G1 Z-0.9865 F1500'),
  },
  {
    name: 'a sign lost',
    sample: 'slots',
    kind: 'geometric',
    damage: line('G0 X45.5000 Y-28.6000', 'G0 X45.5000 Y28.6000'),
  },
  {
    name: 'sign of a depth lost',
    sample: 'slots',
    kind: 'geometric',
    damage: line('G1 Y-28.6000 Z-1.2865', 'G1 Y-28.6000 Z1.2865'),
  },
  { name: 'text cut off halfway', sample: 'slots', kind: 'control', damage: truncate(0.5) },
  {
    name: 'text cut off before the last two lines',
    sample: 'slots',
    kind: 'control',
    damage: truncate(0.977),
  },
  { name: 'all shifted by 0.05 in x', sample: 'slots', kind: 'geometric', damage: shift(0.05, 0) },
  { name: 'all mirrored in x', sample: 'slots', kind: 'geometric', damage: numbers('XI', (v) => 80 - v) },
  { name: 'all grown by 1.001', sample: 'slots', kind: 'geometric', damage: scaled(1.001) },
  {
    name: 'a decimal point lost',
    sample: 'slots',
    kind: 'geometric',
    damage: line('G0 X45.5000 Y-28.6000', 'G0 X455000 Y-28.6000'),
  },
  { name: 'end position wrong', sample: 'slots', kind: 'control', damage: line('G0 X0 Y0', 'G0 X0 Y10') },
  { name: 'program end left out', sample: 'slots', kind: 'control', damage: line('M2', null) },
  { name: 'spindle left on', sample: 'slots', kind: 'control', damage: line('M5', null) },
  {
    name: 'a tool change that the control does not know',
    sample: 'slots',
    kind: 'control',
    damage: line('M3 S18000', 'T3 M6\nM3 S18000'),
  },
  {
    name: 'another tool named, without a change',
    sample: 'slots',
    kind: 'control',
    damage: line('M3 S18000', 'T3\nM3 S18000'),
  },
  {
    name: 'no pause after the spindle starts',
    sample: 'slots',
    kind: 'process',
    damage: line('G4 P3', null),
  },
  { name: 'the pause cut short', sample: 'slots', kind: 'process', damage: line('G4 P3', 'G4 P0.3') },
  {
    name: 'another speed just before the cut',
    sample: 'slots',
    kind: 'process',
    damage: line('G0 Z0.5', 'S17500\nG0 Z0.5'),
  },
  {
    name: 'straight down to full depth',
    sample: 'slots',
    kind: 'process',
    damage: line('G1 Z-0.9865 F150', 'G1 Z-3.1915 F150'),
  },
  { name: 'rapid down into wood', sample: 'slots', kind: 'process', damage: line('G0 Z0.5', 'G0 Z-1.5') },
];

const POCKET: readonly Fault[] = [
  { name: 'centre off by 0.1', sample: 'pocket', kind: 'geometric', damage: shift(0.1, 0) },
  {
    name: 'radius 0.03 too large',
    sample: 'pocket',
    kind: 'geometric',
    damage: all(
      numbers('X', (v) => (v === 41.5875 ? 41.6175 : v)),
      numbers('I', () => -1.6175),
    ),
  },
  {
    name: 'radius 0.03 too small',
    sample: 'pocket',
    kind: 'geometric',
    damage: all(
      numbers('X', (v) => (v === 41.5875 ? 41.5575 : v)),
      numbers('I', () => -1.5575),
    ),
  },
  {
    name: 'last turn on the floor left out',
    sample: 'pocket',
    kind: 'geometric',
    damage: line('G3 X41.5875 Y10 I-1.5875 J0', null),
  },
  {
    name: 'a turn of the helix left out',
    sample: 'pocket',
    kind: 'process',
    damage: line('G3 X41.5875 Y10 Z-1.3 I-1.5875 J0', null),
  },
  { name: '0.05 too shallow', sample: 'pocket', kind: 'geometric', damage: every(/Z-2 /, 'Z-1.95 ') },
  { name: '0.05 too deep', sample: 'pocket', kind: 'geometric', damage: every(/Z-2 /, 'Z-2.05 ') },
  {
    name: 'rapid instead of the last arc',
    sample: 'pocket',
    kind: 'process',
    damage: line('G1 X41.4', 'G0 X41.4'),
  },
  {
    name: 'arc centre sign lost',
    sample: 'pocket',
    kind: 'geometric',
    damage: line('G3 X41.5875 Y10 I-1.5875 J0', 'G3 X41.5875 Y10 I1.5875 J0'),
  },
  { name: 'helix feed times four', sample: 'pocket', kind: 'process', damage: every(/F500/, 'F2000') },
];

const DRILLING: readonly Fault[] = [
  { name: 'a peck left out', sample: 'holesExpanded', kind: 'process', damage: line('G1 Z-3.5', null) },
  {
    name: 'rapid back into the hole too deep',
    sample: 'holesExpanded',
    kind: 'process',
    damage: line('G0 Z-1.25', 'G0 Z-1.7'),
  },
  {
    name: 'hole off by 0.1',
    sample: 'holesExpanded',
    kind: 'geometric',
    damage: line('G0 X60 Y20', 'G0 X60.1 Y20'),
  },
  {
    name: 'hole off by 0.004',
    sample: 'holesExpanded',
    kind: 'geometric',
    damage: line('G0 X60 Y20', 'G0 X60.004 Y20'),
  },
  {
    name: 'a hole too shallow by its tip',
    sample: 'holesExpanded',
    kind: 'geometric',
    damage: line('G1 Z-4.9013', 'G1 Z-4'),
  },
  {
    name: 'drill moved sideways in the hole',
    sample: 'holesExpanded',
    kind: 'geometric',
    damage: line('G1 Z-3.5', 'G1 X20.5 Z-3.5'),
  },
  {
    name: 'drill feed times three',
    sample: 'holesExpanded',
    kind: 'process',
    damage: every(/F200/g, 'F600'),
  },
  { name: 'peck twice as deep', sample: 'holesCycle', kind: 'process', damage: every(/Q1.9/, 'Q3.8') },
  {
    name: 'second hole of the cycle left out',
    sample: 'holesCycle',
    kind: 'geometric',
    damage: line('X60 Y20', null),
  },
  {
    name: 'cycle without its return level',
    sample: 'holesCycle',
    kind: 'control',
    damage: every(/G98 /, ''),
  },
  {
    name: 'cycle retracts into the wood',
    sample: 'holesCycle',
    kind: 'process',
    damage: every(/R0.5/, 'R-1'),
  },
];

const OUTLINE: readonly Fault[] = [
  {
    name: 'a side off by 0.1 into the part',
    sample: 'outline',
    kind: 'geometric',
    damage: every(/^G1 X7 Y45/gm, 'G1 X7.1 Y45'),
  },
  { name: 'all shifted by 0.05 in x', sample: 'outline', kind: 'geometric', damage: shift(0.05, 0) },
  {
    name: 'a tab cut away',
    sample: 'outline',
    kind: 'geometric',
    damage: all(line('G1 X33 Z-4.8', null), line('G1 X47', null)),
  },
  {
    name: 'a tab half as high',
    sample: 'outline',
    kind: 'geometric',
    damage: all(line('G1 X33 Z-4.8', 'G1 X33 Z-5.4'), line('G1 X47', 'G1 X47 Z-5.4')),
  },
  {
    name: 'a tab three times as long',
    sample: 'outline',
    kind: 'geometric',
    damage: all(
      line('G1 X27', 'G1 X15'),
      line('G1 X33 Z-4.8', 'G1 X20 Z-4.8'),
      line('G1 X47', 'G1 X60'),
      line('G1 X53 Z-6.3', 'G1 X66 Z-6.3'),
    ),
  },
  { name: 'not cut through', sample: 'outline', kind: 'geometric', damage: every(/Z-6.3/g, 'Z-5.9') },
  {
    name: 'deeper than the board below allows',
    sample: 'outline',
    kind: 'geometric',
    damage: every(/Z-6.3/g, 'Z-6.8'),
  },
  { name: 'a turn left out', sample: 'outline', kind: 'process', damage: without(19, 28) },
  { name: 'last stretch left out', sample: 'outline', kind: 'geometric', damage: line('G1 Y45', null) },
  {
    name: 'G3 for G2 at a corner',
    sample: 'outline',
    kind: 'control',
    damage: line('G2 X10 Y53 I3 J0', 'G3 X10 Y53 I3 J0'),
  },
  {
    name: 'ramp made a plunge',
    sample: 'outline',
    kind: 'process',
    damage: line('G1 X7 Y45 Z-1.5 F600', 'G1 Z-1.5 F150\nG1 X7 Y45 F600'),
  },
];

const LASER: readonly Fault[] = [
  { name: 'beam on in a rapid', sample: 'laser', kind: 'control', damage: line('M5', null, 2) },
  {
    name: 'kerf on the wrong side',
    sample: 'laser',
    kind: 'geometric',
    damage: all(
      line('G0 X44.9 Y25', 'G0 X45.1 Y25'),
      line('G2 X44.9 Y25 I-4.9 J0 F500', 'G2 X45.1 Y25 I-5.1 J0 F500'),
    ),
  },
  {
    name: 'kerf forgotten',
    sample: 'laser',
    kind: 'geometric',
    damage: all(
      line('G0 X44.9 Y25', 'G0 X45 Y25'),
      line('G2 X44.9 Y25 I-4.9 J0 F500', 'G2 X45 Y25 I-5 J0 F500'),
    ),
  },
  { name: 'a line left out', sample: 'laser', kind: 'geometric', damage: without(3, 6) },
  {
    name: 'a line marked twice',
    sample: 'laser',
    kind: 'process',
    damage: line('G1 X20 Y35 F1800', 'G1 X20 Y35 F1800\nG1 X20 Y15'),
  },
  {
    name: 'a line half as long',
    sample: 'laser',
    kind: 'geometric',
    damage: line('G1 X20 Y35 F1800', 'G1 X20 Y25 F1800'),
  },
  {
    name: 'a line too long',
    sample: 'laser',
    kind: 'geometric',
    damage: line('G1 X20 Y35 F1800', 'G1 X20 Y36 F1800'),
  },
  {
    name: 'the opening cut after its plate',
    sample: 'laser',
    kind: 'process',
    damage: (text) => {
      const l = text.split('\n');
      const part = l.splice(6, 4);
      const end = l.indexOf('G0 X0 Y0');
      l.splice(end, 0, ...part);
      return l.join('\n');
    },
  },
  { name: 'marking at cutting power', sample: 'laser', kind: 'process', damage: every(/S150/, 'S800') },
  { name: 'cutting at marking feed', sample: 'laser', kind: 'process', damage: every(/F500/, 'F1800') },
  { name: 'outline not closed', sample: 'laser', kind: 'geometric', damage: line('G1 X30', 'G1 X25') },
  {
    name: 'outline run twice',
    sample: 'laser',
    kind: 'process',
    damage: line(
      'G1 X30',
      'G1 X60\nG3 X60.1 Y10 I0 J0.1\nG1 Y40\nG3 X60 Y40.1 I-0.1 J0\nG1 X10\nG3 X9.9 Y40 I0 J-0.1\nG1 Y10\nG3 X10 Y9.9 I0.1 J0\nG1 X30',
    ),
  },
  { name: 'beam left on at the end', sample: 'laser', kind: 'control', damage: line('M5', null, 4) },
];

export const FAULTS: readonly Fault[] = [
  ...SLOTS,
  ...POCKET,
  ...DRILLING,
  ...OUTLINE,
  ...LASER,
  ...BEAM_FAULTS,
];
