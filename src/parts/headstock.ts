/** The head: its plate, its veneer and the template that carries its outline and the tuners' places. */
import { bounds, circle } from '../geometry/ring.ts';
import type { Box, Ring, Vec } from '../geometry/types.ts';
import type { HeadLayout, Layout, NeckLayout, TunerPost } from '../layout/types.ts';
import type { Headstock, Instrument, NeckBlank } from '../profile/types.ts';
import { formatShort } from '../units/format.ts';
import type { PartSettings } from './settings.ts';
import type {
  BenchStep,
  Feature,
  HoleFeature,
  LineFeature,
  OutlineFeature,
  Part,
  PocketFeature,
} from './types.ts';

const DATUM = 'the back of the nut on the centreline; the head is unfolded into the plane of the neck';

interface Head {
  readonly neck: NeckLayout;
  readonly head: HeadLayout;
  readonly headstock: Headstock;
  readonly blank: NeckBlank;
  readonly settings: PartSettings;
}

/** Plate (of a scarfed head), veneer and template, as far as the profile asks for them. */
export function makeHeadParts(instrument: Instrument, layout: Layout, settings: PartSettings): Part[] {
  const { headstock, neckBlank: blank } = instrument;
  const { neck } = layout;
  const head = neck?.head ?? null;
  if (neck === null || head === null || headstock === null || blank === null) return [];
  const all: Head = { neck, head, headstock, blank, settings };
  return [
    ...(neck.scarf === null ? [] : [makePlate(all, neck.scarf.overlap)]),
    ...(headstock.veneer === null ? [] : [makeVeneer(all, headstock.veneer)]),
    ...(headstock.template === null ? [] : [makeTemplate(all, headstock.template)]),
  ];
}

/** The plate as it is worked before it is glued to the shaft: face up, with the tongue that goes over the shaft's bevel. */
function makePlate({ head, headstock, blank, settings }: Head, overlap: number): Part {
  const { thickness, tuners, veneer } = headstock;
  const bushing = tuners.bushing === null ? 0 : tuners.bushing.depth - (veneer?.thickness ?? 0);
  const features: Feature[] = [
    ...(tuners.bushing === null || bushing <= 0
      ? []
      : head.posts.map((post) => bushingPocket(post, tuners.bushing?.diameter ?? 0, bushing))),
    ...head.posts.map(
      (post): HoleFeature => ({
        id: post.id,
        work: 'headstock',
        kind: 'hole',
        at: post.at,
        diameter: tuners.hole,
        depth: thickness,
        through: true,
      }),
    ),
    outlineFeature('headstock-outline', 'headstock', head.plate),
  ];
  const box = bounds(head.plate);
  const { ends, sides } = settings.allowances;
  return {
    id: 'headstock',
    title: 'Head plate',
    material: blank.wood,
    materialClass: blank.materialClass,
    blank: {
      box: { x: [box.x[0] - ends, box.x[1] + ends], y: [box.y[0] - sides, box.y[1] + sides] },
      thickness,
      top: { kind: 'plane', z: 0 },
    },
    features,
    datum: `${DATUM}; the plate is ${Math.round(overlap * 100) / 100} mm longer at its back, where it is bevelled`,
    sawnFrom: 'neck-board',
    benchSteps: plateSteps(headstock, overlap),
  };
}

function plateSteps({ angle }: Headstock, overlap: number): BenchStep[] {
  return [
    {
      step: 'bevel-head-plate',
      follows: 'headstock',
      why: `the tongue of the plate is bevelled by ${degrees(angle)}: its face ends at the back of the nut, its back ${formatShort(overlap, 2)} mm farther; plane it and the bevel of the shaft in one plane, one laid on the other`,
    },
    {
      step: 'glue-scarf',
      follows: 'headstock',
      why: 'the back of the plate is glued on the bevel of the shaft, its own bevel flush with the face that the board is glued to; both want a stop at their ends, because bevels slide under clamps',
    },
  ];
}

const degrees = (angle: number): string => `${formatShort((angle * 180) / Math.PI, 2)} deg`;

function bushingPocket(post: TunerPost, diameter: number, depth: number): PocketFeature {
  return {
    id: `${post.id}-bushing`,
    work: 'headstock',
    kind: 'pocket',
    region: { outer: circle(post.at, diameter / 2), holes: [] },
    floor: { kind: 'plane', z: -depth },
  };
}

