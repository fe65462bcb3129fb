/** What a shop file may hold. Every key is optional, because a shop may be put together from several files. */
import * as z from 'zod';
import { cornersField } from './corners.ts';
import {
  choice,
  type Fields,
  type FileContext,
  fieldsFor,
  flag,
  group,
  identifier,
  PLAIN_CONTEXT,
  plainNumber,
  share,
  text,
  wholeNumber,
} from './fields.ts';
import { millingDirection, millingGroups } from './milling.ts';
import { keepOutGroup, turningGroup } from './shopPlaces.ts';
import { LENGTH_UNITS, MATERIAL_CLASSES, PLANES, WORK_OFFSETS } from './words.ts';
import { workGroup } from './work.ts';

/** The schema of a shop file whose bare numbers mean what `context` says. */
export function shopSchema(context: FileContext = PLAIN_CONTEXT) {
  const fields = fieldsFor(context);
  const list = <Item extends z.ZodType>(item: Item, most: number, about: string) =>
    z.array(item).max(most).meta({ description: about }).optional();
  return group(
    {
      name: text('Name of the shop.').optional(),
      currency: text('Currency of the prices, as it is to stand on the cut list.').optional(),
      units: choice(LENGTH_UNITS, 'Unit of every bare number in this file.').optional(),
      millingDirection: millingDirection(),
      include: list(
        text('Name of another shop file, seen from this one.'),
        20,
        'Other shop files to bring in.',
      ),
      machines: list(machineGroup(fields), 20, 'Machines.'),
      tools: list(toolGroup(fields), 200, 'Cutters and drills.'),
      stock: list(stockGroup(fields), 500, 'Wood and sheets on hand.'),
      keepOuts: list(keepOutGroup(fields), 50, 'Clamps and fences that the cutter must not meet.'),
      allowances: allowancesGroup(fields).optional(),
      holding: group(
        {
          by: choice(
            ['tabs', 'skin'],
            'What holds a part in its blank until it is cut free by hand: tabs, or a thin skin under the cut all round.',
          ).optional(),
          tabLength: fields.length('Length of a holding tab.', [1, 50]).optional(),
          tabHeight: fields.length('Height of a holding tab.', [0.2, 10]).optional(),
          skin: fields
            .length(
              'Thickness of a holding skin: the outline stops this far above the bottom of the blank. A part with no room for tabs is held by it too.',
              [0.1, 5],
            )
            .optional(),
        },
        'What holds a part in its blank until it is cut free by hand.',
      ).optional(),
      turning: turningGroup(fields).optional(),
      surfacing: group(
        {
          finish: choice(
            ['ball', 'flat'],
            'Which cutter makes the last passes: a ball along the board, or a flat one, each pass a step lower than the next.',
          ).optional(),
          cusp: fields
            .length('Highest ridge that may be left between two of the last passes.', [0.002, 0.2])
            .optional(),
          allowance: fields
            .length('What the level passes leave on the surface for the last ones.', [0.05, 2])
            .optional(),
        },
        'How a router works a board to its radius.',
      ).optional(),
      ...millingGroups(fields),
      scribing: group(
        { lineWidth: fields.length('Width of a line cut by a vee cutter.', [0.05, 1]).optional() },
        'How a router draws lines.',
      ).optional(),
      work: workGroup().optional(),
    },
    'A shop for nutline.',
  );
}

const id = () => identifier('Short name that other keys refer to: small letters, digits, hyphens.');
const rpm = (about: string) => plainNumber(about, [1, 200_000]);

const controllerGroup = <const Own extends z.core.$ZodLooseShape>(own: Own, fields: Fields) =>
  group(
    {
      arcPlanes: z
        .array(choice(PLANES, 'A plane.'))
        .max(3)
        .meta({
          description: 'Planes in which the control understands arcs (G2, G3). Left out: none are written.',
        })
        .optional(),
      drillCycles: flag('The control understands G81 and G83.').optional(),
      exactPath: flag('The control understands G61.').optional(),
      corners: cornersField(fields),
      comments: flag('The control skips text in round brackets.').optional(),
      lineNumbers: flag('Programs get N words.').optional(),
      numbering: group(
        {
          start: wholeNumber('First number.', [0, 9999]),
          step: wholeNumber('Step from each to the next.', [1, 100]),
        },
        'Numbers of the N words, where lines are numbered.',
      ).optional(),
      units: choice(LENGTH_UNITS, 'Unit of the written programs: mm (G21) or in (G20).').optional(),
      decimals: wholeNumber(
        'Digits after the point, in the unit of the programs; inches need 4 or 5.',
        [3, 5],
      ).optional(),
      programEnd: choice(['M2', 'M30'], 'Word that ends a program.').optional(),
      percentLines: flag('Programs begin and end with a line that holds a % alone.').optional(),
      wordSpaces: flag('Blanks between the words of a line.').optional(),
      lineLength: wholeNumber('Most characters a line may have.', [80, 255]).optional(),
      workOffset: choice(WORK_OFFSETS, 'Work offset in which the work zero is set.').optional(),
      dwellUnit: choice(['seconds', 'milliseconds'], 'What the P word of a dwell (G4) counts.').optional(),
      lengthOffset: choice(
        ['none', 'G49', 'G43'],
        'Tool length: no word for it (none), turned off (G49), or taken from the table of the control (G43).',
      ).optional(),
      straightRapids: flag('All axes of a rapid arrive together, on a straight line.').optional(),
      ...own,
    },
    'What the control understands. Only what is stated here is written for it.',
  );

