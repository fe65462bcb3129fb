/** The neck's wood and its headstock, filled in. */
import type { Headstock, NeckBlank, RodEnds, Tuners } from '../headTypes.ts';
import type { GivenInstrument } from '../schema/instrument.ts';
import { type Fill, PRACTICE } from './fill.ts';

type Given = Partial<GivenInstrument>;

/** The blank of the neck; null where nothing is said of it. */
export function resolveNeckBlank(given: Given, fill: Fill): NeckBlank | null {
  const blank = given.neckBlank;
  if (blank === undefined)
    return fill.shown('neckBlank', undefined, null, 'none', 'the neck is made elsewhere');
  const build = fill.plain(
    'neckBlank.build',
    blank.build,
    'scarf',
    `saves wood, no short grain (${PRACTICE})`,
  );
  return {
    wood: blank.wood,
    materialClass: blank.materialClass,
    build,
    thickness: fill.length(
      'neckBlank.thickness',
      blank.thickness,
      build === 'scarf' ? 20 : 85,
      build === 'scarf'
        ? `a shaft with its rod (${PRACTICE})`
        : `deep enough for head and heel (${PRACTICE})`,
    ),
    width: fill.length(
      'neckBlank.width',
      blank.width,
      usualWidth(given),
      'the widest of head and board, and 5',
    ),
    heel: fill.plain(
      'neckBlank.heel',
      blank.heel,
      build === 'scarf' ? 'stacked' : 'one piece',
      'as the build goes',
    ),
    heelLength: fill.length('neckBlank.heelLength', blank.heelLength, 70, `the heel's curve (${PRACTICE})`),
    pastJoint: fill.length('neckBlank.pastJoint', blank.pastJoint, 20, `a tenon (${PRACTICE})`),
    leastUnderRod: fill.length('neckBlank.leastUnderRod', blank.leastUnderRod, 3, PRACTICE),
  };
}

/** Up to the next five millimetres past the widest thing that comes out of the blank. */
function usualWidth({ headstock, fingerboard, neckJoint }: Given): number {
  const shape = headstock?.outline;
  const widest = Math.max(
    shape?.widthAtShoulder ?? 0,
    shape?.widthAtTip ?? 0,
    fingerboard?.widthAt.width ?? 0,
    neckJoint?.heelWidthAtTop ?? 0,
    fingerboard?.widthAtNut ?? 0,
  );
  return Math.ceil((widest + 5) / 5) * 5;
}

/** The headstock; null where nothing is said of it. */
export function resolveHeadstock(given: Given, fill: Fill): Headstock | null {
  const head = given.headstock;
  if (head === undefined)
    return fill.shown('headstock', undefined, null, 'none', 'the headstock is made elsewhere');
  return {
    angle: head.angle,
    thickness: head.thickness,
    outline: resolveOutline(head.outline, fill),
    veneer:
      head.veneer === undefined
        ? fill.shown('headstock.veneer', undefined, null, 'none', 'the head has no veneer')
        : { ...head.veneer },
    tuners: resolveTuners(head.tuners, given.strings?.length ?? 0, fill),
    template: resolveTemplate(head.template, fill),
  };
}

type GivenHead = NonNullable<GivenInstrument['headstock']>;

function resolveOutline(outline: GivenHead['outline'], fill: Fill): Headstock['outline'] {
  const { file, length, shoulder, widthAtShoulder, widthAtTip } = outline;
  if (file !== undefined) return { kind: 'file', file };
  const tip = fill.length('headstock.outline.tip', outline.tip, 0, 'a straight tip');
  const corner = fill.length('headstock.outline.corner', outline.corner, 4, 'no sharp corners');
  if (
    length === undefined ||
    shoulder === undefined ||
    widthAtShoulder === undefined ||
    widthAtTip === undefined
  )
    throw new Error('an outline without its sizes was let in');
  return { kind: 'sizes', length, shoulder, widthAtShoulder, widthAtTip, tip, corner };
}

function resolveTuners(tuners: GivenHead['tuners'], strings: number, fill: Fill): Tuners {
  const at = 'headstock.tuners';
  return {
    onBassSide: fill.plain(
      `${at}.onBassSide`,
      tuners.onBassSide,
      Math.ceil(strings / 2),
      'half of the strings on each side',
    ),
    first: tuners.first,
    apart: tuners.apart,
    fromCentre: tuners.fromCentre,
    fromCentreLast: fill.length(
      `${at}.fromCentreLast`,
      tuners.fromCentreLast,
      tuners.fromCentre,
      'the lines run along the centreline',
    ),
    post: fill.length(`${at}.post`, tuners.post, 6, `a usual post (${PRACTICE})`),
    hole: tuners.hole,
    bushing:
      tuners.bushing === undefined
        ? fill.shown(`${at}.bushing`, undefined, null, 'none', 'the holes are plain')
        : { ...tuners.bushing },
    reamerTaper:
      tuners.reamerTaper ??
      fill.shown(`${at}.reamerTaper`, undefined, null, 'none', 'the holes are not reamed'),
    knob:
      tuners.knob === undefined
        ? fill.shown(`${at}.knob`, undefined, null, 'none', 'nothing is checked about the knobs')
        : { ...tuners.knob },
    leastEdge: fill.length(`${at}.leastEdge`, tuners.leastEdge, 4, PRACTICE),
  };
}

function resolveTemplate(template: GivenHead['template'], fill: Fill): Headstock['template'] {
  const at = 'headstock.template';
  if (template === undefined) return fill.shown(at, undefined, null, 'none', 'this jig is not asked for');
  return {
    materialClass: fill.plain(`${at}.materialClass`, template.materialClass, 'plywood', 'a usual sheet'),
    thickness: fill.length(`${at}.thickness`, template.thickness, 3, 'a usual sheet'),
    pilot: fill.length(`${at}.pilot`, template.pilot, 2, 'guides the point of a drill'),
  };
}

/** The ends of the rod's channel; what is not wanted is left out. */
export function resolveRodEnds(rod: NonNullable<GivenInstrument['trussRod']>, fill: Fill): RodEnds {
  const { anchor, adjuster, filler } = rod;
  return {
    ...(anchor === undefined ? {} : { anchor: { ...anchor } }),
    ...(adjuster === undefined
      ? {}
      : {
          adjuster: {
            ...adjuster,
            access: fill.length(
              'trussRod.adjuster.access',
              adjuster.access,
              0,
              'the key needs no way of its own',
            ),
          },
        }),
    ...(filler === undefined ? {} : { filler }),
  };
}
