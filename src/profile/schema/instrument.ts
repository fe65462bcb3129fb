/** What an instrument file may hold. Keys are those of the resolved `Instrument`; what has a default is optional here. */
import * as z from 'zod';
import { bridgeCaulGroup, bridgeTemplateGroup, nutAndSaddleGroup, pinGaugesGroup } from './bridgeParts.ts';
import { faceMarkersGroup, markerCount, markerFret } from './faceMarkers.ts';
import {
  choice,
  type Fields,
  type FileContext,
  fieldsFor,
  flag,
  fretName,
  group,
  PLAIN_CONTEXT,
  plainNumber,
  text,
  wholeNumber,
} from './fields.ts';
import { fingerboardGroup } from './fingerboard.ts';
import { fretsGroup, scaleGroup } from './frets.ts';
import { headstockGroup, neckBlankGroup, rodEndFields } from './headstock.ts';
import { bridgeGroup, neckJointGroup } from './neckAndBridge.ts';
import { neckShapeGroup } from './neckShape.ts';
import { nutSeatGroup } from './nutSeat.ts';
import { CORE_MATERIALS, FAMILIES, HANDS, LENGTH_UNITS, MATERIAL_CLASSES, WRAP_MATERIALS } from './words.ts';

/** What is said when a set-back is missing: it is the one number that must never be guessed. */
const NO_SET_BACK =
  'This string has no setBack: say how far behind the scale length the saddle carries it. Zero is never assumed.';

/** The schema of an instrument file whose bare numbers and notes mean what `context` says. */
export function instrumentSchema(context: FileContext = PLAIN_CONTEXT) {
  const fields = fieldsFor(context);
  return group(
    {
      name: text('Name of the instrument; the output folder is named after it.'),
      family: choice(FAMILIES, 'Kind of instrument: decides which marker frets are customary.').optional(),
      hand: choice(HANDS, 'Hand that plucks. A left-handed instrument is the mirror image.').optional(),
      units: choice(LENGTH_UNITS, 'Unit of every bare number in this file.').optional(),
      concertPitch: fields.hertz('Frequency of A4, hertz.', [380, 480]).optional(),
      markersAsDrawn: flag(
        'true: the marker frets are meant as they are; no remark about custom.',
      ).optional(),
      strings: z
        .array(stringGroup(fields))
        .min(1)
        .max(12)
        .superRefine(coursesInOrder)
        .meta({ description: 'The strings by position, bass side first.' }),
      scale: scaleGroup(fields),
      frets: fretsGroup(fields),
      fretWire: wireGroup(fields),
      fingerboard: fingerboardGroup(fields),
      faceMarkers: faceMarkersGroup(fields).optional(),
      sideMarkers: sideMarkersGroup(fields).optional(),
      indexPins: indexPinsGroup(fields).optional(),
      nut: nutGroup(fields),
      trussRod: rodGroup(fields).optional(),
      neckJoint: neckJointGroup(fields).optional(),
      neckBlank: neckBlankGroup(fields).optional(),
      headstock: headstockGroup(fields).optional(),
      neckShape: neckShapeGroup(fields).optional(),
      bridge: bridgeGroup(fields),
      targets: targetsGroup(fields).optional(),
      intonation: intonationGroup(fields).optional(),
      jigs: jigsGroup(fields).optional(),
    },
    'An instrument for nutline.',
  );
}

/** Courses are numbered from the bass side without a gap, on all strings or on none. */
function coursesInOrder(
  strings: readonly { readonly course?: number | undefined }[],
  context: z.core.$RefinementCtx<unknown>,
): void {
  if (strings.every(({ course }) => course === undefined)) return;
  strings.forEach(({ course }, i) => {
    const before = i === 0 ? 0 : (strings[i - 1]?.course ?? 0);
    const isNext = course === before + 1 || (course === before && i > 0);
    if (isNext) return;
    const code = course === undefined ? 'missing-key' : 'bad-course';
    const params = { code, allowed: i === 0 ? '1' : `${before} or ${before + 1}` };
    const message = 'Courses are numbered from the bass side without a gap, on every string.';
    context.addIssue({ code: 'custom', message, path: [i, 'course'], params });
  });
}

