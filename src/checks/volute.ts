/** The volute: is there wood for it, and room before the heel? */
import { bounds } from '../geometry/ring.ts';
import { errorFinding } from '../report/collect.ts';
import type { Finding } from '../report/finding.ts';
import type { Board } from './types.ts';
import { mm } from './words.ts';

const HAIR = 1e-6;

/** What is wrong with the volute; nothing where none is asked for. */
export function checkVolute({ layout, instrument }: Board): Finding[] {
  const { neck, shaft } = layout;
  const volute = neck?.volute ?? null;
  if (neck === null || volute === null) return [];
  const { x, y } = bounds(volute.ring);
  const { at0, slope } = layout.board.halfWidth;
  const half = at0 + slope * x[0];
  const end = shaft?.x[1] ?? neck.end;
  const thick = instrument.neckBlank?.thickness ?? Number.POSITIVE_INFINITY;
  const deep = -(volute.ridge?.[0][1] ?? 0);
  const beginsAt = neck.scarf === null ? neck.breakX : neck.scarf.seamBack;
  return [
    ...wrong(
      y[1] > half + HAIR,
      'volute-wider-than-neck',
      'width',
      `The volute is ${mm(2 * y[1])} wide, and the neck there ${mm(2 * half)}.`,
      `at most ${mm(2 * half)}`,
    ),
    ...wrong(
      x[1] > end + HAIR,
      'volute-runs-into-heel',
      'length',
      `The volute's point lies ${mm(x[1] - end)} past the end of the shaft.`,
      `at most ${mm(end - x[0])}`,
    ),
    ...wrong(
      deep > thick + HAIR,
      'volute-deeper-than-blank',
      'rise',
      `The volute's broad end reaches ${mm(deep)} below the board, and the blank is ${mm(thick)} thick.`,
      `at most ${mm(deep - thick)} less`,
    ),
    ...wrong(
      x[0] < beginsAt - HAIR,
      'volute-off-shaft',
      'from',
      `The volute begins ${mm(beginsAt - x[0])} before the wood of the shaft does.`,
      `at least ${mm(beginsAt - layout.nutFace)}`,
    ),
  ];
}

function wrong(isWrong: boolean, code: string, field: string, text: string, allowed: string): Finding[] {
  if (!isWrong) return [];
  return [
    errorFinding(code, text, {
      where: { source: 'instrument', path: `neckShape.volute.${field}` },
      allowed,
    }),
  ];
}
