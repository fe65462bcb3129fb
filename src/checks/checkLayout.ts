import type { Layout } from '../layout/types.ts';
import type { Instrument } from '../profile/types.ts';
import type { Finding } from '../report/finding.ts';
import { checkBridgeBody } from './bridgeBody.ts';
import { cutsOf } from './cuts.ts';
import { checkDepths } from './depths.ts';
import { checkHead } from './head.ts';
import { checkPins, checkSideHoles } from './holes.ts';
import { checkJoint } from './joint.ts';
import { checkNeckWood } from './neckWood.ts';
import { checkShaft } from './shaft.ts';
import { checkSlots } from './slots.ts';
import type { Board } from './types.ts';
import { checkVolute } from './volute.ts';
import { checkWalls } from './walls.ts';
import { checkWire } from './wire.ts';

/** What a careful builder finds wrong or doubtful in a board before it is cut; findings carry field paths. */
export function checkLayout(layout: Layout, instrument: Instrument): Finding[] {
  const board: Board = { layout, instrument, cuts: cutsOf(layout, instrument) };
  const checks = [
    checkWalls,
    checkPins,
    checkSideHoles,
    checkSlots,
    checkDepths,
    checkWire,
    checkHead,
    checkNeckWood,
    checkShaft,
    checkBridgeBody,
    checkVolute,
    checkJoint,
  ];
  return checks.flatMap((check) => check(board));
}
