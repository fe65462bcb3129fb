/** Do the bridge's pin holes agree with the pins, the reamer and the strings? */
import { degreesFromRadians } from '../units/convert.ts';
import { formatShort } from '../units/format.ts';
import { pinsOf } from './anchorShape.ts';
import { type Check, check, doubtful, mm, when, wrong } from './check.ts';

/** Tapers further apart than this wedge a pin at one end only. */
const TAPER_AGREEMENT = 0.1;
/** Least wood between two pin holes, and between the pin row and the saddle line. */
const WALL = { between: 2, saddle: 3 };

const tapersAgree = check(['bridge'], ({ bridge }) => {
  const pins = pinsOf(bridge);
  if (pins === null) return [];
  const pin = degreesFromRadians(pins.pinTaper);
  const reamer = degreesFromRadians(pins.reamerTaper);
  return when(Math.abs(pin - reamer) > TAPER_AGREEMENT, () =>
    doubtful(
      'tapers-differ',
      'bridge.pins.pinTaper',
      `The pins taper by ${formatShort(pin, 2)} deg and the reamer by ${formatShort(reamer, 2)} deg: a pin will sit at one end of its hole only.`,
      {
        allowed: `within ${TAPER_AGREEMENT} deg of each other`,
        remedy: 'Measure a pin at two places, or use the reamer made for the pins.',
      },
    ),
  );
});

/** A cone that reaches the full depth needs d <= D - 2 t tan(alpha / 2). */
const drillLeavesCone = check(['bridge'], ({ bridge }) => {
  const pins = pinsOf(bridge);
  if (pins === null) return [];
  const most = pins.seat - 2 * pins.through * Math.tan(pins.reamerTaper / 2);
  if (pins.drill >= pins.seat) {
    return [
      wrong(
        'drill-too-large',
        'bridge.pins.drill',
        `A drill of ${mm(pins.drill)} leaves nothing to ream to ${mm(pins.seat)}.`,
        {
          allowed: `at most ${mm(most)} for a cone through all of the wood`,
        },
      ),
    ];
  }
  return when(pins.drill > most, () =>
    doubtful(
      'cone-not-full',
      'bridge.pins.drill',
      `A drill of ${mm(pins.drill)} is too large for a cone through all of the ${mm(pins.through)} of wood.`,
      {
        allowed: `at most ${mm(most)}`,
        remedy: 'A smaller drill; the pin then bears over its whole length.',
      },
    ),
  );
});

const pinsHaveRoom = check(['bridge', 'strings'], ({ bridge, strings }) => {
  const pins = pinsOf(bridge);
  if (pins === null) return [];
  if (strings.length < 2) return [];
  const apart = pins.spread / (strings.length - 1);
  return when(apart - pins.seat < WALL.between, () =>
    wrong(
      'pins-too-close',
      'bridge.pins.spread',
      `${strings.length} pins in ${mm(pins.spread)} leave ${mm(apart - pins.seat)} of wood between the holes.`,
      {
        allowed: `at least ${WALL.between} mm`,
        remedy: 'A wider spread.',
      },
    ),
  );
});

const pinsClearSaddle = check(['bridge'], ({ bridge }) => {
  const pins = pinsOf(bridge);
  if (pins === null) return [];
  const room = pins.behindSaddle - pins.seat / 2;
  return when(room < WALL.saddle, () =>
    wrong(
      'pins-in-saddle',
      'bridge.pins.behindSaddle',
      `The pin holes come to ${mm(room)} from the saddle line.`,
      {
        allowed: `at least ${WALL.saddle} mm, and clear of the saddle's own slot`,
      },
    ),
  );
});

const pinsAreCounted = check(['bridge', 'strings'], ({ bridge, strings }) => {
  const pins = pinsOf(bridge);
  if (pins === null) return [];
  const given = pins.seats.length;
  return when(given !== 0 && given !== strings.length, () =>
    wrong(
      'pins-miscounted',
      'bridge.pins.seats',
      `${given} pins are measured and there are ${strings.length} strings.`,
      { allowed: `${strings.length} diameters, bass side first, or none` },
    ),
  );
});

const measuredPinsFit = check(['bridge'], ({ bridge }) => {
  const pins = pinsOf(bridge);
  if (pins === null) return [];
  return pins.seats.flatMap((seat, i) =>
    when(pins.drill >= seat, () =>
      wrong(
        'drill-too-large',
        `bridge.pins.seats[${i}]`,
        `A drill of ${formatShort(pins.drill, 3)} mm leaves nothing to ream for a pin of ${formatShort(seat, 3)} mm.`,
        { allowed: `more than ${formatShort(pins.drill, 3)} mm`, remedy: 'A smaller drill.' },
      ),
    ),
  );
});

const reamerStartsInside = check(['bridge'], ({ bridge }) => {
  const pins = pinsOf(bridge);
  if (pins === null) return [];
  return when(pins.reamerTip !== null && pins.reamerTip > pins.drill, () =>
    wrong(
      'reamer-too-thick',
      'bridge.pins.reamerTip',
      `The reamer's tip of ${formatShort(pins.reamerTip ?? 0, 3)} mm does not go into a hole of ${formatShort(pins.drill, 3)} mm.`,
      {
        allowed: `at most ${formatShort(pins.drill, 3)} mm`,
        remedy: 'Measure the tip again, or a larger drill.',
      },
    ),
  );
});

export const bridgeChecks: readonly Check[] = [
  tapersAgree,
  drillLeavesCone,
  pinsHaveRoom,
  pinsClearSaddle,
  pinsAreCounted,
  measuredPinsFit,
  reamerStartsInside,
];
