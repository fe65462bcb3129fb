/** From what an instrument file says to the whole instrument: every default filled in, section by section. */

import { shareAt } from '../../spacing/cents.ts';
import { CONCERT_PITCH } from '../../units/pitch.ts';
import { showFretName } from '../schema/fields.ts';
import type { GivenInstrument } from '../schema/instrument.ts';
import type { Family, Instrument } from '../types.ts';
import { resolveCourses } from './courses.ts';
import { resolveFaceMarkers } from './faceMarkers.ts';
import { type Fill, PRACTICE } from './fill.ts';
import { resolveFingerboard } from './fingerboard.ts';
import { placeOfFret, resolveFrets } from './frets.ts';
import { resolveHeadstock, resolveNeckBlank, resolveRodEnds } from './headstock.ts';
import { resolveIntonation } from './intonation.ts';
import { resolveJigs } from './jigs.ts';
import { type BridgeWood, COURSE_GAP, resolveBridge, resolveNeckJoint } from './neckAndBridge.ts';
import { resolveNeckShape } from './neckShape.ts';
import { resolveNutSeat } from './nutSeat.ts';
import { placeBoardFrets, placeFrets } from './places.ts';
import { resolveScale } from './scale.ts';
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
  const courses = strings && resolveCourses(strings);
  const hasCourses = courses?.some(({ size }) => size > 1) ?? false;
  const nut = givenNut && resolveNut(givenNut, hasCourses, fill);
  const bridge =
    givenBridge && resolveBridge(givenBridge, nut?.courseGap, hasCourses, bridgeWood(given), fill);
  const { frets: givenFrets } = given;
  const frets =
    givenFrets &&
    wire &&
    resolveFrets(givenFrets, { tangDepth: wire.tangDepth, strings: strings?.length ?? 1 }, fill);
  const fingerboard = board && placeBoardFrets(resolveFingerboard(board, fill), frets);
  const ground = frets &&
    fingerboard &&
    nut &&
    bridge && { frets, fingerboard, nut, bridge, units: given.units ?? 'mm' };
  return placeFrets({
    name: given.name,
    slug: given.name === undefined ? undefined : slugOf(given.name),
    family,
    hand: sound('hand', () => fill.plain('hand', given.hand, 'right', 'most instruments are right-handed')),
    units: sound('units', () => fill.plain('units', given.units, 'mm', 'bare numbers count as millimetres')),
    concertPitch: sound('concertPitch', () =>
      fill.shown('concertPitch', given.concertPitch, CONCERT_PITCH, `${CONCERT_PITCH} Hz`, 'ISO 16:1975'),
    ),
    strings: strings && resolveStrings(strings, family ?? 'other', fill),
    courses,
    scale: scale && resolveScale(scale, ground, fill),
    frets,
    fretWire,
    fingerboard,
    faceMarkers: sound('faceMarkers', () => resolveFaceMarkers(given, fill)),
    sideMarkers: failed.has('faceMarkers')
      ? undefined
      : sound('sideMarkers', () => resolveSideMarkers(given, fill)),
    indexPins: givenFrets && sound('indexPins', () => resolveIndexPins(given, givenFrets.count, fill)),
    nut,
    trussRod: sound('trussRod', () => resolveRod(given, fill)),
    neckJoint: sound('neckJoint', () => resolveNeckJoint(given, fill)),
    neckBlank: sound('neckBlank', () => resolveNeckBlank(given, fill)),
    headstock: sound('headstock', () => resolveHeadstock(given, fill)),
    neckShape: sound('neckShape', () => resolveNeckShape(given, fill)),
    bridge,
    targets:
      family &&
      sound('targets', () =>
        resolveTargets(given, { family, frets, zeroFret: nut?.zeroFret ?? false }, fill),
      ),
    intonation: frets && sound('intonation', () => resolveIntonation(given, frets, fill)),
    jigs: board && sound('jigs', () => resolveJigs(given, board, fill)),
  });
}

