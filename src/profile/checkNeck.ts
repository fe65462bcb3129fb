/** Does the neck's joint lie on the board? */
import { type Check, check, when, wrong } from './check.ts';

const jointIsFretted = check(['neckJoint', 'frets'], ({ neckJoint, frets }) =>
  when(neckJoint !== null && neckJoint.fret > frets.count, () =>
    wrong(
      'joint-past-frets',
      'neckJoint.fret',
      `The body begins at fret ${neckJoint?.fret} and the board has ${frets.count} frets.`,
      { allowed: `1 to ${frets.count}`, remedy: 'Name the fret at which the neck meets the body.' },
    ),
  ),
);

export const neckChecks: readonly Check[] = [jointIsFretted];