const stringGroup = (fields: Fields) =>
  group(
    {
      pitch: fields.pitch('Note with its octave (E2, Bb3), or a frequency (82.41 Hz).', [15, 3000]),
      gauge: fields.length('Diameter of the string.', [0.1, 6]),
      make: choice(['plain', 'wound'], 'Plain wire or wound.'),
      course: wholeNumber(
        'Number of its course, from the bass side: strings of one course are played as one. Left out for all: each its own.',
        [1, 12],
      ).optional(),
      setBack: fields.length(
        'How far behind the scale length the saddle carries this string: measured, or from a plan.',
        [-10, 25],
        NO_SET_BACK,
      ),
      material: choice(CORE_MATERIALS, 'What the core, or a plain string, is made of.').optional(),
      core: fields
        .length('Diameter of the core of a wound string, measured where the wrap ends.', [0.1, 3])
        .optional(),
      wrap: choice(WRAP_MATERIALS, 'What a wound string is wrapped with.').optional(),
      massPerMetre: plainNumber('Weighed: grams for each metre of string.', [0.01, 200]).optional(),
      density: plainNumber('Density of the core, kg/m3.', [500, 20_000]).optional(),
      modulus: plainNumber("Young's modulus of the core, GPa.", [0.5, 400]).optional(),
      strength: plainNumber('Tensile strength of the core, MPa.', [50, 5000]).optional(),
      aimCents: plainNumber(
        'Cents by which the string is meant to sound sharp (negative: flat) at the octave.',
        [-20, 20],
      ).optional(),
      importance: plainNumber('How much the string counts where all share one saddle.', [0, 100]).optional(),
    },
    'One string.',
  );

const wireGroup = (fields: Fields) =>
  group(
    {
      tangDepth: fields.length('Depth of the tang below the crown, measured.', [0.5, 6]),
      tangWidth: fields.length('Thickness of the tang between the barbs, measured.', [0.2, 2]),
      barbWidth: fields.length('Width over the barbs, measured.', [0.2, 3]),
      crownHeight: fields.length('Height of the crown.', [0.2, 4]),
      crownWidth: fields.length('Width of the crown.', [0.8, 5]),
      trim: fields
        .length('Added to each piece of wire for trimming, both ends together.', [0, 50])
        .optional(),
      stick: fields
        .length('Length of the sticks the wire is bought in. Leave it out for wire from a coil.', [50, 3000])
        .optional(),
    },
    'The fret wire, measured with a caliper.',
  );

const materialClass = (about: string) => choice(MATERIAL_CLASSES, about);

const sideMarkersGroup = (fields: Fields) =>
  group(
    {
      material: text('Material of the side markers.').optional(),
      diameter: fields.length('Diameter of the rod.', [0.5, 6]).optional(),
      depth: fields.length('Depth of the holes.', [0.5, 10]).optional(),
      below: fields.length("Centre below the board's finished surface at the edge.", [0.5, 10]).optional(),
      spread: fields.length('Between the centres of a double marker, along the board.', [2, 40]).optional(),
      drilled: choice(
        ['after binding', 'before binding'],
        'A board with binding: drilled through it into the wood once it is on, or through the bare strip before it is glued on.',
      ).optional(),
      at: z
        .array(group({ fret: markerFret, count: markerCount.optional() }, 'One side marker, or a pair.'))
        .max(36)
        .meta({ description: 'The side markers.' })
        .optional(),
    },
    'Dots in the bass edge of the board. Leave it out for none.',
  );

/** `indexPins: none` and `indexPins: auto` are short for groups that say the same. */
const indexPinsGroup = (fields: Fields) =>
  z
    .preprocess(
      (given) => (given === 'none' || given === 'auto' ? { place: given } : given),
      indexPinsFields(fields),
    )
    .meta({ orNone: true, orAuto: true });

