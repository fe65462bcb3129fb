/** Plates that guide a hand-held router round the tenon and inside the mortise. */
import { bounds, circle } from '../geometry/ring.ts';
import { withRoundCorners } from '../geometry/roundCorners.ts';
import { tongueHalf } from '../geometry/tongue.ts';
import type { Ring, Vec } from '../geometry/types.ts';
import type { JointLayout, Layout } from '../layout/types.ts';
import type { Instrument, Tenon } from '../profile/types.ts';
import { formatShort } from '../units/format.ts';
import type { PartSettings } from './settings.ts';
import type { Feature, LineFeature, OutlineFeature, Part } from './types.ts';

/** Least width of a leg that carries the router (common practice, no source). */
const LEG = 30;
/** Of the bar that holds tongue and legs together, above the wood. */
const BAR = 25;
/** The bush comes clear of the wood by this before it meets the bar. */
const CLEAR = 2;
/** Marks end this far inside an edge. */
const INSIDE = 2;

type Sheet = NonNullable<Tenon['templates']>;

interface Plates {
  readonly fit: JointLayout;
  readonly sheet: Sheet;
  readonly edges: NonNullable<JointLayout['templates']>;
  readonly settings: PartSettings;
}

/** The templates of the joint, that of the tenon first; none where none are asked for. */
export function makeJointTemplates(instrument: Instrument, layout: Layout, settings: PartSettings): Part[] {
  const fit = layout.neck?.fit ?? null;
  const sheet = instrument.neckJoint?.tenon?.templates ?? null;
  if (fit === null || sheet === null || fit.templates === null) return [];
  const plates: Plates = { fit, sheet, edges: fit.templates, settings };
  return [makeTenonTemplate(plates, wasteHalf(instrument, fit)), makeMortiseTemplate(plates)];
}

/** Half the width of the wood round the tenon that has to go. */
function wasteHalf({ neckBlank }: Instrument, { heel }: JointLayout): number {
  return Math.max(neckBlank?.width ?? 0, 2 * heel.half) / 2 + 1;
}

/**
 * Three legs on a bar: the middle one is the tenon less what bush and cutter differ by, and the router rides on all of them. The bar lies
 * above the wood, so the cutter passes clear of the neck's face.
 */
function makeTenonTemplate(plates: Plates, waste: number): Part {
  const { fit, sheet, edges, settings } = plates;
  const { tenon } = edges;
  const root = -(sheet.bush + CLEAR);
  const inside = Math.max(waste + fit.offset, tongueHalf(tenon, root) + sheet.bush + 1);
  const outside = inside + Math.max(LEG, 2 * tenon.corner + 2);
  const [top, end] = [root - BAR, fit.heel.foot + 10];
  const right: Vec[] = [
    [end, outside],
    [end, inside],
    [root, inside],
    [root, tongueHalf(tenon, root)],
    [tenon.foot, tongueHalf(tenon, tenon.foot)],
  ];
  const left = right.map(([x, y]): Vec => [x, -y]);
  const points: Vec[] = [[top, -outside], ...left, ...right.toReversed(), [top, outside]];
  const half = tongueHalf(tenon, 0);
  const features: Feature[] = [
    mark('tenon-template-centreline', 'centreline', [top + INSIDE, 0], [-INSIDE, 0]),
    mark('tenon-template-face', 'face line', [0, -half + INSIDE], [0, half - INSIDE]),
    mark('tenon-template-face-bass', 'face line', [0, -outside + INSIDE], [0, -inside - INSIDE]),
    mark('tenon-template-face-treble', 'face line', [0, inside + INSIDE], [0, outside - INSIDE]),
    ...fit.bolts.map(({ id, down }) => pilot(`tenon-template-${id}`, [down, 0], sheet.pilot)),
    edge('tenon-template-outline', withRoundCorners(points, tenon.corner, sheet.bush / 2), sheet.bush / 2),
  ];
  const words = `x = 0 is the marked line across its legs, laid on the face that the board is glued to; ${guide(plates)}`;
  return plate('tenon-template', 'Tenon template', sheet, features, words, settings);
}

/** A plate with a notch that is open past the plane of the top. */
function makeMortiseTemplate(plates: Plates): Part {
  const { fit, sheet, edges, settings } = plates;
  const { mortise } = edges;
  const top = fit.topAt - sheet.bush / 2 - LEG / 2;
  const outside = Math.max(fit.block.width / 2, tongueHalf(mortise, top) + LEG);
  const end = mortise.foot + LEG;
  const points: Vec[] = [
    [top, -outside],
    [end, -outside],
    [end, outside],
    [top, outside],
    [top, tongueHalf(mortise, top)],
    [mortise.foot, tongueHalf(mortise, mortise.foot)],
    [mortise.foot, -tongueHalf(mortise, mortise.foot)],
    [top, -tongueHalf(mortise, top)],
  ];
  const at = fit.topAt;
  const inner = tongueHalf(mortise, at) + INSIDE;
  const features: Feature[] = [
    mark('mortise-template-centreline', 'centreline', [mortise.foot + INSIDE, 0], [end - INSIDE, 0]),
    mark('mortise-template-top-bass', 'face line', [at, -outside + INSIDE], [at, -inner]),
    mark('mortise-template-top-treble', 'face line', [at, inner], [at, outside - INSIDE]),
    edge('mortise-template-outline', withRoundCorners(points, 0, mortise.corner), mortise.corner),
  ];
  const words = `the marked line across its legs is laid on the plane of the top, ${mm(at)} below x = 0; ${guide(plates)}`;
  return plate('mortise-template', 'Mortise template', sheet, features, words, settings);
}

const guide = ({ fit, sheet }: Plates): string =>
  `for a bush of ${mm(sheet.bush)} outside and a cutter of ${mm(sheet.cutter)}: the cut lies ${mm(fit.offset)} from its edge`;

const mm = (length: number): string => `${formatShort(length, 2)} mm`;

function mark(id: string, meaning: LineFeature['meaning'], from: Vec, to: Vec): LineFeature {
  return { id, work: 'jointTemplates', kind: 'line', points: [from, to], meaning };
}

function pilot(id: string, at: Vec, diameter: number): OutlineFeature {
  return { id, work: 'jointTemplates', kind: 'outline', ring: circle(at, diameter / 2), keep: 'outside' };
}

function edge(id: string, ring: Ring, inner: number): OutlineFeature {
  return { id, work: 'jointTemplates', kind: 'outline', ring, keep: 'inside', inner };
}

function plate(
  id: string,
  title: string,
  { materialClass, thickness }: Sheet,
  features: readonly Feature[],
  datum: string,
  { allowances }: PartSettings,
): Part {
  const { x, y } = bounds(features.flatMap((f) => (f.kind === 'outline' ? f.ring : [])));
  const { between } = allowances;
  return {
    id,
    title,
    material: materialClass,
    materialClass,
    blank: {
      box: { x: [x[0] - between, x[1] + between], y: [y[0] - between, y[1] + between] },
      thickness,
      top: { kind: 'plane', z: 0 },
    },
    features,
    datum,
  };
}