/** A bridge is of the fingerboard's wood unless it says otherwise. */
function bridgeWood({ fingerboard, scale }: Partial<GivenInstrument>): BridgeWood {
  return {
    wood: fingerboard?.wood ?? 'ebony',
    materialClass: fingerboard?.materialClass ?? 'tropical hardwood',
    isSlanted: scale !== undefined && scale.length === undefined,
  };
}

function resolveWire(wire: GivenInstrument['fretWire'], fill: Fill): Instrument['fretWire'] {
  return {
    ...wire,
    trim: fill.length('fretWire.trim', wire.trim, 6, `3 mm to nip off at each end (${PRACTICE})`),
    stick: fill.shown('fretWire.stick', wire.stick, null, 'none', 'the wire is bought by length'),
  };
}

function resolveSideMarkers(given: Partial<GivenInstrument>, fill: Fill): Instrument['sideMarkers'] {
  const markers = given.sideMarkers;
  const usual = {
    material: 'rod',
    diameter: 2,
    depth: 3,
    below: 2.5,
    spread: 8,
    drilled: 'after binding',
  } as const;
  if (markers === undefined) {
    fill.shown('sideMarkers', undefined, null, 'none', 'no side markers are asked for');
    return { ...usual, at: [] };
  }
  const face = markedFrets(given.faceMarkers);
  const shown = face.length === 0 ? 'none' : `frets ${face.map(({ fret }) => showFretName(fret)).join(' ')}`;
  const at = fill.shown('sideMarkers.at', markers.at, face, shown, 'the same frets as the face markers');
  const length = (key: 'diameter' | 'depth' | 'below' | 'spread'): number =>
    fill.length(`sideMarkers.${key}`, markers[key], usual[key], PRACTICE);
  return {
    material: fill.plain('sideMarkers.material', markers.material, usual.material, 'any contrasting rod'),
    diameter: length('diameter'),
    depth: length('depth'),
    below: length('below'),
    spread: at.some((marker) => marker.count === 2) ? length('spread') : (markers.spread ?? usual.spread),
    drilled:
      given.fingerboard?.binding === undefined
        ? (markers.drilled ?? usual.drilled)
        : fill.plain(
            'sideMarkers.drilled',
            markers.drilled,
            usual.drilled,
            `nothing can slide between the strip and the board any more (${PRACTICE})`,
          ),
    at: at.map(({ fret, count }) => ({ fret, count: count ?? 1 })),
  };
}

/** Frets with a face marker or with artwork, each once, from the nut on. */
function markedFrets(
  markers: Partial<GivenInstrument>['faceMarkers'],
): { readonly fret: number; readonly count?: 1 | 2 | undefined }[] {
  const at = (markers?.at ?? []).map(({ fret, count }) => ({ fret, count }));
  const drawn = (markers?.artwork ?? []).filter(({ fret }) => !at.some((marker) => marker.fret === fret));
  const once = [...new Set(drawn.map(({ fret }) => fret))];
  return [...at, ...once.map((fret) => ({ fret }))].toSorted((a, b) => a.fret - b.fret);
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
    hide:
      pins?.place === 'auto'
        ? fill.plain('indexPins.hide', pins.hide, 'any', 'crowns and markers cover the holes')
        : (pins?.hide ?? 'any'),
    frets: fill.shown(
      'indexPins.frets',
      pins?.frets,
      [near, far],
      `[${near}, ${far}]`,
      'far apart holds the angle best',
    ),
    offset: fill.length('indexPins.offset', pins?.offset, 12, `clear of a truss rod (${PRACTICE})`),
    leastWall: fill.length('indexPins.leastWall', pins?.leastWall, 1.5, PRACTICE),
    intoNeck: fill.length(
      'indexPins.intoNeck',
      pins?.intoNeck,
      6,
      `as deep as the board is thick (${PRACTICE})`,
    ),
  };
}

