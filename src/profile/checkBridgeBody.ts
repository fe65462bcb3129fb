/** Does the bridge as wood agree with its saddle, its pins and its own height? */
import { pinsOf } from './anchorShape.ts';
import { type Check, check, doubtful, HAIR, mm, when, wrong } from './check.ts';

/** Least wood under the saddle's slot (common practice, no source). */
const UNDER_SLOT = 1.5;
/** A thickness and a height further apart than this are not the same. */
const ALIKE = 0.1;

const slotLeavesWood = check(['bridge'], ({ bridge: { body, saddle } }) => {
  if (body === null) return [];
  const left = body.thickness - saddle.slotDepth;
  return when(left < UNDER_SLOT - HAIR, () =>
    wrong(
      'saddle-slot-too-deep',
      'bridge.saddle.slotDepth',
      `A slot ${mm(saddle.slotDepth)} deep ${left <= 0 ? 'goes through' : `leaves ${mm(left)} of`} a bridge ${mm(body.thickness)} thick.`,
      {
        allowed: `at most ${mm(body.thickness - UNDER_SLOT)}`,
        remedy: 'A shallower slot or a thicker bridge.',
      },
    ),
  );
});

const tipsAreSmaller = check(['bridge'], ({ bridge: { body } }) => {
  if (body === null) return [];
  return [
    ...when(body.artwork === null && body.tipWidth > body.width + HAIR, () =>
      wrong(
        'bridge-tips-too-wide',
        'bridge.body.tipWidth',
        `The tips, ${mm(body.tipWidth)}, are wider than the middle of the bridge, ${mm(body.width)}.`,
        { allowed: `at most ${mm(body.width)}`, remedy: 'Any other outline: as artwork.' },
      ),
    ),
    ...when(body.tipThickness > body.thickness + HAIR, () =>
      wrong(
        'bridge-tips-too-thick',
        'bridge.body.tipThickness',
        `Wings thinned to ${mm(body.tipThickness)} would be thicker than the bridge, ${mm(body.thickness)}.`,
        { allowed: `at most ${mm(body.thickness)}` },
      ),
    ),
  ];
});

const indexPinsAreHidden = check(['bridge'], ({ bridge: { body, saddle } }) => {
  const pin = body?.indexPin ?? null;
  if (pin === null) return [];
  const most = Math.min(saddle.width, saddle.ends);
  return when(pin > most + HAIR, () =>
    wrong(
      'index-pin-shows',
      'bridge.body.indexPin',
      `Index pins of ${mm(pin)} are not hidden under a saddle ${mm(saddle.width)} wide that ends ${mm(saddle.ends)} past its outer strings.`,
      { allowed: `at most ${mm(most)}`, remedy: 'Thinner pins.' },
    ),
  );
});

const heightAgrees = check(['bridge'], ({ bridge: { body, height } }) => {
  if (body === null || height === null) return [];
  return when(Math.abs(body.thickness - height) > ALIKE, () =>
    doubtful(
      'bridge-height-differs',
      'bridge.body.thickness',
      `The bridge is ${mm(body.thickness)} thick and its face is said to lie ${mm(height)} above the top.`,
      { allowed: `within ${mm(ALIKE)} of each other`, remedy: 'Say one of the two only.' },
    ),
  );
});

const pinsGoThrough = check(['bridge'], ({ bridge }) => {
  const { body, plate } = bridge;
  const pins = pinsOf(bridge);
  if (pins === null) return [];
  const wood = (body?.thickness ?? 0) + (plate?.thickness ?? 0);
  return when(wood > pins.through + HAIR, () =>
    wrong(
      'pins-through-less',
      'bridge.pins.through',
      `Bridge and plate alone are ${mm(wood)} thick; the pins are said to go through ${mm(pins.through)}.`,
      { allowed: `at least ${mm(wood)} and the top`, remedy: 'Measure bridge, top and plate together.' },
    ),
  );
});

export const bridgeBodyChecks: readonly Check[] = [
  slotLeavesWood,
  tipsAreSmaller,
  indexPinsAreHidden,
  heightAgrees,
  pinsGoThrough,
];
