/** Can the jigs be cut as they are asked for? */
import type { Finding } from '../report/finding.ts';
import { fallAt } from './boardShape.ts';
import { type Check, check, HAIR, mm, when, wrong } from './check.ts';
import type { Instrument, RadiusBlock } from './types.ts';

/** Least sheet between holes, and between a hole and an edge: less breaks or burns away (common practice, no source). */
const WALL = { pilot: 1, dowel: 3 };
/** Where the dowels go in a plate: this share of its height up, this share of its width from its middle. */
const DOWEL_AT = { up: 0.6, aside: 0.25 };

const pilotsInsideTemplate = check(['jigs', 'bridge', 'strings'], ({ jigs, bridge: { anchor }, strings }) => {
  const template = jigs.pinTemplate;
  if (template === null) return [];
  const { margin, pilot } = template;
  const apart = strings.length < 2 ? Number.POSITIVE_INFINITY : anchor.spread / (strings.length - 1);
  return [
    ...when(margin - pilot / 2 < WALL.pilot - HAIR, () =>
      wrong(
        'pilot-at-edge',
        'jigs.pinTemplate.margin',
        `Pilot holes of ${mm(pilot)} in a margin of ${mm(margin)} ${touch(margin - pilot / 2)} the template's edge.`,
        {
          allowed: `at least ${mm(pilot / 2 + WALL.pilot)} with these holes`,
          remedy: 'A wider margin or smaller pilot holes.',
        },
      ),
    ),
    ...when(apart - pilot < WALL.pilot - HAIR, () =>
      wrong(
        'pilots-too-close',
        'jigs.pinTemplate.pilot',
        `Pilot holes of ${mm(pilot)} at holes ${mm(apart)} apart ${touch(apart - pilot)} one another.`,
        {
          allowed: `at most ${mm(apart - WALL.pilot)}`,
          remedy: `Smaller pilot holes, or holes further apart (bridge.${anchor.kind}.spread).`,
        },
      ),
    ),
  ];
});

const touch = (wall: number): string => (wall <= 0 ? 'reach' : `leave only ${mm(wall)} to`);

const blockFits = check(['jigs', 'fingerboard'], ({ jigs: { radiusBlock: block }, fingerboard }) => {
  if (block === null) return [];
  const own = block.radius ?? fingerboard.radius;
  if (block.radius === null && !(Number.isFinite(own) && fingerboard.radiusAlong.kind === 'constant'))
    return [blockOfWhichRadius(fingerboard)];
  const radius = own + block.padding;
  const length = when(block.plates * block.plateThickness > block.length + HAIR, () =>
    wrong(
      'plates-too-many',
      'jigs.radiusBlock.plates',
      `${block.plates} plates of ${mm(block.plateThickness)} do not fit into a block ${mm(block.length)} long.`,
      {
        allowed: `at most ${Math.floor((block.length + HAIR) / block.plateThickness)}`,
        remedy: 'Fewer or thinner plates, or a longer block.',
      },
    ),
  );
  return [...length, ...hollowFits(block, radius)];
});

/** A block has one hollow: it shapes a cylinder, or one place of a cone. */
function blockOfWhichRadius({ radius }: Instrument['fingerboard']): Finding {
  const isFlat = !Number.isFinite(radius);
  return wrong(
    'block-needs-radius',
    'jigs.radiusBlock',
    isFlat
      ? 'The board is flat: there is no radius for a sanding block to follow.'
      : "The board's radius changes along it; a sanding block has one radius and would sand a cylinder.",
    {
      allowed: 'a radius of its own (jigs.radiusBlock.radius), used only where the board has it; or no block',
      remedy: isFlat
        ? 'Leave the block out; use a flat one.'
        : 'Say which radius, make one block after another, or sand along the strings with a straight bar.',
    },
  );
}

/** The hollow rises by the fall of its radius over half the width. */
function hollowFits(block: RadiusBlock, radius: number): readonly Finding[] {
  const rise = fallAt(radius, block.width / 2);
  if (rise > block.height - WALL.dowel + HAIR) {
    const text = Number.isFinite(rise)
      ? `The hollow of a plate rises ${mm(rise)} into its ${mm(block.height)} of height.`
      : `A plate ${mm(block.width)} wide is wider than its hollow of radius ${mm(radius)} can be.`;
    return [
      wrong('block-too-wide', 'jigs.radiusBlock.width', text, {
        allowed: `less than ${mm(widestFor(block, radius))} with this radius and height`,
        remedy: 'A narrower or a higher block.',
      }),
    ];
  }
  const most = thickestDowel(block, radius);
  return when(block.dowelDiameter > most + HAIR, () =>
    wrong(
      'dowel-too-thick',
      'jigs.radiusBlock.dowelDiameter',
      `Holes for dowels of ${mm(block.dowelDiameter)} do not leave ${WALL.dowel} mm of wood all round in plates ${mm(block.width)} wide and ${mm(block.height)} high.`,
      most < LEAST_DOWEL
        ? { allowed: 'no dowel fits these plates', remedy: 'A wider and higher block.' }
        : { allowed: `at most ${mm(most)}`, remedy: 'Thinner dowels, or a wider or higher block.' },
    ),
  );
}

/** The thinnest dowel a profile may ask for. */
const LEAST_DOWEL = 3;

function widestFor(block: RadiusBlock, radius: number): number {
  // Half the chord whose sagitta is the height less a wall; at most the whole circle.
  const rise = Math.min(radius, block.height - WALL.dowel);
  return 2 * Math.sqrt(rise * (2 * radius - rise));
}

/** The dowel that still leaves a wall to the sides, the top, the hollow and the other dowel. */
export function thickestDowel(block: RadiusBlock, radius: number): number {
  const aside = block.width * DOWEL_AT.aside;
  const up = block.height * DOWEL_AT.up;
  // The hollow's centre lies below the plate's lower corners.
  const below = radius - fallAt(radius, block.width / 2);
  const toHollow = Math.hypot(aside, up + below) - radius;
  const room = Math.min(block.width / 2 - aside, block.height - up, toHollow) - WALL.dowel;
  return Math.min(2 * room, 2 * aside - WALL.dowel);
}

export const jigChecks: readonly Check[] = [pilotsInsideTemplate, blockFits];
