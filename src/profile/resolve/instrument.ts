/** From what an instrument file says to the whole instrument: every default filled in, section by section. */

import { radiansFromDegrees } from '../../units/convert.ts';
import { CONCERT_PITCH } from '../../units/pitch.ts';
import type { GivenInstrument } from '../schema/instrument.ts';
import type { FaceMarker, Family, Instrument } from '../types.ts';
import { type Fill, PRACTICE } from './fill.ts';
import { resolveIntonation } from './intonation.ts';
import { resolveJigs } from './jigs.ts';
import { slugOf } from './slug.ts';
import { resolveStrings } from './strings.ts';

/** Sections that could be resolved; undefined where the file is wrong. */
export type InstrumentSections = { readonly [Key in keyof Instrument]: Instrument[Key] | undefined };

/** What was read, and which top-level keys could not be used. */
export interface GivenSections {
  readonly given: Partial<GivenInstrument>;
  readonly failed: ReadonlySet<string>;
}

/** Resolves every section that its own text and the sections it leans on allow. */
export function resolveInstrument({ given, failed }: GivenSections, fill: Fill): InstrumentSections {
  const sound = <T>(key: keyof GivenInstrument, make: () => T): T | undefined =>
    failed.has(key) ? undefined : make();
  const { strings, scale, fretWire: wire, fingerboard: board, nut: givenNut, bridge: givenBridge } = given;
  const family = sound('family', () =>
    fill.plain(
      'family',
      given.family,
      'other',
      'no family is named: no custom about marker frets is checked',
    ),
  );
  const fretWire = wire && resolveWire(wire, fill);
  const nut = givenNut && resolveNut(givenNut, fill);
  const { frets: givenFrets } = given;
  return {
    name: given.name,
    slug: given.name === undefined ? undefined : slugOf(given.name),
    family,
    hand: sound('hand', () => fill.plain('hand', given.hand, 'right', 'most instruments are right-handed')),
    units: sound('units', () => fill.plain('units', given.units, 'mm', 'bare numbers count as millimetres')),
    concertPitch: sound('concertPitch', () =>
      fill.shown('concertPitch', given.concertPitch, CONCERT_PITCH, `${CONCERT_PITCH} Hz`, 'ISO 16:1975'),
    ),
    strings: strings && resolveStrings(strings, family ?? 'other', fill),
    scale: scale && { length: scale.length },
    frets: givenFrets && wire && resolveFrets(givenFrets, wire, fill),
    fretWire,
    fingerboard: board && resolveBoard(board, fill),
    faceMarkers: sound('faceMarkers', () => resolveFaceMarkers(given, fill)),
    sideMarkers: failed.has('faceMarkers')
      ? undefined
      : sound('sideMarkers', () => resolveSideMarkers(given, fill)),
    indexPins: givenFrets && sound('indexPins', () => resolveIndexPins(given, givenFrets.count, fill)),
    nut,
    trussRod: sound('trussRod', () => resolveRod(given, fill)),
    neckJoint: sound('neckJoint', () => resolveNeckJoint(given, fill)),
    bridge: givenBridge && resolveBridge(givenBridge, fill),
    targets: family && sound('targets', () => resolveTargets(given, family, fill)),
    intonation: givenFrets && sound('intonation', () => resolveIntonation(given, givenFrets, fill)),
    jigs: board && sound('jigs', () => resolveJigs(given, board, fill)),
  };
}

function resolveWire(wire: GivenInstrument['fretWire'], fill: Fill): Instrument['fretWire'] {
  return {
    ...wire,
    trim: fill.length('fretWire.trim', wire.trim, 6, `3 mm to nip off at each end (${PRACTICE})`),
  };
}

