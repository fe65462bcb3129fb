/** What holds the strings behind the saddle, filled in. */
import { radiansFromDegrees } from '../../units/convert.ts';
import type { Anchor, Pins, Tied } from '../anchorTypes.ts';
import type { GivenInstrument } from '../schema/instrument.ts';
import { type Fill, PRACTICE } from './fill.ts';

type GivenBridge = GivenInstrument['bridge'];

/** The one way that the file names. */
export function resolveAnchor(bridge: GivenBridge, fill: Fill): Anchor {
  const { pins, tied, through, tailpiece, stringSpread } = bridge;
  if (pins !== undefined) return resolvePins(pins, stringSpread, fill);
  if (tied !== undefined) return resolveTied(tied, stringSpread, fill);
  if (through !== undefined)
    return {
      ...through,
      kind: 'through',
      spread: spreadOf('through', through.spread, stringSpread, fill),
      row: rowOf('through', through.row, fill),
    };
  if (tailpiece === undefined) throw new Error('a bridge that nothing holds the strings of');
  return {
    ...tailpiece,
    kind: 'tailpiece',
    spread: spreadOf('tailpiece', tailpiece.spread, stringSpread, fill),
    row: 'square',
  };
}

function spreadOf(key: string, given: number | undefined, stringSpread: number, fill: Fill): number {
  return fill.length(`bridge.${key}.spread`, given, stringSpread, 'as wide as the strings at the saddle');
}

function rowOf(key: string, given: Anchor['row'] | undefined, fill: Fill): Anchor['row'] {
  return fill.plain(`bridge.${key}.row`, given, 'saddle', 'the same break angle for every string');
}

function resolveTied(tied: NonNullable<GivenBridge['tied']>, stringSpread: number, fill: Fill): Tied {
  const at = (field: string): string => `bridge.tied.${field}`;
  return {
    ...tied,
    kind: 'tied',
    spread: spreadOf('tied', tied.spread, stringSpread, fill),
    row: rowOf('tied', tied.row, fill),
    hole: fill.length(at('hole'), tied.hole, 2, `passes every usual string (${PRACTICE})`),
    below: fill.length(at('below'), tied.below, 3, `low enough for a steep break (${PRACTICE})`),
    rise: fill.length(at('rise'), tied.rise, 0, 'level with the bridge’s face'),
    block: fill.length(at('block'), tied.block, 12, PRACTICE),
  };
}

function resolvePins(pins: NonNullable<GivenBridge['pins']>, stringSpread: number, fill: Fill): Pins {
  return {
    kind: 'pins',
    ...pins,
    spread: spreadOf('pins', pins.spread, stringSpread, fill),
    row: rowOf('pins', pins.row, fill),
    seats: pins.seats ?? [],
    reamerTip: pins.reamerTip ?? null,
    proud: fill.length(
      'bridge.pins.proud',
      pins.proud,
      1.5,
      `the last push and the first weeks take it (${PRACTICE})`,
    ),
    slotClearance: fill.length(
      'bridge.pins.slotClearance',
      pins.slotClearance,
      0.1,
      `the string slides, its ball does not (${PRACTICE})`,
    ),
    drill: fill.length('bridge.pins.drill', pins.drill, 4.7625, `a 3/16 in drill (${PRACTICE})`),
    reamerTaper: fill.angle(
      'bridge.pins.reamerTaper',
      pins.reamerTaper,
      radiansFromDegrees(3),
      `a 3 deg reamer (${PRACTICE})`,
    ),
  };
}
