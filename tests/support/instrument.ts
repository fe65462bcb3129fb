import type { Instrument, Router, Shop, StringBuild } from '../../src/profile/types.ts';

const IN = 25.4;

const usual = {
  material: 'steel',
  massPerMetre: null,
  density: null,
  modulus: null,
  strength: null,
} as const;

/** What a bronze-wound steel string of that core is made of. */
export const wound = (coreThou: number): StringBuild => ({
  ...usual,
  core: (coreThou / 1000) * IN,
  coreGiven: true,
  wrap: 'phosphor bronze',
});

/** What a plain steel string of that gauge is made of. */
export const plain = (thou: number): StringBuild => ({
  ...usual,
  core: (thou / 1000) * IN,
  coreGiven: true,
  wrap: null,
});

const evenly = { aimCents: 0, importance: 1 } as const;

/** A made-up twelve-fret parlour, written out resolved, so that later stages are tested without reading a file. */
export const parlour: Instrument = {
  name: 'Test parlour',
  slug: 'test-parlour',
  family: 'guitar',
  hand: 'right',
  units: 'mm',
  concertPitch: 440,
  strings: [
    {
      pitch: 'E2',
      hertz: 82.4069,
      gauge: 0.053 * IN,
      make: 'wound',
      setBack: 4.4,
      build: wound(18),
      ...evenly,
    },
    { pitch: 'A2', hertz: 110, gauge: 0.042 * IN, make: 'wound', setBack: 3.4, build: wound(16), ...evenly },
    {
      pitch: 'D3',
      hertz: 146.832,
      gauge: 0.032 * IN,
      make: 'wound',
      setBack: 2.6,
      build: wound(14),
      ...evenly,
    },
    {
      pitch: 'G3',
      hertz: 195.998,
      gauge: 0.024 * IN,
      make: 'wound',
      setBack: 2.0,
      build: wound(13),
      ...evenly,
    },
    {
      pitch: 'B3',
      hertz: 246.942,
      gauge: 0.016 * IN,
      make: 'plain',
      setBack: 2.8,
      build: plain(16),
      ...evenly,
    },
    {
      pitch: 'E4',
      hertz: 329.628,
      gauge: 0.012 * IN,
      make: 'plain',
      setBack: 1.6,
      build: plain(12),
      ...evenly,
    },
  ],
  scale: { length: 628 },
  frets: { count: 19, perOctave: 12, slotWidth: 0.6, slotDepth: 2.0, leastWoodBelow: 1.5 },
  fretWire: { tangDepth: 1.6, tangWidth: 0.5, barbWidth: 0.8, crownHeight: 1.1, crownWidth: 2.2, trim: 6 },
  fingerboard: {
    wood: 'ebony',
    materialClass: 'tropical hardwood',
    thickness: 6.5,
    blankThickness: 6.5,
    widthAtNut: 46,
    widthAt: { fret: 12, width: 57 },
    overhang: 12,
    endRounding: 3,
    radius: 16 * IN,
    surfaceWhenSlotted: 'flat',
  },
  faceMarkers: {
    material: 'shell',
    thickness: 2,
    proud: 0.2,
    clearance: 0.05,
    spread: 26,
    at: [
      { fret: 3, count: 1, diameter: 6 },
      { fret: 5, count: 1, diameter: 7 },
      { fret: 7, count: 1, diameter: 6 },
      { fret: 9, count: 1, diameter: 6 },
      { fret: 12, count: 2, diameter: 5 },
      { fret: 15, count: 1, diameter: 5 },
    ],
  },
  sideMarkers: {
    material: 'shell',
    diameter: 2,
    depth: 3,
    below: 2.5,
    spread: 8,
    at: [
      { fret: 5, count: 1 },
      { fret: 12, count: 2 },
    ],
  },
  indexPins: { diameter: 1.6, place: 'slot', frets: [2, 11], offset: 14, leastWall: 1.5 },
  nut: { thickness: 6, setForward: 0, stringSpread: 38, spacing: 'equal gaps' },
  trussRod: { width: 6, depth: 9, from: 0, length: 360 },
  bridge: {
    stringSpread: 56,
    saddle: { width: 3.2, edge: 0.3, height: 3.5, ramp: 2 },
    pins: {
      spread: 57,
      behindSaddle: 14,
      row: 'square',
      drill: (3 / 16) * IN,
      seat: 5.6,
      reamerTaper: (3 * Math.PI) / 180,
      pinTaper: (3 * Math.PI) / 180,
      through: 14.3,
    },
  },
  targets: {
    actionBass: 2.4,
    actionTreble: 1.8,
    actionFret: 12,
    firstFretBass: 0.5,
    firstFretTreble: 0.35,
    relief: 0.15,
    bowFret: 12,
  },
  intonation: { fretWeights: Array(12).fill(1), nut: 'fixed', fingerBehind: 6, press: 0.03 },
  jigs: {
    radiusBlock: {
      materialClass: 'plywood',
      length: 200,
      width: 70,
      height: 40,
      plateThickness: 3,
      plates: 6,
      dowelDiameter: 8,
      padding: 1.2,
    },
    pinTemplate: { materialClass: 'plywood', thickness: 3, margin: 12, pilot: 2 },
    slotTemplate: { materialClass: 'plywood', thickness: 3, width: 40 },
  },
};

