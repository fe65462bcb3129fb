import { frontChain } from '../geometry/frontChain.ts';
import { offsetOutline } from '../geometry/kernel/outline.ts';
import { bounds } from '../geometry/ring.ts';
import type { Box, Ring, Vec } from '../geometry/types.ts';
import { distance } from '../geometry/vec.ts';
import type { Layout, PlacedBridge } from '../layout/types.ts';
import type { BridgeTemplate, Instrument } from '../profile/types.ts';
import { formatInches, formatMm } from '../units/format.ts';
import { type Inscription, type Lettered, withLettering } from './lettering.ts';
import type { PartSettings } from './settings.ts';
import type { LineFeature, Part } from './types.ts';

/** Of the bridge's length: how far apart the two marks lie that are measured to. */
const MARKS_APART = 0.8;
/** Length of a mark's strokes. Millimetres. */
const STROKE = 12;

/** What a rule must show before the template is fixed. */
export interface TemplateDistances {
  /** Where they begin, in words, and in one. */
  readonly from: string;
  readonly name: 'nut' | 'joint';
  /** The two marks: at lesser y, at greater y. */
  readonly marks: readonly [Vec, Vec];
  /** From the corner on its own side, the same for both sides where the corners lie square. */
  readonly straight: readonly [number, number];
  /** From the corner of the other side. */
  readonly crosswise: readonly [number, number];
  /** Sideways from a straightedge along the board's edge. */
  readonly aside: readonly [number, number];
}

/** A plate with a bay that the bridge slides into from behind, and two marks to measure to. */
export function makeBridgeTemplate(
  instrument: Instrument,
  layout: Layout,
  placed: PlacedBridge,
  template: BridgeTemplate,
  settings: PartSettings,
): Lettered {
  const bay = bayOf(placed, template);
  const { x, y } = bounds(bay);
  const box: Box = {
    x: [x[0] - template.margin, bounds(placed.outline).x[1]],
    y: [y[0] - template.margin, y[1] + template.margin],
  };
  const distances = distancesOf(instrument, layout, bay, template);
  const { between } = settings.allowances;
  const part: Part = {
    id: 'bridge-template',
    title: 'Bridge location template',
    material: template.materialClass,
    materialClass: template.materialClass,
    blank: {
      box: {
        x: [box.x[0] - between, box.x[1] + between],
        y: [box.y[0] - between, box.y[1] + between],
      },
      thickness: template.thickness,
      top: { kind: 'plane', z: 0 },
    },
    features: [
      line('bridge-template-centreline', 'centreline', [
        [box.x[0], 0],
        [frontAt(bay), 0],
      ]),
      ...saddleLines(placed, bay, box),
      ...distances.marks.flatMap((at, i) => crossAt(at, i === 0 ? 'low' : 'high')),
      {
        id: 'bridge-template-outline',
        work: 'bridgeJigs',
        kind: 'outline',
        ring: plateAbout(bay, box),
        keep: 'inside',
      },
    ],
    datum: 'scale zero on the centreline; x is measured from scale zero',
    use: useWords(distances, instrument, placed.indexPins.length > 0),
  };
  return inscribed(part, distances, instrument, box, bay);
}

/** The bridge's edge with room all round. */
function bayOf({ outline }: PlacedBridge, { play }: BridgeTemplate): Ring {
  const [ring] = play === 0 ? [outline] : offsetOutline(outline, play);
  if (ring === undefined) throw new Error(`nothing lies ${play} outside the bridge`);
  return ring;
}

/** A rectangle, open toward the tail by the bay: from its front the bay's sides run straight back. */
function plateAbout(bay: Ring, { x, y }: Box): Ring {
  const front = frontChain(bay);
  const [first, last] = [front[0], front.at(-1)];
  if (first === undefined || last === undefined) throw new Error('a bay without a front');
  const corner = (px: number, py: number) => ({ x: px, y: py, bulge: 0 });
  return [
    corner(x[0], y[0]),
    corner(x[1], y[0]),
    corner(x[1], first.y),
    ...front,
    corner(x[1], last.y),
    corner(x[1], y[1]),
    corner(x[0], y[1]),
  ];
}

/** x at which the bay begins on the centreline, or nearest before it. */
function frontAt(bay: Ring): number {
  return bounds(bay).x[0];
}

/** The saddle line carried on over both arms of the plate. */
function saddleLines({ slot: [from, to] }: PlacedBridge, bay: Ring, box: Box): LineFeature[] {
  const { y } = bounds(bay);
  const at = (py: number): Vec => [from[0] + ((to[0] - from[0]) * (py - from[1])) / (to[1] - from[1]), py];
  const arms = [
    { name: 'low', ends: [box.y[0], y[0]] },
    { name: 'high', ends: [y[1], box.y[1]] },
  ] as const;
  return arms.map(({ name, ends }) =>
    line(`bridge-template-saddle-line-${name}`, 'saddle line', ends.map(at)),
  );
}

