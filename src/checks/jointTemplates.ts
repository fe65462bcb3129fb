/** The templates of the joint: do bush and cutter suit them? */
import { tongueHalf } from '../geometry/tongue.ts';
import type { JointLayout } from '../layout/types.ts';
import type { Tenon } from '../profile/types.ts';
import { errorFinding } from '../report/collect.ts';
import type { Finding } from '../report/finding.ts';
import { mm } from './words.ts';

const HAIR = 1e-6;
/** Least width of the tongue that guides the bush round the tenon (common practice, no source). */
const TONGUE = 8;
/** A flared cutter thinner than this at the body's face breaks (common practice, no source). */
const NECK_OF_CUTTER = 5;

/** What is wrong with bush, cutter and sheet; nothing where no templates are asked for. */
export function checkJointTemplates(fit: JointLayout, { templates, flare }: Tenon): Finding[] {
  const edges = fit.templates;
  if (templates === null || edges === null) return [];
  const { bush, cutter, collar, thickness } = templates;
  const thin = 2 * Math.min(tongueHalf(edges.tenon, 0), tongueHalf(edges.tenon, edges.tenon.foot));
  const narrow = 2 * Math.min(tongueHalf(fit.mortise, 0), tongueHalf(fit.mortise, fit.mortise.foot));
  const neck = cutter - 2 * fit.mortiseDepth * Math.tan(flare);
  return [
    ...when(
      bush <= cutter,
      'bush-not-wider-than-cutter',
      'bush',
      'The cutter does not pass through its bush.',
      `more than ${mm(cutter)}`,
    ),
    ...when(
      collar > thickness - HAIR,
      'bush-longer-than-template',
      'collar',
      'The bush stands out below the template and rides on the work.',
      `less than ${mm(thickness)}, the sheet's thickness`,
    ),
    ...when(
      narrow < cutter - HAIR,
      'cutter-wider-than-mortise',
      'cutter',
      'The cutter does not go into the mortise.',
      `at most ${mm(narrow)}`,
    ),
    ...when(
      thin < TONGUE - HAIR,
      'template-tongue-too-thin',
      'bush',
      `The tongue that guides the bush round the tenon would be ${mm(thin)} wide.`,
      `at least ${mm(TONGUE)}: a bush nearer to the cutter's size, or a wider tenon`,
    ),
    ...when(
      flare > 0 && neck < NECK_OF_CUTTER,
      'flared-cutter-too-thin',
      'cutter',
      `At the depth of the mortise the flared cutter is ${mm(neck)} thick at the body's face.`,
      `at least ${mm(NECK_OF_CUTTER)}`,
    ),
  ];
}

function when(isWrong: boolean, code: string, field: string, text: string, allowed: string): Finding[] {
  if (!isWrong) return [];
  return [
    errorFinding(code, text, {
      where: { source: 'instrument', path: `neckJoint.tenon.templates.${field}` },
      allowed,
    }),
  ];
}
