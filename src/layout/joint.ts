/** Mortise and tenon seen from the end of the neck: x of this frame runs down from the neck's face, y toward the treble side. */
import { type Tongue, tongueHalf, tongueOut } from '../geometry/tongue.ts';
import type { Ring } from '../geometry/types.ts';
import type { Instrument, NeckJoint, Tenon } from '../profile/types.ts';
import type { JointLayout } from './neckTypes.ts';

/** The joint; null where the profile does not describe one. */
export function layOutJoint({ neckJoint }: Instrument, joint: number | null): JointLayout | null {
  const tenon = neckJoint?.tenon ?? null;
  if (neckJoint === null || tenon === null || joint === null) return null;
  const shapes = shapesOf(tenon);
  const heel = heelFace(neckJoint);
  return {
    ...shapes,
    joint,
    build: tenon.build,
    length: tenon.length,
    mortiseDepth: tenon.length + tenon.endGap,
    gap: tenon.gap,
    topAt: neckJoint.boardAboveRim,
    heel,
    block: tenon.block,
    bolts: (tenon.bolts?.down ?? []).map((down, i) => ({ id: `joint-bolt-${i + 1}`, down })),
    relief: reliefOf(tenon, shapes.root, heel),
  };
}

type Shapes = Pick<
  JointLayout,
  'tenon' | 'root' | 'mortise' | 'mouth' | 'offset' | 'templates' | 'squareByHand'
>;

/**
 * With flare f, tenon length L, mortise depth D and gap g square to the cheeks: the tenon is narrower by L tan f at its root than at
 * its end on every side, and the mortise's floor is wider than the tenon's end by (D - L) tan f + g / cos f. A bush of diameter B round a
 * cutter of diameter C, guided by an edge, cuts (B - C) / 2 away from it: inside an opening that much nearer to the middle, round a
 * tongue that much farther out.
 */
function shapesOf(tenon: Tenon): Shapes {
  const { width, footWidth, height, length, endGap, gap, flare, templates } = tenon;
  const deeper = length * Math.tan(flare);
  const wider = endGap * Math.tan(flare) + gap / Math.cos(flare);
  const offset = templates === null ? 0 : (templates.bush - templates.cutter) / 2;
  const cutter = templates === null ? 0 : templates.cutter / 2;
  const sharp = Math.max(0, offset);
  const asCut = Math.max(0, cutter - deeper - wider);
  const end: Tongue = {
    half: width / 2,
    slope: (footWidth - width) / 2 / height,
    foot: height,
    corner: (tenon.corners === 'square' ? sharp : Math.max(sharp, asCut)) + deeper,
  };
  const root = tongueOut(end, -deeper);
  const meant = tongueOut(end, wider);
  const mortise = { ...meant, corner: Math.max(meant.corner, cutter) };
  return {
    tenon: end,
    root,
    mortise,
    mouth: tongueOut(mortise, -(length + endGap) * Math.tan(flare)),
    offset,
    templates:
      templates === null ? null : { tenon: tongueOut(root, -offset), mortise: tongueOut(mortise, offset) },
    squareByHand: mortise.corner > meant.corner + 1e-9,
  };
}

/** The face of the heel that meets the body, from the top's plane to the cap. */
function heelFace(joint: NeckJoint): JointLayout['heel'] {
  const { boardAboveRim, heelDepth, heelWidthAtTop, heelWidthAtCap } = joint;
  const slope = (heelWidthAtCap - heelWidthAtTop) / 2 / heelDepth;
  return {
    half: heelWidthAtTop / 2 - slope * boardAboveRim,
    slope,
    foot: heelDepth + boardAboveRim,
    corner: 0,
  };
}

/** What is cut back within the rim, round the tenon; open toward the board. Null where there is no room for it beside the tenon. */
function reliefOf({ relief }: Tenon, root: Tongue, heel: Tongue): JointLayout['relief'] {
  if (relief === null) return null;
  const inner = tongueOut(heel, -relief.rim);
  const room = [0, root.foot].every((x) => tongueHalf(inner, x) > tongueHalf(root, x));
  if (!room || inner.foot <= root.foot) return { ring: null, depth: relief.depth };
  const corner = (of: Tongue, x: number, side: number) => ({ x, y: side * tongueHalf(of, x), bulge: 0 });
  const ring: Ring = [
    corner(inner, 0, -1),
    corner(inner, inner.foot, -1),
    corner(inner, inner.foot, 1),
    corner(inner, 0, 1),
    corner(root, 0, 1),
    corner(root, root.foot, 1),
    corner(root, root.foot, -1),
    corner(root, 0, -1),
  ];
  return { ring, depth: relief.depth };
}
