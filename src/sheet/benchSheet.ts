import { boardRadius } from '../geometry/boardSurface.ts';
import { formSize } from '../geometry/form.ts';
import { fallBetween, lossOfFlush } from '../geometry/inlayLoss.ts';
import type { Vec } from '../geometry/types.ts';
import { distance } from '../geometry/vec.ts';
import type { Layout, PlacedMarker, StringLine } from '../layout/types.ts';
import type { Instrument } from '../profile/types.ts';
import { planWire } from '../wire/planWire.ts';
import { reamingOf } from './reaming.ts';
import { sheetBoard } from './sheetBoard.ts';
import { sheetCarving } from './sheetCarving.ts';
import type {
  MarkerLoss,
  Sheet,
  SheetChecks,
  SheetFret,
  SheetHole,
  SheetMarker,
  SheetPin,
  SheetSideMarker,
} from './types.ts';

/**
 * Every location a bench measures, with its checks. Millimetres, full doubles.
 * @example benchSheet(layout, instrument).checks.octave // { fret: 12, fromScaleZero: 314, halfScale: 314 }
 */
export function benchSheet(placed: Layout, instrument: Instrument): Sheet {
  const layout = withFretNames(placed);
  const frets = fretsOf(layout, instrument);
  return {
    instrument: instrument.name,
    family: instrument.family,
    hand: instrument.hand,
    units: instrument.units,
    scaleLength: layout.scaleLength,
    scale: scaleOf(instrument),
    division: { words: instrument.frets.division.words, source: instrument.frets.division.source },
    perOctave: instrument.frets.division.equal,
    zeroFret: instrument.nut.zeroFret,
    nutFace: layout.nutFace,
    slotWidth: instrument.frets.slotWidth,
    slotDepth: instrument.frets.slotDepth,
    datum: datumOf(layout, instrument),
    frets,
    markers: layout.faceMarkers.map(markerOf),
    markerLosses: layout.faceMarkers.map((marker) => lossOf(marker, layout, instrument)),
    markerCorners: layout.faceMarkers.some(({ form: { shape } }) => shape !== 'round' && shape !== 'ring')
      ? instrument.faceMarkers.cornerRadius
      : null,
    sideMarkers: sideMarkersOf(layout, instrument),
    holes: holesOf(layout, instrument),
    pins: layout.strings.map((string) => pinOf(string, layout, instrument)),
    offSaddle: layout.strings.map(({ saddle }) => behindSaddle(saddle, layout.saddleLine)),
    reaming: instrument.bridge.anchor.kind === 'pins' ? reamingOf(instrument.bridge.anchor) : null,
    anchor: instrument.bridge.anchor,
    wire: planWire(placed, instrument),
    board: sheetBoard(layout, instrument),
    carving: sheetCarving(placed),
    checks: checksOf(frets, layout, instrument),
  };
}

function markerOf({ fret, at, form }: PlacedMarker): SheetMarker {
  const { along, across } = formSize(form);
  return {
    fret,
    at,
    shape: form.shape,
    size: along,
    ...(form.shape === 'round' || form.shape === 'square' ? {} : { across }),
    ...(form.shape === 'ring' ? { inner: form.inner } : {}),
  };
}

/** A pocket is measured from the finished board, so both ways of working leave the same. */
function lossOf({ fret, at, form }: PlacedMarker, { board }: Layout, instrument: Instrument): MarkerLoss {
  const { thickness, proud } = instrument.faceMarkers;
  const { blankThickness, thickness: finished } = instrument.fingerboard;
  const radius = boardRadius(board.surface, at[0]);
  const [middle, half] = [Math.abs(at[1]), formSize(form).across / 2];
  const near = Math.max(0, middle - half);
  const far = middle + half;
  const flush = (y: number): number => lossOfFlush(radius, y, blankThickness - finished);
  return {
    fret,
    shape: form.shape,
    from: [near, far],
    left: [thickness - proud, thickness - proud - fallBetween(radius, near, far)],
    lostIfFlush: [flush(near), flush(far)],
  };
}

/** The layout's y runs toward this side. */
export function positiveSide(instrument: { readonly hand: Instrument['hand'] }): 'treble' | 'bass' {
  return instrument.hand === 'left' ? 'bass' : 'treble';
}

/** Frets by their names as numbers instead of their places: that is what a person at a bench calls them. */
function withFretNames(layout: Layout): Layout {
  const names = new Map(layout.slots.map(({ fret, label }) => [fret, numberOf(label)]));
  const named = <T extends { readonly fret: number }>(item: T): T => ({
    ...item,
    fret: names.get(item.fret) ?? item.fret,
  });
  return {
    ...layout,
    slots: layout.slots.map(named),
    faceMarkers: layout.faceMarkers.map(named),
    sideMarkers: layout.sideMarkers.map(named),
  };
}

