import type { Vec } from '../geometry/types.ts';
import type { Layout, StringLine } from '../layout/types.ts';
import type { Instrument } from '../profile/types.ts';
import { reamingOf } from './reaming.ts';
import type { Sheet, SheetChecks, SheetFret, SheetHole, SheetPin, SheetSideMarker } from './types.ts';

/**
 * Every location a bench measures, with its checks. Millimetres, full doubles.
 * @example benchSheet(layout, instrument).checks.octave // { fret: 12, fromScaleZero: 314, halfScale: 314 }
 */
export function benchSheet(layout: Layout, instrument: Instrument): Sheet {
  const frets = fretsOf(layout, instrument);
  return {
    instrument: instrument.name,
    family: instrument.family,
    hand: instrument.hand,
    units: instrument.units,
    scaleLength: layout.scaleLength,
    perOctave: instrument.frets.perOctave,
    nutFace: layout.nutFace,
    slotWidth: instrument.frets.slotWidth,
    slotDepth: instrument.frets.slotDepth,
    datum: datumOf(layout, instrument),
    frets,
    markers: layout.faceMarkers.map(({ fret, at, diameter }) => ({
      fret,
      at,
      shape: 'round',
      size: diameter,
    })),
    sideMarkers: sideMarkersOf(layout, instrument),
    holes: holesOf(layout, instrument),
    pins: layout.strings.map((string) => pinOf(string, layout, instrument)),
    offSaddle: layout.strings.map(({ saddle }) => behindSaddle(saddle, layout.saddleLine)),
    reaming: reamingOf(instrument.bridge.pins),
    checks: checksOf(frets, layout, instrument),
  };
}

/** The layout's y runs toward this side. */
export function positiveSide(instrument: { readonly hand: Instrument['hand'] }): 'treble' | 'bass' {
  return instrument.hand === 'left' ? 'bass' : 'treble';
}

function fretsOf(layout: Layout, instrument: Instrument): SheetFret[] {
  const half = instrument.frets.slotWidth / 2;
  return layout.slots.map((slot, i) => ({
    n: slot.fret,
    cents: slot.cents,
    fromScaleZero: slot.x,
    fromNutFace: slot.x - layout.nutFace,
    fromPrevious: slot.x - (layout.slots[i - 1]?.x ?? 0),
    line: slot.line,
    edges: [slot.x - half, slot.x + half],
  }));
}

function sideMarkersOf(layout: Layout, instrument: Instrument): SheetSideMarker[] {
  return layout.sideMarkers.map(({ id, fret, x, diameter, depth }) => ({
    id,
    fret,
    fromScaleZero: x,
    fromNutFace: x - layout.nutFace,
    below: instrument.sideMarkers.below,
    diameter,
    depth,
  }));
}

function holesOf(layout: Layout, instrument: Instrument): SheetHole[] {
  const { drill, through } = instrument.bridge.pins;
  const indexPins = layout.indexPins.map(({ id, at, diameter }) => ({
    id,
    at,
    diameter,
    depth: instrument.fingerboard.blankThickness,
  }));
  const bridgePins = layout.strings.map(({ position, pin }) => ({
    id: `bridge-pin-${position}`,
    at: pin,
    diameter: drill,
    depth: through,
  }));
  return [...indexPins, ...bridgePins];
}

function pinOf(string: StringLine, layout: Layout, instrument: Instrument): SheetPin {
  const [x, y] = string.pin;
  const towardPositive = positiveSide(instrument);
  const towardNegative = towardPositive === 'treble' ? 'bass' : 'treble';
  return {
    position: string.position,
    pitch: string.pitch,
    gauge: string.gauge,
    setBack: string.saddle[0] - layout.scaleLength,
    saddleFromNutFace: string.saddle[0] - layout.nutFace,
    fromScaleZero: x,
    fromNutFace: x - layout.nutFace,
    fromCentreline: y,
    side: y === 0 ? 'middle' : y > 0 ? towardPositive : towardNegative,
  };
}

/** How far a saddle point lies behind the straight saddle, along the centreline; negative in front of it. */
function behindSaddle([x, y]: Vec, [bass, treble]: Layout['saddleLine']): number {
  // One string, or all at one place across: nothing to slant.
  const slant = bass[1] === treble[1] ? 0 : (treble[0] - bass[0]) / (treble[1] - bass[1]);
  return x - (bass[0] + slant * (y - bass[1]));
}

function checksOf(frets: readonly SheetFret[], layout: Layout, instrument: Instrument): SheetChecks {
  const octave = frets.find((f) => f.n === instrument.frets.perOctave);
  const differences = frets.map((f) => f.fromPrevious);
  const expected = 2 ** (-1 / instrument.frets.perOctave);
  const ratios = differences.slice(1).map((d, i) => d / (differences[i] ?? Number.NaN));
  return {
    octave:
      octave === undefined
        ? null
        : { fret: octave.n, fromScaleZero: octave.fromScaleZero, halfScale: layout.scaleLength / 2 },
    sum: {
      ofDifferences: differences.reduce((a, b) => a + b, 0),
      lastSlot: frets[frets.length - 1]?.fromScaleZero ?? 0,
    },
    ratio: {
      least: ratios.length === 0 ? expected : Math.min(...ratios),
      most: ratios.length === 0 ? expected : Math.max(...ratios),
      expected,
    },
  };
}

function datumOf(layout: Layout, instrument: Instrument): Sheet['datum'] {
  const nut =
    layout.nutFace === 0
      ? 'the nut face, which is scale zero itself'
      : `the nut face, which lies ${layout.nutFace > 0 ? 'forward of' : 'behind'} scale zero`;
  return {
    fromScaleZero: 'along the centreline from scale zero, toward the bridge',
    fromNutFace: `along the centreline from ${nut}, toward the bridge`,
    fromPrevious: 'from the slot before; the first slot from scale zero. For checking only',
    fromCentreline: `square to the centreline, positive toward the ${positiveSide(instrument)} side`,
  };
}
