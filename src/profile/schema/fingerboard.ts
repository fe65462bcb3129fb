/** The section `fingerboard` of an instrument file. */
import { choice, type Fields, group, type IssueParams, text, wholeNumber } from './fields.ts';
import { MATERIAL_CLASSES } from './words.ts';

/** Radii that make sense across a board. */
const RADIUS = [50, 3000] as const;

const atFret = (about: string) => wholeNumber(`${about} Left out: at the body end.`, [1, 36]).optional();

const bindingGroup = (fields: Fields) =>
  group(
    {
      material: text('Material of the strips, as it is to stand in the cut list.').optional(),
      width: fields.length('Width of a strip, seen from above.', [0.5, 8]),
      around: choice(['sides', 'sides and end'], 'Which edges it covers.').optional(),
      trim: fields.length('Added to each strip for trimming.', [0, 50]).optional(),
      channelDepth: fields
        .length(
          'Depth of a channel along the edges that the strips are let into, below the finished edge. Left out: the strips are as high as the board.',
          [0.5, 24],
        )
        .optional(),
    },
    'Binding glued to the edges of the board. The widths of the board are those over the binding.',
  );

export const fingerboardGroup = (fields: Fields) =>
  group(
    {
      wood: text('Wood of the fingerboard, as it is to stand in the cut list.'),
      materialClass: choice(MATERIAL_CLASSES, 'How the wood behaves under a cutter.'),
      thickness: fields.length('Finished thickness along the middle.', [1, 25]),
      blankThickness: fields.length('Thickness of the blank while it is slotted.', [1, 40]).optional(),
      widthAtNut: fields.length('Finished width at the nut face.', [15, 150]),
      widthAt: group(
        {
          fret: atFret('Fret at which the second width is given.'),
          width: fields.length('Finished width there.', [15, 200]),
        },
        'A second width, which fixes the taper.',
      ),
      overhang: fields.length('Board past the last slot, along the middle.', [0.5, 150]),
      endAngle: fields
        .angle('How far the end leans from square, the treble side being the longer one.', [-0.8, 0.8])
        .optional(),
      endArc: fields
        .length('Radius of one arc across the whole end; negative where it is hollow.', [-1000, 1000])
        .optional(),
      endRounding: fields
        .length('Radius of the two corners at the body end; 0 is square.', [0, 75])
        .optional(),
      endArtwork: group(
        {
          file: text(
            'SVG or DXF file with one closed outline, 1:1, as wide as the board or wider, as seen from the folder of this file. Its right side, the middle of its height on the centreline, is the end.',
          ),
          cornerRadius: fields
            .length('Least radius of corners that go in: half the diameter of the cutter.', [0.25, 10])
            .optional(),
        },
        'The body end as you drew it.',
      ).optional(),
      radius: fields.lengthOr(
        'Radius of the playing surface across the board, at the nut face; or flat.',
        RADIUS,
        'flat',
      ),
      radiusAt: group(
        {
          fret: atFret('Fret at which the second radius is given.'),
          radius: fields.length('Radius there.', RADIUS),
        },
        'A second radius. The surface between the two is a cone.',
      ).optional(),
      radiusAlong: choice(
        ['constant', 'cone', 'matched'],
        'constant; cone: evenly to radiusAt; matched: in proportion to the distance between the outer strings.',
      ).optional(),
      surfaceWhenSlotted: choice(
        ['flat', 'radiused'],
        'Whether the blank is still flat or already radiused when it is slotted.',
      ).optional(),
      slotFloor: choice(
        ['follows', 'flat'],
        "Whether a slot's floor follows the surface, or is straight from edge to edge.",
      ).optional(),
      slotsStopShort: fields
        .length('How far a slot stops short of the finished edge, along the slot; 0: it runs out.', [0, 15])
        .optional(),
      binding: bindingGroup(fields).optional(),
    },
    'The fingerboard.',
  ).superRefine((board, context) => {
    const complain = (key: string, message: string, params: IssueParams): void =>
      context.addIssue({ code: 'custom', message, path: [key], params: { ...params } });
    surfaceIssues(board, complain);
    endIssues(board, complain);
  });

type Complain = (key: string, message: string, params: IssueParams) => void;

interface GivenSurface {
  readonly radius: number;
  readonly radiusAt?: object | undefined;
  readonly radiusAlong?: 'constant' | 'cone' | 'matched' | undefined;
}

/** What is said of the radius twice must agree. */
function surfaceIssues({ radius, radiusAt, radiusAlong }: GivenSurface, complain: Complain): void {
  if (!Number.isFinite(radius) && (radiusAt !== undefined || (radiusAlong ?? 'constant') !== 'constant')) {
    complain('radius', 'A flat board has no second radius.', {
      code: 'flat-with-radius',
      allowed: 'a length, where radiusAt or radiusAlong is given',
      remedy: 'Give the radius at the nut face, or leave the other out.',
    });
  } else if (radiusAlong === 'cone' && radiusAt === undefined) {
    complain('radiusAlong', 'A cone needs a second radius.', {
      code: 'no-second-radius',
      allowed: 'radiusAt: { fret: 12, radius: 400 }, or another word',
      remedy: 'Add radiusAt.',
    });
  } else if (radiusAlong !== undefined && radiusAlong !== 'cone' && radiusAt !== undefined) {
    complain('radiusAlong', `A second radius is given, so the surface is a cone and not ${radiusAlong}.`, {
      code: 'second-radius-unused',
      allowed: 'cone, or no radiusAt',
      remedy: 'Leave out radiusAlong or radiusAt.',
    });
  }
}

interface GivenEnd {
  readonly endAngle?: number | undefined;
  readonly endArc?: number | undefined;
  readonly endRounding?: number | undefined;
  readonly endArtwork?: object | undefined;
}

/** An arc may have rounded corners but does not lean; an outline of one's own is the whole end. */
function endIssues({ endAngle, endArc, endRounding, endArtwork }: GivenEnd, complain: Complain): void {
  const said = [endArc !== undefined, (endAngle ?? 0) !== 0, (endRounding ?? 0) !== 0];
  if (endArtwork !== undefined && said.includes(true)) {
    complain('endArtwork', 'The end is the outline in the file, and nothing else is said of it.', {
      code: 'two-ends',
      allowed: 'endArtwork alone; or endArc, endAngle and endRounding without it',
      remedy: 'Leave out endArtwork, or the others.',
    });
  }
  if (endArc === undefined || (endAngle ?? 0) === 0) return;
  complain('endArc', 'The end is either one arc, or a line that may lean.', {
    code: 'two-ends',
    allowed: 'endArc or endAngle, either with endRounding',
    remedy: 'Leave out endArc, or endAngle.',
  });
}
