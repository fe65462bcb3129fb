import type { Vec } from '../geometry/types.ts';
import type { Instrument } from '../profile/types.ts';
import type { StringLine } from './types.ts';

/**
 * Offsets of string centres from the bass-most one, for outer centres `spread` apart.
 * Equal gaps: the clear space between neighbours is the same (common practice, no source); equal centres otherwise.
 */
export function spaceStrings(
  gauges: readonly number[],
  spread: number,
  spacing: 'equal gaps' | 'equal centres',
): number[] {
  const last = gauges.length - 1;
  if (last < 1) return gauges.map(() => spread / 2);
  if (spacing === 'equal centres') return gauges.map((_, i) => (spread * i) / last);
  const widths = gauges.map((gauge, i) => (i === 0 || i === last ? gauge / 2 : gauge));
  const gap = (spread - widths.reduce((a, b) => a + b, 0)) / last;
  const centres: number[] = [];
  gauges.forEach((gauge, i) => {
    const before = centres[i - 1];
    const previous = gauges[i - 1];
    centres.push(
      before === undefined || previous === undefined ? 0 : before + previous / 2 + gap + gauge / 2,
    );
  });
  return centres;
}

/** String lines from nut face over the saddle to the pins. Bass side at negative y. */
export function layOutStrings(instrument: Instrument, nutFace: number): StringLine[] {
  const { strings, nut, bridge, scale } = instrument;
  const gauges = strings.map((s) => s.gauge);
  const atNut = spaceStrings(gauges, nut.stringSpread, nut.spacing);
  const atSaddle = spaceStrings(gauges, bridge.stringSpread, nut.spacing);
  const atPins = spaceStrings(gauges, bridge.pins.spread, 'equal centres');
  const saddles = strings.map(
    (s, i): Vec => [scale.length + s.setBack, pick(atSaddle, i) - bridge.stringSpread / 2],
  );
  return strings.map((string, i) => ({
    position: i + 1,
    pitch: string.pitch,
    gauge: string.gauge,
    nut: [nutFace, pick(atNut, i) - nut.stringSpread / 2],
    saddle: pick(saddles, i),
    pin: pinAt(pick(atPins, i) - bridge.pins.spread / 2, saddles, bridge.pins),
  }));
}

/** The straight saddle through the outer strings' saddle points, bass end first. */
export function saddleLine(saddles: readonly Vec[]): [Vec, Vec] {
  return [pick(saddles, 0), pick(saddles, saddles.length - 1)];
}

function pinAt(y: number, saddles: readonly Vec[], pins: Instrument['bridge']['pins']): Vec {
  const [bass, treble] = saddleLine(saddles);
  const slant = bass[1] === treble[1] ? 0 : (treble[0] - bass[0]) / (treble[1] - bass[1]);
  const onCentreline = bass[0] - slant * bass[1];
  return [onCentreline + pins.behindSaddle + (pins.row === 'saddle' ? slant * y : 0), y];
}

function pick<T>(list: readonly T[], index: number): T {
  const item = list[index];
  if (item === undefined) throw new Error(`item ${index} of a list of ${list.length}`);
  return item;
}
