/** The neck's joint and the bridge, filled in. */
import type { GivenInstrument } from '../schema/instrument.ts';
import type { Instrument } from '../types.ts';
import { resolveAnchor } from './anchor.ts';
import { type BridgeGround, resolveBody, resolvePlate } from './bridgeParts.ts';
import { type Fill, PRACTICE } from './fill.ts';
import { resolveTenon } from './tenon.ts';

/** Clear space between the strings of a pair at the nut (common practice, no source). */
export const COURSE_GAP = 2;

/** Saddle past the outer strings (common practice, no source). */
const SADDLE_ENDS = 6;

/** Where the neck meets the body; null where nothing is said of it. */
export function resolveNeckJoint(given: Partial<GivenInstrument>, fill: Fill): Instrument['neckJoint'] {
  const joint = given.neckJoint;
  if (joint === undefined)
    return fill.shown('neckJoint', undefined, null, 'none', 'the neck is set elsewhere');
  const flat = joint.domeRadius === 'flat';
  return {
    ...joint,
    domeRadius: joint.domeRadius === 'flat' ? null : joint.domeRadius,
    domeApex: flat
      ? (joint.domeApex ?? 0)
      : fill.length('neckJoint.domeApex', joint.domeApex, 240, 'a little before the bridge: measure it'),
    boardAboveRim: fill.length(
      'neckJoint.boardAboveRim',
      joint.boardAboveRim,
      0,
      "the board's underside meets the rim's plane",
    ),
    fallAway: fill.length('neckJoint.fallAway', joint.fallAway, 0, 'the frets over the body run straight on'),
    tenon: resolveTenon(joint.tenon, fill),
  };
}

/** What a bridge's wood is taken from where nothing is said. */
export type BridgeWood = Pick<BridgeGround, 'wood' | 'materialClass' | 'isSlanted'>;

/** The bridge, with every default filled in. */
export function resolveBridge(
  bridge: GivenInstrument['bridge'],
  gapAtNut: number | undefined,
  hasCourses: boolean,
  wood: BridgeWood,
  fill: Fill,
): Instrument['bridge'] {
  const { saddle, stringSpread } = bridge;
  const anchor = resolveAnchor(bridge, fill);
  const gap = gapAtNut ?? COURSE_GAP;
  const ground = {
    ...wood,
    saddleEnds: saddle?.ends ?? SADDLE_ENDS,
    anchor,
  };
  return {
    height: bridge.height ?? null,
    body: resolveBody(bridge, ground, fill),
    plate: resolvePlate(bridge, ground, fill),
    stringSpread,
    straightedge: fill.length(
      'bridge.straightedge',
      bridge.straightedge,
      0,
      `the straightedge just grazes the bridge (${PRACTICE})`,
    ),
    drop: fill.length('bridge.drop', bridge.drop, 0, 'nothing is known of this top: measure it strung'),
    courseGap: hasCourses
      ? fill.length('bridge.courseGap', bridge.courseGap, gap, 'the same as at the nut')
      : (bridge.courseGap ?? gap),
    saddle: {
      width: fill.length('bridge.saddle.width', saddle?.width, 3.175, `a 1/8 in saddle (${PRACTICE})`),
      edge: fill.length(
        'bridge.saddle.edge',
        saddle?.edge,
        0.3,
        `so that a crown does not crumble (${PRACTICE})`,
      ),
      height: fill.length(
        'bridge.saddle.height',
        saddle?.height,
        3.5,
        `middle of the usual range, 2.5 to 4.5 mm (${PRACTICE})`,
      ),
      ramp: fill.length('bridge.saddle.ramp', saddle?.ramp, 2, `string slots filed to a ramp (${PRACTICE})`),
      slotDepth: fill.length(
        'bridge.saddle.slotDepth',
        saddle?.slotDepth,
        5,
        `at least as deep as the saddle stands out (${PRACTICE})`,
      ),
      ends: fill.length(
        'bridge.saddle.ends',
        saddle?.ends,
        SADDLE_ENDS,
        `past the outer strings (${PRACTICE})`,
      ),
    },
    anchor,
  };
}