/**
 * The veneer ends as an upright wall at the back of the nut: its nut end is cut longer by thickness tan a and bevelled from below by
 * the head's angle, so that the nut's own thickness is what is left between it and the board.
 */
function makeVeneer(
  { head, neck, headstock, settings }: Head,
  veneer: NonNullable<Headstock['veneer']>,
): Part {
  const longer = veneer.thickness * Math.tan(headstock.angle);
  const ring = lengthened(head.outline, neck.breakX, longer);
  const { tuners } = headstock;
  const diameter = Math.max(tuners.hole, tuners.bushing?.diameter ?? 0);
  const part = flat(
    'head-veneer',
    'Head veneer',
    veneer.wood,
    veneer,
    [
      ...head.posts.map((post) => opening(`head-veneer-${post.id}`, 'headVeneer', post.at, diameter)),
      outlineFeature('head-veneer-outline', 'headVeneer', ring),
    ],
    bounds(ring),
    settings.allowances.between,
    `${DATUM}; its nut end is bevelled from below by the head's angle`,
  );
  const step: BenchStep = {
    step: 'bevel-head-veneer',
    follows: 'headVeneer',
    why: `its nut end, ${formatShort(longer, 2)} mm past the back of the nut, is bevelled from below by ${degrees(headstock.angle)}, so that it stands upright behind the nut; glue it with the nut itself as the spacer to the board`,
  };
  return { ...part, benchSteps: [step] };
}

/** The outline with its nut end moved toward the body by `by`, along the break's own direction. */
function lengthened(outline: Ring, breakX: number, by: number): Ring {
  if (by < 1e-9) return outline;
  const ends = outline.filter(({ x }) => Math.abs(x - breakX) < 1e-9).map(({ y }) => y);
  const [low, high] = [Math.min(...ends), Math.max(...ends)];
  const start = outline.findIndex(({ x, y }) => Math.abs(x - breakX) < 1e-9 && y === high);
  const turned = [...outline.slice(start), ...outline.slice(0, start)];
  return [...turned, { x: breakX + by, y: low, bulge: 0 }, { x: breakX + by, y: high, bulge: 0 }];
}

function makeTemplate({ head, neck, settings }: Head, template: NonNullable<Headstock['template']>): Part {
  const { x } = bounds(head.outline);
  const centreline: LineFeature = {
    id: 'head-template-centreline',
    work: 'headTemplate',
    kind: 'line',
    points: [
      [x[0] + MARGIN, 0],
      [neck.breakX - MARGIN, 0],
    ],
    meaning: 'centreline',
  };
  return flat(
    'head-template',
    'Head template',
    template.materialClass,
    template,
    [
      centreline,
      ...head.posts.map((post) =>
        opening(`head-template-${post.id}`, 'headTemplate', post.at, template.pilot),
      ),
      outlineFeature('head-template-outline', 'headTemplate', head.outline),
    ],
    bounds(head.outline),
    settings.allowances.between,
    `${DATUM}; its straight end lies on the back of the nut`,
  );
}

/** The centreline ends this far inside the template's edge. */
const MARGIN = 4;

interface Sheet {
  readonly materialClass: Part['materialClass'];
  readonly thickness: number;
}

function flat(
  id: string,
  title: string,
  material: string,
  { materialClass, thickness }: Sheet,
  features: readonly Feature[],
  box: Box,
  around: number,
  datum: string,
): Part {
  const grown: Box = {
    x: [box.x[0] - around, box.x[1] + around],
    y: [box.y[0] - around, box.y[1] + around],
  };
  return {
    id,
    title,
    material,
    materialClass,
    blank: { box: grown, thickness, top: { kind: 'plane', z: 0 } },
    features,
    datum,
  };
}

function opening(id: string, work: OutlineFeature['work'], at: Vec, diameter: number): OutlineFeature {
  return { id, work, kind: 'outline', ring: circle(at, diameter / 2), keep: 'outside' };
}

function outlineFeature(id: string, work: OutlineFeature['work'], ring: Ring): OutlineFeature {
  return { id, work, kind: 'outline', ring, keep: 'inside' };
}