function crossAt([x, y]: Vec, name: string): LineFeature[] {
  const half = STROKE / 2;
  return [
    line(`bridge-template-mark-${name}-along`, 'check mark', [
      [x - half, y],
      [x + half, y],
    ]),
    line(`bridge-template-mark-${name}-across`, 'check mark', [
      [x, y - half],
      [x, y + half],
    ]),
  ];
}

function line(id: string, meaning: LineFeature['meaning'], points: readonly Vec[]): LineFeature {
  return { id, work: 'bridgeJigs', kind: 'line', points, meaning };
}

function distancesOf(
  { neckJoint }: Instrument,
  layout: Layout,
  bay: Ring,
  { margin, from }: BridgeTemplate,
): TemplateDistances {
  const { x, y } = bounds(bay);
  const half = ((y[1] - y[0]) / 2) * MARKS_APART;
  const at = x[0] - margin / 2;
  const marks: [Vec, Vec] = [
    [at, -half],
    [at, half],
  ];
  const isJoint = from === 'joint' && neckJoint !== null;
  const corners = byHeight(isJoint ? jointLine(layout, neckJoint.fret) : layout.nutLine);
  const edge = layout.board.halfWidth.at0 + layout.board.halfWidth.slope * at;
  return {
    from: isJoint
      ? `the board’s corners at fret ${neckJoint.fret}, the joint`
      : 'the board’s corners at the nut face',
    name: isJoint ? 'joint' : 'nut',
    marks,
    straight: [distance(corners[0], marks[0]), distance(corners[1], marks[1])],
    crosswise: [distance(corners[1], marks[0]), distance(corners[0], marks[1])],
    aside: [half - edge, half - edge],
  };
}

function jointLine({ slots }: Layout, fret: number): readonly [Vec, Vec] {
  const slot = slots.find((s) => s.fret === fret);
  if (slot === undefined) throw new Error(`fret ${fret} has no slot`);
  return slot.carrier;
}

function byHeight([a, b]: readonly [Vec, Vec]): readonly [Vec, Vec] {
  return a[1] <= b[1] ? [a, b] : [b, a];
}

/** Sides as the bench knows them. */
function sidesOf({ hand }: Instrument): readonly ['bass' | 'treble', 'bass' | 'treble'] {
  return hand === 'left' ? ['treble', 'bass'] : ['bass', 'treble'];
}

const both = (mm: number): string => `${formatMm(mm, 2)} mm (${formatInches(mm, 3)} in)`;

function useWords(d: TemplateDistances, instrument: Instrument, hasPins: boolean): string[] {
  const [low, high] = sidesOf(instrument);
  return [
    'Use it after the neck is set and the frets are level. Lay it on the top, measure to its two crosses, clamp it, and measure again.',
    `From ${d.from}: to the cross of the ${low} side ${both(d.straight[0])}, to that of the ${high} side ${both(d.straight[1])}; crosswise, from the ${high} corner to the ${low} cross ${both(d.crosswise[0])}, from the ${low} corner to the ${high} cross ${both(d.crosswise[1])}. Work to 0.3 mm.`,
    `Sideways, square to the centreline, from a straightedge along the board’s edge to the cross of its side: ${both(d.aside[0])} on the ${low} side, ${both(d.aside[1])} on the ${high} side. Work to 0.4 mm.`,
    hasPins
      ? 'The bridge slides into the bay from behind until it stops. Drill through its index-pin holes into the top, put the pins in, take the template off and clean the top before any glue.'
      : 'The bridge slides into the bay from behind until it stops. Fix the template so that no clamp shifts it, keep glue off it, and take it off before the glue has set hard.',
  ];
}

function inscribed(part: Part, d: TemplateDistances, instrument: Instrument, box: Box, bay: Ring): Lettered {
  const { lettering } = instrument.jigs;
  if (lettering === null) return { part, findings: [] };
  const within: Box = { x: [box.x[0], bounds(bay).x[0]], y: box.y };
  const size = (mm: number): string => (instrument.units === 'in' ? formatInches(mm, 3) : formatMm(mm, 1));
  const texts = d.marks.flatMap(([x, y], i): Inscription[] => {
    const side = i === 0 ? 'low' : 'high';
    const wish = (name: string, text: string, what: string): Inscription => ({
      id: `bridge-template-${name}-${side}`,
      text,
      what,
      within,
      near: [x, y * 0.6],
    });
    return [
      wish('straight', `${d.name} ${size(d.straight[i] ?? 0)}`, 'a check distance'),
      wish('crosswise', `X ${size(d.crosswise[i] ?? 0)}`, 'a crosswise check distance'),
      wish('aside', `edge ${size(d.aside[i] ?? 0)}`, 'the distance from the board’s edge'),
    ];
  });
  const names: Inscription[] = [
    {
      id: 'bridge-template-name',
      text: 'Bridge template',
      what: 'its name',
      within: box,
      near: [within.x[0], 0],
    },
    {
      id: 'bridge-template-instrument',
      text: instrument.name,
      what: "the instrument's name",
      within: box,
      near: [within.x[0], 0],
    },
  ];
  return withLettering(part, 'bridgeJigs', [...texts, ...names], lettering.height);
}