const indexPinsFields = (fields: Fields) =>
  group(
    {
      diameter: fields.length('Diameter of the pins.', [0.5, 6]).optional(),
      place: choice(
        ['auto', 'clear', 'slot', 'marker', 'none'],
        'auto: found, as far apart as the neck allows; clear of everything; in a slot, hidden by the crown; under a face marker; or no pins at all.',
      ).optional(),
      hide: choice(
        ['any', 'slot', 'marker', 'no'],
        'With place: auto: what may hide the pins, or no.',
      ).optional(),
      frets: z
        .tuple([
          fretName('Fret of the first pin.', [1, 36.5]),
          fretName('Fret of the second pin.', [1, 36.5]),
        ])
        .meta({ description: 'The two frets near which the pins go.' })
        .optional(),
      offset: fields.length('Wanted distance of each pin from the centreline.', [0, 60]).optional(),
      leastWall: fields.length('Least wood between a pin and anything else.', [0.2, 10]).optional(),
      intoNeck: fields.length("Depth of the pins' holes in the neck.", [1, 20]).optional(),
    },
    'Two pins that hold the board to the neck in the same place every time; none for a board without.',
  );

const nutGroup = (fields: Fields) =>
  group(
    {
      thickness: fields.length('Thickness of the nut along the strings.', [1, 20]).optional(),
      setForward: fields.length('Nut face forward of scale zero; 0 for a plain nut.', [0, 10]).optional(),
      zeroFret: group(
        { setBack: fields.length('From the zero fret back to the nut face.', [1, 30]) },
        'A fret at scale zero that carries the open strings. Leave it out for none.',
      ).optional(),
      courseGap: fields.length('Clear space between the strings of one course.', [0.3, 10]).optional(),
      stringSpread: fields.length('Between the centres of the outer strings at the nut.', [0, 130]),
      slotClearance: fields.length('By how much a slot is wider than its string.', [0, 0.5]).optional(),
      spacing: choice(
        ['equal gaps', 'equal centres'],
        'What is equal from string to string, or from course to course.',
      ).optional(),
      seat: nutSeatGroup(fields).optional(),
    },
    'The nut.',
  ).superRefine(({ setForward, zeroFret }, context) => {
    if (setForward === undefined || zeroFret === undefined) return;
    const params = { code: 'two-nut-places', allowed: 'setForward, or zeroFret with its setBack' };
    const message = 'A nut behind a zero fret has its place from zeroFret.setBack.';
    context.addIssue({ code: 'custom', message, path: ['setForward'], params });
  });

const rodGroup = (fields: Fields) =>
  group(
    {
      width: fields.length('Width of the channel.', [2, 20]),
      depth: fields.length('Depth of the channel.', [2, 25]),
      from: fields.length('From the nut face to the near end of the channel.', [-100, 100]).optional(),
      length: fields.length('Length of the channel.', [50, 1200]),
      clearance: group(
        {
          width: fields.length('Width of the pocket.', [2, 30]).optional(),
          depth: fields.length('Depth of the pocket, from the underside.', [0.2, 6]),
          from: fields.length('From the nut face to the near end of the pocket.', [0, 1200]),
          length: fields.length('Length of the pocket, its round ends included.', [4, 1200]),
        },
        "A pocket in the board's underside for what of the rod stands above the neck. Leave it out for none.",
      ).optional(),
      ...rodEndFields(fields),
    },
    'The truss rod channel. Leave it out for none.',
  );

const targetsGroup = (fields: Fields) =>
  group(
    {
      actionBass: fields.length('Wanted height of the bass string above the fret.', [0.5, 8]).optional(),
      actionTreble: fields.length('Wanted height of the treble string above the fret.', [0.5, 8]).optional(),
      actionFret: wholeNumber('Fret at which the two are measured.', [1, 36]).optional(),
      firstFretBass: fields
        .length('Wanted height of the open bass string above the first fret.', [0, 3])
        .optional(),
      firstFretTreble: fields
        .length('Wanted height of the open treble string above the first fret.', [0, 3])
        .optional(),
      relief: fields.length('Wanted forward bow of the neck.', [0, 2]).optional(),
      bowFret: wholeNumber('Fret at which the bow ends: where the neck meets the body.', [2, 36]).optional(),
    },
    'What the set-up aims at.',
  );

