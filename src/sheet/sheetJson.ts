import type { WirePlan } from '../wire/types.ts';
import type { Sheet } from './types.ts';

/** The sheet as JSON: full doubles, millimetres, nothing rounded, one line feed at the end. */
export function sheetJson(sheet: Sheet): string {
  // What follows from the rest is for the text alone.
  const {
    instrument,
    frets,
    markers,
    holes,
    offSaddle: _,
    markerLosses: __,
    anchor: ___,
    wire,
    ...rest
  } = sheet;
  return `${JSON.stringify({ instrument, unit: 'mm', frets, markers, holes, ...rest, fretWire: wireOf(wire) }, null, 2)}\n`;
}

/** Each piece once: sticks name theirs. */
function wireOf({ sticks, ...rest }: WirePlan): object {
  return {
    ...rest,
    sticks: sticks && {
      ...sticks,
      sticks: sticks.sticks.map(({ pieces, ...stick }) => ({ slots: pieces.map((p) => p.slot), ...stick })),
    },
  };
}