const routerController = (fields: Fields) =>
  controllerGroup(
    {
      toolChange: choice(
        ['none', 'M6'],
        'One program a tool (none), or one a part in which T and M6 put each tool in (M6).',
      ).optional(),
    },
    fields,
  );

const laserController = (fields: Fields) =>
  controllerGroup(
    {
      beamWord: choice(
        ['M3', 'M4'],
        'Word that turns the beam on: M3, the power S says; M4, less power where the head is slower.',
      ).optional(),
    },
    fields,
  );

const junctionSpeed = (fields: Fields) =>
  fields.speed('Largest sudden change of velocity where two moves meet, for the time estimate.', [1, 10_000]);

const routerGroup = (fields: Fields) =>
  group(
    {
      kind: z.literal('router'),
      id: id(),
      name: text('Name for job sheets.').optional(),
      travel: group(
        {
          x: fields.length('Travel in x.', [50, 5000]),
          y: fields.length('Travel in y.', [50, 5000]),
          z: fields.length('Travel in z.', [10, 1000]),
        },
        'How far the tool can go in each axis.',
      ),
      spindle: z
        .tuple([rpm('Slowest, rpm.'), rpm('Fastest, rpm.')])
        .meta({ description: 'Spindle speeds, rpm: slowest and fastest.' }),
      spinUp: plainNumber('Seconds until the spindle is up to speed.', [0, 120]).optional(),
      maxFeed: group(
        {
          xy: fields.speed('Fastest feed sideways.', [10, 60_000]),
          z: fields.speed('Fastest feed up and down.', [5, 60_000]),
        },
        'Fastest feeds.',
      ),
      rapid: group(
        {
          xy: fields.speed('Speed of rapids sideways.', [10, 200_000]),
          z: fields.speed('Speed of rapids up and down.', [5, 200_000]),
        },
        'Speeds of rapids, for the time estimate.',
      ).optional(),
      acceleration: group(
        {
          xy: fields.acceleration('How fast it gains speed sideways.', [1, 50_000]),
          z: fields.acceleration('How fast it gains speed up and down.', [1, 50_000]),
        },
        'How fast it gains and loses speed, for the time estimate.',
      ).optional(),
      junctionSpeed: junctionSpeed(fields).optional(),
      clearHeight: fields
        .length("Height above the stock's top at start and end, and over what stands in the way.", [1, 100])
        .optional(),
      travelHeight: fields
        .length(
          "Height above the stock's top for travel from one feature to the next. What stands higher on the stock is named under keepOuts.",
          [0.6, 100],
        )
        .optional(),
      intoSpoilboard: fields
        .length('How deep a through cut may go into the board below.', [0.05, 5])
        .optional(),
      nut: group(
        {
          diameter: fields.length('Across its widest place: measure over the corners.', [3, 150]),
          length: fields.length("From the collet's face up to the spindle's body.", [1, 200]),
        },
        'The nut that closes the collet. Measured and stated, it is kept out of the wood and clear of what stands under keepOuts; left out, nothing is known of it.',
      ).optional(),
      controller: routerController(fields).optional(),
    },
    'A router.',
  );

const beamGroup = (fields: Fields) =>
  group(
    {
      materialClass: choice(MATERIAL_CLASSES, 'Material that was tested.'),
      thickness: fields.length('Thickness that was tested.', [0.1, 25]),
      kerf: fields.length('Width of the cut, measured on a test piece.', [0, 2]),
      cut: group(
        {
          power: share('Share of full power.', [0.01, 1]),
          speed: fields.speed('Speed.', [1, 100_000]),
          passes: wholeNumber('Passes until it is through.', [1, 20]).optional(),
          pierce: plainNumber(
            'Seconds the beam stands still where a cut begins, until it is through.',
            [0, 10],
          ).optional(),
          leadIn: fields
            .length('Way from where the beam comes on, in the waste, to the outline; 0 for none.', [0, 20])
            .optional(),
          overCut: fields
            .length('How far the beam runs on past the start of a closed outline; 0 for none.', [0, 10])
            .optional(),
        },
        'To cut through.',
      ),
      mark: group(
        { power: share('Share of full power.', [0.001, 1]), speed: fields.speed('Speed.', [1, 100_000]) },
        'To mark a line.',
      ),
      air: text('What to set the air to, for the notes: on, 0.5 bar.').optional(),
    },
    'Settings that this shop has tested for one material and thickness.',
  );

