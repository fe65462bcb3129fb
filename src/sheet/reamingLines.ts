import { degreesFromRadians } from '../units/convert.ts';
import { formatShort } from '../units/format.ts';
import { anchorLines } from './anchorLines.ts';
import { both, size } from './lengthWords.ts';
import type { Reaming, Sheet } from './types.ts';
import { wrapText } from './wrapText.ts';

/** How the pin holes are reamed, or how the strings are held without pins. */
export function reamingLines(sheet: Sheet): string[] {
  const r = sheet.reaming;
  if (r === null)
    return anchorLines(sheet.anchor, (length) => size(sheet, length)).flatMap((line) => wrapText(line));
  const drill = size(sheet, r.drill, [3, 4]);
  const cone = r.coneAllThrough
    ? `The cone goes all through ${size(sheet, r.through)} of wood.`
    : `The cone reaches ${both(sheet, r.advance)} deep; below that the hole stays straight.`;
  return [
    `Reaming the pin holes: drilled ${drill}, ${size(sheet, r.seat)} at the bridge’s face, reamer of ${degrees(r.reamerTaper)} included.`,
    `After the reamer first touches the hole all round it goes ${both(sheet, r.advance)} further.`,
    `A cone all through ${size(sheet, r.through)} of wood needs a drill of at most ${size(sheet, r.largestDrillForFullCone, [3, 4])}: ` +
      `${drill} is ${r.coneAllThrough ? 'small enough' : 'larger'}. ${cone}`,
    taperLine(sheet, r),
    `Measure each pin. Ream the last ${size(sheet, 2, [2, 2])} by trying the pin in its own hole.`,
  ].flatMap((line) => wrapText(line));
}

function taperLine(sheet: Sheet, { pinTaper, reamerTaper }: Reaming): string {
  if (Math.abs(pinTaper - reamerTaper) < 1e-6) {
    const height = 0.05 / (2 * Math.tan(pinTaper / 2));
    return `Pin and reamer have the same taper: the pin goes down as far as the reamer does, and ${size(sheet, 0.05)} of diameter is ${size(sheet, height)} of height.`;
  }
  return `WARNING: the pin’s taper (${degrees(pinTaper)}) is not the reamer’s (${degrees(reamerTaper)}): the pin will hold at one end only. Match them, or fit every pin by trying it.`;
}

function degrees(radians: number): string {
  return `${formatShort(degreesFromRadians(radians), 3)} deg`;
}