function resolveFrets(
  frets: GivenInstrument['frets'],
  wire: GivenInstrument['fretWire'],
  fill: Fill,
): Instrument['frets'] {
  return {
    count: frets.count,
    perOctave: fill.plain('frets.perOctave', frets.perOctave, 12, 'twelve equal semitones'),
    slotWidth: frets.slotWidth,
    slotDepth: fill.length(
      'frets.slotDepth',
      frets.slotDepth,
      wire.tangDepth + 0.4,
      `tang depth + 0.4 mm, so that the tang does not touch the floor (${PRACTICE})`,
    ),
    leastWoodBelow: fill.length(
      'frets.leastWoodBelow',
      frets.leastWoodBelow,
      1.5,
      `enough wood to keep the board from folding at a slot (${PRACTICE})`,
    ),
  };
}

function resolveBoard(board: GivenInstrument['fingerboard'], fill: Fill): Instrument['fingerboard'] {
  return {
    ...board,
    blankThickness: fill.length(
      'fingerboard.blankThickness',
      board.blankThickness,
      board.thickness,
      'the blank is already planed to the finished thickness at its middle',
    ),
    endRounding: fill.length(
      'fingerboard.endRounding',
      board.endRounding,
      0,
      'square corners at the body end',
    ),
    surfaceWhenSlotted: fill.plain(
      'fingerboard.surfaceWhenSlotted',
      board.surfaceWhenSlotted,
      'flat',
      `the board is slotted flat and radiused afterwards (${PRACTICE})`,
    ),
  };
}

function resolveFaceMarkers(given: Partial<GivenInstrument>, fill: Fill): Instrument['faceMarkers'] {
  const markers = given.faceMarkers;
  if (markers === undefined) {
    fill.shown('faceMarkers', undefined, null, 'none', 'no face markers are asked for');
    return {
      material: 'none',
      thickness: 2,
      proud: 0.2,
      clearance: 0.05,
      cornerRadius: 1,
      spread: 20,
      at: [],
    };
  }
  const hasPair = markers.at.some((marker) => marker.count === 2);
  const wide = (given.fingerboard?.widthAtNut ?? 40) / 2;
  const why = 'half the width at the nut between the two of a double marker';
  return {
    material: fill.plain('faceMarkers.material', markers.material, 'shell', 'the usual material'),
    thickness: fill.length(
      'faceMarkers.thickness',
      markers.thickness,
      2,
      `a usual thickness (${PRACTICE}): measure yours`,
    ),
    proud: fill.length(
      'faceMarkers.proud',
      markers.proud,
      0.2,
      `to be levelled with the board (${PRACTICE})`,
    ),
    clearance: fill.length('faceMarkers.clearance', markers.clearance, 0.05, `room for glue (${PRACTICE})`),
    cornerRadius: markers.at.some((marker) => (marker.shape ?? 'round') !== 'round')
      ? fill.length('faceMarkers.cornerRadius', markers.cornerRadius, 1, 'what a cutter of 2 mm leaves')
      : (markers.cornerRadius ?? 1),
    spread: hasPair ? fill.length('faceMarkers.spread', markers.spread, wide, why) : (markers.spread ?? wide),
    at: markers.at.map((marker): FaceMarker => {
      const count = marker.count ?? 1;
      // Left out, the shape is round.
      return 'diameter' in marker ? { ...marker, shape: 'round', count } : { ...marker, count };
    }),
  };
}

