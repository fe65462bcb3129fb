import type { Family, Instrument } from '../profile/types.ts';
import { type FindingDetails, warningFinding } from '../report/collect.ts';
import type { Finding } from '../report/finding.ts';
import { degreesFromRadians } from '../units/convert.ts';
import { formatNumber, formatShort } from '../units/format.ts';
import type { NeckSet } from './types.ts';

/** Usual angles in degrees (common practice, no source): guitar 0.7 to 2, ukulele 0 to 1.5, dulcimer none, mandolin 3 to 6.5. */
const USUAL: Partial<Record<Family, readonly [number, number]>> = {
  guitar: [0.7, 2],
  ukulele: [0, 1.5],
  mandolin: [3, 6.5],
  dulcimer: [0, 0.1],
};
/** A board that stands off or fouls by less seats by itself. */
const SEATS = 0.1;
/** More than this off a heel's corner changes how the joint fits (assumed). */
const MUCH = 1.5;
/** A saddle usually stands out by this (common practice, no source). */
const USUAL_OUT = [2.5, 4.5] as const;

const at = (path: string, details: FindingDetails = {}): FindingDetails => ({
  where: { source: 'instrument', path },
  ...details,
});
const mm = (length: number): string => `${formatShort(length, 2)} mm`;

/** What is doubtful about the neck's angle, the board over the body and the work on the heel. */
export function neckFindings({ family }: Instrument, set: NeckSet): Finding[] {
  return [...unusualAngle(family, set), ...fouling(set), ...muchOff(set)];
}

function unusualAngle(family: Family, set: NeckSet): Finding[] {
  const usual = USUAL[family];
  const degrees = degreesFromRadians(set.angle);
  if (usual === undefined || (degrees >= usual[0] - 1e-9 && degrees <= usual[1] + 1e-9)) return [];
  return [
    warningFinding(
      'neck-angle-unusual',
      `The neck would lean ${degrees < 0 ? 'forward' : 'back'} by ${formatNumber(Math.abs(degrees), 2)} deg.`,
      at('neckJoint', {
        allowed: `${usual[0]} to ${usual[1]} deg is usual for this family (common practice)`,
        remedy:
          degrees < usual[0]
            ? 'A higher bridge, a thinner board, or the board let down at the joint.'
            : 'A lower bridge, or the board raised at the joint; check that the dome was measured from the rim’s plane.',
      }),
    ),
  ];
}

function fouling({ extension }: NeckSet): Finding[] {
  const worst = extension.reduce((low, place) => (place.gap < low.gap ? place : low));
  if (worst.gap >= -SEATS) return [];
  return [
    warningFinding(
      'board-fouls-top',
      `Over the body the board would lie ${mm(-worst.gap)} inside the top at ${worst.what}: the neck cannot seat.`,
      at('neckJoint.boardAboveRim', {
        allowed: `at most ${mm(SEATS)}`,
        remedy: `Flatten the top under the board by ${mm(-worst.gap)}, raise the board at the joint, or thin its underside there.`,
      }),
    ),
  ];
}

function muchOff({ work, saddle }: NeckSet): Finding[] {
  if (work === null) return [];
  const most = Math.max(...Object.values(work.removal));
  if (most <= MUCH) return [];
  const [low, high] = work.saddleIfLeft;
  const fits = low >= USUAL_OUT[0] && high <= USUAL_OUT[1];
  const instead = fits
    ? `Left as it is, a saddle ${mm(low)} to ${mm(high)} out gives the action wanted.`
    : `Check the measurement first; a bridge ${mm(Math.abs(work.raise))} ${work.raise > 0 ? 'lower' : 'higher'} does the same as the set (planned saddle ${mm(saddle[0])} to ${mm(saddle[1])}).`;
  return [
    warningFinding('much-off-heel', `${mm(most)} would come off one corner of the heel.`, {
      where: { source: 'instrument', path: 'neckJoint' },
      allowed: `up to ${mm(MUCH)} without looking again at the joint's fit`,
      remedy: instead,
    }),
  ];
}
