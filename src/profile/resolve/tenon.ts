/** The joint between neck and body, filled in. */
import { radiansFromDegrees } from '../../units/convert.ts';
import type { GivenInstrument } from '../schema/instrument.ts';
import type { JointTemplates, Tenon } from '../tenonTypes.ts';
import { type Fill, PRACTICE } from './fill.ts';

type GivenTenon = NonNullable<NonNullable<GivenInstrument['neckJoint']>['tenon']>;

const AT = 'neckJoint.tenon';

/** The joint; null where nothing is said of it. */
export function resolveTenon(given: GivenTenon | undefined, fill: Fill): Tenon | null {
  if (given === undefined)
    return fill.shown(AT, undefined, null, 'none', 'neck and body are joined elsewhere');
  const usual = given.bolts === undefined ? 'straight' : 'bolted';
  const build = fill.plain(`${AT}.build`, given.build, usual, 'bolts are said, or not');
  const isDovetail = build === 'dovetail';
  const { width, bolts } = given;
  return {
    build,
    width,
    footWidth: isDovetail
      ? fill.length(`${AT}.footWidth`, given.footWidth, width * 0.6, `a wedge (${PRACTICE})`)
      : (given.footWidth ?? width),
    length: given.length,
    height: given.height,
    gap: fill.length(`${AT}.gap`, given.gap, isDovetail ? 0 : 0.1, gapWhy(build)),
    endGap: fill.length(`${AT}.endGap`, given.endGap, 1, `the shoulder meets first (${PRACTICE})`),
    flare: isDovetail
      ? fill.angle(`${AT}.flare`, given.flare, radiansFromDegrees(7.5), `a usual cutter: measure it`)
      : (given.flare ?? 0),
    corners: fill.plain(`${AT}.corners`, given.corners, 'rounded', 'nothing is left to pare'),
    block: {
      ...given.block,
      leastWall: fill.length(`${AT}.block.leastWall`, given.block.leastWall, 10, PRACTICE),
    },
    bolts:
      bolts === undefined
        ? null
        : { ...bolts, hole: fill.length(`${AT}.bolts.hole`, bolts.hole, 6.5, `a 1/4 in or M6 bolt, free`) },
    relief: resolveRelief(given.relief, fill),
    templates: resolveTemplates(given.templates, fill),
  };
}

const gapWhy = (build: Tenon['build']): string =>
  build === 'dovetail' ? 'a wedge fits without one' : `slides by hand (${PRACTICE})`;

function resolveRelief(relief: GivenTenon['relief'], fill: Fill): Tenon['relief'] {
  if (relief === undefined)
    return fill.shown(`${AT}.relief`, undefined, null, 'none', 'the whole face of the heel meets the body');
  return {
    rim: fill.length(`${AT}.relief.rim`, relief.rim, 3, PRACTICE),
    depth: fill.length(`${AT}.relief.depth`, relief.depth, 0.5, PRACTICE),
  };
}

function resolveTemplates(given: GivenTenon['templates'], fill: Fill): JointTemplates | null {
  const at = `${AT}.templates`;
  if (given === undefined)
    return fill.shown(at, undefined, null, 'none', 'the joint is cut without templates');
  return {
    ...given,
    materialClass: fill.plain(`${at}.materialClass`, given.materialClass, 'plywood', 'a usual sheet'),
    thickness: fill.length(`${at}.thickness`, given.thickness, 6, 'thicker than a bush is long'),
    pilot: fill.length(`${at}.pilot`, given.pilot, 2, "a drill's point"),
  };
}
