/** The tie block of a bridge, seen from above: its front face and the level holes through it, drawn to be made by hand. */
import type { Layout } from '../layout/types.ts';
import type { BridgeBody, Tied } from '../profile/types.ts';
import { formatShort } from '../units/format.ts';
import type { LineFeature } from './types.ts';

/** Past the outer holes, so that the face's line can be seen beside them. */
const PAST = 4;

/** Axis of every hole, from the block's front face to its back, and the line of that face. */
export function tieBlockLines({ strings }: Layout, { block }: Tied): LineFeature[] {
  const [first, last] = [strings[0], strings.at(-1)];
  if (first === undefined || last === undefined) throw new Error('a bridge without strings');
  const across = last.pin[1] - first.pin[1];
  const slant = across === 0 ? 0 : (last.pin[0] - first.pin[0]) / across;
  const side = across === 0 ? 1 : Math.sign(across);
  const ends = [first.pin[1] - side * PAST, last.pin[1] + side * PAST].sort((a, b) => a - b);
  const line = (id: string, meaning: LineFeature['meaning'], points: LineFeature['points']): LineFeature => ({
    id,
    work: 'tieHoles',
    kind: 'line',
    points,
    meaning,
  });
  return [
    line(
      'tie-block-face',
      'tie block',
      ends.map((y) => [first.pin[0] + slant * (y - first.pin[1]), y] as const),
    ),
    ...strings.map(({ position, pin: [x, y] }) =>
      line(`tie-hole-${position}`, 'tie hole', [
        [x, y],
        [x + block, y],
      ]),
    ),
  ];
}

/** What the hand does before the bridge is glued. */
export function tieBlockWords({ strings }: Layout, { hole, below, rise }: Tied, body: BridgeBody): string {
  const across = strings.map(({ pin }) => formatShort(Math.abs(pin[1]), 2)).join(', ');
  const mm = (length: number): string => `${formatShort(length, 2)} mm`;
  const level =
    rise > 0
      ? `the block is built up ${mm(rise)} above the bridge’s face first`
      : rise < 0
        ? `the block is planed ${mm(-rise)} below the bridge’s face`
        : 'the block stays level with the bridge’s face';
  return (
    `cut away the wood between saddle and block deep enough that every hole lies free; ${level}; drill level holes of ${mm(hole)} along the strings, ` +
    `their middles ${mm(body.thickness - below)} above the underside and, from the centreline, bass side first: ${across} mm; round over both ends of each`
  );
}