const intonationGroup = (fields: Fields) =>
  group(
    {
      fretWeights: z
        .array(plainNumber('How much the fret counts.', [0, 100]))
        .min(1)
        .max(36)
        .meta({ description: 'How much each fret counts, from the first; those left out do not.' })
        .optional(),
      nut: choice(['fixed', 'free'], 'free: a place for the nut is proposed too.').optional(),
      fingerBehind: fields.length('How far behind the fret a finger presses.', [0.5, 40]).optional(),
      press: fields
        .length("How far below the string's straight run over the fret a finger presses it.", [0, 3])
        .optional(),
    },
    'How the tuning of stopped notes is judged.',
  );

const jigsGroup = (fields: Fields) =>
  group(
    {
      radiusBlock: group(
        {
          materialClass: materialClass('Of the sheet the plates are cut from.').optional(),
          length: fields.length('Length of the block.', [50, 1000]).optional(),
          width: fields.length('Width of the block.', [20, 150]).optional(),
          height: fields.length('Height of the plates.', [15, 120]).optional(),
          plateThickness: fields.length('Thickness of the sheet.', [1, 25]).optional(),
          plates: wholeNumber('Number of plates.', [2, 40]).optional(),
          dowelDiameter: fields.length('Diameter of the dowels.', [3, 25]).optional(),
          padding: fields.length('Sole and abrasive between plates and board.', [0, 10]).optional(),
          radius: fields
            .length(
              'Radius it sands, where the board has more than one: left out, that of the board.',
              [50, 3000],
            )
            .optional(),
        },
        'A sanding block of curved plates on dowels. {} takes every default.',
      ).optional(),
      pinTemplate: group(
        {
          materialClass: materialClass('Of the sheet.').optional(),
          thickness: fields.length('Thickness of the sheet.', [0.2, 12]).optional(),
          margin: fields.length('Sheet around the outer holes.', [2, 60]).optional(),
          pilot: fields.length('Diameter of the pilot holes.', [0.5, 6]).optional(),
        },
        'A drilling template for the bridge pins. {} takes every default.',
      ).optional(),
      slotTemplate: group(
        {
          materialClass: materialClass('Of the sheet.').optional(),
          thickness: fields.length('Thickness of the sheet.', [0.2, 12]).optional(),
          width: fields.length('Width of the strip.', [8, 120]).optional(),
        },
        'A strip that carries the slot lines. {} takes every default.',
      ).optional(),
      bridgeTemplate: bridgeTemplateGroup(fields).optional(),
      bridgeCaul: bridgeCaulGroup(fields).optional(),
      pinGauges: pinGaugesGroup(fields).optional(),
      nutAndSaddle: nutAndSaddleGroup(fields).optional(),
      sideMarkerTemplate: group(
        {
          materialClass: materialClass('Of the sheet.').optional(),
          thickness: fields.length('Thickness of the sheet.', [0.2, 12]).optional(),
          width: fields
            .length("Width of the strip, its part below the board's underside included.", [10, 80])
            .optional(),
          pilot: fields.length('Diameter of the pilot holes.', [0.5, 6]).optional(),
        },
        'A strip with a hole over each side marker, to be laid on the edge. {} takes every default.',
      ).optional(),
      lettering: group(
        { height: fields.length('Height of a capital letter.', [1.5, 20]).optional() },
        'Fret numbers and names in single strokes on the templates. {} takes every default.',
      ).optional(),
    },
    'Jigs that are wanted. Those left out are not made.',
  );

/** An instrument file once read: what it says, nothing filled in. */
export type GivenInstrument = z.output<ReturnType<typeof instrumentSchema>>;
