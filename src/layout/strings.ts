import type { Vec } from '../geometry/types.ts';
import type { Fret, Instrument } from '../profile/types.ts';
import { meetLine, onCarrier } from '../spacing/slant.ts';
import { type StringRow, spaceStrings } from '../spacing/strings.ts';
import { carrierOf, nutFaceCarrier } from './scale.ts';
import type { StringLine } from './types.ts';

/** The strings of an instrument as they lie side by side. */
export function stringRow({ strings, courses }: Instrument, courseGap: number): StringRow {
  return { gauges: strings.map((s) => s.gauge), courses: courses.map((c) => c.size), courseGap };
}

/** String lines from nut face over the saddle to what holds them. Bass side at negative y. */
export function layOutStrings(instrument: Instrument): StringLine[] {
  const { strings, nut, bridge } = instrument;
  const atNut = spaceStrings(stringRow(instrument, nut.courseGap), nut.stringSpread, nut.spacing);
  const row = stringRow(instrument, bridge.courseGap);
  const atSaddle = spaceStrings(row, bridge.stringSpread, nut.spacing);
  const evenly = { ...row, courses: strings.map(() => 1) };
  const atPins = spaceStrings(evenly, bridge.anchor.spread, 'equal centres');
  const face = nutFaceCarrier(instrument);
  const end = carrierOfFullScale(instrument);
  const saddles = strings.map((s, i): Vec => {
    const y = pick(atSaddle, i) - bridge.stringSpread / 2;
    return [onCarrier(end, y) + s.setBack, y];
  });
  return strings.map((string, i) => {
    const y = pick(atNut, i) - nut.stringSpread / 2;
    const path = [[onCarrier(face, y), y], pick(saddles, i)] as const;
    return {
      position: i + 1,
      pitch: string.pitch,
      gauge: string.gauge,
      course: 1 + instrument.courses.findIndex((c) => i + 1 < c.first + c.size),
      nut: path[0],
      saddle: path[1],
      scale: scaleAlong(instrument, path),
      fretX: instrument.frets.list.map((fret) => crossing(instrument, fret, i + 1, path)),
      pin: pinAt(pick(atPins, i) - bridge.anchor.spread / 2, saddles, bridge.anchor),
    };
  });
}

type Path = readonly [Vec, Vec];

const carrierOfFullScale = (instrument: Instrument) => carrierOf(instrument, Number.POSITIVE_INFINITY);

/** From scale zero to the end of the scale on a string's own line, seen along the centreline. */
function scaleAlong(instrument: Instrument, path: Path): StringLine['scale'] {
  if (instrument.scale.slant === null) return { from: 0, length: instrument.scale.length };
  const from = meetLine(carrierOf(instrument, 0), path)[0];
  return { from, length: meetLine(carrierOfFullScale(instrument), path)[0] - from };
}

function crossing(instrument: Instrument, fret: Fret, position: number, path: Path): number {
  const under = fret.pieces?.find((piece) => piece.first <= position && position <= piece.last);
  return meetLine(carrierOf(instrument, under?.cents ?? fret.cents), path)[0];
}

/** The straight saddle through the outer strings' saddle points, bass end first. */
export function saddleLine(saddles: readonly Vec[]): [Vec, Vec] {
  return [pick(saddles, 0), pick(saddles, saddles.length - 1)];
}

function pinAt(y: number, saddles: readonly Vec[], anchor: Instrument['bridge']['anchor']): Vec {
  const [bass, treble] = saddleLine(saddles);
  const slant = bass[1] === treble[1] ? 0 : (treble[0] - bass[0]) / (treble[1] - bass[1]);
  const onCentreline = bass[0] - slant * bass[1];
  return [onCentreline + anchor.behindSaddle + (anchor.row === 'saddle' ? slant * y : 0), y];
}

function pick<T>(list: readonly T[], index: number): T {
  const item = list[index];
  if (item === undefined) throw new Error(`item ${index} of a list of ${list.length}`);
  return item;
}
