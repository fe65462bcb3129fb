/** Slips in how a beam begins and ends an outline. */
import { all, every, line, numbers } from '../support/damage.ts';
import type { Fault } from './faultTable.ts';

const sample = 'laserWayIn';
const swapped = 'G1 X28.5 Y8.4';

export const BEAM_FAULTS: readonly Fault[] = [
  { name: 'no pause where a cut begins', sample, kind: 'process', damage: line('G4 P0.4', null) },
  { name: 'a pause half as long', sample, kind: 'process', damage: line('G4 P0.4', 'G4 P0.2', 2) },
  {
    name: 'a pause with the beam off instead',
    sample,
    kind: 'process',
    damage: every(/M3 S800\nG4 P0\.4/g, 'G4 P0.4\nM3 S800'),
  },
  {
    name: 'the beam left on in one place in an outline',
    sample,
    kind: 'process',
    damage: line('G1 Y40', 'G1 Y40\nG4 P1'),
  },
  {
    name: 'the beam left on in one place on a line',
    sample,
    kind: 'process',
    damage: line('G1 X20 Y35 F1800', 'G1 X20 Y35 F1800\nG4 P2'),
  },
  { name: 'the beam left on at the end', sample, kind: 'control', damage: line('M5', null, 4) },
  { name: 'power that follows the speed', sample, kind: 'control', damage: every(/M3/g, 'M4') },
  {
    name: 'a way in from the kept side of an opening',
    sample,
    kind: 'geometric',
    damage: line('G0 X43.4 Y25', 'G0 X46.4 Y25'),
  },
  {
    name: 'a way in from the kept side of a part',
    sample,
    kind: 'geometric',
    damage: line('G0 X28.5 Y8.4', 'G0 X28.5 Y11.4'),
  },
  {
    name: 'a way in along the edge of the part',
    sample,
    kind: 'geometric',
    damage: line('G0 X28.5 Y8.4', 'G0 X27.8787 Y9.9'),
  },
  {
    name: 'a way in half as long',
    sample,
    kind: 'geometric',
    damage: line('G0 X43.4 Y25', 'G0 X44.15 Y25'),
  },
  {
    name: 'a way in twice as long',
    sample,
    kind: 'geometric',
    damage: line('G0 X28.5 Y8.4', 'G0 X27 Y6.9'),
  },
  {
    name: 'no way in',
    sample,
    kind: 'geometric',
    damage: all(line('G0 X43.4 Y25', 'G0 X44.9 Y25'), line('G1 X44.9 Y25 F500', 'F500')),
  },
  {
    name: 'out to the waste and back in the middle of an outline',
    sample,
    kind: 'geometric',
    damage: line('G1 X10', 'G1 X40\nG1 Y42\nG1 Y40.1\nG1 X10'),
  },
  {
    name: 'the way in run at the end instead',
    sample,
    kind: 'geometric',
    damage: all(
      line('G0 X28.5 Y8.4', 'G0 X30 Y9.9'),
      line('G1 X30 Y9.9', null),
      line('G1 X31', `G1 X31\n${swapped}`),
    ),
  },
  {
    name: 'power of the way in at that of a mark',
    sample,
    kind: 'process',
    damage: (text) =>
      text.replace('M3 S800\nG4 P0.4\nG1 X44.9 Y25 F500\n', 'M3 S150\nG4 P0.4\nG1 X44.9 Y25 F500\nM3 S800\n'),
  },
  {
    name: 'the stretch past the start left out',
    sample,
    kind: 'process',
    damage: line('G1 X31', null),
  },
  {
    name: 'the stretch past the start five times as long',
    sample,
    kind: 'process',
    damage: line('G1 X31', 'G1 X35'),
  },
  {
    name: 'the stretch past the start run backward',
    sample,
    kind: 'process',
    damage: line('G1 X31', 'G1 X29'),
  },
  {
    name: 'everything of the beam 0.03 mm to the side',
    sample,
    kind: 'geometric',
    damage: numbers('X', (x) => (x === 0 ? 0 : x + 0.03)),
  },
];

/** The checks that refuse each. */
export const BEAM_CAUGHT_BY: Readonly<Record<string, readonly string[]>> = {
  'laserWayIn: no pause where a cut begins': ['pierce'],
  'laserWayIn: a pause half as long': ['pierce'],
  'laserWayIn: a pause with the beam off instead': ['pierce'],
  'laserWayIn: the beam left on in one place in an outline': ['pierce'],
  'laserWayIn: the beam left on in one place on a line': ['pierce'],
  'laserWayIn: the beam left on at the end': ['program ends', 'beam off in rapids'],
  'laserWayIn: power that follows the speed': ['beam word'],
  'laserWayIn: a way in from the kept side of an opening': ['cuts where meant', 'way in', 'pierce'],
  'laserWayIn: a way in from the kept side of a part': ['cuts where meant', 'way in', 'pierce'],
  'laserWayIn: a way in along the edge of the part': ['way in'],
  'laserWayIn: a way in half as long': ['way in', 'past the start'],
  'laserWayIn: a way in twice as long': ['cuts where meant', 'way in', 'pierce'],
  'laserWayIn: no way in': ['way in'],
  'laserWayIn: out to the waste and back in the middle of an outline': ['cuts where meant', 'way in'],
  'laserWayIn: the way in run at the end instead': ['cuts where meant', 'way in'],
  'laserWayIn: power of the way in at that of a mark': ['beam power'],
  'laserWayIn: the stretch past the start left out': ['past the start'],
  'laserWayIn: the stretch past the start five times as long': ['burnt as often as meant', 'past the start'],
  'laserWayIn: the stretch past the start run backward': ['past the start'],
  'laserWayIn: everything of the beam 0.03 mm to the side': [
    'cuts where meant',
    'wall overcut',
    'line covered',
    'wall undercut',
    'way in',
    'pierce',
  ],
};
