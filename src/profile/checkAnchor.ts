/** Strings that are tied, go straight through, or go on to a tailpiece: does what holds them fit the bridge? */
import { hasStringHoles } from './anchorShape.ts';
import { type Check, check, HAIR, mm, when, wrong } from './check.ts';

/** Least wood between two holes, before the row, and round a hole of a tie block (common practice, no source). */
const WALL = { between: 2, saddle: 3, block: 1.5 };
/** By how much a hole must be wider than its string. */
const PASSES = 0.1;

/** Reamed holes have checks of their own. */
const holesHaveRoom = check(['bridge', 'strings'], ({ bridge: { anchor }, strings }) => {
  if (anchor.kind !== 'tied' && anchor.kind !== 'through') return [];
  const [field, hole] =
    anchor.kind === 'tied' ? (['hole', anchor.hole] as const) : (['drill', anchor.drill] as const);
  const thickest = Math.max(...strings.map(({ gauge }) => gauge));
  const apart = strings.length < 2 ? Number.POSITIVE_INFINITY : anchor.spread / (strings.length - 1);
  return [
    ...when(hole < thickest + PASSES - HAIR, () =>
      wrong(
        'string-hole-too-small',
        `bridge.${anchor.kind}.${field}`,
        `A string of ${mm(thickest)} does not go through a hole of ${mm(hole)}.`,
        { allowed: `at least ${mm(thickest + PASSES)}`, remedy: 'A larger hole.' },
      ),
    ),
    ...when(apart - hole < WALL.between - HAIR, () =>
      wrong(
        'string-holes-too-close',
        `bridge.${anchor.kind}.spread`,
        `${strings.length} holes in ${mm(anchor.spread)} leave ${mm(apart - hole)} of wood between them.`,
        { allowed: `at least ${WALL.between} mm`, remedy: 'A wider spread or smaller holes.' },
      ),
    ),
  ];
});

const rowClearsSaddle = check(['bridge'], ({ bridge: { anchor, saddle } }) => {
  if (anchor.kind !== 'tied' && anchor.kind !== 'through') return [];
  const room = anchor.behindSaddle - (anchor.kind === 'through' ? anchor.drill / 2 : 0) - saddle.width / 2;
  const least = anchor.kind === 'through' ? WALL.saddle : WALL.block;
  return when(room < least - HAIR, () =>
    wrong(
      'row-in-saddle',
      `bridge.${anchor.kind}.behindSaddle`,
      `${anchor.kind === 'tied' ? 'The tie block comes' : 'The holes come'} to ${mm(room)} from the saddle's slot.`,
      { allowed: `at least ${mm(least)}`, remedy: 'Set the row farther behind the saddle.' },
    ),
  );
});

const blockHasWood = check(['bridge'], ({ bridge: { anchor, body, height } }) => {
  if (anchor.kind !== 'tied') return [];
  const over = anchor.rise + anchor.below - anchor.hole / 2;
  const thickness = body?.thickness ?? height;
  const under = thickness === null ? Number.POSITIVE_INFINITY : thickness - anchor.below - anchor.hole / 2;
  return [
    ...when(over < WALL.block - HAIR, () =>
      wrong(
        'tie-hole-too-high',
        'bridge.tied.below',
        `Over holes of ${mm(anchor.hole)} the tie block has ${mm(over)} of wood, which the strings tear out.`,
        { allowed: `at least ${mm(WALL.block)}`, remedy: 'Lower holes, or a block that rises higher.' },
      ),
    ),
    ...when(under < WALL.block - HAIR, () =>
      wrong(
        'tie-hole-too-low',
        'bridge.tied.below',
        `Under holes of ${mm(anchor.hole)} a bridge ${mm(thickness ?? 0)} thick has ${mm(under)} of wood.`,
        { allowed: `at least ${mm(WALL.block)}`, remedy: 'Higher holes or a thicker bridge.' },
      ),
    ),
  ];
});

const throughAllWood = check(['bridge'], ({ bridge: { anchor, body, plate } }) => {
  if (anchor.kind !== 'through') return [];
  const wood = (body?.thickness ?? 0) + (plate?.thickness ?? 0);
  return when(wood > anchor.through + HAIR, () =>
    wrong(
      'holes-through-less',
      'bridge.through.through',
      `Bridge and plate alone are ${mm(wood)} thick; the holes are said to go through ${mm(anchor.through)}.`,
      { allowed: `at least ${mm(wood)} and the top`, remedy: 'Measure bridge, top and plate together.' },
    ),
  );
});

/** A jig for what this bridge has not. */
const jigsHaveUse = check(['bridge', 'jigs'], ({ bridge: { anchor }, jigs }) => [
  ...when(jigs.pinTemplate !== null && !hasStringHoles(anchor), () =>
    wrong(
      'jig-without-holes',
      'jigs.pinTemplate',
      'This bridge has no holes from above to drill through a template.',
      {
        allowed: 'with bridge.pins or bridge.through',
        remedy: 'Leave the template out.',
      },
    ),
  ),
  ...when(jigs.pinGauges !== null && anchor.kind !== 'pins', () =>
    wrong('jig-without-pins', 'jigs.pinGauges', 'Nothing is reamed in a bridge without pins.', {
      allowed: 'with bridge.pins',
      remedy: 'Leave the gauges out.',
    }),
  ),
  ...when(jigs.bridgeCaul !== null && anchor.kind === 'tailpiece', () =>
    wrong(
      'jig-without-glue',
      'jigs.bridgeCaul',
      'A bridge before a tailpiece is not glued and needs no caul.',
      {
        allowed: 'with pins, tied or through',
        remedy: 'Leave the caul out.',
      },
    ),
  ),
]);

const floatingIsLoose = check(['bridge'], ({ bridge: { anchor, body } }) =>
  when(anchor.kind === 'tailpiece' && (body?.indexPin ?? null) !== null, () =>
    wrong(
      'index-pin-in-loose-bridge',
      'bridge.body.indexPin',
      'A bridge before a tailpiece is moved with the strings on; index pins would hold it.',
      {
        allowed: 'with pins, tied or through',
        remedy: 'Leave the index pins out.',
      },
    ),
  ),
);

export const anchorChecks: readonly Check[] = [
  holesHaveRoom,
  rowClearsSaddle,
  blockHasWood,
  throughAllWood,
  jigsHaveUse,
  floatingIsLoose,
];
