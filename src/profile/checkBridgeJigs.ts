/** Can the bridge's plate and jigs be cut as they are asked for? */
import type { Finding } from '../report/finding.ts';
import { hasStringHoles, pinsOf, reachOf } from './anchorShape.ts';
import { fallAt } from './boardShape.ts';
import { type Check, check, HAIR, mm, when, wrong } from './check.ts';
import type { BridgeCaul, Instrument } from './types.ts';

/** Least wood or sheet between a hole and an edge, or another hole (common practice, no source). */
const WALL = { plate: 3, dowel: 3, collar: 3 };

const plateHoldsPins = check(['bridge'], ({ bridge: { plate, anchor } }) => {
  if (plate === null) return [];
  const isHoled = hasStringHoles(anchor);
  const half = reachOf(anchor) + WALL.plate;
  const least = isHoled ? anchor.spread + 2 * half : 0;
  const behind = isHoled ? plate.front + anchor.behindSaddle + half : 0;
  return [
    ...when(plate.length < least - HAIR, () =>
      wrong(
        'plate-too-short',
        'bridge.plate.length',
        `A plate ${mm(plate.length)} long does not leave ${WALL.plate} mm of wood outside holes ${mm(anchor.spread)} apart.`,
        { allowed: `at least ${mm(least)}`, remedy: 'A longer plate.' },
      ),
    ),
    ...when(plate.width < behind - HAIR, () =>
      wrong(
        'plate-too-narrow',
        'bridge.plate.width',
        `A plate that begins ${mm(plate.front)} before the saddle and is ${mm(plate.width)} wide ends too near the strings’ holes, or before them.`,
        { allowed: `at least ${mm(behind)}`, remedy: 'A wider plate, or one that lies farther back.' },
      ),
    ),
    ...when(2 * plate.cornerRadius > Math.min(plate.length, plate.width) + HAIR, () =>
      wrong(
        'plate-corners-too-round',
        'bridge.plate.cornerRadius',
        `Corners of ${mm(plate.cornerRadius)} do not fit on a plate ${mm(plate.length)} by ${mm(plate.width)}.`,
        { allowed: `at most ${mm(Math.min(plate.length, plate.width) / 2)}` },
      ),
    ),
  ];
});

const templateHasBridge = check(['bridge', 'jigs', 'neckJoint'], ({ bridge, jigs, neckJoint }) => [
  ...when(jigs.bridgeTemplate !== null && bridge.body === null, () =>
    wrong(
      'template-without-bridge',
      'jigs.bridgeTemplate',
      'The template is cut round the bridge, and nothing is said of the bridge’s shape.',
      { allowed: 'together with bridge.body', remedy: 'Describe the bridge (bridge.body), bought or not.' },
    ),
  ),
  ...when(jigs.bridgeTemplate?.from === 'joint' && neckJoint === null, () =>
    wrong(
      'template-without-joint',
      'jigs.bridgeTemplate.from',
      'The check distances are to begin at the joint, and nothing is said of the joint.',
      { allowed: 'nut, or joint together with neckJoint' },
    ),
  ),
]);

const caulFits = check(['jigs'], ({ jigs: { bridgeCaul: caul } }) =>
  caul === null ? [] : [...caulDome(caul), ...caulPlates(caul)],
);

function caulDome({ radius, below, width, height, dowelDiameter }: BridgeCaul): readonly Finding[] {
  if (radius === null)
    return [
      wrong(
        'caul-needs-radius',
        'jigs.bridgeCaul',
        'The caul is curved to a dome, and nothing is said of one, or the top is flat.',
        {
          allowed: 'jigs.bridgeCaul.radius, or neckJoint.domeRadius',
          remedy: 'Say the radius; under a flat top use a flat board.',
        },
      ),
    ];
  const edge = height - fallAt(radius - below, width / 2);
  const room = Math.min(0.45 * height, edge - 0.45 * height, 0.2 * width) - dowelDiameter / 2;
  return when(!(room >= WALL.dowel - HAIR), () =>
    wrong(
      'caul-dowel-too-thick',
      'jigs.bridgeCaul.dowelDiameter',
      `Dowels of ${mm(dowelDiameter)} do not leave ${WALL.dowel} mm all round in plates ${mm(width)} wide and ${mm(height)} high.`,
      {
        allowed: `at most ${mm(Math.max(0, dowelDiameter + 2 * (room - WALL.dowel)))}`,
        remedy: 'Thinner dowels, or a higher caul.',
      },
    ),
  );
}

function caulPlates({ plates, plateThickness, length }: BridgeCaul): readonly Finding[] {
  return when(plates * plateThickness > length + HAIR, () =>
    wrong(
      'caul-plates-too-many',
      'jigs.bridgeCaul.plates',
      `${plates} plates of ${mm(plateThickness)} do not fit into a caul ${mm(length)} long.`,
      { allowed: `at most ${Math.floor((length + HAIR) / plateThickness)}` },
    ),
  );
}

const collarsHaveWalls = check(['jigs', 'bridge'], ({ jigs: { pinGauges }, bridge }) => {
  const pins = pinsOf(bridge);
  if (pinGauges === null || pins === null) return [];
  const widest =
    Math.max(pins.seat, ...pins.seats) + 2 * pinGauges.thickness * Math.tan(pins.reamerTaper / 2);
  const least = widest + 2 * WALL.collar;
  return when(pinGauges.collar < least - HAIR, () =>
    wrong(
      'collar-too-small',
      'jigs.pinGauges.collar',
      `A collar of ${mm(pinGauges.collar)} leaves less than ${WALL.collar} mm about its hole.`,
      { allowed: `at least ${mm(least)}` },
    ),
  );
});

/** The jigs of a bridge that are cut from sheets, with the fields that name them. */
export function bridgeSheets({ jigs }: Instrument) {
  const { bridgeTemplate, bridgeCaul, pinGauges } = jigs;
  return [
    ...(bridgeTemplate === null ? [] : [{ ...bridgeTemplate, path: 'jigs.bridgeTemplate' }]),
    ...(bridgeCaul === null
      ? []
      : [{ ...bridgeCaul, thickness: bridgeCaul.plateThickness, path: 'jigs.bridgeCaul' }]),
    ...(pinGauges === null ? [] : [{ ...pinGauges, path: 'jigs.pinGauges' }]),
  ].map(({ path, materialClass, thickness }) => ({
    work: 'bridgeJigs' as const,
    path,
    materialClass,
    thickness,
  }));
}

export const bridgeJigChecks: readonly Check[] = [
  plateHoldsPins,
  templateHasBridge,
  caulFits,
  collarsHaveWalls,
];