function resolveSideMarkers(given: Partial<GivenInstrument>, fill: Fill): Instrument['sideMarkers'] {
  const markers = given.sideMarkers;
  const usual = { material: 'rod', diameter: 2, depth: 3, below: 2.5, spread: 8 };
  if (markers === undefined) {
    fill.shown('sideMarkers', undefined, null, 'none', 'no side markers are asked for');
    return { ...usual, at: [] };
  }
  const face = (given.faceMarkers?.at ?? []).map(({ fret, count }) => ({ fret, count }));
  const shown = face.length === 0 ? 'none' : `frets ${face.map(({ fret }) => fret).join(' ')}`;
  const at = fill.shown('sideMarkers.at', markers.at, face, shown, 'the same frets as the face markers');
  const length = (key: 'diameter' | 'depth' | 'below' | 'spread'): number =>
    fill.length(`sideMarkers.${key}`, markers[key], usual[key], PRACTICE);
  return {
    material: fill.plain('sideMarkers.material', markers.material, usual.material, 'any contrasting rod'),
    diameter: length('diameter'),
    depth: length('depth'),
    below: length('below'),
    spread: at.some((marker) => marker.count === 2) ? length('spread') : (markers.spread ?? usual.spread),
    at: at.map(({ fret, count }) => ({ fret, count: count ?? 1 })),
  };
}

function resolveIndexPins(
  given: Partial<GivenInstrument>,
  frets: number,
  fill: Fill,
): Instrument['indexPins'] {
  const pins = given.indexPins;
  const far = Math.max(2, frets - 2);
  const near = far > 2 ? 2 : 1;
  return {
    diameter: fill.length(
      'indexPins.diameter',
      pins?.diameter,
      1.6,
      `thin enough for a crown to cover (${PRACTICE})`,
    ),
    place: fill.plain('indexPins.place', pins?.place, 'slot', 'the frets cover the holes'),
    frets: fill.shown(
      'indexPins.frets',
      pins?.frets,
      [near, far],
      `[${near}, ${far}]`,
      'far apart holds the angle best',
    ),
    offset: fill.length('indexPins.offset', pins?.offset, 12, `clear of a truss rod (${PRACTICE})`),
    leastWall: fill.length('indexPins.leastWall', pins?.leastWall, 1.5, PRACTICE),
  };
}

function resolveNut(nut: GivenInstrument['nut'], fill: Fill): Instrument['nut'] {
  return {
    thickness: fill.length('nut.thickness', nut.thickness, 6, `a usual nut blank (${PRACTICE})`),
    setForward: fill.length('nut.setForward', nut.setForward, 0, 'a plain nut: its face is at scale zero'),
    stringSpread: nut.stringSpread,
    spacing: fill.plain(
      'nut.spacing',
      nut.spacing,
      'equal gaps',
      `the same room beside every string (${PRACTICE})`,
    ),
    slotClearance: fill.length(
      'nut.slotClearance',
      nut.slotClearance,
      0.05,
      `so that a string slides when it is tuned (${PRACTICE})`,
    ),
  };
}

function resolveRod(given: Partial<GivenInstrument>, fill: Fill): Instrument['trussRod'] {
  const rod = given.trussRod;
  if (rod === undefined) return fill.shown('trussRod', undefined, null, 'none', 'no truss rod is described');
  return { ...rod, from: fill.length('trussRod.from', rod.from, 0, 'the channel begins at the nut face') };
}

function resolveNeckJoint(given: Partial<GivenInstrument>, fill: Fill): Instrument['neckJoint'] {
  const joint = given.neckJoint;
  if (joint === undefined)
    return fill.shown('neckJoint', undefined, null, 'none', 'the neck is set elsewhere');
  const flat = joint.domeRadius === 'flat';
  return {
    ...joint,
    domeRadius: joint.domeRadius === 'flat' ? null : joint.domeRadius,
    domeApex: flat
      ? (joint.domeApex ?? 0)
      : fill.length('neckJoint.domeApex', joint.domeApex, 240, 'a little before the bridge: measure it'),
    boardAboveRim: fill.length(
      'neckJoint.boardAboveRim',
      joint.boardAboveRim,
      0,
      "the board's underside meets the rim's plane",
    ),
    fallAway: fill.length('neckJoint.fallAway', joint.fallAway, 0, 'the frets over the body run straight on'),
  };
}