function numberOf(label: string): number {
  return Number(label.replace('+', '.5'));
}

function scaleOf({ scale }: Instrument): Sheet['scale'] {
  const { along, stated, lines, slant } = scale;
  return { along, ...stated, lines, squareAt: slant === null ? null : slant.squareWords };
}

function fretsOf(layout: Layout, instrument: Instrument): SheetFret[] {
  const { slots, nutFace, nutLine } = layout;
  return slots.map((slot) => {
    const first = slots.findIndex((other) => other.fret === slot.fret);
    const before = slots[first - 1];
    const start = slots.find((other) => other.fret === before?.fret);
    const half = (instrument.frets.slotWidth / 2) * Math.hypot(1, leanOf(slot.carrier));
    const { carrier, strings } = slot;
    return {
      n: slot.fret,
      cents: slot.cents,
      fromScaleZero: slot.x,
      fromNutFace: slot.x - nutFace,
      fromPrevious: slot.x - (start?.x ?? 0),
      line: slot.line,
      edges: [slot.x - half, slot.x + half],
      ...(instrument.scale.slant === null
        ? {}
        : { alongEdges: [distance(nutLine[0], carrier[0]), distance(nutLine[1], carrier[1])] as const }),
      ...(strings === null ? {} : { strings }),
    };
  });
}

/** dx / dy of a line across the board. */
function leanOf([bass, treble]: readonly [Vec, Vec]): number {
  return (treble[0] - bass[0]) / (treble[1] - bass[1]);
}

function sideMarkersOf(layout: Layout, instrument: Instrument): SheetSideMarker[] {
  return layout.sideMarkers.map(({ id, fret, x, along, up, diameter, depth }) => ({
    id,
    fret,
    fromScaleZero: x,
    fromNutFace: x - layout.nutFace,
    alongEdge: along,
    aboveUnderside: up,
    below: instrument.sideMarkers.below,
    diameter,
    depth,
  }));
}

function holesOf(layout: Layout, instrument: Instrument): SheetHole[] {
  const indexPins = layout.indexPins.map(({ id, at, diameter }) => ({
    id,
    at,
    diameter,
    depth: instrument.fingerboard.blankThickness,
  }));
  return [...indexPins, ...stringHolesOf(layout, instrument)];
}

/** Holes from above in which strings end; none where they are tied or go on to a tailpiece. */
function stringHolesOf({ strings }: Layout, { bridge: { anchor } }: Instrument): SheetHole[] {
  if (anchor.kind === 'tied' || anchor.kind === 'tailpiece') return [];
  const name = anchor.kind === 'pins' ? 'bridge-pin' : 'string-hole';
  return strings.map(({ position, pin }) => ({
    id: `${name}-${position}`,
    at: pin,
    diameter: anchor.drill,
    depth: anchor.through,
  }));
}

function pinOf(string: StringLine, layout: Layout, instrument: Instrument): SheetPin {
  const [x, y] = string.pin;
  const towardPositive = positiveSide(instrument);
  const towardNegative = towardPositive === 'treble' ? 'bass' : 'treble';
  return {
    position: string.position,
    pitch: string.pitch,
    gauge: string.gauge,
    setBack: instrument.strings[string.position - 1]?.setBack ?? Number.NaN,
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
  const { octave: place, division } = instrument.frets;
  const label = place === null ? undefined : instrument.frets.list[place - 1]?.label;
  const octave = frets.find((f) => label !== undefined && f.n === numberOf(label));
  // Of a fret in pieces the first stands for all; a zero fret is no step.
  const steps = frets.filter((f, i) => f.n > 0 && frets[i - 1]?.n !== f.n);
  const differences = steps.map((f) => f.fromPrevious);
  return {
    octave:
      octave === undefined
        ? null
        : { fret: octave.n, fromScaleZero: octave.fromScaleZero, halfScale: layout.scaleLength / 2 },
    sum: {
      ofDifferences: differences.reduce((a, b) => a + b, 0),
      lastSlot: steps[steps.length - 1]?.fromScaleZero ?? 0,
    },
    ratio: ratioOf(differences, isEveryStep(instrument) ? division.equal : null),
  };
}

/** Whether every step of the octave carries one fret right across the board. */
function isEveryStep({ frets: { list, division } }: Instrument): boolean {
  const { equal } = division;
  return list.every(
    ({ cents, pieces }, i) => equal !== null && pieces === null && cents === (1200 * (i + 1)) / equal,
  );
}

function ratioOf(differences: readonly number[], equal: number | null): SheetChecks['ratio'] {
  if (equal === null) return null;
  const expected = 2 ** (-1 / equal);
  const ratios = differences.slice(1).map((d, i) => d / (differences[i] ?? Number.NaN));
  if (ratios.length === 0) return { least: expected, most: expected, expected };
  return { least: Math.min(...ratios), most: Math.max(...ratios), expected };
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