function resolveNut(nut: GivenInstrument['nut'], hasCourses: boolean, fill: Fill): Instrument['nut'] {
  const { zeroFret } = nut;
  if (zeroFret === undefined)
    fill.shown('nut.zeroFret', undefined, null, 'none', 'the nut carries the open strings');
  return {
    thickness: fill.length('nut.thickness', nut.thickness, 6, `a usual nut blank (${PRACTICE})`),
    setForward:
      zeroFret === undefined
        ? fill.length('nut.setForward', nut.setForward, 0, 'a plain nut: its face is at scale zero')
        : -zeroFret.setBack,
    zeroFret: zeroFret !== undefined,
    stringSpread: nut.stringSpread,
    spacing: fill.plain(
      'nut.spacing',
      nut.spacing,
      'equal gaps',
      `the same room beside every ${hasCourses ? 'course' : 'string'} (${PRACTICE})`,
    ),
    slotClearance: fill.length(
      'nut.slotClearance',
      nut.slotClearance,
      0.05,
      `so that a string slides when it is tuned (${PRACTICE})`,
    ),
    courseGap: hasCourses
      ? fill.length('nut.courseGap', nut.courseGap, COURSE_GAP, `close enough for one finger (${PRACTICE})`)
      : (nut.courseGap ?? COURSE_GAP),
    seat: resolveNutSeat(nut.seat, fill),
  };
}

function resolveRod(given: Partial<GivenInstrument>, fill: Fill): Instrument['trussRod'] {
  const rod = given.trussRod;
  if (rod === undefined) return fill.shown('trussRod', undefined, null, 'none', 'no truss rod is described');
  const { width, depth, length, clearance } = rod;
  return {
    width,
    depth,
    from: fill.length('trussRod.from', rod.from, 0, 'the channel begins at the nut face'),
    length,
    clearance:
      clearance === undefined
        ? fill.shown('trussRod.clearance', undefined, null, 'none', 'the rod lies below the face of the neck')
        : {
            ...clearance,
            width: fill.length(
              'trussRod.clearance.width',
              clearance.width,
              width,
              'as wide as the channel below it',
            ),
          },
    ...resolveRodEnds(rod, fill),
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

interface TargetGround {
  readonly family: Family;
  readonly frets: Instrument['frets'] | undefined;
  readonly zeroFret: boolean;
}

/** Over a zero fret a string rises evenly from the fret tops to its action: share of that at the first fret. */
function shareOverZeroFret(frets: Instrument['frets'] | undefined, actionFret: number): number {
  const [first, far] = [
    frets?.list[0],
    frets?.list[frets === undefined ? 0 : placeOfFret(frets, actionFret) - 1],
  ];
  return first === undefined || far === undefined ? 0.1 : shareAt(first.cents) / shareAt(far.cents);
}

function resolveTargets(
  given: Partial<GivenInstrument>,
  { family, frets, zeroFret }: TargetGround,
  fill: Fill,
): Instrument['targets'] {
  const targets = given.targets;
  const usual = usualSetUp(family);
  const fret = Math.min(usual.fret, given.frets?.count ?? usual.fret);
  const why = `middle of the usual range (${PRACTICE})`;
  const share = shareOverZeroFret(frets, targets?.actionFret ?? fret);
  const first = zeroFret
    ? [share * (targets?.actionBass ?? usual.bass), share * (targets?.actionTreble ?? usual.treble)]
    : usual.first;
  const whyFirst = zeroFret ? 'the string rises evenly from a zero fret as high as the others' : why;
  return {
    actionBass: fill.length('targets.actionBass', targets?.actionBass, usual.bass, why),
    actionTreble: fill.length('targets.actionTreble', targets?.actionTreble, usual.treble, why),
    actionFret: fill.plain('targets.actionFret', targets?.actionFret, fret, 'where it is usually measured'),
    firstFretBass: fill.length('targets.firstFretBass', targets?.firstFretBass, first[0] ?? 0, whyFirst),
    firstFretTreble: fill.length(
      'targets.firstFretTreble',
      targets?.firstFretTreble,
      first[1] ?? 0,
      whyFirst,
    ),
    relief: fill.length('targets.relief', targets?.relief, usual.relief, why),
    bowFret: fill.plain(
      'targets.bowFret',
      targets?.bowFret,
      Math.min(12, given.frets?.count ?? 12),
      `the neck meets the body at the 12th fret (${PRACTICE})`,
    ),
  };
}
