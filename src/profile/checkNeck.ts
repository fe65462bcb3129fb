/** Does the neck's joint lie on the board? */
import { fretRange, noSuchFret } from './boardShape.ts';
import { type Check, check, when, wrong } from './check.ts';

const jointIsFretted = check(['neckJoint', 'frets'], ({ neckJoint, frets }) =>
  when(neckJoint !== null && neckJoint.fret > frets.count, () =>
    wrong(
      'joint-past-frets',
      'neckJoint.fret',
      `The body begins at a fret that is not there. ${noSuchFret(frets, neckJoint?.fret ?? 0)}`,
      { allowed: fretRange(frets), remedy: 'Name the fret at which the neck meets the body.' },
    ),
  ),
);

export const neckChecks: readonly Check[] = [jointIsFretted];
