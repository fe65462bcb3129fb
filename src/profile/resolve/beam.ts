/** The tested settings of a laser, with what was left out filled in. */
import type { GivenShop } from '../schema/shop.ts';
import type { BeamSetting } from '../types.ts';
import { type Fill, PRACTICE } from './fill.ts';

type GivenMachine = NonNullable<GivenShop['machines']>[number];
type Given = Extract<GivenMachine, { kind: 'laser' }>['settings'][number];

const LEAD_IN = 2;
const OVER_CUT = 0.5;

/** One setting; `path` is that of the setting in the shop file. */
export function resolveBeam(given: Given, path: string, fill: Fill): BeamSetting {
  const { cut } = given;
  return {
    ...given,
    air: given.air ?? null,
    cut: {
      ...cut,
      passes: fill.plain(`${path}.cut.passes`, cut.passes, 1, 'one pass'),
      pierce: fill.plain(`${path}.cut.pierce`, cut.pierce, 0, 'seconds; the beam is through as it moves off'),
      leadIn: fill.length(
        `${path}.cut.leadIn`,
        cut.leadIn,
        LEAD_IN,
        `the scorch of the start stays in the waste (${PRACTICE})`,
      ),
      overCut: fill.length(
        `${path}.cut.overCut`,
        cut.overCut,
        OVER_CUT,
        `no tag is left where the cut closes (${PRACTICE})`,
      ),
    },
  };
}