const laserGroup = (fields: Fields) =>
  group(
    {
      kind: z.literal('laser'),
      id: id(),
      name: text('Name for job sheets.').optional(),
      bed: group(
        { x: fields.length('Bed in x.', [50, 5000]), y: fields.length('Bed in y.', [50, 5000]) },
        'Size of the bed.',
      ),
      maxFeed: fields.speed('Fastest feed.', [10, 200_000]),
      rapid: fields.speed('Speed of rapids, for the time estimate.', [10, 500_000]).optional(),
      acceleration: fields
        .acceleration('How fast it gains and loses speed, for the time estimate.', [1, 100_000])
        .optional(),
      junctionSpeed: junctionSpeed(fields).optional(),
      fullPower: plainNumber('S word at full power, from the manual.', [1, 100_000]),
      settings: z.array(beamGroup(fields)).max(200).meta({ description: 'Tested settings.' }),
      controller: laserController(fields).optional(),
    },
    'A laser.',
  );

const machineGroup = (fields: Fields) =>
  z.discriminatedUnion('kind', [routerGroup(fields), laserGroup(fields)]);

const toolGroup = (fields: Fields) =>
  group(
    {
      id: wholeNumber('Tool number.', [1, 9999]),
      name: text('Name for job sheets.').optional(),
      kind: choice(['flat', 'ball', 'vee', 'drill'], 'Shape of the end.'),
      diameter: fields.length('Cutting diameter.', [0.1, 50]),
      tolerance: fields
        .length('The true diameter is within this of `diameter`, runout included.', [0, 0.5])
        .optional(),
      flutes: wholeNumber('Number of cutting edges.', [1, 12]).optional(),
      cuttingLength: fields.length('Length of the cutting edges.', [0.2, 150]),
      shankDiameter: fields.length('Diameter of the shank.', [0.5, 50]),
      stickOut: fields
        .length('From the collet to the tip, cutting edges included: what can bend.', [1, 200])
        .optional(),
      tipAngle: z
        .preprocess(
          (given) => (given === 'flat' ? '180 deg' : given),
          fields.angle('Included angle of the tip; flat, or 180 deg, for a drill with a flat end.', [
            0.1,
            Math.PI,
          ]),
        )
        .optional(),
      stepDownShare: share('Deepest pass as a share of the diameter.', [0.01, 3]).optional(),
      chipLoad: fields.length('Chip load per tooth.', [0.0005, 0.5]).optional(),
      machine: id().optional(),
    },
    'A cutter or drill.',
  );

const stockBase = (fields: Fields) => ({
  id: id(),
  material: text('Material, as it is to stand on the cut list.'),
  materialClass: choice(MATERIAL_CLASSES, 'How it behaves under a cutter.'),
  length: fields.length('Length, along the grain where there is one.', [5, 10_000]),
  count: wholeNumber('How many are on hand.', [0, 10_000]).optional(),
  price: plainNumber('Price of one.', [0, 1_000_000]).optional(),
});

const flatStock = <const Kind extends 'board' | 'sheet'>(kind: Kind, about: string, fields: Fields) =>
  group(
    {
      kind: z.literal(kind),
      ...stockBase(fields),
      width: fields.length('Width, across the grain where there is one.', [2, 5000]),
      thickness: fields.length('Thickness.', [0.05, 200]),
      grain: choice(['length', 'none'], 'Grain along the length, or none that matters.').optional(),
    },
    about,
  );

const stockGroup = (fields: Fields) =>
  z.discriminatedUnion('kind', [
    flatStock('board', 'A board.', fields),
    flatStock('sheet', 'A sheet.', fields),
    group(
      {
        kind: z.literal('stick'),
        ...stockBase(fields),
        diameter: fields.length('Diameter of the stick.', [0.5, 100]),
      },
      'A round stick.',
    ),
  ]);

const allowancesGroup = (fields: Fields) =>
  group(
    {
      ends: fields.length('Blank past the finished part at each end.', [0, 200]).optional(),
      sides: fields.length('Blank past the finished part at each side.', [0, 200]).optional(),
      between: fields.length('Between parts cut from one sheet.', [0, 100]).optional(),
      sawKerf: fields.length('Width of a saw cut, for the cut list.', [0, 10]).optional(),
      trim: fields.length('Trimmed off each edge of a stock piece before use.', [0, 100]).optional(),
    },
    'Waste that is planned for.',
  );

/** One shop file once read: what it says, nothing filled in. */
export type GivenShop = z.output<ReturnType<typeof shopSchema>>;