function resolveBridge(bridge: GivenInstrument['bridge'], fill: Fill): Instrument['bridge'] {
  const { pins, saddle, stringSpread } = bridge;
  return {
    height: bridge.height ?? null,
    stringSpread,
    straightedge: fill.length(
      'bridge.straightedge',
      bridge.straightedge,
      0,
      `the straightedge just grazes the bridge (${PRACTICE})`,
    ),
    drop: fill.length('bridge.drop', bridge.drop, 0, 'nothing is known of this top: measure it strung'),
    saddle: {
      width: fill.length('bridge.saddle.width', saddle?.width, 3.175, `a 1/8 in saddle (${PRACTICE})`),
      edge: fill.length(
        'bridge.saddle.edge',
        saddle?.edge,
        0.3,
        `so that a crown does not crumble (${PRACTICE})`,
      ),
      height: fill.length(
        'bridge.saddle.height',
        saddle?.height,
        3.5,
        `middle of the usual range, 2.5 to 4.5 mm (${PRACTICE})`,
      ),
      ramp: fill.length('bridge.saddle.ramp', saddle?.ramp, 2, `string slots filed to a ramp (${PRACTICE})`),
      slotDepth: fill.length(
        'bridge.saddle.slotDepth',
        saddle?.slotDepth,
        5,
        `at least as deep as the saddle stands out (${PRACTICE})`,
      ),
      ends: fill.length('bridge.saddle.ends', saddle?.ends, 6, `past the outer strings (${PRACTICE})`),
    },
    pins: {
      ...pins,
      spread: fill.length(
        'bridge.pins.spread',
        pins.spread,
        stringSpread,
        'as wide as the strings at the saddle',
      ),
      row: fill.plain('bridge.pins.row', pins.row, 'saddle', 'the same break angle for every string'),
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
    },
  };
}

interface UsualSetUp {
  readonly bass: number;
  readonly treble: number;
  readonly fret: number;
  /** Over the first fret: bass, treble. */
  readonly first: readonly [bass: number, treble: number];
  readonly relief: number;
}

/** Middles of the usual ranges (common practice, no source). Bass and other instruments take the guitar's. */
function usualSetUp(family: Family): UsualSetUp {
  switch (family) {
    case 'ukulele':
      return { bass: 2.6, treble: 2.6, fret: 12, first: [0.5, 0.5], relief: 0.08 };
    case 'mandolin':
      return { bass: 1.8, treble: 1.4, fret: 12, first: [0.32, 0.32], relief: 0.08 };
    case 'dulcimer':
      return { bass: 2.5, treble: 2.5, fret: 7, first: [0.5, 0.5], relief: 0.05 };
    case 'guitar':
    case 'bass':
    case 'other':
      return { bass: 2.4, treble: 1.8, fret: 12, first: [0.5, 0.35], relief: 0.15 };
  }
}

function resolveTargets(given: Partial<GivenInstrument>, family: Family, fill: Fill): Instrument['targets'] {
  const targets = given.targets;
  const usual = usualSetUp(family);
  const fret = Math.min(usual.fret, given.frets?.count ?? usual.fret);
  const why = `middle of the usual range (${PRACTICE})`;
  return {
    actionBass: fill.length('targets.actionBass', targets?.actionBass, usual.bass, why),
    actionTreble: fill.length('targets.actionTreble', targets?.actionTreble, usual.treble, why),
    actionFret: fill.plain('targets.actionFret', targets?.actionFret, fret, 'where it is usually measured'),
    firstFretBass: fill.length('targets.firstFretBass', targets?.firstFretBass, usual.first[0], why),
    firstFretTreble: fill.length('targets.firstFretTreble', targets?.firstFretTreble, usual.first[1], why),
    relief: fill.length('targets.relief', targets?.relief, usual.relief, why),
    bowFret: fill.plain(
      'targets.bowFret',
      targets?.bowFret,
      Math.min(12, given.frets?.count ?? 12),
      `the neck meets the body at the 12th fret (${PRACTICE})`,
    ),
  };
}
