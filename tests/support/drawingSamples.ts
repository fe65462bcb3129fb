import { layOut } from '../../src/layout/layOut.ts';
import type { Layout } from '../../src/layout/types.ts';
import { makeParts } from '../../src/parts/makeParts.ts';
import type { Part } from '../../src/parts/types.ts';
import type { Instrument } from '../../src/profile/types.ts';
import { parlour, plain, wound } from './instrument.ts';
import { equalFrets, oneScale, singles } from './scales.ts';

const DEGREE = Math.PI / 180;

/** An invented small guitar, complete enough to lay out and to draw. */
export const sampleInstrument: Instrument = {
  name: 'Sample Fräse 5"',
  slug: 'sample',
  family: 'guitar',
  hand: 'right',
  units: 'mm',
  concertPitch: 440,
  strings: [1.32, 1.07, 0.81, 0.61, 0.41, 0.3].map((gauge, i) => ({
    pitch: ['E2', 'A2', 'D3', 'G3', 'B3', 'E4'][i] ?? 'E4',
    hertz: 100,
    gauge,
    make: i < 4 ? 'wound' : 'plain',
    setBack: 4.6 - i * 0.5,
    build: i < 4 ? wound(13 + i) : { ...plain(12), core: gauge },
    aimCents: 0,
    importance: 1,
  })),
  courses: singles(6),
  scale: oneScale(628),
  frets: { ...equalFrets(19), slotWidth: 0.6, slotDepth: 2.2, leastWoodBelow: 2 },
  fretWire: {
    tangDepth: 1.8,
    tangWidth: 0.5,
    barbWidth: 0.8,
    crownHeight: 1,
    crownWidth: 2,
    trim: 4,
    stick: null,
  },
  fingerboard: {
    wood: 'sample wood',
    materialClass: 'tropical hardwood',
    thickness: 6,
    blankThickness: 7,
    widthAtNut: 46,
    widthAt: { fret: 12, width: 57 },
    overhang: 9,
    endRounding: 5,
    radius: 400,
    radiusAlong: { kind: 'constant' },
    surfaceWhenSlotted: 'flat',
    slotFloor: 'follows',
    slotsStopShort: 0,
    endAngle: 0,
    endArc: null,
    endArtwork: null,
    binding: null,
  },
  faceMarkers: {
    material: 'shell',
    thickness: 1.5,
    proud: 0.1,
    clearance: 0.05,
    cornerRadius: 1,
    spread: 24,
    leastLeft: 0.5,
    artwork: [],
    inlays: null,
    at: [
      { fret: 5, count: 1, shape: 'round', diameter: 6 },
      { fret: 12, count: 2, shape: 'round', diameter: 6 },
    ],
  },
  sideMarkers: {
    material: 'plastic',
    diameter: 2,
    depth: 3,
    below: 2.5,
    spread: 6,
    drilled: 'after binding',
    at: [
      { fret: 5, count: 1 },
      { fret: 12, count: 2 },
    ],
  },
  indexPins: {
    diameter: 1.5,
    place: 'clear',
    frets: [2, 16],
    offset: 14,
    leastWall: 2,
    hide: 'any',
    intoNeck: 6,
  },
  nut: {
    thickness: 6,
    setForward: 0,
    zeroFret: false,
    stringSpread: 38,
    spacing: 'equal gaps',
    courseGap: 2,
    slotClearance: 0.05,
    seat: null,
  },
  trussRod: { width: 6, depth: 9, from: 5, length: 380, clearance: null },
  neckJoint: null,
  neckBlank: null,
  headstock: null,
  neckShape: null,
  bridge: {
    height: null,
    stringSpread: 56,
    courseGap: 2,
    straightedge: 0,
    drop: 0,
    saddle: { width: 3.2, edge: 0.3, height: 3.5, ramp: 2, slotDepth: 5, ends: 6 },
    body: null,
    plate: null,
    anchor: {
      kind: 'pins',
      spread: 55,
      behindSaddle: 13,
      seats: [],
      reamerTip: null,
      proud: 1.5,
      slotClearance: 0.1,
      row: 'square',
      drill: 4.5,
      seat: 5.2,
      reamerTaper: 3 * DEGREE,
      pinTaper: 3 * DEGREE,
      through: 14,
    },
  },
  targets: parlour.targets,
  intonation: parlour.intonation,
  jigs: {
    radiusBlock: {
      materialClass: 'plywood',
      length: 120,
      width: 70,
      height: 40,
      plateThickness: 6,
      plates: 4,
      dowelDiameter: 8,
      padding: 1,
      radius: null,
    },
    pinTemplate: { materialClass: 'plywood', thickness: 3, margin: 12, pilot: 2 },
    slotTemplate: { materialClass: 'plywood', thickness: 3, width: 30 },
    bridgeTemplate: null,
    bridgeCaul: null,
    pinGauges: null,
    nutAndSaddle: null,
    sideMarkerTemplate: null,
    lettering: null,
  },
};

const allowances = { ends: 10, sides: 6, between: 5, sawKerf: 1.2, trim: 3 };

/** The sample laid out, changed as asked. */
export function sampleLayout(change: Partial<Instrument> = {}): Layout {
  const outcome = layOut({ ...sampleInstrument, ...change });
  if (!outcome.ok) throw new Error(outcome.findings.map((f) => f.text).join('\n'));
  return outcome.value;
}

/** All parts of the sample. */
export function sampleParts(): Part[] {
  return makeParts(sampleInstrument, sampleLayout(), { allowances });
}