export const router: Router = {
  kind: 'router',
  id: 'small-router',
  name: 'Small router',
  travel: { x: 600, y: 400, z: 80 },
  spindle: [8000, 24000],
  spinUp: 4,
  maxFeed: { xy: 2500, z: 800 },
  rapid: { xy: 3000, z: 1200 },
  clearHeight: 5,
  intoSpoilboard: 1,
  controller: {
    arcPlanes: ['xy', 'xz', 'yz'],
    drillCycles: false,
    exactPath: true,
    comments: true,
    lineNumbers: false,
    decimals: 4,
    programEnd: 'M2',
    straightRapids: true,
  },
};

const tool = {
  tolerance: 0.01,
  flutes: 2,
  shankDiameter: 3.175,
  tipAngle: null,
  stepDownShare: null,
  chipLoad: null,
  machine: 'small-router',
};

/** A shop with one small router and one laser, everything shared between them. */
export const workshop: Shop = {
  name: 'Test shop',
  currency: 'EUR',
  machines: [
    router,
    {
      kind: 'laser',
      id: 'sheet-laser',
      name: 'Sheet laser',
      bed: { x: 600, y: 400 },
      maxFeed: 6000,
      rapid: 9000,
      fullPower: 1000,
      settings: [
        {
          materialClass: 'plywood',
          thickness: 3,
          kerf: 0.16,
          cut: { power: 0.7, speed: 600, passes: 1 },
          mark: { power: 0.1, speed: 2400 },
        },
      ],
      controller: { ...router.controller, arcPlanes: ['xy'], exactPath: false },
    },
  ],
  tools: [
    { ...tool, id: 1, name: 'slot cutter', kind: 'flat', diameter: 0.6, cuttingLength: 3.5 },
    { ...tool, id: 2, name: 'flat cutter 2', kind: 'flat', diameter: 2, cuttingLength: 8, shankDiameter: 3 },
    { ...tool, id: 3, name: 'flat cutter 3.175', kind: 'flat', diameter: 3.175, cuttingLength: 15 },
    {
      ...tool,
      id: 4,
      name: 'drill 1.6',
      kind: 'drill',
      diameter: 1.6,
      cuttingLength: 18,
      shankDiameter: 1.6,
      tipAngle: (118 * Math.PI) / 180,
    },
  ],
  stock: [],
  keepOuts: [],
  allowances: { ends: 10, sides: 8, between: 4, sawKerf: 2, trim: 3 },
  holding: { tabLength: 6, tabHeight: 1 },
  work: {
    indexPins: 'small-router',
    fretSlots: 'small-router',
    faceMarkers: 'small-router',
    boardOutline: 'small-router',
    radiusBlock: 'sheet-laser',
    pinTemplate: 'sheet-laser',
    slotTemplate: 'sheet-laser',
  },
};
